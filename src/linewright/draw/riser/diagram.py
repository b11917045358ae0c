"""The riser diagram of a system on paper: arranged, drawn, and divided over as many sheets as it needs."""

from __future__ import annotations

from typing import NamedTuple

from linewright.draw.paper.around import AIR, Around, content, drawing, furnish
from linewright.draw.paper.divide import MORE, TooSmallError, divided, division
from linewright.draw.paper.facts import NOT_TO_SCALE, Facts
from linewright.draw.paper.lettering import Area
from linewright.draw.paper.marks import Drawing, Mark
from linewright.draw.paper.papers import Paper, Sheet, laid
from linewright.draw.paper.schedule import filled
from linewright.draw.riser.aims import find_aims
from linewright.draw.riser.compose import Picture, compose
from linewright.draw.riser.heights import SIDE
from linewright.draw.riser.scales import Scale, scales
from linewright.draw.riser.signs import riser_signs
from linewright.draw.riser.tables import grids
from linewright.engine.records import Evaluation, SystemResult
from linewright.units import UnitSystem

#: A diagram that would need more sheets asks for a larger paper.
MOST_SHEETS = 8
WHAT, SCHEDULES = "Riser diagram", "Riser diagram: schedules"


class _Option(NamedTuple):
    """One way to put a diagram on paper, and its rank: clean, fewest sheets, lying, the largest."""

    rank: tuple[bool, int, bool, int]
    sheet: Sheet
    picture: Picture
    scale: Scale


def riser_drawings(
    evaluation: Evaluation, result: SystemResult, facts: Facts, paper: Paper, *, system: UnitSystem
) -> list[Drawing]:
    """Draw the riser diagram of a system, then its schedules, on as many sheets as they need.

    Raises TooSmallError where the paper has no room for it.
    """
    option = _laid(evaluation, result, paper, system)
    title = f"{result.id}, {result.name}" if result.name else result.id
    notes = _notes(evaluation, result)
    scale = f"heights {option.scale.name}, widths not to scale"
    around = Around(facts, title, WHAT, scale, riser_signs(option.picture), notes, option.scale.factor(system))
    left = furnish(option.sheet, around, more=MORE)
    more = [*left.notes, *(sign.words for sign in left.signs)]
    schedules = around._replace(drawing=SCHEDULES, scale=NOT_TO_SCALE, bare=True, factor=1.0)
    tables = grids(evaluation, result, find_aims(evaluation, result), system, notes=more)
    pages = filled(tables, _room(option.sheet, schedules))
    name, said = f"{result.id}-riser", _said(option.picture)
    found = divided(
        name, option.sheet, around, option.picture.marks, frame=option.picture.frame, said=said, after=len(pages)
    )
    return [*found, *_schedules(name, option.sheet, schedules, pages, first=len(found) + 1)]


def _schedules(name: str, sheet: Sheet, around: Around, pages: list[list[Mark]], *, first: int) -> list[Drawing]:
    of = first - 1 + len(pages)
    found = []
    for number, marks in enumerate(pages, start=first):
        frame = furnish(sheet, around, number=number, of=of)
        found.append(drawing(f"{name}-{number}", sheet, around, [*frame.marks, *marks], said=SCHEDULES))
    return found


def _room(sheet: Sheet, around: Around) -> Area:
    room = content(sheet, bare=around.bare)
    return Area(room.left + 2 * AIR, room.top + 2 * AIR, room.right - 2 * AIR, room.bottom - AIR)


def _notes(evaluation: Evaluation, result: SystemResult) -> tuple[str, ...]:
    """Give what must be read with the drawing: notes of the book, then what was assumed, then cautions."""
    printed = [note.text for note in result.notes if note.of_book]
    others = [f"{note.subject}: {note.text}" for note in result.notes if not note.of_book]
    return (*printed, *others, *evaluation.cautions)


def _laid(evaluation: Evaluation, result: SystemResult, paper: Paper, system: UnitSystem) -> _Option:
    """Choose how the paper lies and the scale."""
    options = []
    for landscape in (True, False):
        sheet = laid(paper, landscape=landscape)
        room = content(sheet)
        for rank, scale in enumerate(scales(system)):
            picture = compose(evaluation, result, scale, system, width=room.width - 2 * AIR - SIDE)
            cuts = division(picture.marks, picture.frame, room)
            if cuts is not None and len(cuts.cells) <= MOST_SHEETS:
                options.append(
                    _Option((not picture.clean, len(cuts.cells), not landscape, rank), sheet, picture, scale)
                )
                if len(cuts.cells) == 1 and picture.clean:
                    return options[-1] if landscape else min(options, key=lambda option: option.rank)
    if not options:
        raise TooSmallError(paper)
    return min(options, key=lambda option: option.rank)


def _said(picture: Picture) -> str:
    return f"{picture.units} indoor units; heights of levels, stated fittings and risers are to scale"
