"""Markers that a dataclass field carries to say which quantity its float holds.

`length_m: LengthM` is a plain float to the type checker; a schema, a reader or a printer finds the
dimension in the annotation's metadata.
"""

from dataclasses import dataclass
from typing import Annotated

from linewright.units.dimensions import Dimension


@dataclass(frozen=True, slots=True)
class Quantity:
    """Annotation metadata: the float beside it is in the SI unit of `dimension`."""

    dimension: Dimension


LengthM = Annotated[float, Quantity(Dimension.LENGTH)]
TubeM = Annotated[float, Quantity(Dimension.TUBE)]
AreaM2 = Annotated[float, Quantity(Dimension.AREA)]
VolumeM3 = Annotated[float, Quantity(Dimension.VOLUME)]
PowerW = Annotated[float, Quantity(Dimension.POWER)]
MassKg = Annotated[float, Quantity(Dimension.MASS)]
LinearMassKgM = Annotated[float, Quantity(Dimension.LINEAR_MASS)]
TempC = Annotated[float, Quantity(Dimension.TEMPERATURE)]
TempK = Annotated[float, Quantity(Dimension.TEMPERATURE_DIFFERENCE)]
PressurePa = Annotated[float, Quantity(Dimension.PRESSURE)]
TimeS = Annotated[float, Quantity(Dimension.TIME)]
VoltageV = Annotated[float, Quantity(Dimension.VOLTAGE)]
CurrentA = Annotated[float, Quantity(Dimension.CURRENT)]
FrequencyHz = Annotated[float, Quantity(Dimension.FREQUENCY)]
ElectricW = Annotated[float, Quantity(Dimension.ELECTRIC)]
FlowM3S = Annotated[float, Quantity(Dimension.FLOW)]
VelocityMS = Annotated[float, Quantity(Dimension.VELOCITY)]
MassFlowKgS = Annotated[float, Quantity(Dimension.MASS_FLOW)]
MassFluxKgM2S = Annotated[float, Quantity(Dimension.MASS_FLUX)]
DensityKgM3 = Annotated[float, Quantity(Dimension.DENSITY)]
ViscosityPaS = Annotated[float, Quantity(Dimension.VISCOSITY)]
EnthalpyJKg = Annotated[float, Quantity(Dimension.ENTHALPY)]
ConductivityWMK = Annotated[float, Quantity(Dimension.CONDUCTIVITY)]
SurfaceWM2K = Annotated[float, Quantity(Dimension.SURFACE)]
LinearPowerWM = Annotated[float, Quantity(Dimension.LINEAR_POWER)]
Ratio = Annotated[float, Quantity(Dimension.RATIO)]
