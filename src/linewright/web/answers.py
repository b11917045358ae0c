"""What an answer carries besides a row: evaluation, scene, the edits that undo."""

from __future__ import annotations

from contextlib import suppress
from typing import Any, Protocol

import orjson
from fastapi import Response

from linewright.app.keeping import Changed
from linewright.app.keeping.changes import Meanwhile
from linewright.app.keeping.kinds import DESIGN, touched_of
from linewright.app.keeping.workspace import Judged, Shelf
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


class Making(Protocol):
    """Makes a change, and what it is told to make while the disk is waited for."""

    def __call__(self, *, meanwhile: Meanwhile) -> Changed:
        """Make it."""


class _Ahead:
    """Works an answer out while the change is still being written; it goes out when that is done, or never."""

    def __init__(self, shared: State, view: View) -> None:
        self._shared, self._view = shared, view
        self._found: tuple[Judged, Response] | None = None

    def __call__(self, done: Changed, value: Any, shelf: Shelf | None) -> None:  # noqa: ANN401 - a design or a book
        """Work it out; what fails here fails again, and is answered, when the change is on the disk."""
        if shelf is not None:
            with suppress(Exception):
                judged = Judged.ahead(value, shelf)
                answer = _changed(self._shared, done, self._view, judged.evaluation)
                self._found = judged, json_response(answer)

    def answer(self, done: Changed) -> Response:
        """Give the answer to a change that is on the disk."""
        if self._found is None:
            return _answer_of(self._shared, done, self._view)
        judged, answer = self._found
        self._shared.workspace.remember_judged(done.document.id, done.revision.number, judged)
        return answer


def told_ahead(shared: State, view: View | None, make: Making) -> Response:
    """Make a change, tell those who listen, and answer with what it did, worked out while the disk was waited for."""
    ahead = _Ahead(shared, view or View())
    done = make(meanwhile=ahead)
    _tell(shared, done)
    return ahead.answer(done)


def told(shared: State, done: Changed, view: View | None) -> Response:
    """Tell those who listen of a change, and answer with what it did."""
    _tell(shared, done)
    return _answer_of(shared, done, view or View())


def _tell(shared: State, done: Changed) -> None:
    document, number = done.document, done.revision.number
    if not done.again:
        shared.events.tell(
            document.project_id, "revision", {"id": document.id, "kind": document.kind, "number": number}
        )


def _answer_of(shared: State, done: Changed, view: View) -> Response:
    """Give a change that is on the disk with what it did to the results."""
    is_design = done.document.kind == DESIGN.name
    evaluation = shared.workspace.judge(done.document, done.revision.number) if is_design else None
    return json_response(_changed(shared, done, view, evaluation))


def _changed(shared: State, done: Changed, view: View, evaluation: Evaluation | None) -> dict[str, Any]:
    revision = done.revision
    answer: dict[str, Any] = {
        "revision": RevisionOut.of(revision).model_dump(),
        "rebased": done.rebased,
        "again": done.again,
        "inverse": orjson.loads(revision.inverse) if revision.inverse else [],
        **_NOTHING,
    }
    if evaluation is None:
        return answer
    return answer | results(shared, done.document.id, evaluation, view=view, touched=touched_of(revision.touched))


def results(
    shared: State, document: int, evaluation: Evaluation, *, view: View, touched: Touched | None
) -> dict[str, Any]:
    """Give what a design comes to, as a view asks for it: evaluation or trees, and the sheet of one system."""
    answer: dict[str, Any] = dict(_NOTHING)
    if view.tree:
        answer["tree"] = tree_json(evaluation)
    else:
        answer["evaluation"] = check_json(evaluation, cures=False, put=shared.rows)
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
