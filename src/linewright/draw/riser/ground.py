"""The ground that a drawing takes, and how far to the right something must go to be clear of it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from math import floor

from linewright.draw.paper.lettering import Area
from linewright.draw.riser.pieces import Point

#: What stands beside something else keeps so far from it [mm].
APART = 1.4
_MOST_TRIES = 400
_CLOSE, _CLEAR, _THICK = 0.2, 2.0, 0.8
_STEP, _MOST_STEPS = 3.0, 14
_TINY = 1e-6
#: What is taken is noted by rows of such a height [mm].
_ROW = 6.0


class Ground:
    """Areas that are taken: by words and symbols, or by pipe, which may be crossed where it has to be.

    Gutters are where one sheet ends and the next begins: pipe crosses them, nothing else stands on them.
    """

    def __init__(self) -> None:
        """Start with nothing taken."""
        self.gutters: list[Area] = []
        self.solid: list[Area] = []
        self.pipe: list[Area] = []
        self._rows: defaultdict[int, list[Area]] = defaultdict(list)

    def take(self, solid: Iterable[Area], pipe: Iterable[Area] = ()) -> None:
        """Take areas."""
        for taken, areas in ((self.solid, solid), (self.pipe, pipe)):
            for area in areas:
                taken.append(area)
                for row in _rows(area.top, area.bottom):
                    self._rows[row].append(area)

    def give_back(self, solid: int, pipe: int) -> None:
        """Take no more than so many areas, those that were taken first."""
        for taken, most in ((self.solid, solid), (self.pipe, pipe)):
            for area in taken[most:]:
                for row in _rows(area.top, area.bottom):
                    self._rows[row].remove(area)
            del taken[most:]

    def clear(self, areas: Sequence[Area], own: Sequence[Area] = ()) -> float:
        """Give the least way to the right at which areas are clear of all that is taken [mm], as far as tried.

        own : further ground that is as good as taken
        """
        bars = [bar for area in areas for bar in self._bars_before(area, own)]
        way = 0.0
        for _ in range(_MOST_TRIES):
            beyond = max([end for start, end in bars if start < way < end], default=way)
            if beyond <= way:
                break
            way = beyond + _TINY
        return way

    def _bars_before(self, area: Area, own: Sequence[Area]) -> list[tuple[float, float]]:
        """Give from which way to which an area that is moved to the right comes too close to something [mm].

        Only to what is beside it in height, and not behind it already: of a large drawing that is little.
        """
        left, right = area.left - APART, area.right + APART
        top, bottom = area.top - APART, area.bottom + APART
        beside = [self._rows[row] for row in _rows(top, bottom)]
        return [
            (other.left - right, other.right - left)
            for taken in (self.gutters, *beside, own)
            for other in taken
            if other.right > left and other.bottom > top and other.top < bottom
        ]

    def barred(self, area: Area) -> bool:
        """Say whether words or a symbol stand on an area."""
        return any(area.meets(other, _CLOSE) for other in self.solid)

    def bars(self, area: Area) -> list[Area]:
        """Give what stands on an area."""
        return [other for other in self.solid if area.meets(other, _CLOSE)]


def _rows(top: float, bottom: float) -> range:
    """Give the rows into which heights on paper reach [mm]."""
    return range(floor(top / _ROW), floor(bottom / _ROW) + 1)


def detour(ground: Ground, start: float, end: Point, own: Sequence[Area] = ()) -> tuple[Point, ...] | None:
    """Lead a level pipe around words and symbols in its way, above or below them.

    own : ground of its own words
    Gives the corners, none where the way is free, `None` where no way around was found.
    """
    left, right = start + _CLEAR, end.x - _CLEAR
    bars = ground.bars(Area(left, end.y - _THICK, right, end.y + _THICK)) if right > left else []
    if not bars:
        return ()
    first, last = min(one.left for one in bars) - _CLEAR, max(one.right for one in bars) + _CLEAR
    for a, b, y in _tries(left, right, first, last):
        ways = (
            Area(a, end.y + y - _THICK, b, end.y + y + _THICK),
            Area(a - _THICK, min(end.y + y, end.y), a + _THICK, max(end.y + y, end.y)),
            Area(b - _THICK, min(end.y + y, end.y), b + _THICK, max(end.y + y, end.y)),
        )
        if not any(ground.barred(way) or any(way.meets(one) for one in own) for way in ways):
            return Point(a, end.y), Point(a, end.y + y), Point(b, end.y + y), Point(b, end.y)
    return None


def _tries(left: float, right: float, first: float, last: float) -> Iterator[tuple[float, float, float]]:
    """Give where to leave the way, where to come back to it, and how far from it to go [mm], the nearest first."""
    for step in range(1, _MOST_STEPS):
        for wide in range(0, 18, 6):
            a, b = max(first - wide, left), min(last + wide, right)
            if b - a > _CLEAR:
                yield a, b, -step * _STEP
                yield a, b, step * _STEP
