"""Ratings of units, corrected for their own air."""

from __future__ import annotations

from collections.abc import Collection
from typing import NamedTuple

from linewright.book.capacity import ModeTables, UnitCorrection
from linewright.engine.capacity_records import Factor
from linewright.engine.factors import Conditions, Inputs, absent, look_up
from linewright.engine.frame import Frame
from linewright.units import Dimension


class UnitRatings(NamedTuple):
    """Corrected ratings of every unit [W]; `None` outside a correction table."""

    total_w: tuple[float | None, ...]
    sensible_w: tuple[float | None, ...]


def unit_ratings(frame: Frame, tables: ModeTables, conditions: Conditions) -> UnitRatings:
    """Ratings of the units at their own conditions."""
    heating, models = conditions.mode == "heating", frame.models
    kinds = [model.kind for model in models]
    by_kind = _factors_by_kind(tables, conditions, set(kinds))
    totals = {kind: _value(factors.total) for kind, factors in by_kind.items()}
    rated = frame.heating_w if heating else tuple([model.cooling_w for model in models])
    total_w = tuple([_times(watts, totals[kind]) for watts, kind in zip(rated, kinds, strict=True)])
    if heating:
        return UnitRatings(total_w, (None,) * len(models))
    parts = {kind: _value(factors.sensible) for kind, factors in by_kind.items()}
    sensible_w = tuple([_times(model.sensible_w, parts[kind]) for model, kind in zip(models, kinds, strict=True)])
    return UnitRatings(total_w, sensible_w)


def _value(factor: Factor | None) -> float | None:
    return 1.0 if factor is None else factor.value


def _times(watts: float, factor: float | None) -> float | None:
    return None if factor is None else watts * factor


class UnitFactors(NamedTuple):
    """Factors on the total and the sensible rating of units of one kind; none where the book has no table for it."""

    total: Factor | None
    sensible: Factor | None


def unit_factors(tables: ModeTables, conditions: Conditions, kind: str) -> UnitFactors:
    """Find the corrections of a kind of unit by its own air temperature."""
    return _factors_by_kind(tables, conditions, (kind,))[kind]


def _factors_by_kind(tables: ModeTables, conditions: Conditions, kinds: Collection[str]) -> dict[str, UnitFactors]:
    """The first table that is for a kind corrects its units; kinds without one are not corrected."""
    found = dict.fromkeys(kinds, UnitFactors(None, None))
    left = set(kinds)
    for table in tables.unit_temperature:
        of_table = {kind for kind in left if not table.kind or kind in table.kind}
        if of_table:
            found |= dict.fromkeys(of_table, _corrected(table, conditions))
            left -= of_table
    return found


def _corrected(table: UnitCorrection, conditions: Conditions) -> UnitFactors:
    axis = "indoor_wb" if table.wet_bulb else "indoor_db"
    degc = conditions.degc.get(axis)
    if degc is None:
        unstated = absent("unit temperature", f"a temperature that the site does not state ({axis})")
        return UnitFactors(unstated, unstated)
    inputs: Inputs = ((axis, degc, Dimension.TEMPERATURE, f"site.{conditions.mode}.{axis}"),)
    total = look_up("unit temperature", table.total, inputs)
    sensible_table = table.total if table.sensible is None else table.sensible
    return UnitFactors(total, look_up("unit temperature, sensible", sensible_table, inputs))
