"""Finds room for the labels of the tree: each takes the first of its places that nothing else occupies."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from enum import IntEnum
from math import inf
from typing import NamedTuple

from linewright.draw.primitives import Anchor, Weight
from linewright.draw.typeface import text_width

_ROW_PX = 24.0
_SHARE_LEFT = {Anchor.START: 0.0, Anchor.MIDDLE: 0.5, Anchor.END: 1.0}
ASCENT, DESCENT = 0.78, 0.22


class Box(NamedTuple):
    """A rectangle on the page [px]."""

    left: float
    top: float
    right: float
    bottom: float

    def meets(self, other: Box) -> bool:
        """Say whether two rectangles share any area."""
        across = self.left < other.right and other.left < self.right
        return across and self.top < other.bottom and other.top < self.bottom


class Place(NamedTuple):
    """Where a label could stand: its anchor point and baseline [px]."""

    x: float
    y: float
    anchor: Anchor = Anchor.START


class Label(NamedTuple):
    """A label that found room."""

    text: str
    place: Place


class Blocked(IntEnum):
    """What stands in the way: nothing, only what may be crossed, or more."""

    FREE = 0
    SOFT = 1
    HARD = 2


class _Strip(NamedTuple):
    """What stands between two heights, from where to where [px]: what bars the way, and what may be crossed."""

    hard: list[tuple[float, float]]
    soft: list[tuple[float, float]]


class Occupied:
    """What of the page is taken.

    Boxes are kept by rows, so that a look-up stays short on a large tree; what stands on the line of a label is kept at
    hand until more is taken, since several of its places are on that line.
    """

    def __init__(self, page: Box) -> None:
        """Start with an empty page."""
        self._page = page
        self._hard: defaultdict[int, list[Box]] = defaultdict(list)
        self._soft: defaultdict[int, list[Box]] = defaultdict(list)
        self._strips: dict[tuple[float, float], _Strip] = {}

    def take(self, box: Box, *, soft: bool = False) -> None:
        """Mark a rectangle as taken; a `soft` one may be crossed where there is no other place."""
        rows = self._soft if soft else self._hard
        for row in _rows(box.top, box.bottom):
            rows[row].append(box)
        self._strips.clear()

    def put(
        self, texts: Sequence[str], places: Sequence[Place], *, size: float, weight: Weight = Weight.REGULAR
    ) -> Label | None:
        """Put the first text that finds room, longest wishes first; none if no place is free for any.

        A place behind something soft is taken where none is free.
        """
        for text in texts:
            place = self._first(text_width(text, size, weight), places, size)
            if place is not None:
                self.take(text_box(text, place, size=size, weight=weight))
                return Label(text, place)
        return None

    def _first(self, width: float, places: Sequence[Place], size: float) -> Place | None:
        """Find the first place that is free for a line of a width [px], else the first behind something soft."""
        behind = None
        for place in places:
            hard, soft = self._strip(place.y, size)
            left = _left(width, place)
            right = left + width
            if _stands(hard, left, right):
                continue
            if not _stands(soft, left, right):
                return place
            behind = behind or place
        return behind

    def put_rows(self, rows: Sequence[str], places: Sequence[Place], *, size: float) -> list[Label]:
        """Put a text in rows, each place being that of the first; nothing if no place is free for all of it."""
        step, widths = size + 1, [text_width(text, size) for text in rows]
        behind: list[Label] = []
        for place in places:
            column = [Label(text, Place(place.x, place.y + i * step, place.anchor)) for i, text in enumerate(rows)]
            blocked = self._worst(column, widths, size)
            if blocked is Blocked.FREE:
                return self._taken(column, size)
            if blocked is Blocked.SOFT and not behind:
                behind = column
        return self._taken(behind, size)

    def _worst(self, column: Sequence[Label], widths: Sequence[float], size: float) -> Blocked:
        found = Blocked.FREE
        for (_, place), width in zip(column, widths, strict=True):
            hard, soft = self._strip(place.y, size)
            left = _left(width, place)
            if _stands(hard, left, left + width):
                return Blocked.HARD
            if _stands(soft, left, left + width):
                found = Blocked.SOFT
        return found

    def _taken(self, column: list[Label], size: float) -> list[Label]:
        for text, place in column:
            self.take(text_box(text, place, size=size))
        return column

    def _strip(self, y: float, size: float) -> _Strip:
        """Give what stands on the line of a label of a size, by its baseline [px]; beyond the page all is taken."""
        found = self._strips.get((y, size))
        if found is None:
            found = self._strips[y, size] = self._between(y - ASCENT * size, y + DESCENT * size)
        return found

    def _between(self, top: float, bottom: float) -> _Strip:
        page = self._page
        if top < page.top or bottom > page.bottom:
            return _Strip([(-inf, inf)], [])
        hard, soft = [(-inf, page.left), (page.right, inf)], []
        for row in _rows(top, bottom):
            hard += [(left, right) for left, high, right, low in self._hard[row] if top < low and high < bottom]
            soft += [(left, right) for left, high, right, low in self._soft[row] if top < low and high < bottom]
        return _Strip(hard, soft)


def _stands(spans: Sequence[tuple[float, float]], left: float, right: float) -> bool:
    """Say whether anything stands between two edges [px]."""
    for start, end in spans:  # noqa: SIM110 - a generator takes longer than the look
        if left < end and start < right:
            return True
    return False


def text_box(text: str, place: Place, *, size: float, weight: Weight = Weight.REGULAR) -> Box:
    """Give the rectangle that a line of text fills."""
    width = text_width(text, size, weight)
    left = _left(width, place)
    return Box(left, place.y - ASCENT * size, left + width, place.y + DESCENT * size)


def _left(width: float, place: Place) -> float:
    return place.x - _SHARE_LEFT[place.anchor] * width


def _rows(top: float, bottom: float) -> range:
    return range(int(top // _ROW_PX), int(bottom // _ROW_PX) + 1)
