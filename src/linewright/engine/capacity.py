"""Capacity: the system's rated capacity through its factors, shared among the units."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from typing import NamedTuple

from linewright.book.capacity import LengthForGroups, ModeTables, UnitCorrection, for_group
from linewright.book.schema import Basis, BelowFirst
from linewright.engine.capacity_records import Factor, SystemCapacity
from linewright.engine.factors import Conditions, Inputs, absent, look_up, temperature_factor
from linewright.engine.figures import Series
from linewright.engine.formulas import product, sensible_share, share
from linewright.engine.frame import Frame
from linewright.engine.input_power import find_input
from linewright.engine.measures import measure
from linewright.engine.measures.series import first_at
from linewright.engine.power import find_power
from linewright.engine.state import State
from linewright.units import Dimension, over


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


def system_capacity(
    state: State, tables: ModeTables, conditions: Conditions, ratings: UnitRatings
) -> tuple[SystemCapacity, tuple[float | None, ...]]:
    """The system's capacity in one mode and what each unit delivers at full demand [W]."""
    ground, heating = state.ground, conditions.mode == "heating"
    power = find_power(state, tables, conditions)
    rated = ground.rated_heating_w if heating else ground.rated_cooling_w
    if power is not None:
        rated = power.capacity_w if power.capacity_w is not None else 0.0
    common = [*_common_factors(state, tables, conditions)]
    length = for_group(tables.length, ground.group_id)
    by_unit: dict[str, Factor] = {}
    if length is not None:
        reaches = _find_reaches(state, length)
        if length.declared.basis is Basis.EACH:
            by_unit = {
                unit.id: _length_factor(state, length, reaches, unit=unit.id, mode=conditions.mode)
                for unit in ground.system.units
            }
        else:
            common.append(_length_factor(state, length, reaches, unit=_farthest(reaches), mode=conditions.mode))
    lacking = (*((power.missing,) if power is not None and power.missing else ()), *_missing(common, ratings))
    missing = (*lacking, *(factor.missing for factor in by_unit.values() if factor.missing))
    plant = None if lacking else product(rated, *(factor.value for factor in common if factor.value is not None))
    total = sum([rating for rating in ratings.total_w if rating is not None])
    delivered = _deliver(state, plant, ratings.total_w, total, by_unit=by_unit)
    whole = None if None in delivered else sum([item for item in delivered if item is not None])
    return (
        SystemCapacity(
            mode=conditions.mode,
            rated_w=None if power is not None and power.capacity_w is None else rated,
            power=power,
            used=find_input(state, tables, conditions, power),
            factors=tuple(common),
            unit_length_factors=by_unit,
            ratings_w=None if None in ratings.total_w else total,
            plant_w=plant,
            capacity_w=None
            if plant is None or missing
            else plant * _mean_factor(state, ratings.total_w, total, by_unit),
            delivered_w=whole,
            block_w=None,
            coincident_w=None,
            missing=missing,
        ),
        delivered,
    )


def sensible(delivered: Sequence[float | None], ratings: UnitRatings) -> tuple[float | None, ...]:
    """Sensible part of what each unit delivers [W]."""
    return tuple(
        [
            None if got is None or part is None or not whole else sensible_share(got, part, whole)
            for got, part, whole in zip(delivered, ratings.sensible_w, ratings.total_w, strict=True)
        ]
    )


def coincident(
    capacity_w: float | None,
    ratings: Sequence[float | None],
    needs: Sequence[float | None],
    *,
    own_factors: Sequence[float],
) -> tuple[float | None, ...]:
    """What each unit gets when each takes no more than it needs; what is freed is shared again [W].

    `own_factors` are the units' own length factors where the book judges each unit, else ones.
    """
    if capacity_w is None or None in ratings or None in needs:
        return tuple(None for _ in ratings)
    rated = [rating or 0.0 for rating in ratings]
    caps = [
        min(rating, need or 0.0) / own if own else 0.0
        for rating, need, own in zip(rated, needs, own_factors, strict=True)
    ]
    got = [0.0] * len(caps)
    open_units, left = list(range(len(caps))), capacity_w
    while open_units:
        weight = sum([rated[i] for i in open_units])
        full = {i for i in open_units if not weight or left * rated[i] / weight >= caps[i]}
        if not full:
            for i in open_units:
                got[i] = left * rated[i] / weight
            break
        for i in sorted(full):
            got[i] = caps[i]
            left -= caps[i]
        open_units = [i for i in open_units if i not in full]
    return tuple([part * own for part, own in zip(got, own_factors, strict=True)])


