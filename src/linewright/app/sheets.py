"""Sheets of a project as text: SVG or scene."""

from __future__ import annotations

import json

from linewright.app.project import Project
from linewright.draw import Axis, Scene, layout, scene_json, sheet_scene, svg
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
    with_flow: bool = False,
) -> str:
    """Draw one system; `form` is `svg` or `scene`; `with_flow` adds what flows to the lanes."""
    return _written(sheet_of(project, evaluation, result, system=system, axis=axis, with_flow=with_flow), form)


def sheet_of(
    project: Project,
    evaluation: Evaluation,
    result: SystemResult,
    *,
    system: UnitSystem,
    axis: Axis,
    with_flow: bool = False,
) -> Scene:
    """The scene of one system."""
    book = project.books[result.book].compiled.book
    return sheet_scene(layout(evaluation, result, axis=axis, book=book, with_flow=with_flow), system)


def path_plot(project: Project, result: SystemResult, unit: str, *, system: UnitSystem, form: str) -> str:
    """Plot pressure and subcooling along the pipe to a unit; `form` is `svg` or `scene`.

    Raises ValueError where the system has no such unit, or nothing was worked out.
    """
    from linewright.draw.path_plot import path_scene  # noqa: PLC0415 - numpy is not needed for a sheet

    scene = path_scene(result, result.hydraulics, unit, project=project.loaded.design.project, system=system)
    return _written(scene, form)


def _written(scene: Scene, form: str) -> str:
    if form == "scene":
        return json.dumps(scene_json(scene), indent=1, ensure_ascii=False, allow_nan=False) + "\n"
    return svg(scene)
