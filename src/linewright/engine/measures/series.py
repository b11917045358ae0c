"""From items to a series: aggregate, what governs, what is missing."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from linewright.engine.figures import Series
from linewright.engine.records import Sense
from linewright.units import over

NOT_APPLICABLE = Series({}, frozenset(), None, (), (), applicable=False)
NOTHING: frozenset[str] = frozenset()
#: What floats leave of a difference that is none.
ZERO = 1e-9
#: Wider than any tolerance of a comparison: what lies outside is not equal.
NEAR = 1e-8


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
    governs = (first_at(values, value),) if named and abs(value) > ZERO else ()
    return Series(values, flagged, value, governs, least=sense is Sense.MIN)


def spread(values: Mapping[str, float], incomplete: Iterable[str]) -> Series:
    """Largest less smallest item; no value while an item is incomplete."""
    flagged = frozenset(incomplete)
    if flagged:
        return Series(values, flagged, None, (), spread=True)
    high, low = max(values.values()), min(values.values())
    ends = {first_at(values, high), first_at(values, low)}
    governs = tuple(sorted(ends)) if high - low > ZERO else ()
    return Series(values, flagged, high - low, governs, spread=True)


def widest(spreads: Sequence[Series]) -> Series:
    """Of the spreads along several lines the widest; incomplete where any of them is."""
    known = [series for series in spreads if series.value is not None]
    if not known:
        return spreads[0]
    found = max(known, key=lambda series: series.value or 0.0)
    return found._replace(incomplete=NOTHING.union(*(series.incomplete for series in spreads)))


def first_at(values: Mapping[str, float], value: float) -> str:
    """Of the items equal to a value (but for what rounding leaves) the one whose name sorts first."""
    window = NEAR * max(1.0, abs(value))
    low, high = value - window, value + window
    return min(
        [
            name
            for name, item in values.items()
            if item == value or (low < item < high and not over(value, item) and not over(item, value))
        ]
    )
