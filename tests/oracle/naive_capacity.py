"""Capacity: what the system gives, what each unit gets, what each room needs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Protocol, TypeVar

from linewright.book.schema import (
    Basis,
    BelowFirst,
    CapacityMode,
    Lengths,
    LengthTable,
    TemperatureTable,
    UnitTemperatureTable,
)
from tests.oracle.naive_counts import rated
from tests.oracle.naive_lengths import lines_judged, reach
from tests.oracle.naive_levels import highest, lowest
from tests.oracle.naive_numbers import ONE, ZERO, exact, interpolate, over
from tests.oracle.naive_sizes import Sizes
from tests.oracle.naive_tree import Facts


class _ForGroups(Protocol):
    @property
    def groups(self) -> tuple[str, ...]: ...


T = TypeVar("T", bound=_ForGroups)


@dataclass
class Mode:
    """One mode: conditions by axis, factors, and by unit the ratings and what is delivered [W]."""

    name: str
    tables: CapacityMode
    at: dict[str, Decimal]
    factors: dict[str, Decimal | None] = field(default_factory=dict)
    unit_length: dict[str, Decimal | None] = field(default_factory=dict)
    rating: dict[str, Decimal | None] = field(default_factory=dict)
    sensible_rating: dict[str, Decimal | None] = field(default_factory=dict)
    delivered: dict[str, Decimal | None] = field(default_factory=dict)
    sensible: dict[str, Decimal | None] = field(default_factory=dict)
    capacity: Decimal | None = None

    @property
    def whole_capacity(self) -> Decimal | None:
        """The system's capacity; with a length factor for each unit the mean of what they leave, by rating.

        A unit outside its own table leaves it unknown, as does any other table.
        """
        if self.capacity is None or None in self.rating.values():
            return None
        if not self.unit_length:
            return self.capacity
        left, ratings = ZERO, ZERO
        for unit, rating in self.rating.items():
            factor = self.unit_length[unit]
            if factor is None or rating is None:
                return None
            left, ratings = left + factor * rating, ratings + rating
        return self.capacity * left / ratings


def modes_of(facts: Facts, sizes: Sizes) -> dict[str, Mode]:
    """Each mode that has both a table in the book and conditions at the site."""
    site, capacity = facts.design.site, facts.book.capacity
    modes = {}
    if site.cooling is not None:
        at = {"outdoor_db": exact(site.cooling.outdoor_db_degc), "indoor_wb": exact(site.cooling.indoor_wb_degc)}
        modes["cooling"] = Mode("cooling", capacity.cooling, at)
    if site.heating is not None and capacity.heating is not None:
        at = {"outdoor_wb": exact(site.heating.outdoor_wb_degc), "indoor_db": exact(site.heating.indoor_db_degc)}
        modes["heating"] = Mode("heating", capacity.heating, at)
    for mode in modes.values():
        _rate(facts, mode)
        _factors(facts, sizes, mode)
        _deliver(facts, mode)
    return modes


def _rate(facts: Facts, mode: Mode) -> None:
    for unit in facts.unit:
        model = facts.model(unit)
        table = next((t for t in mode.tables.unit_temperature if not t.kind or model.kind in t.kind), None)
        whole = exact(model.cooling_w if mode.name == "cooling" else model.heating_w)
        factor = _own_factor(mode, table, sensible=False)
        mode.rating[unit] = None if factor is None else whole * factor
        factor = _own_factor(mode, table, sensible=True)
        mode.sensible_rating[unit] = None if factor is None else exact(model.sensible_w) * factor


def _own_factor(mode: Mode, table: UnitTemperatureTable | None, *, sensible: bool) -> Decimal | None:
    """A sensible rating without a correction of its own follows the total."""
    if table is None:
        return ONE
    factors = [exact(factor) for factor in (sensible and table.sensible) or table.total]
    axes = {"indoor_wb": table.indoor_wb_degc, "indoor_db": table.indoor_db_degc}
    return _along(mode, axes, factors)


def _along(mode: Mode, axes: dict[str, tuple[float, ...]], factors: Sequence[Decimal]) -> Decimal | None:
    """Look up along the one axis that is given; none where the site does not state its temperature."""
    name = next(name for name, entries in axes.items() if entries)
    return interpolate(axes[name], factors, mode.at[name]) if name in mode.at else None


def _factors(facts: Facts, sizes: Sizes, mode: Mode) -> None:
    tables = mode.tables
    temperature = _for_group(facts, tables.temperature)
    if tables.temperature:
        mode.factors["temperature"] = None if temperature is None else _temperature(mode, temperature)
    if tables.ratio:
        ratio = _for_group(facts, tables.ratio)
        at = facts.indoor_index() / exact(facts.group.index)
        entries = () if ratio is None else tuple(amount.value for amount in ratio.ratio)
        factors = () if ratio is None else [exact(f) for f in ratio.factor]
        mode.factors["ratio"] = None if ratio is None else interpolate(entries, factors, at)
    if tables.length:
        length = _for_group(facts, tables.length)
        if length is not None and length.basis is Basis.EACH:
            mode.unit_length = {unit: _length(facts, sizes, length, unit) for unit in facts.unit}
        else:
            far = None if length is None else _farthest(facts, sizes, length)
            known = length is not None and far is not None
            mode.factors["length"] = _length(facts, sizes, length, far) if known else None  # type: ignore[arg-type]
    included = temperature is not None and temperature.defrost_included
    if mode.name == "heating" and tables.defrost is not None and not included:
        defrost = [exact(f) for f in tables.defrost.factor]
        mode.factors["defrost"] = interpolate(tables.defrost.outdoor_wb_degc, defrost, mode.at["outdoor_wb"])
    mode.capacity = _product([rated(facts, mode.name), *mode.factors.values()])


def _product(parts: Sequence[Decimal | None]) -> Decimal | None:
    result = ONE
    for part in parts:
        if part is None:
            return None
        result *= part
    return result


def _for_group(facts: Facts, tables: Sequence[T]) -> T | None:
    return next((t for t in tables if not t.groups or facts.group_key() in t.groups), None)


def _temperature(mode: Mode, table: TemperatureTable) -> Decimal | None:
    inner = {"indoor_wb": table.indoor_wb_degc, "indoor_db": table.indoor_db_degc}
    across = [_along(mode, inner, [exact(f) for f in row]) for row in table.factor]
    known = [factor for factor in across if factor is not None]
    outer = {"outdoor_db": table.outdoor_db_degc, "outdoor_wb": table.outdoor_wb_degc}
    return _along(mode, outer, known) if len(known) == len(across) else None


def _equivalent(facts: Facts, sizes: Sizes, table: LengthTable, unit: str) -> Decimal | None:
    """Equivalent reach from the book's origin, by the longer of the lines that are judged."""
    reaches = [
        reach(
            facts,
            sizes,
            unit,
            lengths=Lengths.EQUIVALENT,
            line=line,
            origin=facts.book.origin,
            rule=table.upsized_main,
        )
        for line in lines_judged(facts)
    ]
    return max(r.value for r in reaches) if all(r.whole for r in reaches) else None


