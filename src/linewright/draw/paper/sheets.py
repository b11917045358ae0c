"""The sheet of a system as drawings: one, or several below one another with match lines."""

from __future__ import annotations

from linewright.book.schema import Book
from linewright.draw.layout import layout
from linewright.draw.paper.around import AIR, Around, place
from linewright.draw.paper.divide import Frame, TooSmallError, divided, division
from linewright.draw.paper.facts import Facts
from linewright.draw.paper.lettering import Area
from linewright.draw.paper.marks import Drawing
from linewright.draw.paper.onpaper import MM_PER_PX, scene_marks
from linewright.draw.paper.papers import Paper, Sheet, laid
from linewright.draw.plan import Axis
from linewright.draw.primitives import Scene
from linewright.draw.scene import sheet_scene
from linewright.engine.records import Evaluation, SystemResult
from linewright.units import UnitSystem

WHAT = "Sheet: pipe drawn to reach, and results"


def sheet_drawings(
    evaluation: Evaluation, result: SystemResult, book: Book, facts: Facts, paper: Paper, *, system: UnitSystem
) -> list[Drawing]:
    """Put the sheet of a system on paper, on as many sheets as it needs.

    Raises TooSmallError where not even its width has room.
    """
    plan = layout(evaluation, result, axis=Axis.ACTUAL, book=book)
    options = []
    for landscape in (True, False):
        sheet = laid(paper, landscape=landscape)
        room = place(sheet).content
        scene = sheet_scene(plan, system, width=(room.width - 2 * AIR) / MM_PER_PX)
        cuts = division(scene_marks(scene), _frame(scene), room)
        if cuts is not None and len(cuts.xs) == 2:
            options.append((len(cuts.cells), not landscape, sheet, scene))
    if not options:
        raise TooSmallError(paper)
    _, _, sheet, scene = min(options, key=lambda option: option[:2])
    return _divided(result, facts, sheet, scene)


def _divided(result: SystemResult, facts: Facts, sheet: Sheet, scene: Scene) -> list[Drawing]:
    per_m = scene.axis.px_per_m * MM_PER_PX
    scale = f"along the pipe 1:{1000.0 / per_m:.0f}, else not to scale"
    title = f"{result.id}, {result.name}" if result.name else result.id
    around = Around(facts, title, WHAT, scale)
    return divided(f"{result.id}-sheet", sheet, around, scene_marks(scene), frame=_frame(scene), said=scene.description)


def _frame(scene: Scene) -> Frame:
    return Frame(Area(0.0, 0.0, scene.width * MM_PER_PX, scene.height * MM_PER_PX))
