"""A page labelled again after changes is labelled as it would be with nothing known."""

from __future__ import annotations

from collections.abc import Callable
from itertools import chain
from random import Random
from typing import TypeVar

import pytest

from linewright.draw.labels import END, MIDDLE, START, Box, InRow, Label, Occupied, Page, Row, Wish, in_rows, page_of
from linewright.draw.primitives import Anchor
from linewright.draw.relabel import UNFILLED, UNLABELLED, Ask, Filled, Labelled, labelled, page_rows

BOX = Box(0.0, 0.0, 500.0, 400.0)
SMALLER = Box(0.0, 0.0, 460.0, 300.0)
SIZE = 10.0
THINGS, CROSSED, ASKS, STEPS = 30, 4, 40, 40

T = TypeVar("T")
Things = list[tuple[InRow, ...]]


def _thing(random: Random) -> tuple[InRow, ...]:
    x, y = random.uniform(-10, 490), random.uniform(-30, 420)
    return tuple(in_rows([Box(x, y, x + random.uniform(1, 80), y + random.choice((2.0, 8.0, 120.0)))]))


def _wish(random: Random) -> Wish:
    x, y = random.uniform(-10, 510), random.uniform(-10, 410)
    anchors: tuple[Anchor, ...] = (START, MIDDLE, END)
    places = [
        (x + random.uniform(-40, 40), y + random.choice((-90, -24, -7, 0, 4, 13, 24)), random.choice(anchors))
        for _ in range(random.randint(1, 7))
    ]
    texts = random.choice(([("12.7 · 6.35, 4.0 m",), ("12.7 · 6.35",)], [("J1",)], [("12.7", "6.35")]))
    return Wish(texts, places, size=SIZE)


def _ask(random: Random) -> Ask:
    return tuple(_wish(random) for _ in range(random.choice((0, 1, 1, 2, 3))))


def _in_turn(box: Box, hard: Things, soft: Things, asks: list[Ask]) -> list[tuple[Label, ...]]:
    """Ask one after the other on an empty page."""
    page = Occupied(box, hard=chain.from_iterable(hard), soft=chain.from_iterable(soft))
    return [next((labels for wish in ask if (labels := page.put(wish))), ()) for ask in asks]


def _content(rows: list[Row]) -> list[tuple[frozenset[object], frozenset[object]]]:
    return [(frozenset(row.hard), frozenset(row.soft)) for row in rows]


class _Sheet:
    """A page that changes a little in every step."""

    def __init__(self, random: Random) -> None:
        self.random, self.box = random, BOX
        self.hard = [_thing(random) for _ in range(THINGS)]
        self.soft = [_thing(random) for _ in range(CROSSED)]
        self.asks = [_ask(random) for _ in range(ASKS)]

    def change(self) -> None:
        random = self.random
        what = random.random()
        if what < 0.4:
            self._other(self.asks, _ask)
        elif what < 0.7:
            self._other(self.hard, _thing)
        elif what < 0.8:
            self._other(self.soft, _thing)
        elif what < 0.85:
            self.box = BOX if self.box is SMALLER else SMALLER
        elif what < 0.9:
            self.asks.insert(random.randrange(len(self.asks)), _ask(random))
        elif what < 0.95:
            self.hard.pop(random.randrange(len(self.hard)))
        if random.random() < 0.3:
            self.change()

    def _other(self, things: list[T], make: Callable[[Random], T]) -> None:
        things[self.random.randrange(len(things))] = make(self.random)


@pytest.mark.parametrize("seed", range(25))
def test_what_is_labelled_again_is_labelled_as_an_empty_page_would_be(seed: int) -> None:
    random = Random(seed)  # noqa: S311 - no secret
    sheet = _Sheet(random)
    page = page_of(sheet.box)
    hard, soft, last = UNFILLED, UNFILLED, UNLABELLED
    before: list[tuple[Filled, Filled, Labelled, Page]] = []
    found_room = 0
    for step in range(STEPS):
        page = page_of(sheet.box)
        if before and random.random() < 0.15:  # somebody takes back what was done: what is kept is of another sheet
            hard, soft, last, _ = random.choice(before)
        hard, soft = hard.by(list(sheet.hard)), soft.by(list(sheet.soft))
        last = last.again(page, page_rows(seed, page, hard, soft), list(sheet.asks))
        before.append((hard, soft, last, page))
        expected = _in_turn(sheet.box, sheet.hard, sheet.soft, sheet.asks)
        assert list(last.labels) == expected, f"step {step}"
        anew = labelled(
            page,
            page_rows("anew", page, UNFILLED.by(list(sheet.hard)), UNFILLED.by(list(sheet.soft))),
            list(sheet.asks),
        )
        assert _content(last.rows()) == _content(anew.rows()), f"step {step}"
        found_room += sum(map(bool, expected))
        sheet.change()
    assert 0.2 < found_room / (STEPS * ASKS) < 0.95


def test_where_nothing_differs_nothing_is_looked_at_again() -> None:
    random = Random(1)  # noqa: S311 - no secret
    things, asks, page = [_thing(random) for _ in range(9)], [_ask(random) for _ in range(9)], page_of(BOX)
    filled = UNFILLED.by(things)
    rows = page_rows("same", page, filled, UNFILLED)
    first = labelled(page, rows, asks)
    assert filled.by(list(things)) is filled
    assert first.again(page, page_rows("same", page, filled, UNFILLED), list(asks)) is first
