"""Capacity tables of one mode, checked and ready for look-up."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple, TypeVar

from linewright.book.bands import Report
from linewright.book.schema import (
    CapacityMode,
    DefrostTable,
    LengthTable,
    RatioTable,
    TemperatureTable,
    UnitTemperatureTable,
)
from linewright.book.tables import Axis, Table, compile_table
from linewright.units import Dimension

T = TypeVar("T")


class ForGroups(NamedTuple):
    """A table, the declaration that it comes from, and the groups it is for (none: all)."""

    table: Table
    groups: tuple[str, ...]


class LengthForGroups(NamedTuple):
    """A length table with its declaration (basis, hold, upsized main)."""

    table: Table
    groups: tuple[str, ...]
    declared: LengthTable


class UnitCorrection(NamedTuple):
    """Factors on a unit's total and sensible rating by its own air temperature."""

    total: Table
    sensible: Table | None
    wet_bulb: bool
    kind: tuple[str, ...]


class ModeTables(NamedTuple):
    """All tables of one mode."""

    temperature: tuple[ForGroups, ...]
    outdoor_wet: Mapping[str, bool]
    ratio: tuple[ForGroups, ...]
    length: tuple[LengthForGroups, ...]
    defrost: Table | None
    defrost_included: bool
    unit_temperature: tuple[UnitCorrection, ...]


def compile_mode(mode: CapacityMode, path: str, report: Report) -> ModeTables:
    """Check every table of one mode."""
    temperature = [
        _temperature(table, _nth(f"{path}.temperature", i, mode.temperature), report)
        for i, table in enumerate(mode.temperature)
    ]
    return ModeTables(
        temperature=tuple(temperature),
        outdoor_wet={item.table.path: item.table.rows.name == "outdoor_wb" for item in temperature},
        ratio=tuple(_ratio(table, _nth(f"{path}.ratio", i, mode.ratio), report) for i, table in enumerate(mode.ratio)),
        length=tuple(
            _length(table, _nth(f"{path}.length", i, mode.length), report) for i, table in enumerate(mode.length)
        ),
        defrost=_defrost(mode.defrost, f"{path}.defrost", report) if mode.defrost else None,
        defrost_included=any(table.defrost_included for table in mode.temperature),
        unit_temperature=tuple(
            _unit_temperature(table, _nth(f"{path}.unit_temperature", i, mode.unit_temperature), report)
            for i, table in enumerate(mode.unit_temperature)
        ),
    )


def for_group(tables: tuple[T, ...], group: str) -> T | None:
    """Give the first table that is for this group, or for all groups."""
    for table in tables:
        groups: tuple[str, ...] = table.groups  # type: ignore[attr-defined]
        if not groups or group in groups:
            return table
    return None


def _nth(path: str, position: int, tables: tuple[object, ...]) -> str:
    return f"{path}[{position}]" if len(tables) > 1 else path


def _temperature(table: TemperatureTable, path: str, report: Report) -> ForGroups:
    outdoor = _one_axis((("outdoor_db", table.outdoor_db_degc), ("outdoor_wb", table.outdoor_wb_degc)), path, report)
    indoor = _one_axis((("indoor_wb", table.indoor_wb_degc), ("indoor_db", table.indoor_db_degc)), path, report)
    compiled = compile_table(outdoor, indoor, table.factor, path=path, page=table.page, report=report)
    return ForGroups(compiled, table.groups)


def _one_axis(options: tuple[tuple[str, tuple[float, ...]], ...], path: str, report: Report) -> Axis:
    given = [Axis(name, entries) for name, entries in options if entries]
    if len(given) != 1:
        names = " or ".join(name for name, _ in options)
        report(path, f"{len(given)} axes given of {names}", f"one of {names}")
    return given[0] if given else Axis(options[0][0], (0.0,))


def _ratio(table: RatioTable, path: str, report: Report) -> ForGroups:
    for amount in table.ratio:
        if amount.dimension not in (Dimension.RATIO, Dimension.NUMBER):
            report(f"{path}.ratio", "an entry is not a ratio", "ratios such as 100 %")
    rows = Axis("ratio", tuple(amount.value for amount in table.ratio))
    factors = [(factor,) for factor in table.factor]
    return ForGroups(compile_table(rows, None, factors, path=path, page=table.page, report=report), table.groups)


def _length(table: LengthTable, path: str, report: Report) -> LengthForGroups:
    columns = Axis("level", table.level_m) if table.level_m else None
    rows = Axis("equivalent", table.equivalent_m)
    compiled = compile_table(rows, columns, table.factor, path=path, page=table.page, report=report)
    return LengthForGroups(compiled, table.groups, table)


def _defrost(table: DefrostTable, path: str, report: Report) -> Table:
    rows = Axis("outdoor_wb", table.outdoor_wb_degc)
    factors = [(factor,) for factor in table.factor]
    return compile_table(rows, None, factors, path=path, page=table.page, report=report)


def _unit_temperature(table: UnitTemperatureTable, path: str, report: Report) -> UnitCorrection:
    axis = _one_axis((("indoor_wb", table.indoor_wb_degc), ("indoor_db", table.indoor_db_degc)), path, report)
    total = compile_table(axis, None, [(f,) for f in table.total], path=path, page=table.page, report=report)
    sensible = None
    if table.sensible:
        factors = [(f,) for f in table.sensible]
        sensible = compile_table(axis, None, factors, path=path, page=table.page, report=report)
    return UnitCorrection(total, sensible, axis.name == "indoor_wb", table.kind)
