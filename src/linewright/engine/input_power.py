"""The power that an outdoor group takes up, as far as a book says it."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.book.capacity import ForGroups, ModeTables, for_group
from linewright.engine.capacity_records import Factor, InputPower, Power
from linewright.engine.factors import Conditions, Inputs, absent, look_up, temperature_inputs
from linewright.engine.formulas import product
from linewright.engine.frame import Frame
from linewright.units import Dimension


def find_input(frame: Frame, tables: ModeTables, conditions: Conditions, power: Power | None) -> InputPower | None:
    """Give the input of one mode; none where the book states none."""
    if power is not None:
        return InputPower(None, power.inputs, power.ratios, power.input_w) if power.inputs else None
    heating = conditions.mode == "heating"
    rated = frame.rated_heating_input_w if heating else frame.rated_cooling_input_w
    if rated is None:
        return None
    factors = tuple(_factors(frame, tables, conditions))
    missing = next((factor.missing for factor in factors if factor.missing), "")
    value = None if missing else product(rated, *(factor.value for factor in factors if factor.value is not None))
    return InputPower(rated, factors, None, value, missing)


def _factors(frame: Frame, tables: ModeTables, conditions: Conditions) -> Iterator[Factor]:
    group = frame.group_id
    temperature, ratio = for_group(tables.temperature, group), for_group(tables.ratio, group)
    if tables.temperature:
        inputs = None if temperature is None else temperature_inputs(temperature.table, conditions)
        yield _factor("input by temperature", temperature, inputs)
    if tables.ratio:
        connected = frame.index_sum / frame.group.index
        at: Inputs = (("connection ratio", connected, Dimension.RATIO, "connection_ratio"),)
        yield _factor("input by connection ratio", ratio, at)


def _factor(name: str, found: ForGroups | None, inputs: Inputs | None) -> Factor:
    if found is None or found.input is None:
        return absent(name, f"factors of the {name}")
    if inputs is None:
        return absent(name, "a temperature that the site does not state")
    return look_up(name, found.input, inputs)
