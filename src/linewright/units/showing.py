"""Quantities as text, in either system, with the rounding that suits each dimension."""

from dataclasses import dataclass
from functools import lru_cache

from linewright.units.comparing import round_to_places
from linewright.units.decimals import decimal_text
from linewright.units.dimensions import Dimension, UnitSystem
from linewright.units.table import to_unit
from linewright.units.tubes import tube_number

#: Quantities come again and again: on a sheet, and from one revision to the next.
MOST_SHOWN = 20_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Style:
    """How a dimension is printed: in which unit, under which label, to how many decimals.

    unit : str — a name of the table of units, empty for a bare number
    trim : bool — whether zeros at the end are dropped when the caller names no places
    """

    unit: str
    label: str
    places: int
    trim: bool = False


_PERCENT = Style(unit="%", label="%", places=1, trim=True)
_MINUTES = Style(unit="min", label="min", places=1, trim=True)
_VOLTS = Style(unit="V", label="V", places=1, trim=True)
_AMPERES = Style(unit="A", label="A", places=2, trim=True)
_HERTZ = Style(unit="Hz", label="Hz", places=1, trim=True)
_WATTS = Style(unit="W", label="W", places=1, trim=True)
_BARE = Style(unit="", label="", places=2, trim=True)

_SI: dict[Dimension, Style] = {
    Dimension.NUMBER: _BARE,
    Dimension.RATIO: _PERCENT,
    Dimension.LENGTH: Style(unit="m", label="m", places=1),
    Dimension.AREA: Style(unit="m2", label="m²", places=1),
    Dimension.VOLUME: Style(unit="m3", label="m³", places=1),
    Dimension.POWER: Style(unit="kW", label="kW", places=2),
    Dimension.MASS: Style(unit="kg", label="kg", places=2),
    Dimension.LINEAR_MASS: Style(unit="kg/m", label="kg/m", places=3),
    Dimension.TEMPERATURE: Style(unit="degC", label="°C", places=1),
    Dimension.TEMPERATURE_DIFFERENCE: Style(unit="K", label="K", places=1),
    Dimension.PRESSURE: Style(unit="kPa", label="kPa", places=1),
    Dimension.TIME: _MINUTES,
    Dimension.VOLTAGE: _VOLTS,
    Dimension.CURRENT: _AMPERES,
    Dimension.FREQUENCY: _HERTZ,
    Dimension.ELECTRIC: _WATTS,
    Dimension.FLOW: Style(unit="L/s", label="L/s", places=1),
    Dimension.VELOCITY: Style(unit="m/s", label="m/s", places=1),
    Dimension.MASS_FLOW: Style(unit="kg/h", label="kg/h", places=1),
    Dimension.MASS_FLUX: Style(unit="kg/(m2 s)", label="kg/(m² s)", places=1),
    Dimension.DENSITY: Style(unit="kg/m3", label="kg/m³", places=1),
    Dimension.VISCOSITY: Style(unit="mPa s", label="mPa s", places=4),
    Dimension.ENTHALPY: Style(unit="kJ/kg", label="kJ/kg", places=1),
    Dimension.CONDUCTIVITY: Style(unit="W/(m K)", label="W/(m K)", places=4),
    Dimension.SURFACE: Style(unit="W/(m2 K)", label="W/(m² K)", places=2),
    Dimension.LINEAR_POWER: Style(unit="W/m", label="W/m", places=1),
    Dimension.TUBE: Style(unit="mm", label="mm", places=2, trim=True),
}

