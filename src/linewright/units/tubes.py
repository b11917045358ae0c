"""Lengths as the inch trade writes them: fractional tube sizes, feet and inches."""

from functools import lru_cache
from math import gcd

from linewright.units.comparing import round_to_places, same_tube
from linewright.units.decimals import decimal_text
from linewright.units.dimensions import UnitSystem
from linewright.units.table import to_unit

_SIXTEENTH_M = 0.0254 / 16
_INCHES_PER_FOOT = 12


@lru_cache(maxsize=1000)
def tube_number(od_m: float, system: UnitSystem) -> str:
    """Tube size without its unit: `15.88` in millimetres, `5/8` or `1-1/8` in inches.

    Millimetres are rounded to a hundredth with ties to even, which is how nominal inch sizes are
    printed in metric tables: 3/8 in (9.525 mm) is 9.52 and 5/8 in (15.875 mm) is 15.88.
    Inches are a fraction within 0.1 mm of a whole sixteenth, else a decimal number.
    """
    if system is UnitSystem.SI:
        hundredths = round_to_places(to_unit(od_m, "mm"), 2, mode="nearest")
        return decimal_text(hundredths, 2, trim=True)
    sixteenths = round_to_places(od_m / _SIXTEENTH_M, 0)
    if same_tube(od_m, sixteenths * _SIXTEENTH_M):
        return _inch_number(sixteenths)
    return decimal_text(round_to_places(to_unit(od_m, "in"), 3), 3, trim=True)


def tube_name(od_m: float, system: UnitSystem) -> str:
    """Tube size with its unit: `15.88 mm`, `5/8 in`, `1-1/8 in`.

    od_m : float — outside diameter [m]
    """
    return f"{tube_number(od_m, system)} {'mm' if system is UnitSystem.SI else 'in'}"


def feet_inches(value_m: float, fraction: int = 16) -> str:
    """Length in feet and inches to the nearest 1/`fraction` inch: `12'-6 1/2"`.

    value_m : float — length [m]
    fraction : int — parts of an inch, 1 or more; ValueError otherwise
    """
    if fraction < 1:
        raise ValueError(f"parts of an inch must be 1 or more, not {fraction!r}")
    parts = round_to_places(to_unit(abs(value_m), "in") * fraction, 0)
    feet, rest = divmod(parts, _INCHES_PER_FOOT * fraction)
    inches = " ".join(_mixed(rest, fraction)).rstrip()
    sign = "-" if value_m < 0 and parts else ""
    return f"{sign}{feet}'-{inches}\""


def _inch_number(sixteenths: int) -> str:
    sign = "-" if sixteenths < 0 else ""
    whole, fraction = _mixed(abs(sixteenths), 16)
    if whole != "0" and fraction:
        return f"{sign}{whole}-{fraction}"
    return f"{sign}{fraction or whole}"


def _mixed(parts: int, of: int) -> tuple[str, str]:
    """`parts`/`of` as a whole number and a fraction in lowest terms, empty where there is none."""
    whole, rest = divmod(parts, of)
    if rest == 0:
        return str(whole), ""
    common = gcd(rest, of)
    return str(whole), f"{rest // common}/{of // common}"
