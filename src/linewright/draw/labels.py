"""Finds room for the labels of the tree: each takes the first of its places that nothing else occupies."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Sequence
from enum import IntEnum
from math import inf
from typing import NamedTuple, TypeAlias

from linewright.draw.primitives import Anchor, Weight
from linewright.draw.typeface import text_width

_ROW_PX = 24.0
START, MIDDLE, END = Anchor
_SHARE_LEFT = {START: 0.0, MIDDLE: 0.5, END: 1.0}
ASCENT, DESCENT = 0.78, 0.22


#: Left, top, right and bottom of a rectangle, such as a `Box` [px].
Edges: TypeAlias = tuple[float, float, float, float]


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


#: Where a label could stand: its anchor point and baseline [px], and which point of it that is.
Place: TypeAlias = tuple[float, float, Anchor]


class Label(NamedTuple):
    """A label that found room: its anchor point and baseline [px], and which point of it that is."""

    text: str
    x: float
    y: float
    anchor: Anchor


class Blocked(IntEnum):
    """What stands in the way: nothing, only what may be crossed, or more."""

    FREE = 0
    SOFT = 1
    HARD = 2


#: From where to where something stands [px].
_Span: TypeAlias = tuple[float, float]
#: What stands between two heights: what bars the way, and what may be crossed.
_Strip: TypeAlias = tuple[list[_Span], list[_Span]]


class Occupied:
    """What of the page is taken.

    Boxes are kept by rows, so that a look-up stays short on a large tree; what stands on the line of a label is kept at
    hand until more is taken, since several of its places are on that line.
    """

    def __init__(self, page: Box) -> None:
        """Start with an empty page."""
        self._page = page
        self._hard: defaultdict[int, list[Edges]] = defaultdict(list)
        self._soft: defaultdict[int, list[Edges]] = defaultdict(list)
        self._strips: dict[tuple[float, float], _Strip] = {}

    def take(self, box: Edges, *, soft: bool = False) -> None:
        """Mark a rectangle as taken; a `soft` one may be crossed where there is no other place."""
        rows = self._soft if soft else self._hard
        for row in _rows(box[1], box[3]):
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
                return Label(text, *place)
        return None

    def _first(self, width: float, places: Sequence[Place], size: float) -> Place | None:
        """Find the first place that is free for a line of a width [px], else the first behind something soft."""
        behind = None
        for place in places:
            x, y, anchor = place
            hard, soft = self._strips.get((y, size)) or self._strip(y, size)
            left = x - _SHARE_LEFT[anchor] * width
            if _stands(hard, left, left + width):
                continue
            if not _stands(soft, left, left + width):
                return place
            behind = behind or place
        return behind

    def put_rows(self, rows: Sequence[str], places: Sequence[Place], *, size: float) -> list[Label]:
        """Put a text in rows, each place being that of the first; nothing if no place is free for all of it."""
        step, widths = size + 1, [text_width(text, size) for text in rows]
        behind: list[Place] = []
        for x, y, anchor in places:
            column = [(x, y + i * step, anchor) for i in range(len(rows))]
            blocked = self._worst(column, widths, size)
            if blocked is Blocked.FREE:
                return self._taken(rows, column, size)
            if blocked is Blocked.SOFT and not behind:
                behind = column
        return self._taken(rows, behind, size) if behind else []

    def _worst(self, column: Sequence[Place], widths: Sequence[float], size: float) -> Blocked:
        found = Blocked.FREE
        for (x, y, anchor), width in zip(column, widths, strict=True):
            hard, soft = self._strips.get((y, size)) or self._strip(y, size)
            left = x - _SHARE_LEFT[anchor] * width
            if _stands(hard, left, left + width):
                return Blocked.HARD
            if _stands(soft, left, left + width):
                found = Blocked.SOFT
        return found

    def _taken(self, rows: Sequence[str], column: Sequence[Place], size: float) -> list[Label]:
        for text, place in zip(rows, column, strict=True):
            self.take(text_box(text, place, size=size))
        return [Label(text, *place) for text, place in zip(rows, column, strict=True)]

    def _strip(self, y: float, size: float) -> _Strip:
        """Give what stands on the line of a label of a size, by its baseline [px]; beyond the page all is taken."""
        found = self._strips[y, size] = self._between(y - ASCENT * size, y + DESCENT * size)
        return found

    def _between(self, top: float, bottom: float) -> _Strip:
        page = self._page
        if top < page.top or bottom > page.bottom:
            return [(-inf, inf)], []
        hard: list[_Span] = [(-inf, page.left), (page.right, inf)]
        soft: list[_Span] = []
        for row in _rows(top, bottom):
            hard += [(left, right) for left, high, right, low in self._hard[row] if top < low and high < bottom]
            soft += [(left, right) for left, high, right, low in self._soft[row] if top < low and high < bottom]
        return hard, soft


def _stands(spans: Sequence[_Span], left: float, right: float) -> bool:
    """Say whether anything stands between two edges [px]."""
    for start, end in spans:  # noqa: SIM110 - a generator takes longer than the look
        if left < end and start < right:
            return True
    return False


def text_box(text: str, place: Place, *, size: float, weight: Weight = Weight.REGULAR) -> Box:
    """Give the rectangle that a line of text fills."""
    x, y, anchor = place
    width = text_width(text, size, weight)
    left = x - _SHARE_LEFT[anchor] * width
    return Box(left, y - ASCENT * size, left + width, y + DESCENT * size)


def _rows(top: float, bottom: float) -> range:
    return range(int(top // _ROW_PX), int(bottom // _ROW_PX) + 1)
