"""What to say about a text that is no quantity, or one of another dimension."""

import re

from linewright.units.dimensions import Dimension, UnitFault
from linewright.units.spellings import LONGEST
from linewright.units.table import UNITS

#: What would be right where the dimension is not known beforehand.
EXPECTED_ANY = "a number with its unit such as 12 m, 40 ft, 5.6 kW or 35 C"

#: What would be right, by dimension.
EXPECTED: dict[Dimension, str] = {
    Dimension.NUMBER: "a number without a unit such as 16",
    Dimension.RATIO: "a ratio such as 115 % or 1.15",
    Dimension.LENGTH: "a length such as 12 m, 40 ft or 12'-6\"",
    Dimension.AREA: "an area such as 24 m2 or 260 ft2",
    Dimension.VOLUME: "a volume such as 60 m3 or 2100 ft3",
    Dimension.POWER: "a power such as 5.6 kW, 19.1 MBH or 18 tons",
    Dimension.MASS: "a mass such as 4.2 kg, 9.3 lb or 2 lb 4 oz",
    Dimension.LINEAR_MASS: "a mass per length such as 0.050 kg/m, 0.034 lb/ft or 0.54 oz/ft",
    Dimension.TEMPERATURE: "a temperature such as 35 C or 95 F",
    Dimension.TEMPERATURE_DIFFERENCE: "a temperature difference such as 5 K or 9 Fdeg",
    Dimension.PRESSURE: "a pressure such as 4.15 MPa, 25 kPa, 42 bar or 600 psi",
    Dimension.TIME: "a time such as 5 min or 24 h",
    Dimension.VOLTAGE: "a voltage such as 400 V or 208 V",
    Dimension.CURRENT: "a current such as 16 A or 0.25 A",
    Dimension.FREQUENCY: "a frequency such as 50 Hz or 60 Hz",
    Dimension.ELECTRIC: "a power such as 40 W or 9.8 kW",
    Dimension.FLOW: "an air flow such as 180 L/s, 650 m3/h or 380 cfm",
    Dimension.VELOCITY: "a velocity such as 6.5 m/s or 1280 ft/min",
    Dimension.MASS_FLOW: "a mass flow such as 90 kg/h or 200 lb/h",
    Dimension.MASS_FLUX: "a mass flux such as 120 kg/(m2 s) or 88 000 lb/(ft2 h)",
    Dimension.DENSITY: "a density such as 0.3 kg/m3, 61 g/m3 or 0.019 lb/ft3",
    Dimension.VISCOSITY: "a viscosity such as 0.012 mPa s or 0.012 cP",
    Dimension.ENTHALPY: "an enthalpy such as 425 kJ/kg or 183 Btu/lb",
    Dimension.CONDUCTIVITY: "a conductivity such as 0.040 W/(m K) or 0.28 Btu in/(h ft2 F)",
    Dimension.SURFACE: "a surface coefficient such as 6.8 W/(m2 K) or 1.2 Btu/(h ft2 F)",
    Dimension.LINEAR_POWER: "a heat per length such as 5 W/m or 5.2 Btu/(h ft)",
    Dimension.TUBE: "a tube size such as 15.88 mm, 5/8 in or 1-1/8 in",
}

# What people write for a unit that is spelled otherwise here.
_MEANT = {
    "m": ("metre", "metres", "meter", "meters", "mtr"),
    "mm": ("millimetre", "millimetres", "millimeter", "millimeters"),
    "m2": ("m^2", "sqm", "sq. m"),
    "ft2": ("ft^2", "sq. ft", "sf"),
    "Btu/h": ("btu", "btus", "btu/hour"),
    "kg": ("kgs", "kilogram", "kilograms"),
    "lb": ("pound", "pounds", "lb."),
    "oz": ("ounce", "ounces"),
    "ft": ("ft.",),
    "in": ("in.",),
    "degC or degF": ("deg", "degree", "degrees", "°"),
    "degC": ("celsius", "c°"),
    "degF": ("fahrenheit", "f°"),
    "psi": ("psig", "psia", "lb/in2"),
    "bar": ("barg", "bara"),
    "micron": ("torr", "mtorr"),
    "min": ("minute", "minutes"),
    "h": ("hour", "hrs"),
    "m3/h": ("m^3/h", "cmh", "m3/hr"),
    "cfm": ("ft3/min", "ft3/m"),
    "L/s": ("lps",),
    "%": ("percent", "pct", "per cent"),
}
# Patterns, compiled only when something is wrong.
_NUMBER = r"[+-]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)(?:[eE][+-]?[0-9]+)?"
_BARE_FRACTION = r"[+-]?(?:[0-9]+[ -]+)?[0-9]+/[0-9]+"
_UNIT_LIKE = r"[^\W\d_]|[°%'\"]"


def shown(text: str) -> str:
    """`text` in quotes for a message, shortened where it is long."""
    plain = text if text.isprintable() else ascii(text)[1:-1]
    return f'"{plain}"' if len(plain) <= LONGEST else f'"{plain[:LONGEST]}…"'


def diagnose(text: str, expected: str) -> UnitFault:
    """Fault for a text (in its normal spelling) that no reader took."""
    return UnitFault(_complaint(text), expected)


def mismatch(text: str, found: Dimension, wanted: Dimension) -> UnitFault:
    """Fault for a quantity that is understood but of another dimension than the wanted one."""
    if found is Dimension.NUMBER:
        message = f"the unit of {shown(text.strip())} is missing"
    else:
        message = f"{shown(text.strip())} is {_noun(found)}, not {_noun(wanted)}"
    return UnitFault(message, EXPECTED[wanted])


def _noun(dimension: Dimension) -> str:
    return EXPECTED[dimension].partition(" such as")[0]


def _complaint(text: str) -> str:
    if not text:
        return "nothing is written"
    if "," in text:
        return f"the comma in {shown(text)} may be a decimal or a thousands sign: write 1000 or 1.0"
    number = re.match(_NUMBER, text)
    if number is None:
        return f"{shown(text)} does not begin with a finite decimal number"
    if re.fullmatch(_BARE_FRACTION, text):
        return f"the unit of {shown(text)} is missing"
    rest = text[number.end() :]
    if rest[0] in "xX_":
        return f"{shown(text)} does not begin with a plain decimal number"
    return _about_unit(text, rest.strip())


def _about_unit(text: str, unit: str) -> str:
    if re.match(_UNIT_LIKE, unit) is None:
        return f"{shown(text)} is not one number with one unit"
    right = _meant(unit.casefold())
    if right is None:
        return f"{shown(unit)} in {shown(text)} is not a known unit"
    return f"{shown(unit)} in {shown(text)} is not a known unit; is {right} meant?"


def _meant(folded: str) -> str | None:
    """Name of the unit that somebody who wrote `folded`, in any case, will have meant."""
    for right, wrongs in _MEANT.items():
        if folded in wrongs:
            return right
    return next((unit.name for name, unit in UNITS.items() if name.casefold() == folded), None)
