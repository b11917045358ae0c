"""Finds room for the labels of the tree: each takes the first of its places that nothing else occupies.

A sheet is drawn again after every change, and most of what stands on it stands where it did. So what is taken of a row
of the page is a value of its own, the same one wherever the same was taken in the same order, and what was found for a
label among some rows is found again without a look.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from enum import IntEnum
from functools import lru_cache
from math import inf
from typing import NamedTuple, TypeAlias

from linewright.draw.primitives import Anchor, Weight
from linewright.draw.typeface import text_width

#: Rows, and labels among rows, that are kept at hand: a sheet of 64 units has some 400 of each.
MOST_KNOWN = 4000
_ROW_PX = 24.0
# Places no farther apart than this leave no row between them out.
_CLOSE_PX = 3 * _ROW_PX
ASCENT, DESCENT = 0.78, 0.22
START, MIDDLE, END = Anchor
_SHARE_LEFT = {START: 0.0, MIDDLE: 0.5, END: 1.0}

#: Left, top, right and bottom of a rectangle, such as a `Box` [px].
Edges: TypeAlias = tuple[float, float, float, float]
#: Where a label could stand: its anchor point and baseline [px], and which point of it that is.
Place: TypeAlias = tuple[float, float, Anchor]
#: What fills part of a row of the page: the row's number, and the whole of what stands there [px].
InRow: TypeAlias = tuple[int, Edges]
#: From where to where something stands [px].
_Span: TypeAlias = tuple[float, float]
#: What stands between two heights: what bars the way, and what may be crossed.
_Strip: TypeAlias = tuple[list[_Span], list[_Span]]


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


class Wish:
    """What is to be put on the page, once: texts, each in rows, where the first row could stand, and how large.

    The first text that finds room at any place is taken. Whoever asks again for the same had better give the very same
    wish: what was found for it is known by that.
    """

    __slots__ = ("_rows", "options", "places", "size", "weight", "widths")

    def __init__(
        self,
        options: Sequence[tuple[str, ...]],
        places: Sequence[Place],
        *,
        size: float,
        weight: Weight = Weight.REGULAR,
    ) -> None:
        """Note as well how wide it is, and which rows of the page it could reach; one place and one text at least."""
        self.options, self.places, self.size, self.weight = tuple(options), tuple(places), size, weight
        self.widths = [[text_width(text, size, weight) for text in texts] for texts in options]
        lines = max([len(texts) for texts in options])
        self._rows = _rows_reached([y for _, y, _ in places], size, lines)

    def rows_on(self, page: Page) -> tuple[int, ...]:
        """Give the numbers of the rows of a page that it could reach."""
        if self._rows[0] >= page.rows.start and self._rows[-1] < page.rows.stop:
            return self._rows
        return tuple([row for row in self._rows if row in page.rows])


def _rows_reached(heights: Sequence[float], size: float, lines: int) -> tuple[int, ...]:
    """Give the rows of the page that so many lines of text reach, the first of them at one of some heights [px]."""
    low, below = ASCENT * size, (lines - 1) * (size + 1) + DESCENT * size
    top, bottom = min(heights) - low, max(heights) + below
    if bottom - top < _CLOSE_PX:
        return tuple(_rows(top, bottom))
    return tuple(sorted({row for y in heights for row in _rows(y - low, y + below)}))


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


FREE, SOFT, HARD = Blocked


class Row:
    """What is taken of one row of the page; made by `row_of` and `put` alone, so that the same is the very same."""

    __slots__ = ("hard", "soft")

    def __init__(self, hard: tuple[Edges, ...], soft: tuple[Edges, ...]) -> None:
        """Keep what bars the way, and what may be crossed."""
        self.hard, self.soft = hard, soft


@lru_cache(maxsize=MOST_KNOWN)
def row_of(hard: tuple[Edges, ...], soft: tuple[Edges, ...]) -> Row:
    """Give the row of which so much is taken."""
    return Row(hard, soft)


class Page:
    """A page: its edges [px], the numbers of its rows; made by `page_of` alone, so that the same is the very same."""

    __slots__ = ("box", "rows")

    def __init__(self, box: Box) -> None:
        """Keep its edges, and note its rows."""
        self.box, self.rows = box, _rows(box.top, box.bottom)


@lru_cache(maxsize=MOST_KNOWN)
def page_of(box: Box) -> Page:
    """Give the page with such edges."""
    return Page(box)


class _Around(NamedTuple):
    """The page, and what is taken of some rows of it, by number."""

    page: Box
    rows: Mapping[int, Row]


class Occupied:
    """What of the page is taken, by rows, so that a look-up stays short on a large tree."""

    def __init__(self, page: Box, *, hard: Iterable[InRow] = (), soft: Iterable[InRow] = ()) -> None:
        """Start with what is on the page; what is `soft` may be crossed where there is no other place."""
        self._page = page_of(page)
        bars, crossed = _by_row(hard), _by_row(soft)
        self._first, end = self._page.rows.start, self._page.rows.stop
        self._rows = [row_of(tuple(bars.get(row, ())), tuple(crossed.get(row, ()))) for row in range(self._first, end)]

    def put(self, wish: Wish) -> tuple[Label, ...]:
        """Put the first text that finds room, row by row; nothing if no place is free for any.

        A place behind something soft is taken where none is free.
        """
        first, rows = self._first, self._rows
        labels, taken = put(self._page, wish, *[rows[row - first] for row in wish.rows_on(self._page)])
        for row, now in taken:
            rows[row - first] = now
        return labels


#: The lines of a label, and the rows of the page as they are with them; nothing of either where there is no room.
_Put: TypeAlias = tuple[tuple[Label, ...], tuple[tuple[int, Row], ...]]


@lru_cache(maxsize=MOST_KNOWN)
def put(page: Page, wish: Wish, *rows: Row) -> _Put:
    """Put the first text of a wish that finds room among the rows of the page that it could reach (`rows_on`)."""
    around = dict(zip(wish.rows_on(page), rows, strict=True))
    found = _first(_Around(page.box, around), wish)
    if found is None:
        return (), ()
    x, y, anchor = wish.places[found[1]]
    size, weight = wish.size, wish.weight
    labels = tuple([Label(text, x, y + i * (size + 1), anchor) for i, text in enumerate(wish.options[found[0]])])
    taken: dict[int, Row] = {}
    for row, box in in_rows(text_box(one.text, (x, one.y, anchor), size=size, weight=weight) for one in labels):
        before = taken.get(row) or around[row]
        taken[row] = Row((*before.hard, box), before.soft)
    return labels, tuple(taken.items())


def _first(around: _Around, wish: Wish) -> tuple[int, int] | None:
    """Find the first of several texts in rows that finds room, and the first place that is free for it."""
    strips = _Strips(around, wish.size)
    for n, widths in enumerate(wish.widths):
        place = _first_place(strips, widths, wish.places, wish.size + 1)
        if place is not None:
            return n, place
    return None


def _first_place(strips: _Strips, widths: Sequence[float], places: Sequence[Place], step: float) -> int | None:
    """Find the first place at which rows of some widths are free, else the first behind something soft."""
    behind = None
    first, *others = widths
    for i, (x, y, anchor) in enumerate(places):
        worst = _blocked(strips[y], x - _SHARE_LEFT[anchor] * first, first)
        for n, width in enumerate(others, start=1):
            if worst is not HARD:
                worst = max(worst, _blocked(strips[y + n * step], x - _SHARE_LEFT[anchor] * width, width))
        if worst is FREE:
            return i
        if worst is SOFT and behind is None:
            behind = i
    return behind


class _Strips(dict[float, _Strip]):
    """What stands on the line of a label, by its baseline [px]; beyond the page all is taken."""

    def __init__(self, around: _Around, size: float) -> None:
        super().__init__()
        self._around, self._size = around, size

    def __missing__(self, y: float) -> _Strip:
        page, rows = self._around
        top, bottom = y - ASCENT * self._size, y + DESCENT * self._size
        if top < page.top or bottom > page.bottom:
            found: _Strip = [(-inf, inf)], []
        else:
            hard, soft = [(-inf, page.left), (page.right, inf)], []
            for row in [rows[number] for number in _rows(top, bottom)]:
                hard += _between(row.hard, top, bottom)
                if row.soft:
                    soft += _between(row.soft, top, bottom)
            found = hard, soft
        self[y] = found
        return found


def _between(boxes: Iterable[Edges], top: float, bottom: float) -> list[_Span]:
    return [(left, right) for left, high, right, low in boxes if top < low and high < bottom]


def _blocked(strip: _Strip, left: float, width: float) -> Blocked:
    """Say what stands in the way of a label [px]."""
    right = left + width
    for start, end in strip[0]:
        if left < end and start < right:
            return HARD
    for start, end in strip[1]:
        if left < end and start < right:
            return SOFT
    return FREE


def text_box(text: str, place: Place, *, size: float, weight: Weight = Weight.REGULAR) -> Box:
    """Give the rectangle that a line of text fills."""
    x, y, anchor = place
    width = text_width(text, size, weight)
    left = x - _SHARE_LEFT[anchor] * width
    return Box(left, y - ASCENT * size, left + width, y + DESCENT * size)


def in_rows(boxes: Iterable[Edges]) -> list[InRow]:
    """Give each rectangle with the number of every row that it reaches into."""
    return [(row, box) for box in boxes for row in _rows(box[1], box[3])]


def _by_row(boxes: Iterable[InRow]) -> dict[int, list[Edges]]:
    found: defaultdict[int, list[Edges]] = defaultdict(list)
    for row, box in boxes:
        found[row].append(box)
    return found


def _rows(top: float, bottom: float) -> range:
    return range(int(top // _ROW_PX), int(bottom // _ROW_PX) + 1)
