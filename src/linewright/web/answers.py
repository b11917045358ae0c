"""What an answer carries besides a row: evaluation, scene, the edits that undo."""

from __future__ import annotations

from typing import Any

import orjson

from linewright.app.keeping import Changed, Workspace
from linewright.app.keeping.kinds import DESIGN, touched_of
from linewright.draw import Axis, Scene, layout, scene_json, sheet_scene
from linewright.engine import Evaluation
from linewright.engine.records import SystemResult
from linewright.report.check_json import check_json
from linewright.store import Document, NotThereError
from linewright.units import UnitSystem
from linewright.web.bodies import RevisionOut, View


def changed_json(workspace: Workspace, done: Changed, view: View | None) -> dict[str, Any]:
    """Give a change that was made with what it did to the results."""
    revision = done.revision
    answer: dict[str, Any] = {
        "revision": RevisionOut.of(revision).model_dump(),
        "rebased": done.rebased,
        "again": done.again,
        "inverse": orjson.loads(revision.inverse) if revision.inverse else [],
        "evaluation": None,
        "scene": None,
    }
    if done.document.kind != DESIGN.name:
        return answer
    evaluation = workspace.judge(done.document, revision.number)
    answer["evaluation"] = check_json(evaluation, cures=False)
    system = _system_of(evaluation, done, view)
    if system is not None:
        answer["scene"] = scene_of(workspace, done.document, evaluation, system, view=view or View())
    return answer


def scene_of(
    workspace: Workspace, document: Document, evaluation: Evaluation, result: SystemResult, *, view: View
) -> dict[str, Any]:
    """Draw a system; gives `linewright/scene/1`."""
    return scene_json(sheet_of(workspace, document, evaluation, result, view=view))


def sheet_of(
    workspace: Workspace, document: Document, evaluation: Evaluation, result: SystemResult, *, view: View
) -> Scene:
    """Draw a system."""
    book = workspace.shelf(document.project_id).books[result.book].compiled.book
    sheet = layout(evaluation, result, axis=Axis(view.axis), book=book, with_flow=view.physics)
    units = UnitSystem(view.units) if view.units else evaluation.design.units
    return sheet_scene(sheet, units, width=view.width_px)


def system_named(evaluation: Evaluation, name: str) -> SystemResult:
    """Find a system; raises NotThereError."""
    found = next((result for result in evaluation.systems if result.id == name), None)
    if found is None:
        raise NotThereError("system", name)
    return found


def _system_of(evaluation: Evaluation, done: Changed, view: View | None) -> SystemResult | None:
    """Give the system that is named, else the first that the change touches, else the first; none without systems."""
    if view is not None and view.system:
        return next((result for result in evaluation.systems if result.id == view.system), None)
    touched = touched_of(done.revision.touched)
    names = {touch.element.partition("/")[0] for touch in touched.writes} if touched is not None else set()
    return next((one for one in evaluation.systems if one.id in names), next(iter(evaluation.systems), None))
