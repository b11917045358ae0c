"""Every formula of the engine, registered once: what computes and what shows its working call the same one."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple, TypeVar

from linewright.book.schema import RoundMode
from linewright.units import round_half_up, same_tube

F = TypeVar("F", bound=Callable[..., float])


class Formula(NamedTuple):
    """A formula: its key, its text, where it comes from, and the function itself."""

    key: str
    text: str
    source: str
    function: Callable[..., float]


FORMULAS: dict[str, Formula] = {}


def formula(text: str, source: str) -> Callable[[F], F]:
    """Register a function under its own name."""

    def register(function: F) -> F:
        FORMULAS[function.__name__] = Formula(function.__name__, text, source, function)
        return function

    return register


_OWN = "definition, docs/methods.md"
_TABLE = "the book's table"


@formula("sum of the inputs", _OWN)
def total(*terms: float) -> float:
    """Sum [unit of the inputs]."""
    return sum(terms)


@formula("how many inputs there are", _OWN)
def count(*items: float) -> float:
    """Number of inputs [1]."""
    return float(len(items))


@formula("half of the input", _OWN)
def half(value: float) -> float:
    """Half [unit of the input]."""
    return value / 2


@formula("rounded in the book's unit to its step", _TABLE)
def rounded(number: float, step: float, mode: str) -> float:
    """Round a number of the book's own unit to a step of that unit [that unit]."""
    return round_half_up(number, step, mode=RoundMode(mode).value)


@formula("first less second", _OWN)
def difference(first: float, second: float) -> float:
    """Difference [unit of the inputs]."""
    return first - second


@formula("distance between first and second", _OWN)
def distance(first: float, second: float) -> float:
    """Absolute difference [unit of the inputs]."""
    return abs(first - second)


@formula("first less second, never below zero", _OWN)
def excess(first: float, second: float) -> float:
    """Positive part of a difference [unit of the inputs]."""
    return max(first - second, 0.0)


@formula("largest of the inputs", _OWN)
def largest(*values: float) -> float:
    """Largest [unit of the inputs]."""
    return max(values)


@formula("smallest of the inputs", _OWN)
def smallest(*values: float) -> float:
    """Smallest [unit of the inputs]."""
    return min(values)


@formula("first over second", _OWN)
def ratio(first: float, second: float) -> float:
    """Quotient [1]."""
    return first / second


@formula("the value as it stands", _OWN)
def stated(value: float) -> float:
    """A value that is an input itself."""
    return value


@formula("first times second", _OWN)
def product(*factors: float) -> float:
    """Product of all inputs."""
    result = 1.0
    for factor in factors:
        result *= factor
    return result


@formula("L + bends + items + fitting", _OWN)
def equivalent_length(length_m: float, bends_m: float, items_m: float, fitting_m: float) -> float:
    """Equivalent length of a run [m]."""
    return length_m + bends_m + items_m + fitting_m


@formula("the row whose band holds the index", _TABLE)
def band_row(number: float, upper: float, row_value: float) -> float:
    """Value of a row, given that `number` lies in its band."""
    if number - upper > 1e-9 * max(1.0, abs(upper)):
        raise ValueError(f"{number} is beyond the row that ends at {upper}")
    return row_value


@formula("so many entries along the ladder from the table size", _OWN)
def stepped(size_m: float, steps: float, *ladder_m: float) -> float:
    """A tube size `steps` entries up the ladder [m]."""
    at = next(i for i, entry in enumerate(ladder_m) if same_tube(entry, size_m))
    return ladder_m[at + int(steps)]


@formula("bilinear between four entries of the table", _TABLE)
def bilinear(  # noqa: PLR0917 - a table's own numbers, in the order of its corner
    x: float,
    x0: float,
    x1: float,
    y: float,
    y0: float,
    y1: float,
    f00: float,
    f01: float,
    f10: float,
    f11: float,
) -> float:
    """Interpolate between (x0, x1) and (y0, y1); an axis of one entry does not interpolate [1]."""
    u = min(max((x - x0) / (x1 - x0), 0.0), 1.0) if x1 != x0 else 0.0
    v = min(max((y - y0) / (y1 - y0), 0.0), 1.0) if y1 != y0 else 0.0
    low = f00 + v * (f01 - f00)
    high = f10 + v * (f11 - f10)
    return low + u * (high - low)


@formula("rise carried from before and the run's own, each trap dividing it; never below zero", _OWN)
def climb(carried_m: float, rise_m: float, traps: float) -> float:
    """Highest upward rise within a run since the last trap [m]."""
    part = rise_m / (traps + 1)
    return max(carried_m + part, part if traps else 0.0, 0.0)


@formula("linear between two values", _TABLE)
def between(x: float, x0: float, x1: float, f0: float, f1: float) -> float:  # noqa: PLR0917 - a line by its two ends
    """Interpolate between (x0, f0) and (x1, f1) [unit of the values]."""
    return f0 + (f1 - f0) * (x - x0) / (x1 - x0) if x1 != x0 else f0


@formula("capacity x rating / sum of ratings, no more than the rating", "convention of sharing, not physics")
def share(capacity_w: float, rating_w: float, ratings_w: float) -> float:
    """A unit's share of the system's capacity at full demand [W]."""
    return min(rating_w, capacity_w * rating_w / ratings_w)


@formula("delivered x rated sensible / rated total, no more than the rated sensible", _OWN)
def sensible_share(delivered_w: float, sensible_rating_w: float, rating_w: float) -> float:
    """Sensible part of what a unit delivers [W]."""
    return min(sensible_rating_w, delivered_w * sensible_rating_w / rating_w)


@formula("load x rating / ratings of the units in the room", "convention of sharing, not physics")
def need_share(load_w: float, rating_w: float, ratings_w: float) -> float:
    """A unit's share of the load of its room [W]."""
    return load_w * rating_w / ratings_w


@formula("length x mass per length", _TABLE)
def line_charge(length_m: float, kg_per_m: float) -> float:
    """Charge of one tube size [kg]."""
    return length_m * kg_per_m


@formula("multiplier x sum of the terms, not below the floor where there is one", _TABLE)
def charge_before_rounding(sum_kg: float, multiplier: float, *floor_kg: float) -> float:
    """Additional charge before rounding [kg]; without a floor it may be negative."""
    return max(sum_kg * multiplier, *floor_kg) if floor_kg else sum_kg * multiplier