_IP: dict[Dimension, Style] = {
    Dimension.NUMBER: _BARE,
    Dimension.RATIO: _PERCENT,
    Dimension.LENGTH: Style(unit="ft", label="ft", places=1),
    Dimension.AREA: Style(unit="ft2", label="ft²", places=0),
    Dimension.VOLUME: Style(unit="ft3", label="ft³", places=0),
    Dimension.POWER: Style(unit="MBH", label="MBH", places=1),
    Dimension.MASS: Style(unit="lb", label="lb", places=1),
    Dimension.LINEAR_MASS: Style(unit="lb/ft", label="lb/ft", places=4),
    Dimension.TEMPERATURE: Style(unit="degF", label="°F", places=1),
    Dimension.TEMPERATURE_DIFFERENCE: Style(unit="Fdeg", label="Fdeg", places=1),
    Dimension.PRESSURE: Style(unit="psi", label="psi", places=1),
    Dimension.TIME: _MINUTES,
    Dimension.VOLTAGE: _VOLTS,
    Dimension.CURRENT: _AMPERES,
    Dimension.FREQUENCY: _HERTZ,
    Dimension.ELECTRIC: _WATTS,
    Dimension.FLOW: Style(unit="cfm", label="cfm", places=0),
    Dimension.VELOCITY: Style(unit="ft/min", label="ft/min", places=0),
    Dimension.MASS_FLOW: Style(unit="lb/h", label="lb/h", places=1),
    Dimension.MASS_FLUX: Style(unit="lb/(ft2 h)", label="lb/(ft² h)", places=0),
    Dimension.DENSITY: Style(unit="lb/ft3", label="lb/ft³", places=2),
    Dimension.VISCOSITY: Style(unit="cP", label="cP", places=4),
    Dimension.ENTHALPY: Style(unit="Btu/lb", label="Btu/lb", places=1),
    Dimension.CONDUCTIVITY: Style(unit="Btu in/(h ft2 F)", label="Btu in/(h ft² °F)", places=3),
    Dimension.SURFACE: Style(unit="Btu/(h ft2 F)", label="Btu/(h ft² °F)", places=3),
    Dimension.LINEAR_POWER: Style(unit="Btu/(h ft)", label="Btu/(h ft)", places=1),
    Dimension.TUBE: Style(unit="in", label="in", places=3, trim=True),
}


def style(dimension: Dimension, system: UnitSystem) -> Style:
    """How a dimension is printed in a system."""
    return (_SI if system is UnitSystem.SI else _IP)[dimension]


def unit_label(dimension: Dimension, system: UnitSystem) -> str:
    """Unit under which a dimension is printed, empty for a bare number."""
    return style(dimension, system).label


@lru_cache(maxsize=MOST_SHOWN)
def show_number(value: float, dimension: Dimension, system: UnitSystem, *, places: int | None = None) -> str:
    """An SI value as a number in the printed unit, without the unit; halves round away from zero.

    places : int — decimals, 0 to 9; left out, the ones that suit the dimension
    Raises ValueError for a value that is not finite.
    """
    if dimension is Dimension.TUBE and places is None:
        return tube_number(value, system)
    how = style(dimension, system)
    number = to_unit(value, how.unit) if how.unit else value
    if places is None:
        return decimal_text(round_to_places(number, how.places), how.places, trim=how.trim)
    return decimal_text(round_to_places(number, places), places)


def show(value: float, dimension: Dimension, system: UnitSystem, *, places: int | None = None) -> str:
    """An SI value as text with its unit: `12.5 m`, `41.0 ft`, `110 %`, `5/8 in`.

    places : int — decimals, 0 to 9; left out, the ones that suit the dimension
    Raises ValueError for a value that is not finite.
    """
    return _shown(value, dimension, system, places)


@lru_cache(maxsize=MOST_SHOWN)
def _shown(value: float, dimension: Dimension, system: UnitSystem, places: int | None) -> str:
    number = show_number(value, dimension, system, places=places)
    label = unit_label(dimension, system)
    return f"{number} {label}" if label else number


def show_in(value: float, unit: str, *, places: int) -> str:
    """An SI value as text in a unit of the caller's choice: `18.0 ton`.

    unit : str — any accepted spelling, printed as given; KeyError on another one
    places : int — decimals, 0 to 9
    Raises ValueError for a value that is not finite.
    """
    return f"{decimal_text(round_to_places(to_unit(value, unit), places), places)} {unit}"
