"""Conversion factors against published ones."""

import pytest

from linewright.units import from_unit, to_unit
from linewright.units.table import TABLE, UNITS

# NIST Special Publication 811 (2008), appendix B.8: factors to seven digits as printed there, from
# memory. The ounce per foot is not listed: the listed pound per foot over 16. Nor is the pound per square
# foot and hour: the listed pound per hour over the listed square foot. Nor is the Btu per hour and foot.
SP811_B8 = {
    "ft": 3.048e-01,
    "in": 2.54e-02,
    "ft2": 9.290304e-02,
    "Btu/h": 2.930711e-01,
    "MBH": 2.930711e02,
    "ton": 3.516853e03,
    "lb": 4.535924e-01,
    "oz": 2.834952e-02,
    "lb/ft": 1.488164e00,
    "oz/ft": 1.488164e00 / 16,
    "Fdeg": 5.555556e-01,
    "bar": 1.0e05,
    "psi": 6.894757e03,
    "micron": 1.333224e-01,
    "m3/h": 2.777778e-04,
    "cfm": 4.719474e-04,
    "ft/min": 5.08e-03,
    "lb/h": 1.259979e-04,
    "lb/(ft2 h)": 1.259979e-04 / 9.290304e-02,
    "lb/ft3": 1.601846e01,
    "ft3": 2.831685e-02,
    "L": 1.0e-03,
    "cP": 1.0e-03,
    "Btu/lb": 2.326e03,
    "Btu in/(h ft2 F)": 1.442279e-01,
    "Btu/(h ft2 F)": 5.678263e00,
    "Btu/(h ft)": 2.930711e-01 / 0.3048,
}

# BIPM, The International System of Units, 9th edition (2019): coherent units and prefixes.
SI = {
    "m": 1.0,
    "cm": 1e-2,
    "mm": 1e-3,
    "m2": 1.0,
    "m3": 1.0,
    "W": 1.0,
    "kW": 1e3,
    "kg": 1.0,
    "g": 1e-3,
    "kg/m": 1.0,
    "kg/s": 1.0,
    "kg/h": 1 / 3600,
    "kg/(m2 s)": 1.0,
    "kg/m3": 1.0,
    "g/m3": 1e-3,
    "Pa s": 1.0,
    "mPa s": 1e-3,
    "J/kg": 1.0,
    "W/(m K)": 1.0,
    "W/(m2 K)": 1.0,
    "W/m": 1.0,
    "kJ/kg": 1e3,
    "g/m": 1e-3,
    "degC": 1.0,
    "K": 1.0,
    "Pa": 1.0,
    "s": 1.0,
    "V": 1.0,
    "A": 1.0,
    "Hz": 1.0,
    "min": 60.0,
    "h": 3600.0,
    "kPa": 1e3,
    "MPa": 1e6,
    "m3/s": 1.0,
    "m/s": 1.0,
    "L/s": 1e-3,
    "%": 1e-2,
}

# SP 811, appendix B.8 footnotes: exact by definition, from memory.
EXACT = {
    "ft": 0.3048,
    "in": 0.0254,
    "lb": 0.45359237,
    "Btu/h": 1055.05585262 / 3600,
    "psi": 4.4482216152605 / 0.0254**2,
    "cfm": 0.3048**3 / 60,
    "micron": 101_325 / 760 / 1000,
    "ton": 12_000 * 1055.05585262 / 3600,
}


@pytest.mark.parametrize(("unit", "factor"), SP811_B8.items())
def test_customary_unit_has_the_published_factor(unit: str, factor: float) -> None:
    # Half of the seventh digit.
    assert from_unit(1.0, unit) == pytest.approx(factor, rel=4e-7)


@pytest.mark.parametrize(("unit", "factor"), SI.items())
def test_metric_unit_has_the_factor_of_its_prefix(unit: str, factor: float) -> None:
    assert from_unit(1.0, unit) == factor


@pytest.mark.parametrize(("unit", "factor"), EXACT.items())
def test_factor_is_the_defined_one(unit: str, factor: float) -> None:
    assert from_unit(1.0, unit) == pytest.approx(factor, rel=1e-15)


def test_every_unit_is_compared_with_a_publication() -> None:
    assert {unit.name for unit in TABLE} == {*SP811_B8, *SI, "degF"}


# SP 811, B.8: t/degC = (t/degF - 32)/1.8. Fixed points of the scale; -40 is where both agree.
@pytest.mark.parametrize(("fahrenheit", "celsius"), [(32.0, 0.0), (212.0, 100.0), (-40.0, -40.0), (95.0, 35.0)])
def test_fahrenheit_and_celsius(fahrenheit: float, celsius: float) -> None:
    assert from_unit(fahrenheit, "degF") == celsius
    assert to_unit(celsius, "degF") == fahrenheit


@pytest.mark.parametrize("spelling", sorted(UNITS))
def test_a_number_comes_back_from_si(spelling: str) -> None:
    assert to_unit(from_unit(12.34, spelling), spelling) == pytest.approx(12.34, rel=1e-14)


def test_eighteen_tons_are_216_000_btu_per_hour() -> None:
    # Common practice, no source.
    assert to_unit(from_unit(18, "tons"), "Btu/h") == pytest.approx(216_000, rel=1e-15)


def test_a_ton_of_refrigeration_is_twelve_thousand_btu_per_hour() -> None:
    # SP 811, B.8: ton of refrigeration (12 000 BtuIT/h).
    assert to_unit(from_unit(1, "ton"), "MBH") == pytest.approx(12, rel=1e-15)


def test_spellings_are_unique_and_every_unit_has_a_source() -> None:
    assert len({unit.name for unit in TABLE}) == len(TABLE)
    assert all(unit.source.startswith("[") for unit in TABLE)
    assert all(isinstance(UNITS[unit.name].over, int) for unit in TABLE)
    # Beyond 2**53 a whole number is no longer exact as a float, and the quotient would be off.
    assert all(max(unit.over, unit.under) < 2**53 for unit in TABLE)


def test_unknown_unit_is_an_error() -> None:
    with pytest.raises(KeyError):
        to_unit(1.0, "cubit")