def _farthest(facts: Facts, sizes: Sizes, table: LengthTable) -> str | None:
    reaches = {unit: _equivalent(facts, sizes, table, unit) for unit in facts.unit}
    known = {unit: length for unit, length in reaches.items() if length is not None}
    if len(known) < len(reaches):
        return None
    return min(known, key=lambda unit: (-known[unit], unit))


def _length(facts: Facts, sizes: Sizes, table: LengthTable, unit: str) -> Decimal | None:
    at = _equivalent(facts, sizes, table, unit)
    if at is None:
        return None
    first = exact(table.equivalent_m[0])
    if table.below_first is BelowFirst.HOLD and over(first, at):
        at = first
    rows: list[Decimal] = []
    for row in table.factor:
        factor = _level_factor(facts, table, unit, row=row)
        if factor is None:
            return None
        rows.append(factor)
    return interpolate(table.equivalent_m, rows, at)


def _level_factor(facts: Facts, table: LengthTable, unit: str, *, row: Sequence[float]) -> Decimal | None:
    if not table.level_m:
        return exact(row[0])
    top, bottom, level = highest(facts), lowest(facts), facts.level.get(unit)
    if top is None or bottom is None or level is None:
        return None
    difference = top - level if top >= level else bottom - level
    return interpolate(table.level_m, [exact(factor) for factor in row], difference)


def _deliver(facts: Facts, mode: Mode) -> None:
    ratings = [rating for rating in mode.rating.values() if rating is not None]
    shared = len(ratings) == len(mode.rating) and mode.capacity is not None
    for unit in facts.unit:
        rating, sensible = mode.rating[unit], mode.sensible_rating[unit]
        mode.delivered[unit] = mode.sensible[unit] = None
        own = mode.unit_length.get(unit, ONE)
        if not shared or rating is None or own is None or mode.capacity is None:
            continue
        delivered = min(rating, mode.capacity * own * rating / sum(ratings, ZERO))
        mode.delivered[unit] = delivered
        if sensible is not None:
            mode.sensible[unit] = min(sensible, delivered * sensible / rating)
