"""Finds room for the labels of the tree: each takes the first of its places that nothing else occupies."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from enum import IntEnum
from typing import NamedTuple

from linewright.draw.primitives import Anchor, Weight
from linewright.draw.typeface import text_width

_ROW_PX = 24.0
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


class Occupied:
    """What of the page is taken. Boxes are kept by rows, so that a look-up stays short on a large tree."""

    def __init__(self, page: Box) -> None:
        """Start with an empty page."""
        self._page = page
        self._rows: dict[int, list[tuple[Box, bool]]] = {}

    def take(self, box: Box, *, soft: bool = False) -> None:
        """Mark a rectangle as taken; a `soft` one may be crossed where there is no other place."""
        for row in _rows(box):
            self._rows.setdefault(row, []).append((box, soft))

    def blocked(self, box: Box) -> Blocked:
        """Say what stands in the way of a rectangle."""
        page, (left, top, right, bottom) = self._page, box
        if left < page.left or right > page.right or top < page.top or bottom > page.bottom:
            return Blocked.HARD
        found = Blocked.FREE
        for row in _rows(box):
            for other, soft in self._rows.get(row, ()):
                if left < other[2] and other[0] < right and top < other[3] and other[1] < bottom:
                    if not soft:
                        return Blocked.HARD
                    found = Blocked.SOFT
        return found

    def put(
        self, texts: Sequence[str], places: Sequence[Place], *, size: float, weight: Weight = Weight.REGULAR
    ) -> Label | None:
        """Put the first text that finds room, longest wishes first; none if no place is free for any.

        A place behind something soft is taken where none is free.
        """
        for text in texts:
            width = text_width(text, size, weight)
            found = self._first((_box(width, place, size),) for place in places)
            if found is not None:
                return Label(text, places[found])
        return None

    def put_rows(self, rows: Sequence[str], places: Sequence[Place], *, size: float) -> list[Label]:
        """Put a text in rows, each place being that of the first; nothing if no place is free for all of it."""
        step, widths = size + 1, [text_width(text, size) for text in rows]
        columns = [[place._replace(y=place.y + i * step) for i in range(len(rows))] for place in places]
        found = self._first(
            [_box(width, place, size) for width, place in zip(widths, column, strict=True)] for column in columns
        )
        return [] if found is None else [Label(*one) for one in zip(rows, columns[found], strict=True)]

    def _first(self, options: Iterable[Sequence[Box]]) -> int | None:
        """Take the first of several groups of rectangles of which all are free, else the first behind soft things."""
        behind: tuple[int, Sequence[Box]] | None = None
        for i, boxes in enumerate(options):
            worst = self._worst(boxes)
            if worst is Blocked.FREE:
                return self._taken(i, boxes)
            if worst is Blocked.SOFT and behind is None:
                behind = i, boxes
        return None if behind is None else self._taken(*behind)

    def _worst(self, boxes: Sequence[Box]) -> Blocked:
        found = Blocked.FREE
        for box in boxes:
            state = self.blocked(box)
            if state is Blocked.HARD:
                return state
            found = state if state is Blocked.SOFT else found
        return found

    def _taken(self, i: int, boxes: Sequence[Box]) -> int:
        for box in boxes:
            self.take(box)
        return i


def text_box(text: str, place: Place, *, size: float, weight: Weight = Weight.REGULAR) -> Box:
    """Give the rectangle that a line of text fills."""
    return _box(text_width(text, size, weight), place, size)


def _box(width: float, place: Place, size: float) -> Box:
    x, y, anchor = place
    left = x if anchor is Anchor.START else x - width if anchor is Anchor.END else x - width / 2
    return Box(left, y - ASCENT * size, left + width, y + DESCENT * size)


def _rows(box: Box) -> range:
    return range(int(box.top // _ROW_PX), int(box.bottom // _ROW_PX) + 1)
