"""A series against a bound: kept, broken, or open while something is missing."""

from __future__ import annotations

from linewright.engine.figures import Series
from linewright.engine.records import Sense
from linewright.units import over


def breaks(value: float, bound: float, sense: Sense) -> bool:
    """Say whether a value is beyond a bound."""
    return over(value, bound) if sense is Sense.MAX else over(bound, value)


def stands(series: Series, bound: float, sense: Sense) -> bool | None:
    """Say whether a series keeps a bound; `None` where what is missing may decide."""
    if series.value is None:
        return None
    if sense is Sense.MAX and series.least:
        sure = [item for name, item in series.values.items() if name not in series.incomplete]
        if sure and not over(min(sure), bound):
            return True
        return False if over(series.value, bound) and not series.missing else None
    if sense is Sense.MAX:
        if over(series.value, bound):
            return False
        return None if series.incomplete or series.missing else True
    if not series.values or series.spread:
        return True if not over(bound, series.value) else False if series.complete else None
    if any(over(bound, item) for name, item in series.values.items() if name not in series.incomplete):
        return False
    return None if series.missing or over(bound, series.value) else True
