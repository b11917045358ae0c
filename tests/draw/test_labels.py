"""Room for labels: what is found is what a look at every box would find, however often it is asked."""

from __future__ import annotations

from random import Random

import pytest

from linewright.draw.labels import END, MIDDLE, START, Box, Occupied, Place, Wish, in_rows, text_box
from linewright.draw.primitives import Anchor

PAGE = Box(0.0, 0.0, 400.0, 300.0)
SIZE = 10.0


class _Naive:
    """Every box against every other."""

    def __init__(self, hard: list[Box], soft: list[Box]) -> None:
        self.hard, self.soft = list(hard), soft

    def put(self, texts: tuple[str, ...], places: list[Place]) -> tuple[str, Place] | None:
        for text in texts:
            behind = None
            for place in places:
                box = text_box(text, place, size=SIZE)
                if self._is_outside(box) or any(box.meets(other) for other in self.hard):
                    continue
                if not any(box.meets(other) for other in self.soft):
                    return self._taken(text, place)
                behind = behind or place
            if behind is not None:
                return self._taken(text, behind)
        return None

    def _taken(self, text: str, place: Place) -> tuple[str, Place]:
        self.hard.append(text_box(text, place, size=SIZE))
        return text, place

    @staticmethod
    def _is_outside(box: Box) -> bool:
        return box.left < PAGE.left or box.right > PAGE.right or box.top < PAGE.top or box.bottom > PAGE.bottom


def _boxes(random: Random, count: int) -> list[Box]:
    corners = [(random.uniform(0, 380), random.uniform(0, 280)) for _ in range(count)]
    return [Box(x, y, x + random.uniform(1, 60), y + random.choice((2.0, 8.0, 90.0))) for x, y in corners]


def _places(random: Random) -> list[Place]:
    x, y = random.uniform(-10, 410), random.uniform(-10, 310)
    anchors: tuple[Anchor, ...] = (START, MIDDLE, END)
    return [
        (x + random.uniform(-40, 40), y + random.choice((-24, -7, 0, 4, 13, 24)), random.choice(anchors))
        for _ in range(random.randint(1, 9))
    ]


@pytest.mark.parametrize("seed", range(30))
def test_a_label_takes_the_first_place_that_a_look_at_every_box_finds_free(seed: int) -> None:
    random = Random(seed)  # noqa: S311 - no secret
    hard, soft = _boxes(random, 40), _boxes(random, 4)
    wanted = [(_places(random), random.choice((("12.7 · 6.35, 4.0 m", "12.7 · 6.35"), ("J1",)))) for _ in range(60)]
    for _ in range(2):
        naive, taken = _Naive(hard, soft), Occupied(PAGE, hard=in_rows(hard), soft=in_rows(soft))
        for places, texts in wanted:
            expected = naive.put(texts, places)
            found = taken.put(Wish([(text,) for text in texts], places, size=SIZE))
            assert [(one.text, (one.x, one.y, one.anchor)) for one in found] == ([] if expected is None else [expected])


def test_rows_find_room_together_or_not_at_all() -> None:
    """A bar across the second row bars the first place; the next one has room for both, 11 px apart."""
    taken = Occupied(PAGE, hard=in_rows([Box(0.0, 104.0, 90.0, 108.0)]))
    assert [(row.text, row.x, row.y) for row in taken.put(_two_rows())] == [
        ("a", 100.0, 100.0),
        ("b", 100.0, 111.0),
    ]
    assert taken.put(_two_rows()) == ()


def _two_rows() -> Wish:
    return Wish([("a", "b")], [(10.0, 100.0, START), (100.0, 100.0, START)], size=SIZE)
