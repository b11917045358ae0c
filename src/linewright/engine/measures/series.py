"""From items to a series: aggregate, what governs, what is missing."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from linewright.engine.figures import Series
from linewright.engine.records import Sense

NOT_APPLICABLE = Series({}, frozenset(), None, (), (), applicable=False)
NOTHING: frozenset[str] = frozenset()


def unknown(*missing: str) -> Series:
    """A measure that cannot be computed."""
    return Series({}, NOTHING, None, (), missing)


def plain(value: float, governs: tuple[str, ...] = (), missing: tuple[str, ...] = ()) -> Series:
    """A measure of the whole system."""
    return Series({}, NOTHING, value, governs, missing)


def worst(values: Mapping[str, float], incomplete: Iterable[str], sense: Sense, *, named: bool = True) -> Series:
    """Largest (for a largest bound) or smallest item of a series; an incomplete item is a lower bound."""
    flagged = frozenset(incomplete)
    if not values:
        return NOT_APPLICABLE
    pick = max if sense is Sense.MAX else min
    value = pick(values.values())
    governs = (min([name for name, item in values.items() if item == value]),) if named and value else ()
    return Series(values, flagged, value, governs)


def spread(values: Mapping[str, float], incomplete: Iterable[str]) -> Series:
    """Largest less smallest item; no value while an item is incomplete."""
    flagged = frozenset(incomplete)
    if flagged:
        return Series(values, flagged, None, (), spread=True)
    high, low = max(values.values()), min(values.values())
    ends = {
        min(n for n, item in values.items() if item == high),
        min(n for n, item in values.items() if item == low),
    }
    governs = tuple(sorted(ends)) if high > low else ()
    return Series(values, flagged, high - low, governs, spread=True)
