"""The table of units: exact conversion factors, the names they answer to, and their sources.

A factor is kept as a quotient of two whole numbers, so that a reader can work in whole numbers and
divide once: `15.88 mm` is then the float nearest to 0.01588 and `115 %` the one nearest to 1.15. All
factors are exact by definition; the international-table Btu is 1055.055 852 62 J.

Sources: [SP811] Thompson and Taylor, Guide for the Use of the International System of Units, NIST
Special Publication 811, 2008, appendix B; [SIBROCHURE] BIPM, The International System of Units,
9th edition, 2019.
"""

from dataclasses import dataclass

from linewright.units.dimensions import Dimension


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit: SI value = (number - `zero`) * `over` / `under`.

    over, under : int — the exact factor to SI as a quotient
    zero : int — reading of the unit at SI zero (32 for degF, else 0)
    fractions : bool — whether a fraction such as `1-1/8` may stand before it
    """

    name: str
    dimension: Dimension
    over: int
    under: int
    source: str
    zero: int = 0
    fractions: bool = False


_D = Dimension
_BTU = 105_505_585_262  # the international-table Btu, in 1e-8 J
_HOUR = 360_000_000_000  # in 1e-8 s, to stand under it
_HALF_BTU = _BTU // 2  # so that quotients of heat by length and area stay small enough to be exact
_POUND = 45_359_237  # in 1e-8 kg
_POUND_FORCE = 44_482_216_152_605  # in 1e-13 N

# name, dimension, factor over, under, source
TABLE: tuple[Unit, ...] = (
    # length
    Unit("m", _D.LENGTH, 1, 1, "[SIBROCHURE] table 2"),
    Unit("cm", _D.LENGTH, 1, 100, "[SIBROCHURE] table 7"),
    Unit("mm", _D.LENGTH, 1, 1000, "[SIBROCHURE] table 7"),
    Unit("ft", _D.LENGTH, 3048, 10_000, "[SP811] B.8 foot", fractions=True),
    Unit("in", _D.LENGTH, 254, 10_000, "[SP811] B.8 inch", fractions=True),
    # area
    Unit("m2", _D.AREA, 1, 1, "[SIBROCHURE] table 5"),
    Unit("ft2", _D.AREA, 9_290_304, 100_000_000, "[SP811] B.8 square foot"),
    # volume
    Unit("m3", _D.VOLUME, 1, 1, "[SIBROCHURE] table 5"),
    Unit("L", _D.VOLUME, 1, 1000, "[SIBROCHURE] table 8"),
    Unit("ft3", _D.VOLUME, 28_316_846_592, 1_000_000_000_000, "[SP811] B.8 cubic foot"),
    # power
    Unit("W", _D.POWER, 1, 1, "[SIBROCHURE] table 4"),
    Unit("kW", _D.POWER, 1000, 1, "[SIBROCHURE] table 7"),
    Unit("Btu/h", _D.POWER, _BTU, _HOUR, "[SP811] B.8 Btu (IT) per hour"),
    Unit("MBH", _D.POWER, _BTU * 1000, _HOUR, "[SP811] B.8 Btu (IT) per hour"),
    Unit("ton", _D.POWER, _BTU * 12_000, _HOUR, "[SP811] B.8 ton of refrigeration", fractions=True),
    # mass
    Unit("kg", _D.MASS, 1, 1, "[SIBROCHURE] table 2"),
    Unit("g", _D.MASS, 1, 1000, "[SIBROCHURE] table 7"),
    Unit("lb", _D.MASS, _POUND, 100_000_000, "[SP811] B.8 pound (avoirdupois)", fractions=True),
    Unit("oz", _D.MASS, _POUND, 1_600_000_000, "[SP811] B.8 ounce (avoirdupois)", fractions=True),
    # linear mass
    Unit("kg/m", _D.LINEAR_MASS, 1, 1, "[SIBROCHURE] table 2"),
    Unit("g/m", _D.LINEAR_MASS, 1, 1000, "[SIBROCHURE] table 7"),
    Unit("lb/ft", _D.LINEAR_MASS, _POUND, 30_480_000, "[SP811] B.8 pound per foot"),
    Unit("oz/ft", _D.LINEAR_MASS, _POUND, 487_680_000, "[SP811] B.8 pound per foot, over 16"),
    # temperature
    Unit("degC", _D.TEMPERATURE, 1, 1, "[SIBROCHURE] table 4"),
    Unit("degF", _D.TEMPERATURE, 5, 9, "[SP811] B.8 degree Fahrenheit", zero=32),
    # temperature difference
    Unit("K", _D.TEMPERATURE_DIFFERENCE, 1, 1, "[SIBROCHURE] table 2"),
    Unit("Fdeg", _D.TEMPERATURE_DIFFERENCE, 5, 9, "[SP811] B.8 degree Fahrenheit (interval)"),
    # pressure
    Unit("Pa", _D.PRESSURE, 1, 1, "[SIBROCHURE] table 4"),
    Unit("kPa", _D.PRESSURE, 1000, 1, "[SIBROCHURE] table 7"),
    Unit("MPa", _D.PRESSURE, 1_000_000, 1, "[SIBROCHURE] table 7"),
    Unit("bar", _D.PRESSURE, 100_000, 1, "[SP811] B.8 bar"),
    Unit("psi", _D.PRESSURE, _POUND_FORCE, 6_451_600_000, "[SP811] B.8 psi"),
    Unit("micron", _D.PRESSURE, 101_325, 760_000, "[SP811] B.8 torr, over 1000"),
    # time
    Unit("s", _D.TIME, 1, 1, "[SIBROCHURE] table 2"),
    Unit("min", _D.TIME, 60, 1, "[SIBROCHURE] table 8"),
    Unit("h", _D.TIME, 3600, 1, "[SIBROCHURE] table 8"),
    # electricity
    Unit("V", _D.VOLTAGE, 1, 1, "[SIBROCHURE] table 4"),
    Unit("A", _D.CURRENT, 1, 1, "[SIBROCHURE] table 2"),
    Unit("Hz", _D.FREQUENCY, 1, 1, "[SIBROCHURE] table 4"),
    # flow
    Unit("m3/s", _D.FLOW, 1, 1, "[SIBROCHURE] table 5"),
    Unit("m3/h", _D.FLOW, 1, 3600, "[SIBROCHURE] table 8"),
    Unit("L/s", _D.FLOW, 1, 1000, "[SIBROCHURE] table 8"),
    Unit("cfm", _D.FLOW, 28_316_846_592, 60_000_000_000_000, "[SP811] B.8 cubic foot per minute"),
    # velocity
    Unit("m/s", _D.VELOCITY, 1, 1, "[SIBROCHURE] table 5"),
    Unit("ft/min", _D.VELOCITY, 3048, 600_000, "[SP811] B.8 foot per minute"),
    # mass flow
    Unit("kg/s", _D.MASS_FLOW, 1, 1, "[SIBROCHURE] table 5"),
    Unit("kg/h", _D.MASS_FLOW, 1, 3600, "[SIBROCHURE] table 8"),
    Unit("lb/h", _D.MASS_FLOW, _POUND, 360_000_000_000, "[SP811] B.8 pound per hour"),
    # mass flux
    Unit("kg/(m2 s)", _D.MASS_FLUX, 1, 1, "[SIBROCHURE] table 5"),
    Unit("lb/(ft2 h)", _D.MASS_FLUX, _POUND, 9_290_304 * 3600, "[SP811] B.8 pound, square foot, hour"),
    # density
    Unit("kg/m3", _D.DENSITY, 1, 1, "[SIBROCHURE] table 5"),
    Unit("g/m3", _D.DENSITY, 1, 1000, "[SIBROCHURE] table 7"),
    Unit("lb/ft3", _D.DENSITY, _POUND * 10_000, 28_316_846_592, "[SP811] B.8 pound per cubic foot"),
    # viscosity
    Unit("Pa s", _D.VISCOSITY, 1, 1, "[SIBROCHURE] table 6"),
    Unit("mPa s", _D.VISCOSITY, 1, 1000, "[SIBROCHURE] table 7"),
    Unit("cP", _D.VISCOSITY, 1, 1000, "[SP811] B.8 centipoise"),
    # enthalpy
    Unit("J/kg", _D.ENTHALPY, 1, 1, "[SIBROCHURE] table 6"),
    Unit("kJ/kg", _D.ENTHALPY, 1000, 1, "[SIBROCHURE] table 7"),
    Unit("Btu/lb", _D.ENTHALPY, 2326, 1, "[SP811] B.8 Btu (IT) per pound"),
    # conductivity
    Unit("W/(m K)", _D.CONDUCTIVITY, 1, 1, "[SIBROCHURE] table 5"),
    Unit(
        "Btu in/(h ft2 F)",
        _D.CONDUCTIVITY,
        _HALF_BTU,
        365_760_000_000,
        "[SP811] B.8 Btu (IT) inch per hour, square foot, degree Fahrenheit",
    ),
    # surface coefficient
    Unit("W/(m2 K)", _D.SURFACE, 1, 1, "[SIBROCHURE] table 5"),
    Unit(
        "Btu/(h ft2 F)",
        _D.SURFACE,
        _HALF_BTU,
        9_290_304_000,
        "[SP811] B.8 Btu (IT) per hour, square foot, degree Fahrenheit",
    ),
    # heat per length
    Unit("W/m", _D.LINEAR_POWER, 1, 1, "[SIBROCHURE] table 5"),
    Unit("Btu/(h ft)", _D.LINEAR_POWER, _HALF_BTU, 54_864_000_000, "[SP811] B.8 Btu (IT) per hour, foot"),
    # ratio
    Unit("%", _D.RATIO, 1, 100, "[SP811] 7.10.2"),
)

#: What each unit may also be called, beside its name.
SPELLINGS: dict[str, tuple[str, ...]] = {
    "ft": ("'", "foot", "feet", "FT"),
    "in": ('"', "inch", "inches", "IN"),
    "m2": ("m²", "sq m"),
    "ft2": ("ft²", "sq ft", "sqft", "SF"),
    "m3": ("m³",),
    "L": ("l",),
    "ft3": ("ft³", "cu ft"),
    "Btu/h": ("Btuh", "BTU/h", "BTU/H", "BTUH", "Btu/hr", "BTU/hr", "BTU/HR"),
    "MBH": ("MBh", "kBtu/h", "kBtuh", "kBtu/hr", "kBTU/h", "kBTU/hr"),
    "ton": ("tons", "TON", "TONS"),
    "lb": ("lbs", "LB", "LBS"),
    "oz": ("OZ",),
    "lb/ft": ("lbs/ft", "LB/FT"),
    "oz/ft": ("OZ/FT",),
    "degC": ("C", "°C", "deg C", "° C"),
    "degF": ("F", "°F", "deg F", "° F"),
    "psi": ("PSI",),
    "micron": ("microns",),
    "h": ("hr", "hours"),
    "m3/s": ("m³/s",),
    "m3/h": ("m³/h",),
    "L/s": ("l/s",),
    "cfm": ("CFM",),
    "ft/min": ("fpm", "FPM"),
    "lb/h": ("lb/hr",),
    "kg/m3": ("kg/m³",),
    "g/m3": ("g/m³",),
    "lb/ft3": ("lb/ft³",),
    "kg/(m2 s)": ("kg/(m² s)",),
    "lb/(ft2 h)": ("lb/(ft² h)",),
    "W/(m K)": ("W/mK",),
    "W/(m2 K)": ("W/(m² K)", "W/m2K"),
    "Btu in/(h ft2 F)": ("Btu in/(h ft² °F)", "Btu-in/(h ft2 F)"),
    "Btu/(h ft2 F)": ("Btu/(h ft² °F)",),
}

#: Every unit by every name that is accepted.
UNITS: dict[str, Unit] = {name: unit for unit in TABLE for name in (unit.name, *SPELLINGS.get(unit.name, ()))}


def to_unit(value_si: float, unit: str) -> float:
    """Number of `unit`s in an SI value: `to_unit(0.3048, "ft")` is 1.0.

    unit : str — any accepted spelling; KeyError on another one
    """
    found = UNITS[unit]
    return value_si * found.under / found.over + found.zero


def from_unit(number: float, unit: str) -> float:
    """SI value of a number of `unit`s: `from_unit(1.0, "ft")` is 0.3048.

    unit : str — any accepted spelling; KeyError on another one
    """
    found = UNITS[unit]
    return (number - found.zero) * found.over / found.under
