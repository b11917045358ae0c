"""Finds room for the labels of the tree: each takes the first of its places that nothing else occupies."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import product
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

    def free(self, box: Box, *, across_soft: bool = False) -> bool:
        """Say whether a rectangle is on the page and meets nothing."""
        page = self._page
        if box.left < page.left or box.right > page.right or box.top < page.top or box.bottom > page.bottom:
            return False
        taken = (item for row in _rows(box) for item in self._rows.get(row, ()))
        return not any(box.meets(other) for other, soft in taken if not (soft and across_soft))

    def put(
        self, texts: Sequence[str], places: Sequence[Place], *, size: float, weight: Weight = Weight.REGULAR
    ) -> Label | None:
        """Put the first text that finds room, longest wishes first; none if no place is free for any."""
        for text, across_soft, place in product(texts, (False, True), places):
            box = text_box(text, place, size=size, weight=weight)
            if self.free(box, across_soft=across_soft):
                self.take(box)
                return Label(text, place)
        return None

    def put_rows(self, rows: Sequence[str], places: Sequence[Place], *, size: float) -> list[Label]:
        """Put a text in rows, each place being that of the first; nothing if no place is free for all of it."""
        step = size + 1
        for across_soft, place in product((False, True), places):
            found = [Label(text, place._replace(y=place.y + i * step)) for i, text in enumerate(rows)]
            boxes = [text_box(label.text, label.place, size=size) for label in found]
            if all(self.free(box, across_soft=across_soft) for box in boxes):
                for box in boxes:
                    self.take(box)
                return found
        return []


def text_box(text: str, place: Place, *, size: float, weight: Weight = Weight.REGULAR) -> Box:
    """Give the rectangle that a line of text fills."""
    width = text_width(text, size, weight)
    left = place.x - {Anchor.START: 0.0, Anchor.MIDDLE: width / 2, Anchor.END: width}[place.anchor]
    return Box(left, place.y - ASCENT * size, left + width, place.y + DESCENT * size)


def _rows(box: Box) -> range:
    return range(int(box.top // _ROW_PX), int(box.bottom // _ROW_PX) + 1)