def _common_factors(state: State, tables: ModeTables, conditions: Conditions) -> list[Factor]:
    factors = list(_named(state, tables))
    if tables.power:
        return [*factors, *_length_and_defrost(state, tables, conditions)]
    temperature = for_group(tables.temperature, state.ground.group_id)
    if temperature is not None:
        factors.append(temperature_factor(temperature.table, conditions))
    elif tables.temperature:
        factors.append(absent("temperature", f"a temperature table for group {state.ground.group_id}"))
    ratio = for_group(tables.ratio, state.ground.group_id)
    if ratio is not None:
        inputs: Inputs = (("connection ratio", _ratio(state), Dimension.RATIO, "connection_ratio"),)
        factors.append(look_up("connection_ratio", ratio.table, inputs))
    elif tables.ratio:
        factors.append(absent("connection_ratio", f"a ratio table for group {state.ground.group_id}"))
    return [*factors, *_length_and_defrost(state, tables, conditions)]


def _length_and_defrost(state: State, tables: ModeTables, conditions: Conditions) -> Iterator[Factor]:
    if tables.length and for_group(tables.length, state.ground.group_id) is None:
        yield absent("length", f"a length table for group {state.ground.group_id}")
    if tables.defrost is not None and not tables.defrost_included and conditions.mode == "heating":
        outdoor = conditions.degc["outdoor_wb"]
        inputs: Inputs = (("outdoor wet bulb", outdoor, Dimension.TEMPERATURE, "site.heating.outdoor_wb"),)
        yield look_up("defrost", tables.defrost, inputs)


def _named(state: State, tables: ModeTables) -> Iterator[Factor]:
    """Factors by what else the site states: its altitude."""
    altitude = state.ground.surroundings.site.altitude_m
    for name, table in tables.named:
        if altitude is None:
            yield absent(name, "the altitude of the site")
        else:
            yield look_up(name, table, (("altitude", altitude, Dimension.LENGTH, "site.altitude"),))


def _ratio(state: State) -> float:
    return state.ground.index_sum / state.ground.group.index


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


def _find_reaches(state: State, length: LengthForGroups) -> Series:
    """Reach of every unit from the book's origin, the main counted by its factor; with two judged lines the longer."""
    return measure(state, length.reach)


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


def _missing(common: Sequence[Factor], ratings: UnitRatings) -> tuple[str, ...]:
    names = [factor.missing for factor in common if factor.missing]
    if None in ratings.total_w:
        names.append("an indoor temperature inside the units' own table")
    return tuple(names)


def _mean_factor(state: State, ratings: Sequence[float | None], total_w: float, by_unit: Mapping[str, Factor]) -> float:
    """Mean of the units' own length factors by rating; 1 where the farthest unit decides."""
    if not by_unit or not total_w:
        return 1.0
    pairs = zip(state.ground.system.units, ratings, strict=True)
    return sum((by_unit[unit.id].value or 0.0) * (rating or 0.0) for unit, rating in pairs) / total_w


def _deliver(
    state: State,
    capacity_w: float | None,
    ratings: Sequence[float | None],
    total_w: float,
    *,
    by_unit: Mapping[str, Factor],
) -> tuple[float | None, ...]:
    if capacity_w is None or not total_w:
        return tuple(None for _ in ratings)
    if not by_unit:
        return tuple([None if rating is None else share(capacity_w, rating, total_w) for rating in ratings])
    delivered: list[float | None] = []
    for unit, rating in zip(state.ground.system.units, ratings, strict=True):
        own = by_unit[unit.id].value
        delivered.append(None if rating is None or own is None else share(capacity_w * own, rating, total_w))
    return tuple(delivered)
