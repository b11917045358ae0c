"""What a design would come to: edits that are only looked at, and remedies of what fails."""

from __future__ import annotations

from collections.abc import Generator, Iterator
from itertools import chain
from typing import Annotated, Any

from fastapi import APIRouter, Query, Response
from fastapi.responses import StreamingResponse

from linewright.app.keeping.kinds import DESIGN
from linewright.app.keeping.previewing import preview
from linewright.explore.headroom import room_of
from linewright.explore.remedies import Outcome, Progress, Wanted, search
from linewright.model.design import Design
from linewright.report.headroom_text import room_lines
from linewright.store import NotThereError
from linewright.units import UnitSystem
from linewright.web.answers import results, system_named
from linewright.web.bodies import PreviewOut, RemedyLine, RoomToGrow
from linewright.web.overview import system_line
from linewright.web.remedies import last_line, progress_line
from linewright.web.requests import View, WouldBe
from linewright.web.routes.documents import AtRevision
from linewright.web.routes.results import Name, Units
from linewright.web.state import PROBLEMS, Number, Shared, json_response

router = APIRouter(prefix="/api/designs/{document}", tags=["ahead"], responses=PROBLEMS)
#: A search makes at the most so many evaluations.
MOST_EVALUATIONS = 20_000
Budget = Annotated[
    int | None, Query(ge=1, le=MOST_EVALUATIONS, description="160 where none is named, 480 while nothing is found")
]
LINES = "application/x-ndjson"
_LINES: dict[int | str, dict[str, Any]] = {200: {"model": RemedyLine, "content": {LINES: {}}}}
_PREVIEW: dict[int | str, dict[str, Any]] = {200: {"model": PreviewOut}}


@router.post("/preview", responses=_PREVIEW)
def look_ahead(shared: Shared, document: Number, body: WouldBe) -> Response:
    """Give what edits would come to. Nothing is changed, and no revision is made."""
    found = preview(shared.workspace, document, body.base, body.edits)
    view = body.view or View()
    units = UnitSystem(view.units) if view.units else found.after.design.units
    systems = [system_line(one, found.after.rooms, units).model_dump() for one in found.after.systems]
    answer = results(shared, document, found.after, view=view, touched=found.touched)
    elements = sorted({touch.element for touch in found.touched.writes})
    return json_response({"base": body.base, "elements": elements, "systems": systems, **answer})


@router.get("/room")
def room(  # noqa: PLR0917 - the query
    shared: Shared, document: Number, system: Name, subject: Name, units: Units = "", revision: AtRevision = None
) -> RoomToGrow:
    """Say how far one thing may grow, such as `main/run:J1.length`, before something gives."""
    found = shared.workspace.document(DESIGN.name, document)
    judged = shared.workspace.judge(found, revision or found.head)
    system_named(judged, system)
    grown = room_of(judged.design, shared.workspace.shelf(found.project_id).library, system, subject)
    how = UnitSystem(units) if units else judged.design.units
    says = list(room_lines(grown, how))
    if not says:
        raise NotThereError("thing that may grow", subject)
    return RoomToGrow(subject=subject, standing=grown.standing.value, claimed=grown.claimed, says=says)


@router.get("/remedies", responses=_LINES, response_class=Response)
def remedies(  # noqa: PLR0917 - the query of a search
    shared: Shared,
    document: Number,
    subject: Name = "",
    system: Name = "",
    units: Units = "",
    revision: AtRevision = None,
    budget: Budget = None,
    *,
    physics: bool = False,
) -> StreamingResponse:
    """Look for remedies: a line of JSON when one is found, at the end one with all. Who hangs up stops the search."""
    found = shared.workspace.document(DESIGN.name, document)
    judged = shared.workspace.judge(found, revision or found.head)
    library = shared.workspace.shelf(found.project_id).library
    how = UnitSystem(units) if units else judged.design.units
    steps = search(judged.design, library, Wanted(subject=subject, system=system, budget=budget, physics=physics))
    lines = _lines(steps, how, judged.design)
    # What cannot be looked for is refused before the answer begins.
    first = next(lines)
    return StreamingResponse(chain([first], lines), media_type=LINES)


def _lines(steps: Generator[Progress, bool | None, Outcome], units: UnitSystem, design: Design) -> Iterator[str]:
    while True:
        try:
            line = progress_line(next(steps), units, design)
        except StopIteration as end:
            yield last_line(end.value, units, design).model_dump_json() + "\n"
            return
        if line is not None:
            yield line.model_dump_json() + "\n"
