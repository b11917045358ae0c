"""Look-ups in tables of one mode by the conditions of the site."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from linewright.book.tables import Table
from linewright.engine.capacity_records import Factor
from linewright.engine.formulas import bilinear
from linewright.model.design import CoolingConditions, HeatingConditions
from linewright.units import Dimension

Inputs = tuple[tuple[str, float, Dimension, str], ...]


class Conditions(NamedTuple):
    """Air temperatures of one mode by axis name [degC]; a temperature that is not stated is absent."""

    mode: str
    degc: Mapping[str, float]


def cooling_conditions(site: CoolingConditions) -> Conditions:
    """Temperatures of cooling."""
    axes = {"outdoor_db": site.outdoor_db_degc, "indoor_wb": site.indoor_wb_degc, "indoor_db": site.indoor_db_degc}
    return Conditions("cooling", {name: degc for name, degc in axes.items() if degc is not None})


def heating_conditions(site: HeatingConditions) -> Conditions:
    """Temperatures of heating."""
    axes = {"outdoor_wb": site.outdoor_wb_degc, "outdoor_db": site.outdoor_db_degc, "indoor_db": site.indoor_db_degc}
    return Conditions("heating", {name: degc for name, degc in axes.items() if degc is not None})


def temperature_inputs(table: Table, conditions: Conditions) -> Inputs | None:
    """Temperatures by which a table is entered; none where the site does not state one."""
    names = (table.rows.name, table.columns.name if table.columns is not None else "")
    if any(name not in conditions.degc for name in names):
        return None
    return tuple(
        (name, conditions.degc[name], Dimension.TEMPERATURE, f"site.{conditions.mode}.{name}") for name in names
    )


def temperature_factor(table: Table, conditions: Conditions) -> Factor:
    """Factor of a temperature table."""
    inputs = temperature_inputs(table, conditions)
    if inputs is None:
        names = (table.rows.name, table.columns.name if table.columns is not None else "")
        return absent("temperature", f"a temperature that the site does not state ({' and '.join(names)})")
    return look_up("temperature", table, inputs)


def look_up(name: str, table: Table, inputs: Inputs) -> Factor:
    """Look a table up; outside it there is no value, never the nearest one."""
    corner = table.corner(*(item[1] for item in inputs))
    if corner is None:
        where = ", ".join(f"{item[0]} {item[1]:g}" for item in inputs)
        return Factor(name, None, table.path, table.page, inputs, None, f"outside the table {table.path}: {where}")
    return Factor(name, bilinear(*corner), table.path, table.page, inputs, tuple(corner), key=table.key)


def absent(name: str, missing: str) -> Factor:
    """A factor that cannot be had."""
    return Factor(name, None, "", None, (), None, missing)
