"""Capacity and input as a book prints them: looked up between temperatures and between connection ratios."""

from __future__ import annotations

from collections.abc import Sequence

from linewright.book.capacity import ModeTables, PowerForGroups
from linewright.engine.capacity_records import Factor, Power
from linewright.engine.factors import Conditions, Inputs, look_up, temperature_inputs
from linewright.engine.formulas import between
from linewright.engine.frame import Frame


def find_power(frame: Frame, tables: ModeTables, conditions: Conditions) -> Power | None:
    """Look the system's capacity up; none where the book prints factors instead."""
    if not tables.power:
        return None
    group, ratio = frame.group_id, frame.index_sum / frame.group.index
    fitting = [table for table in tables.power if not table.groups or group in table.groups]
    fitting.sort(key=lambda table: table.ratio or 0.0)
    if not fitting:
        return Power(None, None, (), (), None, f"a capacity table for group {group}")
    pair = _around(fitting, ratio)
    if pair is None:
        return Power(None, None, (), (), None, f"outside the capacity tables: connection ratio {ratio:g}")
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
    looked_up = tuple(capacity for capacity, _ in found)
    inputs = tuple(used for _, used in found if used is not None)
    inputs = inputs if len(inputs) == len(found) else ()
    missing = next((factor.missing for factor in looked_up if factor.missing), "")
    if missing:
        return Power(None, None, looked_up, inputs, None, missing)
    ratios = None if low is high or low.ratio is None or high.ratio is None else (low.ratio, high.ratio)
    return Power(_at(ratio, ratios, looked_up), _at(ratio, ratios, inputs), looked_up, inputs, ratios)


def _at(ratio: float, ratios: tuple[float, float] | None, found: Sequence[Factor]) -> float | None:
    """What lies between the look-ups at two ratios [W]."""
    values = [factor.value for factor in found if factor.value is not None]
    if not values:
        return None
    return values[0] if ratios is None else between(ratio, *ratios, values[0], values[-1])


def _of(table: PowerForGroups, conditions: Conditions) -> tuple[Factor, Factor | None]:
    inputs: Inputs | None = temperature_inputs(table.capacity, conditions)
    if inputs is None:
        return Factor("capacity table", None, "", None, (), None, "a temperature that the site does not state"), None
    capacity = look_up("capacity table", table.capacity, inputs)
    return capacity, None if table.input is None else look_up("input table", table.input, inputs)
