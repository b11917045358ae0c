"""Capacity tables of one mode, checked and ready for look-up."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields
from typing import NamedTuple, TypeVar

from linewright.book.capacity_checks import check_tables
from linewright.book.limit_checks import check_upsized
from linewright.book.measures import MeasureName
from linewright.book.naming import check_known, group_name
from linewright.book.quantities import Report, check_dimension
from linewright.book.schema import (
    Book,
    CapacityMode,
    DefrostTable,
    LengthTable,
    MeasureUse,
    NamedFactor,
    PowerTable,
    RatioTable,
    TemperatureTable,
    UnitTemperatureTable,
)
from linewright.book.tables import Axis, Table, compile_table
from linewright.units import Dimension

T = TypeVar("T")
D = TypeVar("D")


class ForGroups(NamedTuple):
    """A table, the groups it is for (none: all), and its factors on the input where it has them."""

    table: Table
    groups: tuple[str, ...]
    input: Table | None = None


class LengthForGroups(NamedTuple):
    """A length table with its declaration (basis, hold, upsized main), and the measure by which it is entered."""

    table: Table
    groups: tuple[str, ...]
    declared: LengthTable
    reach: MeasureUse


class UnitCorrection(NamedTuple):
    """Factors on a unit's total and sensible rating by its own air temperature."""

    total: Table
    sensible: Table | None
    wet_bulb: bool
    kind: tuple[str, ...]


class PowerForGroups(NamedTuple):
    """Capacity and input as printed [W], at one connection ratio (none: at any)."""

    capacity: Table
    input: Table | None
    ratio: float | None
    groups: tuple[str, ...]


class ModeTables(NamedTuple):
    """All tables of one mode."""

    power: tuple[PowerForGroups, ...]
    named: tuple[tuple[str, Table], ...]
    temperature: tuple[ForGroups, ...]
    outdoor_wet: Mapping[str, bool]
    ratio: tuple[ForGroups, ...]
    length: tuple[LengthForGroups, ...]
    defrost: Table | None
    defrost_included: bool
    unit_temperature: tuple[UnitCorrection, ...]


def compile_mode(mode: CapacityMode, path: str, book: Book, *, report: Report) -> ModeTables:
    """Check every table of one mode."""
    _check_names(mode, path, book, report=report)
    check_tables(mode, path, book, report=report)
    temperature = [
        _temperature(table, where, report) for where, table in _placed(f"{path}.temperature", mode.temperature)
    ]
    return ModeTables(
        power=tuple(_power(table, where, report) for where, table in _placed(f"{path}.table", mode.table)),
        named=tuple((item.name, _named(item, f"{path}.factors[{i}]", report)) for i, item in enumerate(mode.factors)),
        temperature=tuple(temperature),
        outdoor_wet={item.table.path: item.table.rows.name == "outdoor_wb" for item in temperature},
        ratio=tuple(_ratio(table, where, report) for where, table in _placed(f"{path}.ratio", mode.ratio)),
        length=tuple(_length(table, where, book, report) for where, table in _placed(f"{path}.length", mode.length)),
        defrost=_defrost(mode.defrost, f"{path}.defrost", report) if mode.defrost else None,
        defrost_included=any(table.defrost_included for table in mode.temperature)
        or any(table.defrost_included for table in mode.table),
        unit_temperature=tuple(
            _unit_temperature(table, where, report)
            for where, table in _placed(f"{path}.unit_temperature", mode.unit_temperature)
        ),
    )


def _check_names(mode: CapacityMode, path: str, book: Book, *, report: Report) -> None:
    """Groups and kinds that tables are for: one that does not exist would leave its table unused."""
    groups = [group_name(group) for group in book.outdoor.groups]
    kinds = {model.kind for model in book.indoor.models}
    tables: dict[str, Sequence[TemperatureTable | RatioTable | LengthTable | PowerTable]] = {
        "table": mode.table,
        "temperature": mode.temperature,
        "ratio": mode.ratio,
        "length": mode.length,
    }
    for key, given in tables.items():
        for where, table in _placed(f"{path}.{key}", given):
            for i, name in enumerate(table.groups):
                check_known(name, groups, f"{where}.groups[{i}]", what="outdoor group", report=report)
    for where, correction in _placed(f"{path}.unit_temperature", mode.unit_temperature):
        for i, name in enumerate(correction.kind):
            check_known(name, kinds, f"{where}.kind[{i}]", what="kind of indoor unit", report=report)


def for_group(tables: tuple[T, ...], group: str) -> T | None:
    """Give the first table that is for this group, or for all groups."""
    for table in tables:
        groups: tuple[str, ...] = table.groups  # type: ignore[attr-defined]
        if not groups or group in groups:
            return table
    return None


def _placed(path: str, tables: Sequence[D]) -> Iterator[tuple[str, D]]:
    """Give every table with its path; a single one stands without a number."""
    for i, table in enumerate(tables):
        yield (f"{path}[{i}]" if len(tables) > 1 else path), table


