"""Text into quantities: `parse` by the unit found, `parse_as` for a dimension that is known."""

import re
from collections.abc import Callable

from linewright.units.dimensions import Amount, Dimension, UnitFault
from linewright.units.faults import EXPECTED, EXPECTED_ANY, diagnose, mismatch, shown
from linewright.units.spellings import LONGEST, normal
from linewright.units.table import UNITS, Unit

_NUMBER = r"(?:[0-9]+\.?[0-9]*|\.[0-9]+)"
_FRACTION = r"([0-9]+)/([0-9]+)"
# Three digits of exponent are more than a float holds; more would be whole numbers without bound.
_leading = re.compile(rf"\s*([+-]?{_NUMBER})(?:[eE]([+-]?[0-9]{{1,3}}))?").match
# The rarer forms stay patterns and are compiled when first met: start-up does not pay for them.
_MIXED = rf"([+-]?)(?:([0-9]+)(?: ?- ?| ))?{_FRACTION} ?([^0-9 ].*)"
_FEET_INCHES = (
    r"([+-]?)([0-9]+) ?(?:'|ft|feet|foot) ?-? ?"
    rf"(?:({_NUMBER})|(?:([0-9]+)(?: ?- ?| ))?{_FRACTION}) ?(?:\"|in|inch|inches)"
)
_POUNDS_OUNCES = rf"([+-]?)([0-9]+) ?lbs? ({_NUMBER}) ?oz"
_SPACED = r"([+-]?[0-9]{1,3}(?: [0-9]{3})+(?:\.[0-9]*)?) ?([^0-9 ].*)?"

_INCHES_PER_FOOT = 12
_OUNCES_PER_POUND = 16

_Found = tuple[float, Dimension]
_Exact = tuple[int, int]


def parse(text: str) -> Amount:
    """Quantity in SI, its dimension from its unit; a bare number is a NUMBER.

    Raises UnitFault for a text that is not one finite quantity in a known unit.
    """
    return Amount(*_read(text, EXPECTED_ANY))


def parse_as(text: str, dimension: Dimension) -> float:
    """SI value of a quantity of the given dimension.

    A TUBE is written as a length, an ELECTRIC as a power, a RATIO in % or as a bare number, a NUMBER without a unit.
    Raises UnitFault, its `expected` naming the dimension, for anything else.
    """
    value, found = _read(text, EXPECTED[dimension])
    if (
        found is dimension
        or (found is Dimension.LENGTH and dimension is Dimension.TUBE)
        or (found is Dimension.NUMBER and dimension is Dimension.RATIO)
        or (found is Dimension.POWER and dimension is Dimension.ELECTRIC)
    ):
        return value
    raise mismatch(text, found, dimension)


def unit_of(text: str) -> str | None:
    """The unit in which a quantity is written, as it is spelled; feet of feet and inches; none of a bare number."""
    match = _leading(text)
    rest = text[match.end() :].strip() if match is not None else ""
    if rest in UNITS:
        return rest
    plain = normal(text)
    if "'" in plain:
        return "ft"
    return next((name for name in sorted(UNITS, key=len, reverse=True) if plain.endswith(f" {name}")), None)


def _read(text: str, expected: str) -> _Found:
    """The short way: a number and a spelling of the table. Nearly every quantity ends here."""
    if len(text) > LONGEST:
        raise UnitFault(f"{shown(text)} is too long for a quantity", expected)
    found = _plain(text, expected)
    if found is not None:
        return found
    text = normal(text)
    for reader in _READERS:
        found = reader(text, expected)
        if found is not None:
            return found
    raise diagnose(text, expected)


def _plain(text: str, expected: str) -> _Found | None:
    """`12.5 m`, `95 F`, `1.15`."""
    match = _leading(text)
    if match is None:
        return None
    rest = text[match.end() :].strip()
    unit = UNITS.get(rest)
    if unit is None and rest:
        return None
    number, exponent = match.groups()
    return _in_si(_exact(number, int(exponent or 0)), unit, expected)


