"""The sheet of a system as drawings: one, or several below one another with match lines."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from linewright.draw.paper.around import AIR, Around, content
from linewright.draw.paper.divide import TooSmallError, divided
from linewright.draw.paper.division import Frame, division
from linewright.draw.paper.extent import area_of, moved
from linewright.draw.paper.facts import Facts
from linewright.draw.paper.lettering import Area
from linewright.draw.paper.marks import Drawing
from linewright.draw.paper.onpaper import MM_PER_PX, scene_marks
from linewright.draw.paper.papers import Paper, Sheet, laid
from linewright.draw.plan import SheetLayout
from linewright.draw.primitives import Scene
from linewright.draw.scene import sheet_scene
from linewright.engine.records import SystemResult
from linewright.units import UnitSystem

_HEADS = ("column-head", "column-span", "axis-title", "tick-number")
WHAT = "Sheet: pipe drawn to reach, and results"


def sheet_drawings(plan: SheetLayout, facts: Facts, paper: Paper, system: UnitSystem) -> list[Drawing]:
    """Put the sheet of a system on paper, on as many sheets as it needs.

    Raises TooSmallError where not even its width has room.
    """
    options = []
    for landscape in (True, False):
        sheet = laid(paper, landscape=landscape)
        room = content(sheet, bare=True)
        scene = sheet_scene(plan, system, width=(room.width - 2 * AIR) / MM_PER_PX)
        cuts = division(scene_marks(scene), _frame(scene), room)
        if cuts is not None and len(cuts.xs) == 2:
            options.append((len(cuts.sheets), not landscape, sheet, scene))
    if not options:
        raise TooSmallError(paper)
    _, _, sheet, scene = min(options, key=lambda option: option[:2])
    return _divided(plan.result, facts, sheet, scene)


def _divided(result: SystemResult, facts: Facts, sheet: Sheet, scene: Scene) -> list[Drawing]:
    per_m = scene.axis.px_per_m * MM_PER_PX
    scale = f"along the pipe 1:{1000.0 / per_m:.0f}, else not to scale"
    title = f"{result.id}, {result.name}" if result.name else result.id
    around = Around(facts, title, WHAT, scale, bare=True)
    return divided(f"{result.id}-sheet", sheet, around, scene_marks(scene), frame=_frame(scene), said=scene.description)


def _frame(scene: Scene) -> Frame:
    """Give how a scene may be divided: between its lanes, with the heads of its columns again on every sheet."""
    area = Area(0.0, 0.0, scene.width * MM_PER_PX, scene.height * MM_PER_PX)
    heads = list(scene_marks(only(scene, _HEADS)))
    bands = [area_of(mark) for mark in scene_marks(only(scene, ("band",)))]
    if not heads or not bands:
        return Frame(area)
    top = min(area_of(mark).top for mark in heads)
    height = bands[0].top - top
    return Frame(
        area,
        heads=tuple(moved(mark, 0.0, -top) for mark in heads),
        head=height,
        heads_until=max(band.bottom for band in bands) - 1.0,
    )


def only(scene: Scene, roles: Sequence[str]) -> Scene:
    """Give a scene with the primitives of some roles alone."""
    return replace(scene, primitives=tuple(item for item in scene.primitives if item.role in roles))
