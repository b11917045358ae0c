"""Sheets of a project as text: SVG or scene."""

from __future__ import annotations

import json

from linewright.app.project import Project
from linewright.draw import Axis, layout, scene_json, sheet_scene, svg
from linewright.engine import Evaluation
from linewright.engine.records import SystemResult
from linewright.units import UnitSystem


def sheet(
    project: Project,
    evaluation: Evaluation,
    result: SystemResult,
    *,
    system: UnitSystem,
    axis: Axis,
    form: str,
) -> str:
    """Draw one system; `form` is `svg` or `scene`."""
    book = project.books[result.book].compiled.book
    scene = sheet_scene(layout(evaluation, result, axis=axis, book=book), system)
    if form == "scene":
        return json.dumps(scene_json(scene), indent=1, ensure_ascii=False, allow_nan=False) + "\n"
    return svg(scene)
