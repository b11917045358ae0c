"""Units at the edge: text in either system into SI floats, and SI floats into text."""

from linewright.units.cautious import at_least, at_most
from linewright.units.comparing import RoundingMode, over, round_half_up, same_tube
from linewright.units.dimensions import Amount, Dimension, UnitFault, UnitSystem
from linewright.units.quantities import (
    AreaM2,
    DensityKgM3,
    EnthalpyJKg,
    FlowM3S,
    LengthM,
    LinearMassKgM,
    MassFlowKgS,
    MassFluxKgM2S,
    MassKg,
    PowerW,
    PressurePa,
    Quantity,
    Ratio,
    TempC,
    TempK,
    TimeS,
    TubeM,
    VelocityMS,
    ViscosityPaS,
    VolumeM3,
)
from linewright.units.reading import parse, parse_as
from linewright.units.showing import show, show_in, show_number, unit_label
from linewright.units.table import from_unit, to_unit
from linewright.units.tubes import feet_inches, tube_name

__all__ = [
    "Amount",
    "AreaM2",
    "DensityKgM3",
    "Dimension",
    "EnthalpyJKg",
    "FlowM3S",
    "LengthM",
    "LinearMassKgM",
    "MassFlowKgS",
    "MassFluxKgM2S",
    "MassKg",
    "PowerW",
    "PressurePa",
    "Quantity",
    "Ratio",
    "RoundingMode",
    "TempC",
    "TempK",
    "TimeS",
    "TubeM",
    "UnitFault",
    "UnitSystem",
    "VelocityMS",
    "ViscosityPaS",
    "VolumeM3",
    "at_least",
    "at_most",
    "feet_inches",
    "from_unit",
    "over",
    "parse",
    "parse_as",
    "round_half_up",
    "same_tube",
    "show",
    "show_in",
    "show_number",
    "to_unit",
    "tube_name",
    "unit_label",
]
