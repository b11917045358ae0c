"""Formulas of pipework, registered once; the functions are those of the standards."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from types import MappingProxyType

from linewright.engine.formulas import formula
from linewright.model.pipework import StrengthCode, Supports
from linewright.physics import fluid
from linewright.standards.pipework import formulas as known
from linewright.standards.pipework import nitrogen
from linewright.standards.pipework.data import defaults, pressure_beyond, stresses

SOURCE = "docs/pipework.md"
OF_STANDARDS: tuple[Callable[..., float], ...] = (
    known.least_wall,
    known.most_diameter,
    known.b31_5_pressure,
    known.b31_5_wall,
    known.en_pressure,
    known.en_wall,
    known.bought_wall,
    known.air_pressure,
    known.gauge_at,
    known.gauge_per_kelvin,
    known.dew_point,
    known.flat_thickness,
    known.round_thickness,
    known.heat_gain,
    known.code_minimum,
    known.stocked,
    known.between_anchors,
    known.expansion,
    known.offset_length,
    known.coil_radius,
    known.support_count,
    known.high_side_temperature,
    known.low_side_temperature,
    known.b280_wall,
    known.b280_wall_tolerance,
    known.b280_od_tolerance,
    known.coil_wall_tolerance,
    known.coil_od_tolerance,
    nitrogen.gauge_of_nitrogen,
    nitrogen.free_volume,
    nitrogen.bore_volume,
)
for _one in OF_STANDARDS:
    formula((_one.__doc__ or "").partition("\n")[0].rstrip("."), SOURCE)(_one)


@formula("pressure of the boiling refrigerant less that of the atmosphere", SOURCE)
def saturation_gauge(refrigerant: str, t_degc: float) -> float:
    """Gauge pressure of boiling refrigerant [Pa].

    Raises BeyondError where its properties are not known.
    """
    found = fluid(refrigerant)
    if found is not None and (beyond := pressure_beyond(found.name, t_degc)) is not None:
        return beyond
    if found is None or not found.low_degc <= t_degc <= found.high_degc:
        raise known.BeyondError(f"pressure of boiling {refrigerant} at {t_degc:g} degC")
    return float(found.bubble_pressure(t_degc)) - known.air_pressure(0.0)


def _default(key: str) -> float:
    return defaults()[key].value


def _registered(key: str) -> Callable[[], float]:
    found = partial(_default, key)
    found.__name__ = f"default_{key}"  # type: ignore[attr-defined]
    stated = defaults()[key]
    return formula(f"default: {stated.source}; {stated.confidence}", SOURCE)(found)


#: What stands in for a value that a design leaves out, as a formula without inputs.
DEFAULTS = MappingProxyType({key: _registered(key) for key in defaults()})


def _stress(code: StrengthCode, temper: str) -> Callable[[float], float]:
    found = partial(known.stress_at, code, temper)
    word = code.value.replace("-", "_").replace(".", "_")
    found.__name__ = f"stress_{word}_{temper.replace('-', '_')}"  # type: ignore[attr-defined]
    table = stresses()[code, temper]
    text = f"allowable stress of {temper} copper by {code}, linear between temperatures"
    return formula(f"{text}: {table.source}; {table.confidence}", SOURCE)(found)


#: Allowable stress by temperature, for each code and temper that has one.
STRESSES = MappingProxyType({key: _stress(*key) for key in stresses()})


def _spacing(table: Supports) -> Callable[[float], float]:
    found = partial(known.support_spacing, table)
    found.__name__ = f"spacing_{table.value.replace('-', '_')}"  # type: ignore[attr-defined]
    return formula(f"largest spacing of supports by {table}", SOURCE)(found)


#: Largest spacing of supports by outside diameter, for each table.
SPACINGS = MappingProxyType({table: _spacing(table) for table in Supports})
