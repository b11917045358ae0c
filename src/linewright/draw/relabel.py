"""Labels of a sheet put in turn; of one that was labelled before, only where something differs is looked again.

What stands on a page, and who asks for room on it, is told row by row. After a change most rows hold what they held,
and whoever asks for room among those alone finds what was found before. So every row keeps by whom it was filled, in
turn; an ask is made again where it is another one, or where one of its rows is no longer as it was at its turn.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import defaultdict
from collections.abc import Collection, Hashable, Iterable, Mapping, Sequence
from heapq import heapify, heappop, heappush
from itertools import chain, compress, count, repeat
from operator import is_not, itemgetter
from typing import NamedTuple, TypeAlias

from linewright.draw.labels import Box, Edges, InRow, Label, Page, Row, Wish, page_of, put, row_of
from linewright.model.kept import KeptEach

#: Wishes of which the first that finds room is put.
Ask: TypeAlias = tuple[Wish, ...]
#: The positions of those who reach into each row, in order.
_Reaching: TypeAlias = dict[int, list[int]]
#: A row as it was left by each in turn, by position; before all of them stands what it was at the start.
_Turns: TypeAlias = list[tuple[int, Row]]
_START = -1
#: Where a larger share differs, all is made anew with less work.
_MANY = 0.4
_whose = itemgetter(0)


class Filled(NamedTuple):
    """What fills each row of a page: some things in order, each as it fills its rows."""

    things: Sequence[tuple[InRow, ...]]
    reaching: _Reaching
    boxes: Mapping[int, tuple[Edges, ...]]

    def by(self, things: Sequence[tuple[InRow, ...]]) -> Filled:
        """Fill the page with other things; a row that holds the very same ones is not filled again."""
        if len(self.things) != len(things):
            return _filled(things)
        changed = list(compress(count(), map(is_not, things, self.things)))
        if not changed:
            return self
        if len(changed) > len(things) * _MANY:
            return _filled(things)
        old = [{row for row, _ in self.things[at]} for at in changed]
        new = [{row for row, _ in things[at]} for at in changed]
        reaching = _moved(self.reaching, changed, old, new)
        boxes = dict(self.boxes)
        for row in set().union(*old, *new):
            boxes[row] = tuple([box for at in reaching[row] for of, box in things[at] if of == row])
        return Filled(things, reaching, boxes)


def _filled(things: Sequence[tuple[InRow, ...]]) -> Filled:
    """Fill an empty page."""
    reaching: defaultdict[int, list[int]] = defaultdict(list)
    boxes: defaultdict[int, list[Edges]] = defaultdict(list)
    for at, thing in enumerate(things):
        for row, box in thing:
            boxes[row].append(box)
            if not reaching[row] or reaching[row][-1] != at:
                reaching[row].append(at)
    return Filled(things, dict(reaching), {row: tuple(of_row) for row, of_row in boxes.items()})


def page_rows(name: Hashable, page: Page, hard: Filled, soft: Filled) -> list[Row]:
    """Give the rows of a page of a name on which some things bar the way and others may be crossed."""
    bars, crossed = (map(filled.boxes.get, page.rows, repeat(())) for filled in (hard, soft))
    return _ROWS(name, list(zip(bars, crossed, strict=True)))


#: The rows of the pages before, by name.
_ROWS: KeptEach[Row] = KeptEach(row_of)


#: A page that nothing fills.
UNFILLED = Filled((), {}, {})


class Labelled(NamedTuple):
    """What was asked of a page in turn, and what of it was put.

    page, asks : what the labels are to be put on, and who asked; start : its rows before any
    labels : what was put for each; turns : each row as they left it
    """

    page: Page
    start: Sequence[Row]
    asks: Sequence[Ask]
    labels: Sequence[tuple[Label, ...]]
    reaching: _Reaching
    turns: Mapping[int, _Turns]

    def rows(self) -> list[Row]:
        """Give the rows of the page with all that was put."""
        return [self.turns[row][-1][1] for row in self.page.rows]

    def again(self, page: Page, start: Sequence[Row], asks: Sequence[Ask]) -> Labelled:
        """Label a page that begins with such rows, for those who ask in turn."""
        if page is not self.page or len(asks) != len(self.asks):
            return labelled(page, start, asks)
        changed = list(compress(count(), map(is_not, asks, self.asks)))
        rows = set(compress(page.rows, map(is_not, start, self.start)))
        if not changed and not rows:
            return self
        if len(changed) > len(asks) * _MANY or len(rows) > len(start) * _MANY:
            return labelled(page, start, asks)
        old = [_rows_of(page, self.asks[at]) for at in changed]
        new = [_rows_of(page, asks[at]) for at in changed]
        reaching = _moved(self.reaching, changed, old, new)
        turn = _Turn(self, asks, reaching)
        turn.begin(changed, rows.union(*old, *new), start)
        turn.take()
        return Labelled(page, start, asks, turn.labels, reaching, {**self.turns, **turn.turns})


def labelled(page: Page, start: Sequence[Row], asks: Sequence[Ask]) -> Labelled:
    """Label a page of which nothing is known yet."""
    turns: dict[int, _Turns] = {row: [(_START, now)] for row, now in zip(page.rows, start, strict=True)}
    reaching: _Reaching = {row: [] for row in page.rows}
    found = []
    for at, ask in enumerate(asks):
        labels: tuple[Label, ...] = ()
        for row in _rows_of(page, ask):
            reaching[row].append(at)
        for wish in ask:
            labels, taken = put(page, wish, *[turns[row][-1][1] for row in wish.rows_on(page)])
            if labels:
                for row, now in taken:
                    turns[row].append((at, now))
                break
        found.append(labels)
    return Labelled(page, start, asks, found, reaching, turns)


#: A page on which nothing was asked for.
UNLABELLED = Labelled(page_of(Box(0.0, 0.0, 0.0, 0.0)), (), (), (), {}, {})


class _Turn:
    """Asks that are made again, one after the other, and the rows that are no longer what they were at some turn."""

    def __init__(self, before: Labelled, asks: Sequence[Ask], reaching: _Reaching) -> None:
        self._before, self._asks, self._reaching = before, asks, reaching
        self.labels = list(before.labels)
        self.turns: dict[int, _Turns] = {}
        self._waiting: list[int] = []

    def begin(self, changed: Sequence[int], rows: Collection[int], start: Sequence[Row]) -> None:
        """Have those asks made again that differ, and all who reach into rows that do."""
        first = self._before.page.rows.start
        self.turns = {row: [(_START, start[row - first])] for row in rows}
        self._waiting = [*changed, *chain.from_iterable(self._reaching.get(row, ()) for row in rows)]
        heapify(self._waiting)

    def take(self) -> None:
        """Make every ask again that waits, and those whose rows differ by what came of it."""
        last = _START
        while self._waiting:
            at = heappop(self._waiting)
            if at != last:
                last = at
                self._note(at, self._put(at))

    def _put(self, at: int) -> dict[int, Row]:
        """Make an ask; give the rows that its label fills."""
        page = self._before.page
        self.labels[at] = ()
        for wish in self._asks[at]:
            labels, taken = put(page, wish, *[self._row(row, at) for row in wish.rows_on(page)])
            if labels:
                self.labels[at] = labels
                return dict(taken)
        return {}

    def _row(self, row: int, at: int) -> Row:
        """Give a row as it is when it is the turn of `at`."""
        found = self.turns.get(row)
        return found[-1][1] if found is not None else _before(self._before.turns[row], at)

    def _note(self, at: int, taken: Mapping[int, Row]) -> None:
        for row in self._asked_rows(at):
            now, turns = taken.get(row), self.turns.get(row)
            if turns is None and not self._is_as_it_was(row, at, now):
                turns = self._opened(row, at)
            if turns is not None and now is not None:
                turns.append((at, now))

    def _asked_rows(self, at: int) -> Iterable[int]:
        return _rows_of(self._before.page, self._asks[at])

    def _is_as_it_was(self, row: int, at: int, now: Row | None) -> bool:
        """Say whether a row, which was as before until this turn, is left as it was left before."""
        turns = self._before.turns[row]
        place = bisect_left(turns, at, key=_whose)
        was = turns[place][1] if place < len(turns) and turns[place][0] == at else None
        return now is was or (now is not None and was is not None and now.hard == was.hard and now.soft == was.soft)

    def _opened(self, row: int, at: int) -> _Turns:
        """Note that a row is no longer what it was from this turn on: whoever reaches into it later asks again."""
        turns = self._before.turns[row]
        self.turns[row] = turns[: bisect_left(turns, at, key=_whose)]
        for later in self._reaching[row]:
            if later > at:
                heappush(self._waiting, later)
        return self.turns[row]


def _before(turns: _Turns, at: int) -> Row:
    """Give a row as it was left by whoever came last before `at`."""
    return turns[bisect_left(turns, at, key=_whose) - 1][1]


def _rows_of(page: Page, ask: Ask) -> Collection[int]:
    return ask[0].rows_on(page) if len(ask) == 1 else set().union(*[wish.rows_on(page) for wish in ask])


def _moved(
    before: _Reaching, changed: Sequence[int], old: Sequence[Iterable[int]], new: Sequence[Iterable[int]]
) -> _Reaching:
    """Have some of those who reach into rows reach into others."""
    found = dict(before)
    for row in set().union(*old, *new):
        found[row] = list(before.get(row, ()))
    for at, rows in zip(changed, old, strict=True):
        for row in rows:
            found[row].remove(at)
    for at, rows in zip(changed, new, strict=True):
        for row in rows:
            found[row].append(at)
    for row in set().union(*new):
        found[row].sort()
    return found
