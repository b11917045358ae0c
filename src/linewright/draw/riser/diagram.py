"""The riser diagram of a system on paper: arranged, drawn, and divided over as many sheets as it needs."""

from __future__ import annotations

from linewright.draw.paper.around import AIR, Around, place
from linewright.draw.paper.divide import TooSmallError, divided, division
from linewright.draw.paper.facts import Facts
from linewright.draw.paper.marks import Drawing
from linewright.draw.paper.papers import Paper, Sheet, laid
from linewright.draw.riser.compose import Picture, compose
from linewright.draw.riser.heights import SIDE
from linewright.draw.riser.scales import Scale, scales
from linewright.draw.riser.signs import riser_signs
from linewright.engine.records import Evaluation, SystemResult
from linewright.units import UnitSystem

WHAT = "Riser diagram"


def riser_drawings(
    evaluation: Evaluation, result: SystemResult, facts: Facts, paper: Paper, *, system: UnitSystem
) -> list[Drawing]:
    """Draw the riser diagram of a system on as many sheets as it needs."""
    notes = tuple(note.text for note in result.notes if note.of_book)
    sheet, picture, scale = _laid(evaluation, result, paper, system)
    around = Around(
        facts,
        f"{result.id}, {result.name}" if result.name else result.id,
        WHAT,
        f"heights {scale.name}, widths not to scale",
        riser_signs(result, picture),
        notes,
        scale.factor(system),
    )
    return divided(f"{result.id}-riser", sheet, around, picture.marks, frame=picture.frame, said=_said(picture))


def _laid(
    evaluation: Evaluation, result: SystemResult, paper: Paper, system: UnitSystem
) -> tuple[Sheet, Picture, Scale]:
    """Choose how the paper lies and the scale: fewest sheets, then lying, then the largest drawing."""
    options = []
    for landscape in (True, False):
        sheet = laid(paper, landscape=landscape)
        room = place(sheet).content
        for rank, scale in enumerate(scales(system)):
            picture = compose(evaluation, result, scale, system, width=room.width - 2 * AIR - SIDE)
            cuts = division(picture.marks, picture.frame, room)
            if cuts is not None:
                options.append(((len(cuts.cells), not landscape, rank), sheet, picture, scale))
    if not options:
        raise TooSmallError(paper)
    best = min(options, key=lambda option: option[0])
    return best[1], best[2], best[3]


def _said(picture: Picture) -> str:
    return f"{picture.units} indoor units; heights of levels, stated fittings and risers are to scale"