def _spaced_thousands(text: str, expected: str) -> _Found | None:
    """`12 000 Btu/h`: groups of three digits apart, as the SI writes them."""
    match = re.fullmatch(_SPACED, text)
    if match is None:
        return None
    unit = UNITS.get(match[2]) if match[2] else None
    if unit is None and match[2]:
        return None
    return _in_si(_exact(match[1].replace(" ", "")), unit, expected)


def _with_fraction(text: str, expected: str) -> _Found | None:
    """`5/8 in`, `1-1/8 in`, `1 1/8"`, `1-1/2 tons`."""
    match = re.fullmatch(_MIXED, text)
    unit = UNITS.get(match[5]) if match else None
    if match is None or unit is None:
        return None
    if not unit.fractions:
        raise UnitFault(f"{shown(text)}: a number of {unit.name} is written in decimals", expected)
    top, bottom = _whole_and_fraction(text, match.group(2, 3, 4), expected)
    return _in_si((-top if match[1] == "-" else top, bottom), unit, expected)


def _feet_inches(text: str, expected: str) -> _Found | None:
    """`12'-6 1/2"`, `12' 6"`, `12 ft 6 in`: the sign holds for the whole."""
    match = re.fullmatch(_FEET_INCHES, text)
    if match is None:
        return None
    if match[3]:
        top, bottom = _exact(match[3])
    else:
        top, bottom = _whole_and_fraction(text, match.group(4, 5, 6), expected)
    if top >= _INCHES_PER_FOOT * bottom:
        raise UnitFault(f"{shown(text)} has 12 inches or more beside its feet", expected)
    top += _INCHES_PER_FOOT * int(match[2]) * bottom
    return _in_si((-top if match[1] == "-" else top, bottom), UNITS["in"], expected)


def _pounds_ounces(text: str, expected: str) -> _Found | None:
    """`2 lb 4 oz`: the sign holds for the whole."""
    match = re.fullmatch(_POUNDS_OUNCES, text)
    if match is None:
        return None
    top, bottom = _exact(match[3])
    if top >= _OUNCES_PER_POUND * bottom:
        raise UnitFault(f"{shown(text)} has 16 ounces or more beside its pounds", expected)
    top += _OUNCES_PER_POUND * int(match[2]) * bottom
    return _in_si((-top if match[1] == "-" else top, bottom), UNITS["oz"], expected)


_READERS: tuple[Callable[[str, str], _Found | None], ...] = (
    _with_fraction,
    _feet_inches,
    _pounds_ounces,
    _spaced_thousands,
    _plain,  # again, now that the spelling is normal
)


def _exact(number: str, exponent: int = 0) -> _Exact:
    """A decimal number as a quotient of whole numbers."""
    whole, _, decimals = number.partition(".")
    exponent -= len(decimals)
    digits = int(whole + decimals)
    return (digits, 10**-exponent) if exponent < 0 else (digits * 10**exponent, 1)


def _whole_and_fraction(text: str, parts: tuple[str | None, ...], expected: str) -> _Exact:
    """Quotient from a whole part, which may be missing, a numerator and a denominator."""
    whole, top, bottom = (int(part or 0) for part in parts)
    if bottom == 0:
        raise UnitFault(f"{shown(text)} divides by zero", expected)
    if parts[0] and top >= bottom:
        raise UnitFault(f"the fraction in {shown(text)} is not less than one", expected)
    return whole * bottom + top, bottom


def _in_si(number: _Exact, unit: Unit | None, expected: str) -> _Found:
    """A quotient in SI: whole numbers divided once, so rounded once.

    Adding zero turns the -0.0 of a number too small for a float into 0.0.
    """
    top, bottom = number
    try:
        if unit is None:
            return top / bottom + 0.0, Dimension.NUMBER
        value = (top - unit.zero * bottom) * unit.over / (bottom * unit.under)
    except OverflowError:
        raise UnitFault("the number is too large", expected) from None
    return value + 0.0, unit.dimension
