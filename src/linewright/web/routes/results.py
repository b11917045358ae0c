"""What a design comes to: evaluation, systems, rooms, sheets, working, comparison."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from fastapi import APIRouter, Depends, Query, Response

from linewright.app.keeping.comparing import compare
from linewright.app.keeping.kinds import DESIGN
from linewright.document.encode import Style
from linewright.document.grid_out import csv_text
from linewright.document.lists import ListKind, list_table
from linewright.draw import Scene, svg
from linewright.engine import Evaluation
from linewright.engine.working import subjects, working
from linewright.report.check_json import check_json
from linewright.report.why_json import why_json
from linewright.report.why_text import why_text
from linewright.units import UnitSystem
from linewright.web.answers import sheet_of, system_named
from linewright.web.bodies import ComparedOut, DifferenceOut, Json, SubjectsOut, SystemLine, WorkingText
from linewright.web.overview import system_line
from linewright.web.requests import View
from linewright.web.routes.documents import AtRevision
from linewright.web.state import PROBLEMS, Number, Shared, State, json_response
from linewright.web.tree import tree_json

router = APIRouter(prefix="/api/designs/{document}", tags=["results"], responses=PROBLEMS)
Name = Annotated[str, Query(max_length=200)]
Axis = Literal["actual", "equivalent"]
Units = Literal["si", "ip", ""]
Width = Annotated[float, Query(ge=600, le=8000)]
MarginRows = Annotated[int, Query(ge=0, le=100)]
_JSON: dict[int | str, dict[str, Any]] = {200: {"model": Json}}
_SVG: dict[int | str, dict[str, Any]] = {200: {"content": {"image/svg+xml": {}}}}
_CSV: dict[int | str, dict[str, Any]] = {200: {"content": {"text/csv": {}}}}


def _judged(shared: State, document: int, revision: int | None) -> Evaluation:
    found = shared.workspace.document(DESIGN.name, document)
    return shared.workspace.judge(found, revision or found.head)


@router.get("/evaluation", responses=_JSON)
def evaluation(shared: Shared, document: Number, revision: AtRevision = None, *, physics: bool = False) -> Response:
    """The whole of `linewright/check/1`, on the books as they are now."""
    found = _judged(shared, document, revision)
    data = check_json(found)
    if physics:
        from linewright.report.hydraulics_out import hydraulics_json  # noqa: PLC0415 - takes long to load

        data["physics"] = [hydraulics_json(one.hydraulics) for one in found.systems]
    return json_response(data)


@router.get("/tree", responses=_JSON)
def tree(shared: Shared, document: Number, revision: AtRevision = None) -> Response:
    """The trees of a design by name, `linewright/tree/1`: what a page needs to be walked over."""
    return json_response(tree_json(_judged(shared, document, revision)))


@router.get("/systems")
def systems(shared: Shared, document: Number, revision: AtRevision = None, *, units: Units = "") -> list[SystemLine]:
    """One line for each system: how it stands, its charge, its least margins."""
    judged = _judged(shared, document, revision)
    how = UnitSystem(units) if units else judged.design.units
    return [system_line(one, judged.rooms, how) for one in judged.systems]


@router.get("/rooms", responses={200: {"model": list[Json]}})
def rooms(shared: Shared, document: Number, revision: AtRevision = None) -> Response:
    """What each room gets against what it needs."""
    return json_response(check_json(_judged(shared, document, revision), cures=False)["rooms"])


def _view(
    system: Name,
    axis: Axis = "actual",
    units: Units = "",
    *,
    width_px: Width = 1600.0,
    margin_rows: MarginRows = 0,
    physics: bool = False,
) -> View:
    """Which sheet is asked for."""
    return View(system=system, axis=axis, units=units, physics=physics, width_px=width_px, margin_rows=margin_rows)


Asked = Annotated[View, Depends(_view)]


@router.get("/scene", responses=_JSON)
def scene(shared: Shared, document: Number, view: Asked, revision: AtRevision = None) -> Response:
    """The sheet of a system as `linewright/scene/1`."""
    return json_response(shared.scenes.whole(document, view, _drawn(shared, document, view, revision)))


@router.get("/sheet.svg", responses=_SVG, response_class=Response)
def sheet(shared: Shared, document: Number, view: Asked, revision: AtRevision = None) -> Response:
    """The sheet of a system as a picture."""
    return Response(svg(_drawn(shared, document, view, revision)), media_type="image/svg+xml")


def _drawn(shared: State, document: int, view: View, revision: int | None) -> Scene:
    judged = _judged(shared, document, revision)
    return sheet_of(judged, system_named(judged, view.system), view=view)


@router.get("/runs.csv", responses=_CSV, response_class=Response)
def runs(shared: Shared, document: Number, system: Name, revision: AtRevision = None, *, units: Units = "") -> Response:
    """The runs of a system as a table, one row each."""
    judged = _judged(shared, document, revision)
    system_named(judged, system)
    design = judged.design
    how = Style(design.units if not units else type(design.units)(units))
    table = list_table(ListKind.RUNS, design, how, system=system)
    return Response(csv_text(table.texts), media_type="text/csv; charset=utf-8")


@router.get("/subjects")
def list_subjects(shared: Shared, document: Number, revision: AtRevision = None) -> SubjectsOut:
    """Everything whose working can be asked for."""
    return SubjectsOut(subjects=list(subjects(_judged(shared, document, revision))))


@router.get("/working", responses=_JSON)
def show_working(shared: Shared, document: Number, subject: Name, revision: AtRevision = None) -> Response:
    """The working of a number as `linewright/working/1`; places are in `design` and `book:ID`."""
    return json_response(why_json(working(_judged(shared, document, revision), subject), {}))


@router.get("/working/text")
def working_text(
    shared: Shared, document: Number, subject: Name, revision: AtRevision = None, *, units: Units = ""
) -> WorkingText:
    """The working of a number as the command line writes it."""
    judged = _judged(shared, document, revision)
    system = UnitSystem(units) if units else judged.design.units
    return WorkingText(subject=subject, text=why_text(working(judged, subject), {}, system=system, colour=False))


@router.get("/compare")
def compared(
    shared: Shared,
    document: Number,
    before: Annotated[int, Query(ge=1, le=2**31 - 1)],
    after: Annotated[int, Query(ge=1, le=2**31 - 1)],
) -> ComparedOut:
    """Every field that differs between two revisions."""
    found = shared.workspace.document(DESIGN.name, document)
    designs = [shared.workspace.value(found, number) for number in (before, after)]
    differences = [DifferenceOut(**one._asdict()) for one in compare(*designs)]
    return ComparedOut(before=before, after=after, differences=differences)
