"""Capacity tables."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from linewright.book.schema.marks import OneOrMany
from linewright.book.schema.uses import UpsizedMain
from linewright.model.values import value
from linewright.units import Amount, LengthM, PowerW, TempC


@value
class TemperatureTable:
    """Factor on a rated capacity by temperatures: rows outdoor, columns indoor."""

    outdoor_db_degc: tuple[TempC, ...] = ()
    outdoor_wb_degc: tuple[TempC, ...] = ()
    indoor_db_degc: tuple[TempC, ...] = ()
    indoor_wb_degc: tuple[TempC, ...] = ()
    factor: tuple[tuple[float, ...], ...]
    groups: tuple[str, ...] = ()
    defrost_included: bool = False
    page: int | None = None


@value
class RatioTable:
    """Factor on the system's capacity by connection ratio."""

    ratio: tuple[Amount, ...]
    factor: tuple[float, ...]
    groups: tuple[str, ...] = ()
    page: int | None = None


class Basis(StrEnum):
    """Whose length and level the length factor is taken at."""

    FARTHEST = "farthest"
    EACH = "each"


class BelowFirst(StrEnum):
    """What holds below the first row of a length table."""

    HOLD = "hold"
    UNJUDGED = "unjudged"


@value
class LengthTable:
    """Factor by equivalent length (rows) and level, outdoor above positive (columns)."""

    equivalent_m: tuple[LengthM, ...]
    level_m: tuple[LengthM, ...] = ()
    factor: tuple[tuple[float, ...], ...]
    basis: Basis = Basis.FARTHEST
    below_first: BelowFirst = BelowFirst.UNJUDGED
    upsized_main: UpsizedMain | None = None
    groups: tuple[str, ...] = ()
    page: int | None = None


@value
class DefrostTable:
    """Factor on heating capacity for defrost by outdoor wet bulb."""

    outdoor_wb_degc: tuple[TempC, ...]
    factor: tuple[float, ...]
    page: int | None = None


@value
class UnitTemperatureTable:
    """Factor on an indoor unit's rating by its own air temperature."""

    indoor_wb_degc: tuple[TempC, ...] = ()
    indoor_db_degc: tuple[TempC, ...] = ()
    total: tuple[float, ...]
    sensible: tuple[float, ...] = ()
    kind: tuple[str, ...] = ()
    page: int | None = None


@value
class PowerTable:
    """Capacity and input as printed, at one connection ratio: rows outdoor, columns indoor temperature."""

    ratio: Amount | None = None
    outdoor_db_degc: tuple[TempC, ...] = ()
    outdoor_wb_degc: tuple[TempC, ...] = ()
    indoor_db_degc: tuple[TempC, ...] = ()
    indoor_wb_degc: tuple[TempC, ...] = ()
    capacity_w: tuple[tuple[PowerW, ...], ...]
    input_w: tuple[tuple[PowerW, ...], ...] = ()
    groups: tuple[str, ...] = ()
    defrost_included: bool = False
    page: int | None = None


class FactorBy(StrEnum):
    """What a named factor is looked up by."""

    ALTITUDE = "altitude"


@value
class NamedFactor:
    """Another factor on the system's capacity."""

    name: str
    by: FactorBy
    at_m: tuple[LengthM, ...]
    factor: tuple[float, ...]
    page: int | None = None


@value
class CapacityMode:
    """How capacity follows conditions in one mode."""

    table: Annotated[tuple[PowerTable, ...], OneOrMany()] = ()
    factors: tuple[NamedFactor, ...] = ()
    temperature: Annotated[tuple[TemperatureTable, ...], OneOrMany()] = ()
    ratio: Annotated[tuple[RatioTable, ...], OneOrMany()] = ()
    length: Annotated[tuple[LengthTable, ...], OneOrMany()] = ()
    defrost: DefrostTable | None = None
    unit_temperature: Annotated[tuple[UnitTemperatureTable, ...], OneOrMany()] = ()


@value
class Capacity:
    """Capacity tables by mode."""

    cooling: CapacityMode
    heating: CapacityMode | None = None
