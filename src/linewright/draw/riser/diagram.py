"""The riser diagram of a system on paper: arranged, drawn, and divided over as many sheets as it needs."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import NamedTuple

from linewright.draw.paper.around import AIR, Around, content, drawing, furnish
from linewright.draw.paper.divide import MORE, TooSmallError, divided
from linewright.draw.paper.division import MATCH, Division, division, shares
from linewright.draw.paper.facts import NOT_TO_SCALE, Facts
from linewright.draw.paper.lettering import Area
from linewright.draw.paper.marks import Drawing, Mark, Measure
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
#: A sheet that is not the last is poor where what is drawn takes less of its room.
LEAST_USED = 0.3
#: So little of the last sheet is a scrap.
_SCRAP = 0.1
_TRIES = 5
WHAT, SCHEDULES = "Riser diagram", "Riser diagram: schedules"


class _Option(NamedTuple):
    """One way to put a diagram on paper; `used` gives how much of each sheet is used."""

    sheet: Sheet
    picture: Picture
    scale: Scale
    cuts: Division
    used: tuple[float, ...]

    @property
    def sheets(self) -> int:
        """Give the number of sheets."""
        return len(self.cuts.sheets)

    @property
    def poor(self) -> int:
        """Count the sheets, but for the last, of which little is used."""
        return sum(share < LEAST_USED for share in self.used[:-1])


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
    around = Around(facts, title, WHAT, scale, riser_signs(option.picture), notes, option.scale.measure(system))
    left = furnish(option.sheet, around, more=MORE)
    more = [*left.notes, *(sign.words for sign in left.signs)]
    schedules = around._replace(drawing=SCHEDULES, scale=NOT_TO_SCALE, bare=True, measure=Measure())
    tables = grids(evaluation, result, find_aims(evaluation, result), system, notes=more)
    pages = filled(tables, _room(option.sheet, schedules))
    name, said = f"{result.id}-riser", _said(option.picture)
    found = divided(
        name, option.sheet, around, option.picture.marks, frame=option.picture.frame, said=said, after=len(pages)
    )
    return [*found, *_schedules(name, option.sheet, schedules, pages, first=len(found) + 1)]


def diagram_sheets(drawings: Sequence[Drawing]) -> int:
    """Count the sheets of a riser diagram that are not schedules."""
    return sum(one.description != SCHEDULES for one in drawings)


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


class _Laying:
    """A diagram that is put on paper: of which system, in which units."""

    def __init__(self, evaluation: Evaluation, result: SystemResult, system: UnitSystem) -> None:
        self.evaluation, self.result, self.system = evaluation, result, system
        self._plain: dict[Scale, Picture] = {}

    def plain(self, scale: Scale) -> Picture:
        """Give the diagram to a scale as it is if not divided."""
        if scale not in self._plain:
            self._plain[scale] = compose(self.evaluation, self.result, scale, self.system, width=math.inf)
        return self._plain[scale]

    def option(self, sheet: Sheet, scale: Scale, width: float) -> _Option | None:
        """Arrange the diagram for sheets on which it takes a width [mm]; none where it cannot be divided well."""
        picture = self.plain(scale)
        if picture.frame.area.width > width:
            picture = compose(self.evaluation, self.result, scale, self.system, width=width)
        room = content(sheet)
        cuts = division(picture.marks, picture.frame, room)
        if cuts is None or len(cuts.sheets) > MOST_SHEETS:
            return None
        used = (1.0,) if len(cuts.sheets) == 1 else shares(cuts, picture.marks, picture.frame, room)
        return _Option(sheet, picture, scale, cuts, used)

    def least_sheets(self, sheet: Sheet, scale: Scale) -> int:
        """Give how many sheets the diagram needs at the least."""
        area, room = self.plain(scale).frame.area, content(sheet)
        columns = math.ceil(area.width / _width(sheet))
        below = int((room.height - 2 * AIR) / (area.height if columns == 1 else area.height + 2 * MATCH))
        return math.ceil(columns / below) if below else max(columns, math.ceil(area.height / room.height))


def _laid(evaluation: Evaluation, result: SystemResult, paper: Paper, system: UnitSystem) -> _Option:
    """Choose how the paper lies and the scale."""
    laying = _Laying(evaluation, result, system)
    options: list[_Option] = []
    for landscape in (True, False):
        sheet = laid(paper, landscape=landscape)
        for scale in scales(system):
            fewest = min((one.sheets + one.poor for one in options if one.picture.clean), default=MOST_SHEETS)
            if laying.least_sheets(sheet, scale) > fewest:
                continue
            option = laying.option(sheet, scale, _width(sheet))
            if option is None:
                continue
            options.append(option)
            if option.cuts.whole and option.picture.clean:
                return option if landscape else _even(laying, min(options, key=_rank))
    if not options:
        raise TooSmallError(paper)
    return _even(laying, min(options, key=_rank))


def _rank(option: _Option) -> tuple[bool, int, bool, int, bool, int]:
    """Rank an option: clean, fewest sheets (a poor one counts twice), no scrap, largest scale if divided, lying."""
    upright, ratio = not option.sheet.landscape, option.scale.ratio
    first = 0 if option.cuts.whole else ratio
    return not option.picture.clean, option.sheets + option.poor, option.used[-1] < _SCRAP, first, upright, ratio


def _width(sheet: Sheet) -> float:
    """Give the width of a sheet without the levels [mm]."""
    return content(sheet).width - 2 * AIR - SIDE


def _even(laying: _Laying, option: _Option) -> _Option:
    """Make the parts of a divided diagram about as wide as one another, so that the last is not a scrap."""
    parts = len(option.cuts.xs) - 1
    if parts == 1:
        return option
    found, high = [option], _width(option.sheet)
    low = option.picture.frame.area.width / parts
    for step in range(_TRIES):
        width = low + (high - low) * step / _TRIES
        other = laying.option(option.sheet, option.scale, width)
        if other is not None and len(other.cuts.xs) - 1 <= parts and _rank(other) <= _rank(option):
            found.append(other)
    return max(found, key=lambda one: (min(one.used), -one.picture.frame.area.width))


def _said(picture: Picture) -> str:
    return f"{picture.units} indoor units; heights of levels, stated fittings and risers are to scale"
