"""Tube sizes and feet-and-inches as text."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linewright.units import Dimension, UnitSystem, feet_inches, parse_as, same_tube, tube_name

SI, IP = UnitSystem.SI, UnitSystem.IP

# Inch sizes of ASTM B280 (nominal size = outside diameter) beside the two-decimal millimetres under
# which the trade lists them: common practice, no source.
NOMINAL = [
    ("1/4 in", "6.35 mm"),
    ("5/16 in", "7.94 mm"),
    ("3/8 in", "9.52 mm"),
    ("1/2 in", "12.7 mm"),
    ("5/8 in", "15.88 mm"),
    ("3/4 in", "19.05 mm"),
    ("7/8 in", "22.22 mm"),
    ("1 in", "25.4 mm"),
    ("1-1/8 in", "28.58 mm"),
    ("1-1/4 in", "31.75 mm"),
    ("1-3/8 in", "34.92 mm"),
    ("1-1/2 in", "38.1 mm"),
    ("1-5/8 in", "41.28 mm"),
    ("1-3/4 in", "44.45 mm"),
    ("2-1/8 in", "53.98 mm"),
    ("2-5/8 in", "66.68 mm"),
    ("3-1/8 in", "79.38 mm"),
]


@pytest.mark.parametrize(("inches", "millimetres"), NOMINAL)
def test_a_nominal_size_has_both_names_however_it_was_typed(inches: str, millimetres: str) -> None:
    for typed in (inches, millimetres):
        od_m = parse_as(typed, Dimension.TUBE)
        assert tube_name(od_m, IP) == inches
        assert tube_name(od_m, SI) == millimetres
    assert same_tube(parse_as(inches, Dimension.TUBE), parse_as(millimetres, Dimension.TUBE))


def test_neighbours_on_the_ladder_are_different_tubes() -> None:
    ladder = [parse_as(inches, Dimension.TUBE) for inches, _ in NOMINAL]
    assert not any(same_tube(a, b) for a, b in pairwise(ladder))


@pytest.mark.parametrize(
    ("od_mm", "si", "ip"),
    [
        (15.9, "15.9 mm", "5/8 in"),
        (12.0, "12 mm", "0.472 in"),
        (22.0, "22 mm", "0.866 in"),
        (0.8, "0.8 mm", "0.031 in"),  # a wall
        (1.0, "1 mm", "0.039 in"),
        (105.0, "105 mm", "4.134 in"),
        (100.0, "100 mm", "3-15/16 in"),  # 100.0125 mm
        (0.0, "0 mm", "0 in"),
    ],
)
def test_other_sizes(od_mm: float, si: str, ip: str) -> None:
    assert tube_name(od_mm / 1000, SI) == si
    assert tube_name(od_mm / 1000, IP) == ip


@pytest.mark.parametrize(
    ("inches", "text"),
    [
        (150.5, "12'-6 1/2\""),
        (150.0, "12'-6\""),
        (144.0, "12'-0\""),
        (144.5, "12'-0 1/2\""),
        (6.5, "0'-6 1/2\""),
        (0.0, "0'-0\""),
        (-0.0, "0'-0\""),
        (-0.001, "0'-0\""),
        (-150.5, "-12'-6 1/2\""),
        (150.4375, "12'-6 7/16\""),
        (143.98, "12'-0\""),  # rounds up into the next foot
        (11.97, "1'-0\""),
        (0.03125, "0'-0 1/16\""),  # exactly half a sixteenth
    ],
)
def test_feet_and_inches(inches: float, text: str) -> None:
    assert feet_inches(inches * 0.0254) == text


def test_parts_of_an_inch() -> None:
    assert feet_inches(150.4375 * 0.0254, 8) == "12'-6 1/2\""
    assert feet_inches(150.4375 * 0.0254, 1) == "12'-6\""
    with pytest.raises(ValueError, match="1 or more"):
        feet_inches(1.0, 0)


@given(length_m=st.floats(-1e4, 1e4), fraction=st.sampled_from([1, 2, 4, 8, 16, 32]))
def test_feet_and_inches_come_back_within_half_a_part(length_m: float, fraction: int) -> None:
    back_m = parse_as(feet_inches(length_m, fraction), Dimension.LENGTH)
    assert abs(back_m - length_m) <= 0.0254 / fraction / 2 + 1e-9


@given(od_m=st.floats(0.001, 0.2))
def test_a_printed_tube_is_the_same_tube(od_m: float) -> None:
    for system in UnitSystem:
        assert same_tube(parse_as(tube_name(od_m, system), Dimension.TUBE), od_m)
