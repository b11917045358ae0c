"""Exact arithmetic for the naive evaluator: what a float prints as is taken at its word."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from functools import lru_cache
from typing import NamedTuple, TypeVar

from linewright.book.schema import Band, RoundMode

B = TypeVar("B", bound=Band)

PRECISION = 50
ZERO, ONE = Decimal(0), Decimal(1)
TOLERANCE = Decimal("1e-9")
SAME_TUBE_M = Decimal("1e-4")
ROUNDING = {RoundMode.HALF_UP: ROUND_HALF_UP, RoundMode.UP: ROUND_CEILING, RoundMode.DOWN: ROUND_FLOOR}
KG_IN = {
    "kg": ONE,
    "g": Decimal("0.001"),
    "lb": Decimal("0.45359237"),
    "oz": Decimal("0.45359237") / 16,
}


class Known(NamedTuple):
    """A number, and whether it is the whole of it or only a lower bound."""

    value: Decimal
    whole: bool = True

    def plus(self, other: Known) -> Known:
        return Known(self.value + other.value, self.whole and other.whole)

    def times(self, factor: Decimal) -> Known:
        return Known(self.value * factor, self.whole)


NOTHING = Known(ZERO)
MISSING = Known(ZERO, whole=False)


@lru_cache(maxsize=10_000)
def exact(number: float) -> Decimal:
    """12.3 is twelve and three tenths, not the binary fraction nearest to it."""
    return Decimal(repr(float(number)))


def total(parts: Sequence[Known]) -> Known:
    result = NOTHING
    for part in parts:
        result = result.plus(part)
    return result


def over(value: Decimal, bound: Decimal) -> bool:
    return value - bound > TOLERANCE * max(ONE, abs(bound))


def same_tube(a: Decimal, b: Decimal) -> bool:
    return abs(a - b) <= SAME_TUBE_M


def larger_tube(a: Decimal, b: Decimal) -> bool:
    return a > b and not same_tube(a, b)


def find_band(rows: Sequence[B], number: Decimal) -> B | None:
    """The row that holds a number: at or under its upper edge, and not under a first row's lower edge."""
    for position, row in enumerate(rows):
        if position == 0 and below_lower(row, number):
            return None
        if within_upper(row, number):
            return row
    return None


def within_upper(row: Band, number: Decimal) -> bool:
    if row.upto is not None:
        return not over(number, exact(row.upto.value))
    assert row.below is not None
    return over(exact(row.below.value), number)


def below_lower(row: Band, number: Decimal) -> bool:
    if row.from_ is not None:
        return over(exact(row.from_.value), number)
    return row.over is not None and not over(number, exact(row.over.value))


def interpolate(entries: Sequence[float], factors: Sequence[Decimal], at: Decimal) -> Decimal | None:
    """Linear between the entries; nothing beyond them."""
    axis = [exact(entry) for entry in entries]
    if over(axis[0], at) or over(at, axis[-1]):
        return None
    if at <= axis[0]:
        return factors[0]
    for i in range(1, len(axis)):
        if at <= axis[i]:
            share = (at - axis[i - 1]) / (axis[i] - axis[i - 1])
            return factors[i - 1] + share * (factors[i] - factors[i - 1])
    return factors[-1]


def round_to_step(kg: Decimal, step: str, mode: RoundMode) -> Decimal:
    """In the unit of the step: 9 decimals first, then the step."""
    number, unit = step.split()
    in_unit = (kg / KG_IN[unit]).quantize(TOLERANCE, rounding=ROUND_HALF_EVEN)
    steps = (in_unit / Decimal(number)).to_integral_value(rounding=ROUNDING[mode])
    return steps * Decimal(number) * KG_IN[unit]
