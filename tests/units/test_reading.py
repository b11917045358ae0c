"""Accepted spellings. Expected values are worked by hand from the defined inch, pound and Btu."""

import pytest

from linewright.units import Dimension, parse, parse_as

D = Dimension
LB = 0.45359237
BTU_H = 1055.05585262 / 3600

ACCEPTED = [
    # plain numbers
    ("16", 16.0, D.NUMBER),
    ("+16", 16.0, D.NUMBER),
    ("-3.5", -3.5, D.NUMBER),
    (".5", 0.5, D.NUMBER),
    ("1e3", 1000.0, D.NUMBER),
    ("  7 ", 7.0, D.NUMBER),
    # ratio
    ("115 %", 1.15, D.RATIO),
    ("115%", 1.15, D.RATIO),
    # length
    ("12 m", 12.0, D.LENGTH),
    ("12m", 12.0, D.LENGTH),
    ("12.5 m", 12.5, D.LENGTH),
    ("15.88 mm", 0.01588, D.LENGTH),
    ("250 cm", 2.5, D.LENGTH),
    ("40 ft", 12.192, D.LENGTH),
    ("40'", 12.192, D.LENGTH),
    ("40 feet", 12.192, D.LENGTH),
    ('6"', 0.1524, D.LENGTH),
    ("6''", 0.1524, D.LENGTH),
    ("6 in", 0.1524, D.LENGTH),
    ("6 inches", 0.1524, D.LENGTH),
    # feet and inches
    ("12'-6 1/2\"", 150.5 * 0.0254, D.LENGTH),
    ("12'-6-1/2\"", 150.5 * 0.0254, D.LENGTH),
    ("12' 6 1/2\"", 150.5 * 0.0254, D.LENGTH),
    ("12'6\"", 150 * 0.0254, D.LENGTH),
    ("12' 6\"", 150 * 0.0254, D.LENGTH),
    ("12'-6\"", 150 * 0.0254, D.LENGTH),
    ("12'-6.5\"", 150.5 * 0.0254, D.LENGTH),
    ("12'-0\"", 144 * 0.0254, D.LENGTH),
    ("12'-1/2\"", 144.5 * 0.0254, D.LENGTH),
    ("12 ft 6 in", 150 * 0.0254, D.LENGTH),
    ("12 ft 6 1/2 in", 150.5 * 0.0254, D.LENGTH),
    ("12 feet 6 inches", 150 * 0.0254, D.LENGTH),
    ("12'-6''", 150 * 0.0254, D.LENGTH),
    ("-12'-6\"", -150 * 0.0254, D.LENGTH),
    ("+12'-6\"", 150 * 0.0254, D.LENGTH),
    ('6 1/2"', 6.5 * 0.0254, D.LENGTH),
    # fractions of an inch
    ("5/8 in", 0.015875, D.LENGTH),
    ('5/8"', 0.015875, D.LENGTH),
    ("5 / 8 in", 0.015875, D.LENGTH),
    ("1-1/8 in", 0.028575, D.LENGTH),
    ('1 1/8"', 0.028575, D.LENGTH),
    ("1 - 1/8 in", 0.028575, D.LENGTH),
    ("-1-1/8 in", -0.028575, D.LENGTH),
    ("9/8 in", 0.028575, D.LENGTH),
    ("1/2 ft", 0.1524, D.LENGTH),
    # what word processors and phones make of them
    ("12\u2032-6 1/2\u2033", 150.5 * 0.0254, D.LENGTH),
    ("12\u2019-6 1/2\u201d", 150.5 * 0.0254, D.LENGTH),
    ("12\u20326\u00bd\u2033", 150.5 * 0.0254, D.LENGTH),
    ("12\u2032\u20136\u2033", 150 * 0.0254, D.LENGTH),
    ("1\u215b in", 0.028575, D.LENGTH),
    ("\u215d\u2033", 0.015875, D.LENGTH),
    ("5\u20448 in", 0.015875, D.LENGTH),
    ("\u22125 m", -5.0, D.LENGTH),
    ("-5 m", -5.0, D.LENGTH),
    ("12\u00a0m", 12.0, D.LENGTH),
    ("12\u202f500\u202fmm", 12.5, D.LENGTH),
    # thousands apart by spaces
    ("1 000 m", 1000.0, D.LENGTH),
    ("1 234 567.5 m", 1234567.5, D.LENGTH),
    ("-1 000 m", -1000.0, D.LENGTH),
    ("1 000", 1000.0, D.NUMBER),
    ("12 000 Btu/h", 12_000 * BTU_H, D.POWER),
    # area
    ("24 m2", 24.0, D.AREA),
    ("24 m\u00b2", 24.0, D.AREA),
    ("100 ft2", 9.290304, D.AREA),
    ("100 ft\u00b2", 9.290304, D.AREA),
    ("100 sq ft", 9.290304, D.AREA),
    # power
    ("5.6 kW", 5600.0, D.POWER),
    ("850 W", 850.0, D.POWER),
    ("12000 Btu/h", 12_000 * BTU_H, D.POWER),
    ("12000 BTU/h", 12_000 * BTU_H, D.POWER),
    ("12000 Btu / h", 12_000 * BTU_H, D.POWER),
    ("12 MBH", 12_000 * BTU_H, D.POWER),
    ("12 kBtu/h", 12_000 * BTU_H, D.POWER),
    ("1 ton", 12_000 * BTU_H, D.POWER),
    ("18 tons", 216_000 * BTU_H, D.POWER),
    ("1-1/2 tons", 18_000 * BTU_H, D.POWER),
    # mass
    ("4.2 kg", 4.2, D.MASS),
    ("200 g", 0.2, D.MASS),
    ("11.15 lb", 11.15 * LB, D.MASS),
    ("2 lbs", 2 * LB, D.MASS),
    ("4 oz", LB / 4, D.MASS),
    ("2 lb 4 oz", 2.25 * LB, D.MASS),
    ("2 lb 4.5 oz", (2 + 4.5 / 16) * LB, D.MASS),
    ("-2 lb 4 oz", -2.25 * LB, D.MASS),
    # mass per length
    ("0.050 kg/m", 0.05, D.LINEAR_MASS),
    ("50 g/m", 0.05, D.LINEAR_MASS),
    ("0.040 lb/ft", 0.04 * LB / 0.3048, D.LINEAR_MASS),
    ("0.64 oz/ft", 0.04 * LB / 0.3048, D.LINEAR_MASS),
    # temperature
    ("35 C", 35.0, D.TEMPERATURE),
    ("35 degC", 35.0, D.TEMPERATURE),
    ("35 \u00b0C", 35.0, D.TEMPERATURE),
    ("35 deg C", 35.0, D.TEMPERATURE),
    ("35 \u2103", 35.0, D.TEMPERATURE),
    ("95 F", 35.0, D.TEMPERATURE),
    ("95 degF", 35.0, D.TEMPERATURE),
    ("95 \u00b0F", 35.0, D.TEMPERATURE),
    ("95 \u2109", 35.0, D.TEMPERATURE),
    ("35 \u00baC", 35.0, D.TEMPERATURE),
    ("35 \u02daC", 35.0, D.TEMPERATURE),
    ("-40 F", -40.0, D.TEMPERATURE),
    ("\u22124 C", -4.0, D.TEMPERATURE),
    # temperature difference
    ("5 K", 5.0, D.TEMPERATURE_DIFFERENCE),
    ("5 \u212a", 5.0, D.TEMPERATURE_DIFFERENCE),
    ("9 Fdeg", 5.0, D.TEMPERATURE_DIFFERENCE),
    # pressure
    ("25 kPa", 25_000.0, D.PRESSURE),
    ("300 Pa", 300.0, D.PRESSURE),
    ("4.15 MPa", 4_150_000.0, D.PRESSURE),
    ("42 bar", 4_200_000.0, D.PRESSURE),
    ("500 micron", 500 * 101_325 / 760_000, D.PRESSURE),
    ("5 min", 300.0, D.TIME),
    ("24 h", 86_400.0, D.TIME),
    ("600 psi", 600 * 4.4482216152605 / 0.0254**2, D.PRESSURE),
    ("60 m3", 60.0, D.VOLUME),
    ("2100 cu ft", 2100 * 0.3048**3, D.VOLUME),
    # air flow
    ("180 L/s", 0.18, D.FLOW),
    ("180 l/s", 0.18, D.FLOW),
    ("720 m3/h", 0.2, D.FLOW),
    ("720 m\u00b3/h", 0.2, D.FLOW),
    ("0.2 m3/s", 0.2, D.FLOW),
    ("6.5 m/s", 6.5, D.VELOCITY),
    ("1280 fpm", 1280 * 0.3048 / 60, D.VELOCITY),
    ("90 kg/h", 0.025, D.MASS_FLOW),
    ("200 lb/h", 200 * 0.45359237 / 3600, D.MASS_FLOW),
    ("120 kg/(m2 s)", 120.0, D.MASS_FLUX),
    ("88 000 lb/(ft2 h)", 88_000 * 0.45359237 / 0.3048**2 / 3600, D.MASS_FLUX),
    ("61 g/m3", 0.061, D.DENSITY),
    ("0.019 lb/ft3", 0.019 * 0.45359237 / 0.3048**3, D.DENSITY),
    ("0.012 cP", 0.000012, D.VISCOSITY),
    ("183 Btu/lb", 183 * 1055.05585262 / 0.45359237, D.ENTHALPY),
    ("0.28 Btu in/(h ft2 F)", 0.28 * 1055.05585262 / 3600 * 0.0254 / 0.3048**2 * 1.8, D.CONDUCTIVITY),
    ("1.2 Btu/(h ft2 F)", 1.2 * 1055.05585262 / 3600 / 0.3048**2 * 1.8, D.SURFACE),
    ("5.2 Btu/(h ft)", 5.2 * 1055.05585262 / 3600 / 0.3048, D.LINEAR_POWER),
    ("400 cfm", 400 * 0.3048**3 / 60, D.FLOW),
]


