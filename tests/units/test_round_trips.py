"""Every unit in and out, and printed text read again."""

import string
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from linewright.units import (
    Dimension,
    UnitFault,
    UnitSystem,
    feet_inches,
    parse,
    parse_as,
    same_tube,
    show,
    show_in,
    tube_name,
)
from linewright.units.showing import style
from linewright.units.table import UNITS, from_unit

D = Dimension

# The units that the program promises, one text each, beside the writing of the two special ones.
PROMISED = {
    "m": "12.4 m",
    "mm": "15.9 mm",
    "ft": "40.5 ft",
    "m2": "24.5 m2",
    "ft2": "260.5 ft2",
    "kW": "5.6 kW",
    "W": "850.5 W",
    "Btu/h": "12000.5 Btu/h",
    "MBH": "19.1 MBH",
    "tons": "18.5 tons",
    "kg": "4.2 kg",
    "lb": "9.3 lb",
    "oz": "4.5 oz",
    "kg/m": "0.5 kg/m",
    "lb/ft": "0.4 lb/ft",
    "oz/ft": "0.6 oz/ft",
    "degC": "35.5 degC",
    "degF": "95.5 degF",
    "K": "5.5 K",
    "kPa": "25.5 kPa",
    "bar": "41.5 bar",
    "psi": "600.5 psi",
    "microns": "500.5 microns",
    "min": "5.5 min",
    "h": "24.5 h",
    "V": "230.5 V",
    "A": "16.5 A",
    "Hz": "50.5 Hz",
    "L/s": "180.5 L/s",
    "m3/h": "650.5 m3/h",
    "cfm": "380.5 cfm",
    "%": "115.5 %",
}


@pytest.mark.parametrize(("unit", "text"), PROMISED.items())
def test_promised_unit_goes_in_and_out(unit: str, text: str) -> None:
    assert show_in(parse(text).value, unit, places=1) == text


def test_feet_and_inches_and_fractions_go_in_and_out() -> None:
    assert feet_inches(parse("12'-6 1/2\"").value) == "12'-6 1/2\""
    assert tube_name(parse("1-1/8 in").value, UnitSystem.IP) == "1-1/8 in"


def test_all_promised_units_are_here() -> None:
    # 32 by name, feet-and-inches and fractional tube sizes: 34 ways to write a quantity.
    assert len(PROMISED) + 2 == 34
    assert set(PROMISED) <= set(UNITS)
    assert {UNITS[unit].dimension for unit in PROMISED} == set(Dimension) - {
        D.NUMBER,
        D.TUBE,
        D.VOLUME,
        D.VELOCITY,
        D.MASS_FLOW,
        D.MASS_FLUX,
        D.DENSITY,
        D.VISCOSITY,
        D.ENTHALPY,
        D.CONDUCTIVITY,
        D.SURFACE,
        D.LINEAR_POWER,
        D.ELECTRIC,
    }  # these are only printed


@pytest.mark.parametrize("dimension", [d for d in Dimension if d is not D.TUBE])
@pytest.mark.parametrize("system", UnitSystem)
@given(value=st.floats(-1e6, 1e6), places=st.none() | st.integers(0, 9))
@example(value=0.0, places=None)
@example(value=-1e-9, places=None)
def test_shown_text_is_read_back_within_its_rounding(
    dimension: Dimension, system: UnitSystem, value: float, places: int | None
) -> None:
    text = show(value, dimension, system, places=places)
    how = style(dimension, system)
    # Half of the last place, and half of the ninth that is rounded to before.
    half_step = 0.5 * 10.0 ** -(how.places if places is None else places) + 0.5e-9
    if how.unit:
        half_step = abs(from_unit(half_step, how.unit) - from_unit(0.0, how.unit))
    wobble = 1e-12 * max(1.0, abs(value))
    assert abs(parse_as(text, dimension) - value) <= half_step + wobble
    if dimension is not D.NUMBER:
        assert parse(text).dimension is (D.POWER if dimension is D.ELECTRIC else dimension)


# Not so for a tube: one that is just no whole fraction may become one when its decimals are rounded.
@pytest.mark.parametrize("dimension", [d for d in Dimension if d is not D.TUBE])
@given(value=st.floats(0, 1e4))
def test_printing_again_what_was_read_changes_nothing(dimension: Dimension, value: float) -> None:
    for system in UnitSystem:
        text = show(value, dimension, system)
        assert show(parse_as(text, dimension), dimension, system) == text


@given(od_m=st.floats(0.003, 0.2))
def test_a_tube_crosses_systems_and_stays_the_same_tube(od_m: float) -> None:
    text = show(od_m, D.TUBE, UnitSystem.IP)
    assert same_tube(parse_as(text, D.TUBE), od_m)


@given(
    number=st.decimals(-1000000, 1000000, places=4),
    unit=st.sampled_from(sorted(UNITS)),
    gap=st.sampled_from(["", " ", "  ", "\u00a0"]),
)
def test_a_read_number_is_the_nearest_float(number: Decimal, unit: str, gap: str) -> None:
    row = UNITS[unit]
    exact = (Fraction(str(number)) - row.zero) * Fraction(row.over, row.under)
    amount = parse(f"{number:f}{gap}{unit}")
    assert amount.value == float(exact)
    assert amount.dimension is row.dimension


SIGNS = string.ascii_letters + string.digits + " .,-+/'\"%_°²³\u2032\u2033\u2212½\t\x00"


@given(text=st.text() | st.text(alphabet=SIGNS, max_size=20))
def test_any_text_is_a_finite_quantity_or_a_fault(text: str) -> None:
    # Any exception but the fault fails here.
    try:
        value = parse(text).value
    except UnitFault:
        return
    assert abs(value) < float("inf")
