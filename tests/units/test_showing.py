"""Printed quantities. Expected texts are worked by hand from the defined factors."""

import pytest

from linewright.units import (
    Dimension,
    UnitSystem,
    at_least,
    at_most,
    parse_as,
    show,
    show_in,
    show_number,
    unit_label,
)

D = Dimension
SI, IP = UnitSystem.SI, UnitSystem.IP

SHOWN = [
    (12.496, D.LENGTH, "12.5 m", "41.0 ft"),  # 41 ft = 12.4968 m
    (24.0, D.AREA, "24.0 m²", "258 ft²"),  # 24 / 0.09290304 = 258.33
    (60.0, D.VOLUME, "60.0 m³", "2119 ft³"),  # 60 / 0.028316846592 = 2118.88
    (5600.0, D.POWER, "5.60 kW", "19.1 MBH"),  # 5600 / 293.0711 = 19.108
    (4.2, D.MASS, "4.20 kg", "9.3 lb"),  # 4.2 / 0.45359237 = 9.259
    (0.05, D.LINEAR_MASS, "0.050 kg/m", "0.0336 lb/ft"),  # 0.05 / 1.488164 = 0.033598
    (35.0, D.TEMPERATURE, "35.0 °C", "95.0 °F"),
    (-40.0, D.TEMPERATURE, "-40.0 °C", "-40.0 °F"),
    (5.0, D.TEMPERATURE_DIFFERENCE, "5.0 K", "9.0 Fdeg"),
    (4_150_000.0, D.PRESSURE, "4150.0 kPa", "601.9 psi"),  # 4150000 / 6894.757 = 601.906
    (5400.0, D.TIME, "90 min", "90 min"),
    (400.0, D.VOLTAGE, "400 V", "400 V"),
    (0.25, D.CURRENT, "0.25 A", "0.25 A"),
    (60.0, D.FREQUENCY, "60 Hz", "60 Hz"),
    (9800.0, D.ELECTRIC, "9800 W", "9800 W"),
    (6.5, D.VELOCITY, "6.5 m/s", "1280 ft/min"),  # 6.5 / 0.00508 = 1279.5
    (0.025, D.MASS_FLOW, "90.0 kg/h", "198.4 lb/h"),  # 90 / 0.45359237 = 198.416
    (120.0, D.MASS_FLUX, "120.0 kg/(m² s)", "88481 lb/(ft² h)"),  # 120 x 3600 x 0.09290304 / 0.45359237 = 88481.5
    (32.0, D.DENSITY, "32.0 kg/m³", "2.00 lb/ft³"),  # 32 / 16.018463 = 1.9977
    (0.0000125, D.VISCOSITY, "0.0125 mPa s", "0.0125 cP"),
    (425_000.0, D.ENTHALPY, "425.0 kJ/kg", "182.7 Btu/lb"),  # 425000 / 2326 = 182.717
    (0.04, D.CONDUCTIVITY, "0.0400 W/(m K)", "0.277 Btu in/(h ft² °F)"),  # 0.04 / 0.1442279 = 0.27734
    (6.8, D.SURFACE, "6.80 W/(m² K)", "1.198 Btu/(h ft² °F)"),  # 6.8 / 5.678263 = 1.19755
    (5.0, D.LINEAR_POWER, "5.0 W/m", "5.2 Btu/(h ft)"),  # 5 / 0.9615193 = 5.20010
    (0.18, D.FLOW, "180.0 L/s", "381 cfm"),  # 0.18 / 4.719474e-4 = 381.4
    (0.015875, D.TUBE, "15.88 mm", "5/8 in"),
    (1.1, D.RATIO, "110 %", "110 %"),
    (1.01875, D.RATIO, "101.9 %", "101.9 %"),
    (16.0, D.NUMBER, "16", "16"),
    (3.6, D.NUMBER, "3.6", "3.6"),
    (20.805, D.NUMBER, "20.81", "20.81"),
]


@pytest.mark.parametrize(("value", "dimension", "si", "ip"), SHOWN)
def test_default_text(value: float, dimension: Dimension, si: str, ip: str) -> None:
    assert show(value, dimension, SI) == si
    assert show(value, dimension, IP) == ip