@pytest.mark.parametrize(("text", "value", "dimension"), ACCEPTED)
def test_quantity_is_read(text: str, value: float, dimension: Dimension) -> None:
    amount = parse(text)
    assert amount.dimension is dimension
    assert amount.value == pytest.approx(value, rel=1e-14, abs=0)
    assert parse_as(text, dimension) == amount.value


@pytest.mark.parametrize(
    ("text", "value"),
    [("15.88 mm", 0.01588), ("5/8 in", 0.015875), ("1-1/8 in", 0.028575), ("0.4 m", 0.4)],
)
def test_a_tube_size_is_written_as_a_length(text: str, value: float) -> None:
    assert parse_as(text, Dimension.TUBE) == value


def test_a_ratio_may_be_a_bare_number() -> None:
    assert parse_as("1.15", Dimension.RATIO) == parse_as("115 %", Dimension.RATIO) == 1.15


def test_metric_decimals_are_the_nearest_float() -> None:
    for text, value in [
        ("9.52 mm", 0.00952),
        ("22.22 mm", 0.02222),
        ("101.9 %", 1.019),
        ("1.0 kW", 1e3),
    ]:
        assert parse(text).value == value


def test_negative_zero_becomes_zero() -> None:
    for text in ["-0 m", "-0.0", "-0'-0\"", "\u22120 kg", "-1e-999 m", "-1e-999"]:
        assert str(parse(text).value) == "0.0"
