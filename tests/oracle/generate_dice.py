"""Seeded dice: lengths on a grid, tube sizes of a ladder, masses, in a metric or an inch flavour."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from random import Random
from typing import Any, TypeVar

from linewright.book.schema import Band
from linewright.units import Amount, Dimension

T = TypeVar("T")
B = TypeVar("B", bound=Band)

MM = ("6.35", "9.52", "12.7", "15.88", "19.05", "22.22", "25.4", "28.58", "31.75", "34.92", "38.1", "41.28")
EIGHTHS = tuple(range(2, 14))
FOOT_M = Decimal("0.3048")
POUND_KG = Decimal("0.45359237")


@dataclass
class Dice:
    """Random choices of one case; a coarse grain makes ties and sums that meet a bound exactly."""

    rng: Random
    metric: bool = True
    mixed: bool = False
    grain: Decimal = field(default=Decimal("0.1"))
    lacks: float = 1.0

    def maybe(self, chance: float) -> bool:
        return self.rng.random() < chance

    def lacking(self, chance: float) -> bool:
        """Whether something is not stated, which is so more often in some cases than in others."""
        return self.rng.random() < chance * self.lacks

    def pick(self, items: Sequence[T]) -> T:
        return self.rng.choice(items)

    def some(self, items: Sequence[T], least: int = 1) -> tuple[T, ...]:
        """Some of the items in their own order."""
        count = self.rng.randint(min(least, len(items)), len(items))
        kept = sorted(self.rng.sample(range(len(items)), count))
        return tuple(items[i] for i in kept)

    def between(self, low: int, high: int) -> int:
        return self.rng.randint(low, high)

    def length_m(self, low: float, high: float) -> float:
        """A length on the grid of the case: metres, or feet and inches."""
        unit = Decimal(1) if self.metric else FOOT_M
        steps = self.rng.randint(int(low / float(unit * self.grain)), int(high / float(unit * self.grain)))
        return float(steps * self.grain * unit)

    def tube_m(self, position: int) -> float:
        """A step of the full ladder; where a book mixes, in millimetres or in fractions of an inch."""
        inch = self.maybe(0.5) if self.mixed else not self.metric
        eighths = Decimal(EIGHTHS[position]) * Decimal("25.4") / 8
        return float((eighths if inch else Decimal(MM[position])) / 1000)

    def mass_kg(self, low: float, high: float) -> float:
        unit = Decimal(1) if self.metric else POUND_KG
        steps = self.rng.randint(int(low / float(unit) * 100), int(high / float(unit) * 100))
        return float(Decimal(steps) / 100 * unit)

    def per_length(self) -> float:
        if self.metric:
            return float(Decimal(self.rng.randint(1, 60)) / 200)
        return float(Decimal(self.rng.randint(2, 200)) / 1000 * POUND_KG / FOOT_M)

    def factor(self, low: int, high: int) -> float:
        """A factor in hundredths."""
        return self.rng.randint(low, high) / 100

    def ascending(self, count: int, low: int, high: int) -> list[int]:
        return sorted(self.rng.sample(range(low, high + 1), count))


def new_dice(seed: int) -> Dice:
    rng = Random(seed)  # noqa: S311 - random cases, no secrets
    metric = rng.random() < 0.6
    grains = ("1", "0.5", "0.1", "0.01") if metric else ("1", "0.5", "0.25", "0.1")
    return Dice(
        rng=rng,
        metric=metric,
        mixed=rng.random() < 0.2,
        grain=Decimal(rng.choice(grains)),
        lacks=rng.choice((0.0, 0.0, 1.0, 1.0, 8.0)),
    )


def amount(value: float, dimension: Dimension) -> Amount:
    return Amount(value, dimension)


def edges_of(dice: Dice, values: Sequence[float], dimension: Dimension) -> list[dict[str, Any]]:
    """Upper edges for ascending values; some rows also state the lower edge that they must meet."""
    edges: list[dict[str, Any]] = []
    for position, value in enumerate(values):
        edge = {dice.pick(("upto", "upto", "below")): amount(value, dimension)}
        if position and dice.maybe(0.3):
            before = edges[-1]
            edge["over" if "upto" in before else "from_"] = before.get("upto") or before["below"]
        edges.append(edge)
    return edges
