"""Capacity of a system in one mode: its rated capacity through its factors, those of lengths last."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from linewright.book.capacity import LengthForGroups, for_group
from linewright.book.schema import Basis, BelowFirst
from linewright.engine.capacity_records import Factor, SystemCapacity
from linewright.engine.factors import Inputs, absent, look_up
from linewright.engine.figures import Series
from linewright.engine.formulas import product
from linewright.engine.measures import measure
from linewright.engine.measures.series import first_at
from linewright.engine.rated import Rated
from linewright.engine.ratings import UnitRatings
from linewright.engine.state import State
from linewright.units import Dimension, over


def system_capacity(state: State, rated: Rated) -> SystemCapacity:
    """The system's capacity in one mode; what its units get of it is not in it yet."""
    ground, power, ratings = state.ground, rated.power, rated.ratings
    common = [*rated.factors]
    length = for_group(rated.tables.length, ground.group_id)
    by_unit: dict[str, Factor] = {}
    if length is not None:
        reaches = measure(state, length.reach)
        if length.declared.basis is Basis.EACH:
            by_unit = {
                unit.id: _length_factor(state, length, reaches, unit=unit.id, mode=rated.mode)
                for unit in ground.system.units
            }
        else:
            common.append(_length_factor(state, length, reaches, unit=_farthest(reaches), mode=rated.mode))
    lacking = (*((power.missing,) if power is not None and power.missing else ()), *_missing(common, ratings))
    missing = (*lacking, *(factor.missing for factor in by_unit.values() if factor.missing))
    plant = None if lacking else product(rated.rated_w, *(item.value for item in common if item.value is not None))
    return SystemCapacity(
        mode=rated.mode,
        rated_w=None if power is not None and power.capacity_w is None else rated.rated_w,
        power=power,
        used=rated.used,
        factors=tuple(common),
        unit_length_factors=by_unit,
        ratings_w=None if None in ratings.total_w else rated.total_w,
        plant_w=plant,
        capacity_w=None if plant is None or missing else plant * _mean_factor(state, rated, by_unit),
        delivered_w=None,
        block_w=None,
        coincident_w=None,
        missing=missing,
    )


def _length_factor(state: State, length: LengthForGroups, reaches: Series, *, unit: str, mode: str) -> Factor:
    reach = reaches.values[unit]
    if unit in reaches.incomplete:
        return absent("length", f"equivalent reach of {unit}")
    inputs: Inputs = (("equivalent reach", reach, Dimension.LENGTH, f"unit:{unit}.{mode}_reach"),)
    first = length.table.rows.entries[0]
    if length.declared.below_first is BelowFirst.HOLD and over(first, reach):
        inputs = (("equivalent reach, held at the first row", first, Dimension.LENGTH, length.table.path),)
    if length.table.columns is not None:
        level = _level(state, unit)
        if level is None:
            return absent("length", f"elevation of {unit} or of the outdoor group")
        inputs += (("outdoor level less unit level", level, Dimension.LENGTH, f"unit:{unit}.level"),)
    return look_up("length", length.table, inputs)


def _farthest(reaches: Series) -> str:
    unknown = {name: reaches.values[name] for name in reaches.incomplete}
    by_name = unknown or reaches.values
    return first_at(by_name, max(by_name.values()))


def _level(state: State, unit: str) -> float | None:
    levels = state.ground.levels
    at, high, low = levels.of_units_m.get(unit), levels.highest_outdoor_m, levels.lowest_outdoor_m
    if at is None or high is None or low is None:
        return None
    return low - at if over(at, high) else high - at


def _missing(common: Sequence[Factor], ratings: UnitRatings) -> tuple[str, ...]:
    names = [factor.missing for factor in common if factor.missing]
    if None in ratings.total_w:
        names.append("an indoor temperature inside the units' own table")
    return tuple(names)


def _mean_factor(state: State, rated: Rated, by_unit: Mapping[str, Factor]) -> float:
    """Mean of the units' own length factors by rating; 1 where the farthest unit decides."""
    if not by_unit or not rated.total_w:
        return 1.0
    pairs = zip(state.ground.system.units, rated.ratings.total_w, strict=True)
    return sum((by_unit[unit.id].value or 0.0) * (rating or 0.0) for unit, rating in pairs) / rated.total_w
