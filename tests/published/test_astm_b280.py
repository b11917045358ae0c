"""Tube sizes and masses as published: each table with its source beside it."""

import csv
from math import pi

import pytest

from linewright.standards.confidence import Confidence
from linewright.standards.tube import DATA, Form, StandardTube, Temper, astm_b280

INCH_M = 0.0254  # the international inch, exact by definition, from memory
LB_FT_KG_M = 0.45359237 / 0.3048  # the international pound and foot, exact by definition, from memory
COPPER_KG_M3 = 8940.0  # density that the standard's masses rest on: 8.94 g/cm3

# ASTM B280-20, table 1, straight lengths, drawn: size; outside diameter, inches (mm); wall, inches (mm);
# lb/ft (kg/m); tolerances on outside diameter and wall, inches. The last wall tolerance (2-1/8) is from memory.
STRAIGHT = [
    ("1/4", 0.250, 6.35, 0.025, 0.635, 0.068, 0.102, 0.001, 0.0025),
    ("3/8", 0.375, 9.52, 0.030, 0.762, 0.126, 0.187, 0.001, 0.003),
    ("1/2", 0.500, 12.7, 0.035, 0.889, 0.198, 0.295, 0.001, 0.004),
    ("5/8", 0.625, 15.9, 0.040, 1.02, 0.285, 0.424, 0.001, 0.004),
    ("3/4", 0.750, 19.1, 0.042, 1.07, 0.362, 0.539, 0.001, 0.004),
    ("7/8", 0.875, 22.3, 0.045, 1.14, 0.455, 0.677, 0.001, 0.004),
    ("1-1/8", 1.125, 28.6, 0.050, 1.27, 0.655, 0.975, 0.0015, 0.004),
    ("1-3/8", 1.375, 34.9, 0.055, 1.40, 0.884, 1.32, 0.0015, 0.006),
    ("1-5/8", 1.625, 41.3, 0.060, 1.52, 1.14, 1.70, 0.002, 0.006),
    ("2-1/8", 2.125, 54.0, 0.070, 1.78, 1.75, 2.60, 0.002, 0.007),
]

# The Engineering ToolBox, page 1084, annealed coils: size; outside diameter and wall, inches. The masses, lb/ft,
# are not published there: computed from 8.94 g/cm3, a cross-check only.
COIL = [
    ("1/4", 0.250, 0.030, 0.0804),
    ("5/16", 0.3125, 0.032, 0.109),
    ("3/8", 0.375, 0.032, 0.134),
    ("1/2", 0.500, 0.032, 0.182),
    ("5/8", 0.625, 0.035, 0.251),
    ("3/4", 0.750, 0.035, 0.305),
    ("3/4", 0.750, 0.042, 0.362),
    ("7/8", 0.875, 0.045, 0.455),
    ("1-1/8", 1.125, 0.050, 0.655),
    ("1-3/8", 1.375, 0.055, 0.884),
]


def tubes(form: Form) -> list[StandardTube]:
    return [tube for tube in astm_b280() if tube.form is form]


def mass_by_density(tube: StandardTube) -> float:
    return COPPER_KG_M3 * pi * (tube.od_m - tube.wall_m) * tube.wall_m


def printed_rows(form: Form) -> list[dict[str, str]]:
    with DATA.open(encoding="utf-8", newline="") as file:
        return [row for row in csv.DictReader(file) if row["form"] == form]


def test_straight_lengths_are_drawn_and_stand_in_the_order_of_the_table() -> None:
    found = tubes(Form.STRAIGHT)
    assert [tube.size_in for tube in found] == [row[0] for row in STRAIGHT]
    assert {tube.temper for tube in found} == {Temper.DRAWN}


def test_coils_are_annealed_and_three_quarters_has_two_walls() -> None:
    found = tubes(Form.COIL)
    assert [tube.size_in for tube in found] == [row[0] for row in COIL]
    assert {tube.temper for tube in found} == {Temper.ANNEALED}


