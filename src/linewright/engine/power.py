"""Capacity and input as a book prints them: looked up between temperatures and between connection ratios."""

from __future__ import annotations

from linewright.book.capacity import ModeTables, PowerForGroups
from linewright.engine.factors import Conditions, Inputs, look_up, temperature_inputs
from linewright.engine.formulas import between
from linewright.engine.records import Factor, Power
from linewright.engine.state import State


def find_power(state: State, tables: ModeTables, conditions: Conditions) -> Power | None:
    """Look the system's capacity up; none where the book prints factors instead."""
    if not tables.power:
        return None
    group, ratio = state.ground.group_id, state.ground.index_sum / state.ground.group.index
    fitting = [table for table in tables.power if not table.groups or group in table.groups]
    fitting.sort(key=lambda table: table.ratio or 0.0)
    if not fitting:
        return Power(None, None, (), None, f"a capacity table for group {group}")
    pair = _around(fitting, ratio)
    if pair is None:
        return Power(None, None, (), None, f"outside the capacity tables: connection ratio {ratio:g}")
    return _between(pair, ratio, conditions)


def _around(tables: list[PowerForGroups], ratio: float) -> tuple[PowerForGroups, PowerForGroups] | None:
    """The tables on both sides of a connection ratio."""
    if tables[0].ratio is None:
        return tables[0], tables[0]
    below = [table for table in tables if table.ratio is not None and table.ratio <= ratio + TOLERANCE]
    above = [table for table in tables if table.ratio is not None and table.ratio >= ratio - TOLERANCE]
    return (below[-1], above[0]) if below and above else None


#: Two connection ratios so close are one.
TOLERANCE = 1e-9


def _between(pair: tuple[PowerForGroups, PowerForGroups], ratio: float, conditions: Conditions) -> Power:
    low, high = pair
    found = [_of(table, conditions) for table in dict.fromkeys(pair)]
    missing = next((factor.missing for factor, _ in found if factor.missing), "")
    looked_up = tuple(factor for factor, _ in found)
    if missing:
        return Power(None, None, looked_up, None, missing)
    capacities = [factor.value or 0.0 for factor, _ in found]
    inputs = [used for _, used in found]
    if low is high or low.ratio is None or high.ratio is None:
        return Power(capacities[0], inputs[0], looked_up, None)
    ratios = low.ratio, high.ratio
    capacity = between(ratio, *ratios, capacities[0], capacities[-1])
    known = [used for used in inputs if used is not None]
    used = between(ratio, *ratios, known[0], known[-1]) if len(known) == len(inputs) else None
    return Power(capacity, used, looked_up, ratios)


def _of(table: PowerForGroups, conditions: Conditions) -> tuple[Factor, float | None]:
    inputs: Inputs | None = temperature_inputs(table.capacity, conditions)
    if inputs is None:
        absent = Factor("capacity table", None, "", None, (), None, "a temperature that the site does not state")
        return absent, None
    capacity = look_up("capacity table", table.capacity, inputs)
    used = look_up("input table", table.input, inputs).value if table.input is not None else None
    return capacity, used