@pytest.mark.parametrize("system", UnitSystem)
@pytest.mark.parametrize(("value", "dimension"), [row[:2] for row in SHOWN])
def test_text_is_number_and_label(value: float, dimension: Dimension, system: UnitSystem) -> None:
    number, label = show_number(value, dimension, system), unit_label(dimension, system)
    assert show(value, dimension, system) == f"{number} {label}".strip()


def test_every_dimension_is_shown_here() -> None:
    assert {row[1] for row in SHOWN} == set(Dimension)


@pytest.mark.parametrize(
    ("value", "dimension", "system", "places", "text"),
    [
        (12.496, D.LENGTH, SI, 0, "12 m"),
        (12.496, D.LENGTH, SI, 2, "12.50 m"),
        (12.496, D.LENGTH, SI, 9, "12.496000000 m"),
        (1.1, D.RATIO, SI, 1, "110.0 %"),
        (1.125, D.RATIO, SI, 0, "113 %"),
        (3.0, D.NUMBER, IP, 2, "3.00"),
        (0.015875, D.TUBE, SI, 1, "15.9 mm"),
        (0.015875, D.TUBE, IP, 3, "0.625 in"),
        (63_303.0, D.POWER, IP, 0, "216 MBH"),
    ],
)
def test_places(value: float, dimension: Dimension, system: UnitSystem, places: int, text: str) -> None:
    assert show(value, dimension, system, places=places) == text


def test_a_half_rounds_away_from_zero_in_decimal() -> None:
    assert show(2.675, D.POWER, SI, places=4) == "0.0027 kW"
    assert show(2675.0, D.MASS, SI) == "2675.00 kg"
    # 2.675, 0.125 and 1.005 lie just beside the half as floats.
    assert [show_number(v, D.MASS, SI) for v in (2.675, 0.125, 1.005)] == ["2.68", "0.13", "1.01"]
    assert [show_number(v, D.LENGTH, SI) for v in (0.25, -0.25, 0.35)] == ["0.3", "-0.3", "0.4"]


@pytest.mark.parametrize("system", UnitSystem)
@pytest.mark.parametrize("dimension", [d for d in Dimension if d is not D.TEMPERATURE])
@pytest.mark.parametrize("value", [-0.0, -1e-12, 0.0])
def test_negative_zero_is_never_printed(value: float, dimension: Dimension, system: UnitSystem) -> None:
    for places in (None, 0, 2):
        assert "-" not in show(value, dimension, system, places=places)
    assert show(-0.04, D.LENGTH, SI) == "0.0 m"
    assert show(-17.7778, D.TEMPERATURE, IP) == "0.0 °F"


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
@pytest.mark.parametrize("dimension", Dimension)
def test_what_is_not_finite_is_not_printed(value: float, dimension: Dimension) -> None:
    for system in UnitSystem:
        with pytest.raises(ValueError, match="not finite"):
            show(value, dimension, system)


@pytest.mark.parametrize("places", [-1, 10])
def test_places_outside_the_range(places: int) -> None:
    with pytest.raises(ValueError, match="0 to 9"):
        show(1.0, D.LENGTH, SI, places=places)


def test_a_unit_of_choice() -> None:
    # 18 tons are 216 000 Btu/h: common practice, no source.
    power_w = parse_as("216000 Btu/h", D.POWER)
    assert show_in(power_w, "tons", places=1) == "18.0 tons"
    assert show_in(power_w, "kW", places=2) == "63.30 kW"  # 216 x 0.2930711
    with pytest.raises(KeyError):
        show_in(power_w, "furlong", places=0)


@pytest.mark.parametrize(
    ("value", "places", "down", "up"),
    [
        (3.849, 1, "3.8", "3.9"),
        (3.8, 1, "3.8", "3.8"),
        (0.1 + 0.2, 1, "0.3", "0.3"),  # what a float leaves behind is no more and no less
        (2.0, 0, "2", "2"),
        (1e-9, 2, "0.00", "0.00"),
        (1e-7, 2, "0.00", "0.01"),
        (0.0151, 3, "0.015", "0.016"),
    ],
)
def test_a_bound_is_rounded_to_the_safe_side(value: float, places: int, down: str, up: str) -> None:
    assert at_most(value, D.MASS, UnitSystem.SI, places=places) == down
    assert at_least(value, D.MASS, UnitSystem.SI, places=places) == up
