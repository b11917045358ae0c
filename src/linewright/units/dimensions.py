"""The closed sets and small values that every other part of `units` stands on."""

from dataclasses import dataclass
from enum import StrEnum


class Dimension(StrEnum):
    """What a quantity measures; the value is the text of the SI unit used inside the program.

    `TUBE` is the outside diameter (or wall) of a tube: a length in metres inside, printed as a
    tube size. `ELECTRIC` is power taken from the mains, which is printed in watts
    in both systems. `TEMPERATURE` is a point on a scale, `TEMPERATURE_DIFFERENCE` a distance on it.
    """

    NUMBER = "1"
    RATIO = "ratio"
    LENGTH = "m"
    AREA = "m2"
    VOLUME = "m3"
    POWER = "W"
    MASS = "kg"
    LINEAR_MASS = "kg/m"
    TEMPERATURE = "degC"
    TEMPERATURE_DIFFERENCE = "K"
    PRESSURE = "Pa"
    FLOW = "m3/s"
    VELOCITY = "m/s"
    MASS_FLOW = "kg/s"
    MASS_FLUX = "kg/(m2 s)"
    DENSITY = "kg/m3"
    VISCOSITY = "Pa s"
    ENTHALPY = "J/kg"
    CONDUCTIVITY = "W/(m K)"
    SURFACE = "W/(m2 K)"
    LINEAR_POWER = "W/m"
    TIME = "s"
    VOLTAGE = "V"
    CURRENT = "A"
    FREQUENCY = "Hz"
    ELECTRIC = "electric"
    TUBE = "tube"

    @property
    def si(self) -> str:
        """Unit in which a value of this dimension is held: `m` for a tube, `1` for a ratio."""
        return _SI_UNITS[self]


_SI_UNITS = {one: one.value for one in Dimension} | {
    Dimension.TUBE: "m",
    Dimension.RATIO: "1",
    Dimension.ELECTRIC: "W",
}


class UnitSystem(StrEnum):
    """How quantities are printed: metric (`si`) or inch-pound (`ip`)."""

    SI = "si"
    IP = "ip"


@dataclass(frozen=True, slots=True)
class Amount:
    """A quantity as read: `value` in the SI unit of `dimension`."""

    value: float
    dimension: Dimension


class UnitFault(ValueError):
    """A quantity that cannot be understood.

    message : str — what is wrong with the text
    expected : str — what would be right, ready to stand after "expected"
    """

    def __init__(self, message: str, expected: str) -> None:
        super().__init__(message, expected)
        self.message = message
        self.expected = expected

    def __str__(self) -> str:
        return f"{self.message}; expected {self.expected}"