@pytest.mark.parametrize("position", range(len(STRAIGHT)), ids=[row[0] for row in STRAIGHT])
def test_a_straight_length_has_the_published_sizes_and_mass(position: int) -> None:
    _, od_in, od_mm, wall_in, wall_mm, lb_ft, kg_m, od_plus_in, wall_plus_in = STRAIGHT[position]
    tube = tubes(Form.STRAIGHT)[position]
    assert tube.od_m == pytest.approx(od_in * INCH_M, rel=1e-12)
    assert tube.wall_m == pytest.approx(wall_in * INCH_M, rel=1e-12)
    # The printed millimetres are rounded: to 0.1 mm from 5/8 in up, the walls to 0.01 mm.
    assert tube.od_m * 1000 == pytest.approx(od_mm, abs=0.1)
    assert tube.wall_m * 1000 == pytest.approx(wall_mm, abs=0.005)
    assert tube.mass_kg_m == kg_m
    assert tube.mass_kg_m / LB_FT_KG_M == pytest.approx(lb_ft, rel=0.01)
    assert tube.od_tolerance is not None
    assert tube.wall_tolerance is not None
    assert tube.od_tolerance.plus_minus_m == pytest.approx(od_plus_in * INCH_M, rel=1e-12)
    assert tube.wall_tolerance.plus_minus_m == pytest.approx(wall_plus_in * INCH_M, rel=1e-12)


@pytest.mark.parametrize("position", range(len(COIL)), ids=[f"{row[0]} x {row[2]}" for row in COIL])
def test_a_coil_has_the_reprinted_sizes_and_the_computed_mass(position: int) -> None:
    _, od_in, wall_in, lb_ft = COIL[position]
    tube = tubes(Form.COIL)[position]
    assert tube.od_m == pytest.approx(od_in * INCH_M, rel=1e-12)
    assert tube.wall_m == pytest.approx(wall_in * INCH_M, rel=1e-12)
    assert tube.mass_kg_m == pytest.approx(lb_ft * LB_FT_KG_M, rel=1e-6)
    assert tube.od_tolerance is None
    assert tube.wall_tolerance is None


def test_every_mass_is_that_of_copper_within_seven_parts_in_a_thousand() -> None:
    assert len(astm_b280()) == len(STRAIGHT) + len(COIL)
    for tube in astm_b280():
        assert tube.mass_kg_m == pytest.approx(mass_by_density(tube), rel=0.007), tube.size_in


def test_the_printed_pounds_per_foot_are_those_of_copper_within_their_last_place() -> None:
    for tube, row in zip(tubes(Form.STRAIGHT), printed_rows(Form.STRAIGHT), strict=True):
        printed = row["mass_lb_ft"]
        half_a_place = 0.5 * 10.0 ** -len(printed.partition(".")[2])
        wanted = mass_by_density(tube) / LB_FT_KG_M
        assert float(printed) == pytest.approx(wanted, rel=0.007, abs=half_a_place), tube.size_in


def test_the_printed_figures_of_the_data_file_are_those_of_the_table() -> None:
    columns = (
        "od_in",
        "od_mm",
        "wall_in",
        "wall_mm",
        "mass_lb_ft",
        "mass_kg_m",
        "od_tolerance_in",
        "wall_tolerance_in",
    )
    found = [tuple(float(row[name]) for name in columns) for row in printed_rows(Form.STRAIGHT)]
    assert found == [row[1:] for row in STRAIGHT]


def test_only_what_was_read_says_so() -> None:
    straight, coils = tubes(Form.STRAIGHT), tubes(Form.COIL)
    walls = {tube.size_in: tube.wall_tolerance.confidence for tube in straight if tube.wall_tolerance}
    assert walls.pop("2-1/8") is Confidence.MEMORY_MEDIUM
    assert set(walls.values()) == {Confidence.READ}
    assert {tube.od_tolerance.confidence for tube in straight if tube.od_tolerance} == {Confidence.READ}
    assert {tube.mass_confidence for tube in straight} == {Confidence.READ}
    assert {tube.mass_confidence for tube in coils} == {Confidence.COMPUTED}
    assert {tube.od_confidence for tube in astm_b280()} == {Confidence.READ}
    assert {tube.wall_confidence for tube in astm_b280()} == {Confidence.READ}


def test_every_figure_names_its_source() -> None:
    assert {tube.source for tube in tubes(Form.STRAIGHT)} == {"[ASTM-B280] table 1"}
    assert {tube.source for tube in tubes(Form.COIL)} == {"[ETB-1084]"}
    assert all("8.94 g/cm3" in tube.mass_source for tube in tubes(Form.COIL))
