"""Bounds as text, rounded so that nobody reads them as more, or as less, than they are."""

import math

from linewright.units.dimensions import Dimension, UnitSystem
from linewright.units.showing import style
from linewright.units.table import to_unit

#: What a conversion may leave behind, in the last decimal that is printed.
_ABSORBED = 1e-6


def at_most(value: float, dimension: Dimension, system: UnitSystem, *, places: int) -> str:
    """Print a number rounded down, for a largest bound."""
    return _cut(value, dimension, system, places=places, up=False)


def at_least(value: float, dimension: Dimension, system: UnitSystem, *, places: int) -> str:
    """Print a number rounded up, for a least bound."""
    return _cut(value, dimension, system, places=places, up=True)


def _cut(value: float, dimension: Dimension, system: UnitSystem, *, places: int, up: bool) -> str:
    number = to_unit(value, style(dimension, system).unit) * 10**places
    nearest = round(number)
    whole = nearest if abs(number - nearest) < _ABSORBED else math.ceil(number) if up else math.floor(number)
    return f"{whole / 10**places:.{places}f}"