def _temperature(table: TemperatureTable, path: str, report: Report) -> ForGroups:
    outdoor = _one_axis((("outdoor_db", table.outdoor_db_degc), ("outdoor_wb", table.outdoor_wb_degc)), path, report)
    indoor = _one_axis((("indoor_wb", table.indoor_wb_degc), ("indoor_db", table.indoor_db_degc)), path, report)
    if outdoor is None or indoor is None:
        return ForGroups(_none(path), table.groups)
    compiled = compile_table(outdoor, indoor, table.factor, path=path, page=table.page, report=report)
    used = None
    if table.input:
        used = compile_table(outdoor, indoor, table.input, path=path, page=table.page, report=report, key="input")
    return ForGroups(compiled, table.groups, used)


def _power(table: PowerTable, path: str, report: Report) -> PowerForGroups:
    outdoor = _one_axis((("outdoor_db", table.outdoor_db_degc), ("outdoor_wb", table.outdoor_wb_degc)), path, report)
    indoor = _one_axis((("indoor_wb", table.indoor_wb_degc), ("indoor_db", table.indoor_db_degc)), path, report)
    ratio = table.ratio
    if ratio is not None:
        check_dimension(ratio, Dimension.RATIO, f"{path}.ratio", report=report)
    at = None if ratio is None else ratio.value
    if outdoor is None or indoor is None:
        return PowerForGroups(_none(path), None, at, table.groups)
    capacity = compile_table(
        outdoor, indoor, table.capacity_w, path=path, page=table.page, report=report, key="capacity"
    )
    used = None
    if table.input_w:
        used = compile_table(outdoor, indoor, table.input_w, path=path, page=table.page, report=report, key="input")
    return PowerForGroups(capacity, used, at, table.groups)


def _named(item: NamedFactor, path: str, report: Report) -> Table:
    return _column(Axis(item.by.value, item.at_m), item.factor, path, page=item.page, report=report)


def _one_axis(options: tuple[tuple[str, tuple[float, ...]], ...], path: str, report: Report) -> Axis | None:
    given = [Axis(name, entries) for name, entries in options if entries]
    names = [name for name, _ in options]
    if not given:
        report(path, f"the table has no axis {' or '.join(names)}", f"one of {', '.join(names)}")
        return None
    if len(given) > 1:
        message = f"the table has two axes, {' and '.join(names)}"
        report(f"{path}.{given[1].name}", message, f"one of {', '.join(names)}")
    return given[0]


def _none(path: str) -> Table:
    """Stands for a table without an axis; the book is refused."""
    return Table(Axis("", ()), None, (), path, None, "factor")


def _ratio(table: RatioTable, path: str, report: Report) -> ForGroups:
    for i, amount in enumerate(table.ratio):
        check_dimension(amount, Dimension.RATIO, f"{path}.ratio[{i}]", report=report)
    rows = Axis("ratio", tuple(amount.value for amount in table.ratio))
    used = None
    if table.input:
        used = _column(rows, table.input, path, page=table.page, report=report, key="input")
    return ForGroups(_column(rows, table.factor, path, page=table.page, report=report), table.groups, used)


def _length(table: LengthTable, path: str, book: Book, report: Report) -> LengthForGroups:
    columns = Axis("level", table.level_m) if table.level_m else None
    rows = Axis("equivalent", table.equivalent_m)
    check_upsized(table.upsized_main, f"{path}.upsized_main", report)
    for i, length_m in enumerate(table.equivalent_m):
        if length_m < 0:
            report(f"{path}.equivalent[{i}]", "an equivalent length is negative", "zero or more")
    compiled = compile_table(rows, columns, table.factor, path=path, page=table.page, report=report)
    return LengthForGroups(compiled, table.groups, table, _reach(table, book))


def _reach(table: LengthTable, book: Book) -> MeasureUse:
    """Give the reach that enters a length table: the very measure of a limit where one counts alike."""
    wanted = MeasureUse(measure=MeasureName.FARTHEST_EQUIVALENT, upsized_main=table.upsized_main)
    names = [item.name for item in fields(MeasureUse)]
    alike = (one for one in book.limits if all(getattr(one, name) == getattr(wanted, name) for name in names))
    return next(alike, wanted)


def _defrost(table: DefrostTable, path: str, report: Report) -> Table:
    rows = Axis("outdoor_wb", table.outdoor_wb_degc)
    return _column(rows, table.factor, path, page=table.page, report=report)


def _unit_temperature(table: UnitTemperatureTable, path: str, report: Report) -> UnitCorrection:
    axis = _one_axis((("indoor_wb", table.indoor_wb_degc), ("indoor_db", table.indoor_db_degc)), path, report)
    if axis is None:
        return UnitCorrection(_none(path), None, wet_bulb=False, kind=table.kind)
    total = _column(axis, table.total, path, page=table.page, report=report, key="total")
    sensible = None
    if table.sensible:
        sensible = _column(axis, table.sensible, path, page=table.page, report=report, key="sensible")
    return UnitCorrection(total, sensible, axis.name == "indoor_wb", table.kind)


def _column(
    rows: Axis, factors: Sequence[float], path: str, *, page: int | None, report: Report, key: str = "factor"
) -> Table:
    """A table of one column."""
    cells = [(factor,) for factor in factors]
    return compile_table(rows, None, cells, path=path, page=page, report=report, key=key)
