"""Where a picture that is larger than its sheet is cut, and which of its parts stand together on one sheet.

Parts of a low picture stand one below another on a sheet as far as they go; sheets are as full as one another, so that
none is nearly empty; what would hold nothing but levels is no sheet.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
from typing import NamedTuple

from linewright.draw.paper.around import AIR
from linewright.draw.paper.extent import area_of, clipped, span
from linewright.draw.paper.lettering import Area
from linewright.draw.paper.marks import Layer, Mark

#: Room for the words at a match line [mm].
MATCH = 5.0
_LEAST_SHARE = 0.35
_ROOM = 1.2
#: So many sizes are tried between the least and the largest, to make parts as large as one another.
_STEPS = 12
_GROUND = (Layer.LEVEL, Layer.HEIGHT)


class Frame(NamedTuple):
    """How a picture may be divided: its ground [mm], and marks at its left that every part repeats, with their width.

    cuts : where it is to be cut from side to side [mm], because it was arranged for that
    heads, head : what stands again on top of every further part, and how much room that takes [mm]
    heads_until : below here nothing wants those heads [mm]
    """

    area: Area
    side: float = 0.0
    repeated: tuple[Mark, ...] = ()
    cuts: tuple[float, ...] = ()
    heads: tuple[Mark, ...] = ()
    head: float = 0.0
    heads_until: float = 0.0

    def head_of(self, part: Area) -> float:
        """Give the height of the heads that stand on top of a part [mm]."""
        return self.head if self.area.top < part.top < self.heads_until else 0.0


class Division(NamedTuple):
    """Where a picture is cut, from its first edge to its last [mm], and its parts (row and column) by sheet."""

    xs: tuple[float, ...]
    ys: tuple[float, ...]
    sheets: tuple[tuple[tuple[int, int], ...], ...]

    @property
    def whole(self) -> bool:
        """Say whether the picture is not cut."""
        return len(self.xs) == len(self.ys) == 2

    def part(self, row: int, column: int) -> Area:
        """Give the ground of a part [mm]."""
        return Area(self.xs[column], self.ys[row], self.xs[column + 1], self.ys[row + 1])


def division(marks: Sequence[Mark], frame: Frame, room: Area) -> Division | None:
    """Find where a picture is cut so that it fits a room; none where that would cut words or symbols."""
    area = frame.area
    width, height = room.width - 2 * AIR - frame.side, room.height - 2 * AIR
    if area.width > width + 1e-6 or area.height > height + 1e-6:
        height -= 2 * MATCH
    if height <= 0 or width <= 0:
        return None
    xs = [area.left, *frame.cuts, area.right] if frame.cuts else _even(_Axis(marks, area, upright=True), width)
    ys = _even(_Axis([*marks, *frame.repeated], area, upright=False, head=frame.head), height)
    if xs is None or ys is None:
        return None
    return _on_sheets(Division(tuple(xs), tuple(ys), ()), marks, frame, room.height - 2 * AIR)


def _on_sheets(cuts: Division, marks: Sequence[Mark], frame: Frame, height: float) -> Division:
    """Put the parts on sheets, one below another as far as they go."""
    rows, columns = len(cuts.ys) - 1, len(cuts.xs) - 1
    parts = list(product(range(rows), range(columns)))
    if rows > 1 and columns > 1:
        parts = [one for one in parts if _is_worth_a_sheet(marks, cuts.part(*one))]
    sheets: list[list[tuple[int, int]]] = []
    left = 0.0
    for one in parts:
        part = cuts.part(*one)
        needed = taken(part, frame)
        if not sheets or needed > left + 1e-6:
            sheets.append([])
            left = height
        sheets[-1].append(one)
        left -= needed
    return cuts._replace(sheets=tuple(tuple(sheet) for sheet in sheets))


def taken(part: Area, frame: Frame) -> float:
    """Give the height that a part takes with its match lines and its heads [mm]."""
    return part.height + 2 * MATCH + frame.head_of(part)


def shares(cuts: Division, marks: Sequence[Mark], frame: Frame, room: Area) -> tuple[float, ...]:
    """Give how much of each sheet is used: the ground of what is drawn in its parts, levels aside, by its room."""
    whole = (room.width - 2 * AIR - frame.side) * (room.height - 2 * AIR)
    grounds = [area_of(mark) for mark in marks if mark.layer not in _GROUND]
    return tuple(sum(_used(grounds, cuts.part(*one)) for one in sheet) / whole for sheet in cuts.sheets)


def _used(grounds: Sequence[Area], part: Area) -> float:
    """Give the ground that things take together in a part, from the first to the last of them [mm2]."""
    inside = [one for one in grounds if part.meets(one)]
    if not inside:
        return 0.0
    left, top = min(one.left for one in inside), min(one.top for one in inside)
    right, bottom = max(one.right for one in inside), max(one.bottom for one in inside)
    width = min(right, part.right) - max(left, part.left)
    return width * (min(bottom, part.bottom) - max(top, part.top))


def _is_worth_a_sheet(marks: Sequence[Mark], part: Area) -> bool:
    return any(mark.layer not in _GROUND and clipped(mark, part) is not None for mark in marks)


class _Axis(NamedTuple):
    """What is cut along one axis: the marks, the ground [mm], the head of every further part [mm]."""

    marks: Sequence[Mark]
    area: Area
    upright: bool
    head: float = 0.0

    @property
    def ends(self) -> tuple[float, float]:
        return (self.area.left, self.area.right) if self.upright else (self.area.top, self.area.bottom)

    @property
    def whole(self) -> list[tuple[float, float]]:
        """Give from where to where stands what has to stay whole [mm], the farthest out first."""
        spans = (span(mark, upright=self.upright) for mark in self.marks)
        return sorted((one for one in spans if one), key=lambda one: -one[1])


def _even(axis: _Axis, room: float) -> list[float] | None:
    """Give where a picture is cut along one axis: as seldom as can be, into parts as large as one another."""
    whole = axis.whole
    first = _cuts(axis, whole, room)
    low, high = axis.ends
    if first is None or len(first) <= 2 or axis.head:
        return first
    least = (high - low) / (len(first) - 1)
    for step in range(_STEPS):
        found = _cuts(axis, whole, least + (room - least) * step / _STEPS)
        if found is not None and len(found) == len(first):
            return found
    return first


def _cuts(axis: _Axis, whole: Sequence[tuple[float, float]], room: float) -> list[float] | None:
    """Give where a picture is cut along one axis: as far out as it goes, and through nothing that has to stay whole."""
    low, high = axis.ends
    found = [low]
    while high - found[-1] > room - (axis.head if len(found) > 1 else 0.0) + 1e-6:
        at = found[-1] + room - (axis.head if len(found) > 1 else 0.0)
        for start, end in whole:
            if start - _ROOM < at < end + _ROOM:
                at = start - _ROOM
        if at < found[-1] + room * _LEAST_SHARE:
            return None
        found.append(at)
    return [*found, high]
