"""A drawing that is larger than its sheet is divided over several, with match lines; it is never made smaller."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product
from typing import NamedTuple

from linewright.draw.paper.around import AIR, Around, content, drawing, furnish
from linewright.draw.paper.lettering import Area, words_area
from linewright.draw.paper.marks import (
    Box,
    Disc,
    Drawing,
    Hatching,
    Mark,
    Stroke,
    Symbol,
    Words,
)
from linewright.draw.paper.matches import Part, match_marks
from linewright.draw.paper.papers import Paper, Sheet

#: Room for the words at a match line [mm].
MATCH = 5.0
_LEAST_SHARE = 0.35
MORE = "more notes on the last sheets"
_ROOM, _SLACK = 1.2, 0.6


class TooSmallError(Exception):
    """A paper on which a drawing finds no room at letters of the least height; `paper` says which."""

    def __init__(self, paper: Paper) -> None:
        super().__init__(f"no room on {paper.name}")
        self.paper = paper


class Frame(NamedTuple):
    """How a picture may be divided: its ground [mm], and marks at its left that every sheet repeats, with their width.

    cuts : where it is to be cut from side to side [mm], because it was arranged for that
    heads, head : what stands again on top of every further sheet, and how much room that takes [mm]
    heads_until : below here nothing wants those heads [mm]
    """

    area: Area
    side: float = 0.0
    repeated: tuple[Mark, ...] = ()
    cuts: tuple[float, ...] = ()
    heads: tuple[Mark, ...] = ()
    head: float = 0.0
    heads_until: float = 0.0


class Division(NamedTuple):
    """Where a picture is cut, from its first edge to its last [mm]."""

    xs: tuple[float, ...]
    ys: tuple[float, ...]

    @property
    def cells(self) -> list[tuple[int, int]]:
        """Give row and column of every sheet, row by row."""
        return list(product(range(len(self.ys) - 1), range(len(self.xs) - 1)))


def division(marks: Sequence[Mark], frame: Frame, room: Area) -> Division | None:
    """Find where a picture is cut so that it fits a room; none where that would cut words or symbols."""
    area = frame.area
    width, height = room.width - 2 * AIR - frame.side, room.height - 2 * AIR
    if area.width > width + 1e-6 or area.height > height + 1e-6:
        height -= 2 * MATCH
    if height <= 0 or width <= 0:
        return None
    xs = (
        [area.left, *frame.cuts, area.right] if frame.cuts else _cuts(marks, area.left, area.right, width, upright=True)
    )
    ys = _cuts([*marks, *frame.repeated], area.top, area.bottom, height, upright=False, head=frame.head)
    return None if xs is None or ys is None else Division(tuple(xs), tuple(ys))


def divided(
    name: str,
    sheet: Sheet,
    around: Around,
    marks: Sequence[Mark],
    *,
    frame: Frame,
    said: str,
    after: int = 0,
) -> list[Drawing]:
    """Put a picture on as many sheets as it needs; all of them have the same size."""
    cuts = division(marks, frame, content(sheet, bare=around.bare))
    if cuts is None:
        raise TooSmallError(sheet.paper)
    found, cells = [], cuts.cells
    numbers = {(i, j): number for number, (j, i) in enumerate(cells, start=1)}
    of = len(cells) + after
    for (i, j), number in numbers.items():
        cell = Area(cuts.xs[i], cuts.ys[j], cuts.xs[i + 1], cuts.ys[j + 1])
        x, y = _move(sheet, around, frame, cell, single=len(cells) == 1)
        head = frame.head if _has_head(frame, cell) else 0.0
        part = Part(cell.moved(x, y), frame.side, head, i, j, numbers)
        edge = furnish(sheet, around, number=number, of=of, more=MORE).marks
        every = [*edge, *_on_sheet((x, y), marks, frame, cell), *match_marks(part)]
        found.append(drawing(name if of == 1 else f"{name}-{number}", sheet, around, every, said=said))
    return found


def _cuts(
    marks: Sequence[Mark], low: float, high: float, room: float, *, upright: bool, head: float = 0.0
) -> list[float] | None:
    """Give where a picture is cut along one axis: as far out as it goes, and through nothing that has to stay whole."""
    whole = sorted((span for mark in marks for span in [_span(mark, upright=upright)] if span), key=lambda one: -one[1])
    found = [low]
    while high - found[-1] > room - (head if len(found) > 1 else 0.0) + 1e-6:
        at = found[-1] + room - (head if len(found) > 1 else 0.0)
        for start, end in whole:
            if start - _ROOM < at < end + _ROOM:
                at = start - _ROOM
        if at < found[-1] + room * _LEAST_SHARE:
            return None
        found.append(at)
    return [*found, high]


def _span(mark: Mark, *, upright: bool) -> tuple[float, float] | None:
    """Give from where to where a mark has to stay whole; none for what can be cut."""
    if isinstance(mark, Box | Hatching) or (isinstance(mark, Stroke) and _is_straight(mark)):
        return None
    area = area_of(mark)
    return (area.left, area.right) if upright else (area.top, area.bottom)


def _is_straight(mark: Stroke) -> bool:
    return abs(mark.x1 - mark.x2) < 1e-9 or abs(mark.y1 - mark.y2) < 1e-9


def area_of(mark: Mark) -> Area:
    """Give the ground that a mark takes [mm]."""
    match mark:
        case Words():
            return words_area(mark)
        case Stroke():
            return Area(min(mark.x1, mark.x2), min(mark.y1, mark.y2), max(mark.x1, mark.x2), max(mark.y1, mark.y2))
        case Disc():
            r = mark.radius
            return Area(mark.x - r, mark.y - r, mark.x + r, mark.y + r)
        case Box() | Hatching():
            return Area(mark.x, mark.y, mark.x + mark.width, mark.y + mark.height)
        case Symbol():
            inner = [area_of(part).moved(mark.x, mark.y) for part in mark.marks] or [
                Area(mark.x, mark.y, mark.x, mark.y)
            ]
            return Area(
                min(a.left for a in inner),
                min(a.top for a in inner),
                max(a.right for a in inner),
                max(a.bottom for a in inner),
            )


def _on_sheet(move: tuple[float, float], marks: Sequence[Mark], frame: Frame, cell: Area) -> Iterator[Mark]:
    """Give the part of a picture in one cell, moved to its sheet."""
    x, y = move
    if _has_head(frame, cell):
        yield from (moved(mark, x, y + cell.top - frame.head) for mark in frame.heads)
    for mark in frame.repeated:
        kept = _clipped(mark, Area(-1e9, cell.top, 1e9, cell.bottom))
        if kept is not None:
            yield moved(kept, x + cell.left - frame.area.left, y)
    for mark in marks:
        kept = _clipped(mark, cell)
        if kept is not None:
            yield moved(kept, x, y)


def _has_head(frame: Frame, cell: Area) -> bool:
    return frame.head > 0 and frame.area.top < cell.top < frame.heads_until


def _move(sheet: Sheet, around: Around, frame: Frame, cell: Area, *, single: bool) -> tuple[float, float]:
    """Give by how much a cell is moved: one alone stands in the middle of its sheet."""
    room = content(sheet, bare=around.bare)
    left, top = room.left + AIR + frame.side, room.top + AIR
    if single:
        left += max((room.width - 2 * AIR - frame.side - cell.width) / 2, 0.0)
        top += max((room.height - 2 * AIR - cell.height) / 2, 0.0)
        return left - cell.left, top - cell.top
    head = frame.head if _has_head(frame, cell) else 0.0
    return left - cell.left, top + MATCH + head - cell.top


def _clipped(mark: Mark, cell: Area) -> Mark | None:
    """Give what of a mark lies in a cell."""
    area = area_of(mark)
    if cell.holds(area, _SLACK if not isinstance(mark, Stroke | Box | Hatching) else 1e-6):
        return mark
    if _span(mark, upright=True) is not None:
        middle = (area.left + area.right) / 2, (area.top + area.bottom) / 2
        return mark if cell.left <= middle[0] < cell.right and cell.top <= middle[1] < cell.bottom else None
    left, right = max(area.left, cell.left), min(area.right, cell.right)
    top, bottom = max(area.top, cell.top), min(area.bottom, cell.bottom)
    if left > right or top > bottom:
        return None
    if isinstance(mark, Stroke):
        flip_x, flip_y = mark.x1 > mark.x2, mark.y1 > mark.y2
        x1, x2 = (right, left) if flip_x else (left, right)
        y1, y2 = (bottom, top) if flip_y else (top, bottom)
        return None if abs(x1 - x2) + abs(y1 - y2) < 1e-9 else mark._replace(x1=x1, y1=y1, x2=x2, y2=y2)
    if isinstance(mark, Box | Hatching):
        return mark._replace(x=left, y=top, width=right - left, height=bottom - top)
    return None


def moved(mark: Mark, x: float, y: float) -> Mark:
    """Give a mark elsewhere."""
    if isinstance(mark, Stroke):
        return mark._replace(x1=mark.x1 + x, y1=mark.y1 + y, x2=mark.x2 + x, y2=mark.y2 + y)
    return mark._replace(x=mark.x + x, y=mark.y + y)
