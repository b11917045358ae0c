"""What an answer carries besides a row: evaluation, scene, the edits that undo."""

from __future__ import annotations

from typing import Any

import orjson
from fastapi import Response

from linewright.app.keeping import Changed
from linewright.app.keeping.kinds import DESIGN, touched_of
from linewright.draw import Axis, Scene, layout, sheet_scene
from linewright.engine import Evaluation
from linewright.engine.records import SystemResult
from linewright.model.edits import Touched
from linewright.report.check_json import check_json
from linewright.store import NotThereError
from linewright.units import UnitSystem
from linewright.web.bodies import RevisionOut
from linewright.web.requests import View
from linewright.web.state import State, json_response
from linewright.web.tree import tree_json

#: What an answer carries of the results where there are none.
_NOTHING = {"evaluation": None, "tree": None, "scene": None, "scene_changes": None}


def told(shared: State, done: Changed, view: View | None) -> Response:
    """Tell those who listen of a change, and answer with what it did."""
    document, number = done.document, done.revision.number
    if not done.again:
        shared.events.tell(
            document.project_id, "revision", {"id": document.id, "kind": document.kind, "number": number}
        )
    return json_response(_changed(shared, done, view or View()))


def _changed(shared: State, done: Changed, view: View) -> dict[str, Any]:
    """Give a change that was made with what it did to the results."""
    revision = done.revision
    answer: dict[str, Any] = {
        "revision": RevisionOut.of(revision).model_dump(),
        "rebased": done.rebased,
        "again": done.again,
        "inverse": orjson.loads(revision.inverse) if revision.inverse else [],
        **_NOTHING,
    }
    if done.document.kind != DESIGN.name:
        return answer
    evaluation = shared.workspace.judge(done.document, revision.number)
    return answer | results(shared, done.document.id, evaluation, view=view, touched=touched_of(revision.touched))


def results(
    shared: State, document: int, evaluation: Evaluation, *, view: View, touched: Touched | None
) -> dict[str, Any]:
    """Give what a design comes to, as a view asks for it: evaluation or trees, and the sheet of one system."""
    answer: dict[str, Any] = dict(_NOTHING)
    if view.tree:
        answer["tree"] = tree_json(evaluation)
    else:
        answer["evaluation"] = check_json(evaluation, cures=False)
    system = _system_of(evaluation, touched, view)
    if system is not None:
        answer |= shared.scenes.either(document, view, sheet_of(evaluation, system, view=view))
    return answer


def sheet_of(evaluation: Evaluation, result: SystemResult, *, view: View) -> Scene:
    """Draw a system with the book that it was judged on."""
    book = result.state.ground.book.book
    sheet = layout(evaluation, result, axis=Axis(view.axis), book=book, with_flow=view.physics)
    units = UnitSystem(view.units) if view.units else evaluation.design.units
    return sheet_scene(sheet, units, width=view.width_px, margin_rows=view.margin_rows)


def system_named(evaluation: Evaluation, name: str) -> SystemResult:
    """Find a system; raises NotThereError."""
    found = next((result for result in evaluation.systems if result.id == name), None)
    if found is None:
        raise NotThereError("system", name)
    return found


def _system_of(evaluation: Evaluation, touched: Touched | None, view: View) -> SystemResult | None:
    """Give the system that is named, else the first that the change touches, else the first; none without systems."""
    if view.system:
        return next((result for result in evaluation.systems if result.id == view.system), None)
    names = {touch.element.partition("/")[0] for touch in touched.writes} if touched is not None else set()
    return next((one for one in evaluation.systems if one.id in names), next(iter(evaluation.systems), None))
