"""Markers in annotations, and the dimensions themselves."""

from dataclasses import dataclass
from typing import get_type_hints

import pytest

from linewright import units
from linewright.units import Dimension, Quantity, UnitSystem


@dataclass(frozen=True, slots=True, kw_only=True)
class Sample:
    """One field of each marker."""

    length_m: units.LengthM
    od_m: units.TubeM
    area_m2: units.AreaM2
    volume_m3: units.VolumeM3
    power_w: units.PowerW
    mass_kg: units.MassKg
    linear_mass_kg_m: units.LinearMassKgM
    temperature_c: units.TempC
    difference_k: units.TempK
    pressure_pa: units.PressurePa
    time_s: units.TimeS
    flow_m3_s: units.FlowM3S
    velocity_m_s: units.VelocityMS
    mass_flow_kg_s: units.MassFlowKgS
    mass_flux_kg_m2_s: units.MassFluxKgM2S
    density_kg_m3: units.DensityKgM3
    viscosity_pa_s: units.ViscosityPaS
    enthalpy_j_kg: units.EnthalpyJKg
    conductivity: units.ConductivityWMK
    surface: units.SurfaceWM2K
    heat_w_m: units.LinearPowerWM
    voltage_v: units.VoltageV
    current_a: units.CurrentA
    frequency_hz: units.FrequencyHz
    input_w: units.ElectricW
    ratio: units.Ratio


FIELDS = {
    "length_m": Dimension.LENGTH,
    "od_m": Dimension.TUBE,
    "area_m2": Dimension.AREA,
    "volume_m3": Dimension.VOLUME,
    "power_w": Dimension.POWER,
    "mass_kg": Dimension.MASS,
    "linear_mass_kg_m": Dimension.LINEAR_MASS,
    "temperature_c": Dimension.TEMPERATURE,
    "difference_k": Dimension.TEMPERATURE_DIFFERENCE,
    "pressure_pa": Dimension.PRESSURE,
    "time_s": Dimension.TIME,
    "flow_m3_s": Dimension.FLOW,
    "velocity_m_s": Dimension.VELOCITY,
    "mass_flow_kg_s": Dimension.MASS_FLOW,
    "mass_flux_kg_m2_s": Dimension.MASS_FLUX,
    "density_kg_m3": Dimension.DENSITY,
    "viscosity_pa_s": Dimension.VISCOSITY,
    "enthalpy_j_kg": Dimension.ENTHALPY,
    "conductivity": Dimension.CONDUCTIVITY,
    "surface": Dimension.SURFACE,
    "heat_w_m": Dimension.LINEAR_POWER,
    "voltage_v": Dimension.VOLTAGE,
    "current_a": Dimension.CURRENT,
    "frequency_hz": Dimension.FREQUENCY,
    "input_w": Dimension.ELECTRIC,
    "ratio": Dimension.RATIO,
}


@pytest.mark.parametrize(("field", "dimension"), FIELDS.items())
def test_a_marked_field_tells_its_dimension(field: str, dimension: Dimension) -> None:
    hint = get_type_hints(Sample, include_extras=True)[field]
    assert hint.__metadata__ == (Quantity(dimension),)
    assert hint.__origin__ is float


def test_every_dimension_but_the_bare_number_has_a_marker() -> None:
    assert set(FIELDS.values()) == set(Dimension) - {Dimension.NUMBER}


def test_unit_inside() -> None:
    assert {dimension: dimension.si for dimension in Dimension} == {
        Dimension.NUMBER: "1",
        Dimension.RATIO: "1",
        Dimension.LENGTH: "m",
        Dimension.AREA: "m2",
        Dimension.VOLUME: "m3",
        Dimension.POWER: "W",
        Dimension.MASS: "kg",
        Dimension.LINEAR_MASS: "kg/m",
        Dimension.TEMPERATURE: "degC",
        Dimension.TEMPERATURE_DIFFERENCE: "K",
        Dimension.PRESSURE: "Pa",
        Dimension.TIME: "s",
        Dimension.FLOW: "m3/s",
        Dimension.VELOCITY: "m/s",
        Dimension.MASS_FLOW: "kg/s",
        Dimension.MASS_FLUX: "kg/(m2 s)",
        Dimension.DENSITY: "kg/m3",
        Dimension.VISCOSITY: "Pa s",
        Dimension.ENTHALPY: "J/kg",
        Dimension.CONDUCTIVITY: "W/(m K)",
        Dimension.SURFACE: "W/(m2 K)",
        Dimension.LINEAR_POWER: "W/m",
        Dimension.VOLTAGE: "V",
        Dimension.CURRENT: "A",
        Dimension.FREQUENCY: "Hz",
        Dimension.ELECTRIC: "W",
        Dimension.TUBE: "m",
    }


def test_systems_are_named_as_on_the_command_line() -> None:
    assert [system.value for system in UnitSystem] == ["si", "ip"]


def test_all_names_are_exported() -> None:
    assert all(hasattr(units, name) for name in units.__all__)
    assert units.__all__ == sorted(units.__all__)
