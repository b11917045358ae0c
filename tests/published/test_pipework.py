"""Formulas and data of pipework against published tables and worked values, each with its source; all are counted.

"Cross-check" marks a value that was computed with another library or by hand, not published.
"""

import math
from itertools import pairwise

import pytest

from linewright.engine.formulas_pipework import saturation_gauge
from linewright.model.pipework import StrengthCode, Supports, TubeForm
from linewright.standards.pipework import formulas as f
from linewright.standards.pipework.data import minimum_rows, spacing_of, stresses
from linewright.standards.tube import Form, astm_b280
from linewright.units import from_unit, to_unit

ASME, EN, JIS = StrengthCode.ASME, StrengthCode.EN, StrengthCode.JIS
IN, PSI = from_unit(1.0, "in"), from_unit(1.0, "psi")

# Copper Development Association, table 3c, allowable stress of C12200 [psi] by temperature [degF].
ANNEALED_PSI = {100: 6000, 150: 5100, 200: 4900, 250: 4800, 300: 4700, 350: 4000, 400: 3000}
DRAWN_PSI = {100: 10_300, 150: 10_300, 200: 10_300, 250: 10_300, 300: 10_000, 350: 9700, 400: 9400}

# Straight lengths of ASTM B280 [psi]: annealed at 100, 150, 200, 250 degF, drawn up to 250 degF. Cross-check.
STRAIGHT = {
    "1/4": (1159, 985, 946, 927, 1989),
    "3/8": (914, 777, 747, 731, 1569),
    "1/2": (781, 664, 638, 625, 1341),
    "5/8": (723, 615, 591, 579, 1242),
    "3/4": (633, 538, 517, 506, 1086),
    "7/8": (583, 496, 477, 467, 1002),
    "1-1/8": (507, 431, 414, 405, 870),
    "1-3/8": (440, 374, 359, 352, 755),
    "1-5/8": (409, 348, 334, 327, 702),
    "2-1/8": (364, 309, 297, 291, 625),
}
# Online sheet "Pressure rating of copper pipes and tubes", annealed coils at 150 degF [psi]; 1-1/8 stands there as 420
# and is left out, since no pair of tolerances gives it.
COIL_150 = {
    (0.250, 0.030): 1195,
    (0.375, 0.032): 836,
    (0.500, 0.032): 618,
    (0.625, 0.035): 525,
    (0.750, 0.035): 435,
    (0.750, 0.042): 537,
    (0.875, 0.045): 495,
    (1.375, 0.055): 373,
    (1.625, 0.060): 347,
}


@pytest.mark.parametrize(("temper", "table"), [("annealed", ANNEALED_PSI), ("drawn", DRAWN_PSI)])
def test_stress_by_b31_5(temper: str, table: dict[int, int]) -> None:
    for degf, psi in table.items():
        assert f.stress_at(ASME, temper, from_unit(degf, "degF")) == pytest.approx(psi * PSI, rel=1e-12)
    between = f.stress_at(ASME, temper, from_unit(125, "degF"))
    assert between == pytest.approx((table[100] + table[150]) / 2 * PSI)


# UK Copper Board, frequently asked questions: F [N/mm2] at 65 degC by temper, and of R220 at higher temperatures.
@pytest.mark.parametrize(
    ("temper", "degc", "n_mm2"),
    [
        ("annealed", 65, 46),
        ("half-hard", 65, 60),
        ("drawn", 65, 72.5),
        ("annealed", 110, 40),
        ("annealed", 150, 34),
        ("annealed", 175, 26),
        ("annealed", 200, 18),
    ],
)
def test_stress_by_en_1057(temper: str, degc: float, n_mm2: float) -> None:
    assert f.stress_at(EN, temper, degc) == n_mm2 * 1e6


def test_ratings_of_straight_lengths() -> None:
    tubes = {tube.size_in: tube for tube in astm_b280() if tube.form is Form.STRAIGHT}
    compared = 0
    for size, printed in STRAIGHT.items():
        tube = tubes[size]
        least = tube.wall_m - f.b280_wall_tolerance(tube.od_m, tube.wall_m)
        most = tube.od_m + f.b280_od_tolerance(tube.od_m, tube.wall_m)
        for stress_psi, psi in zip((6000, 5100, 4900, 4800, 10_300), printed, strict=True):
            assert f.b31_5_pressure(stress_psi * PSI, least, most) / PSI == pytest.approx(psi, abs=0.75), size
            compared += 1
    assert compared == 50


def test_ratings_of_coils_at_150_degf() -> None:
    for (od_in, wall_in), psi in COIL_150.items():
        od, wall = od_in * IN, wall_in * IN
        least, most = wall - f.coil_wall_tolerance(od), od + f.coil_od_tolerance(od)
        assert f.b31_5_pressure(5100 * PSI, least, most) / PSI == pytest.approx(psi, abs=0.75), od_in
    assert len(COIL_150) == 9


def test_which_sizes_hold_602_psi_depends_on_the_basis() -> None:
    """4.15 MPa at 150 degF: annealed only 1/4 to 5/8 straight and 1/4 to 1/2 coil, drawn every straight size."""
    assert [size for size, row in STRAIGHT.items() if row[1] >= 602] == ["1/4", "3/8", "1/2", "5/8"]
    assert all(row[4] >= 602 for row in STRAIGHT.values())
    assert [od for (od, _), psi in COIL_150.items() if psi >= 602] == [0.250, 0.375, 0.500]


# Working pressures of EN 1057 half-hard tube [bar], from memory: diameter and wall in mm.
@pytest.mark.parametrize(("od", "wall", "bar"), [(15, 0.7, 58), (22, 0.9, 51), (28, 0.9, 40)])
def test_pressures_of_en_1057(od: float, wall: float, bar: float) -> None:
    assert f.en_pressure(60e6, wall / 1000, od / 1000) == pytest.approx(bar * 1e5, rel=0.015)


# Least walls for 4.15 MPa with 33 (O) and 61 (1/2H) N/mm2 [mm]. Cross-check; the stresses are from memory.
LEAST_O = {6.35: 0.38, 9.52: 0.57, 12.7: 0.76, 15.88: 0.95, 19.05: 1.14, 22.22: 1.33}
LEAST_HARD = {
    15.88: 0.53,
    19.05: 0.63,
    22.22: 0.74,
    25.4: 0.84,
    28.58: 0.95,
    31.75: 1.05,
    34.92: 1.16,
    38.1: 1.26,
    41.28: 1.37,
    44.45: 1.47,
    53.98: 1.79,
}


def test_least_walls_of_metric_tube() -> None:
    for temper, walls in (("annealed", LEAST_O), ("half-hard", LEAST_HARD)):
        stress = f.stress_at(JIS, temper, 65.0)
        for od, wall in walls.items():
            assert f.b31_5_wall(4.15e6, stress, od / 1000) * 1000 == pytest.approx(wall, abs=0.0055), od
    assert len(LEAST_O) + len(LEAST_HARD) == 17
    assert not stresses()[JIS, "annealed"].confidence.is_sure
    # At 4.30 MPa a wall of 1.8 mm is not enough for 53.98 mm: 1.85 mm.
    assert f.b31_5_wall(4.30e6, 61e6, 0.05398) * 1000 == pytest.approx(1.85, abs=0.0055)


def test_the_wall_is_the_inverse_of_the_pressure() -> None:
    for pressure, wall in ((f.b31_5_pressure, f.b31_5_wall), (f.en_pressure, f.en_wall)):
        held = pressure(46e6, 0.0009, 0.022)
        assert wall(held, 46e6, 0.022) == pytest.approx(0.0009, rel=1e-12)


# Design temperatures of an air-cooled high side by EN 378-2, from memory, and saturation there [MPa gauge],
# cross-check with CoolProp 8.0.0.
@pytest.mark.parametrize(
    ("ambient", "degc", "r410a", "r32"),
    [(32, 55, 3.34, 3.42), (38, 59, 3.66, 3.75), (43, 63, 4.00, 4.10), (55, 67, 4.37, 4.47)],
)
def test_design_pressure_by_the_ambient(ambient: float, degc: float, r410a: float, r32: float) -> None:
    assert f.high_side_temperature(ambient) == degc
    assert saturation_gauge("R-410A", degc) == pytest.approx(r410a * 1e6, abs=6e3)
    assert saturation_gauge("R-32", degc) == pytest.approx(r32 * 1e6, abs=6e3)


def test_beyond_the_table_of_ambients_there_is_no_design_pressure() -> None:
    assert f.high_side_temperature(43) == 63
    assert f.high_side_temperature(55) == 67
    with pytest.raises(f.BeyondError, match=r"pressure of boiling R-454B at 67 degC"):
        saturation_gauge("R-454B", 67)
    with pytest.raises(f.BeyondError, match=r"design temperature of EN 378-2 for 56 degC"):
        f.high_side_temperature(56)


# Gauge of a closed test, (P + Pa) T2 / T1 - Pa, at sea level: P, from, to, then [MPa gauge]. Cross-check.
GAUGES = [(4.15, 27, 20, 4.051), (3.80, 27, 20, 3.709)]


def test_readings_of_a_test_that_has_cooled() -> None:
    air = f.air_pressure(0.0)
    for p, first, then, read in GAUGES:
        assert f.gauge_at(p * 1e6, air, first, then) == pytest.approx(read * 1e6, abs=600), p
    assert f.gauge_per_kelvin(4.15e6, air, 27) == pytest.approx(0.0142e6, abs=50)
    # At 550 psi 1.07 psi for each degree Fahrenheit, and not the 0.3 that a guide specification has (UFGS 15182).
    assert from_unit(f.gauge_per_kelvin(550 * PSI, air, 20), "Fdeg") / PSI == pytest.approx(1.07, abs=0.005)
    assert from_unit(f.gauge_per_kelvin((159 - 14.696) * PSI, air, 20), "Fdeg") / PSI == pytest.approx(0.3, abs=0.005)


# Pressure of the standard atmosphere [kPa], ASHRAE Fundamentals, chapter 1, table 1, from memory.
@pytest.mark.parametrize(("altitude", "kpa"), [(0, 101.325), (500, 95.461), (1000, 89.874), (2000, 79.495)])
def test_the_standard_atmosphere(altitude: float, kpa: float) -> None:
    assert f.air_pressure(altitude) == pytest.approx(kpa * 1000, rel=1e-4)


# Saturation of water vapour [kPa], ASHRAE Fundamentals, chapter 1, table 3, from memory.
@pytest.mark.parametrize(("degc", "kpa"), [(-20, 0.10324), (0, 0.6112), (10, 1.2280), (20, 2.3389), (30, 4.2462)])
def test_saturation_of_water(degc: float, kpa: float) -> None:
    assert f.saturation_pressure(degc) == pytest.approx(kpa * 1000, rel=3e-4)


# Dew points, cross-check with PsychroLib 2.5.0; 27.2 degC and 90 % is published as 25.6 degC (Tampa).
@pytest.mark.parametrize(("degc", "humidity", "dew"), [(27, 0.80, 23.25), (27.2, 0.90, 25.42)])
def test_dew_points(degc: float, humidity: float, dew: float) -> None:
    assert f.dew_point(degc, humidity) == pytest.approx(dew, abs=0.006)


# ASHRAE Fundamentals, chapter 23, table 4: insulation of a flat surface at 4 degC in air of 27 degC, k 0.043, h 6.8,
# by relative humidity [mm]; beside it the formula, computed apart. The table is rounded by a hand that is not told:
# at 50 and 60 % it is 13 and 16 % above the formula, at 95 % 7 % below.
FLAT = {50: (7.5, 6.5), 60: (13, 10.9), 70: (18, 18.2), 80: (33, 32.5), 90: (74, 75.3), 95: (150, 160.7)}


def test_insulation_that_keeps_a_flat_surface_dry() -> None:
    for humidity, (table, computed) in FLAT.items():
        found = f.flat_thickness(0.043, 6.8, 4, f.dew_point(27, humidity / 100), 27) * 1000
        assert found == pytest.approx(computed, abs=0.06 if humidity < 95 else 0.3), humidity
        assert found == pytest.approx(table, rel=0.17), humidity
    assert len(FLAT) == 6


# Around tube: line 4 degC, air 27 degC, k 0.040 [mm], by diameter [mm]. Cross-check.
AROUND = {
    (6.8, 70): (10.1, 11.2, 12.5, 13.3),
    (6.8, 80): (15.9, 17.8, 20.1, 21.6),
    (6.8, 85): (21.0, 23.6, 26.9, 29.0),
    (9.0, 80): (12.8, 14.3, 16.0, 17.1),
}


def test_insulation_that_keeps_tube_dry() -> None:
    compared = 0
    for (h, humidity), printed in AROUND.items():
        flat = f.flat_thickness(0.040, h, 4, f.dew_point(27, humidity / 100), 27)
        for od, thickness in zip((9.52, 15.88, 28.58, 41.28), printed, strict=True):
            found = f.round_thickness(flat, od / 1000)
            assert found * 1000 == pytest.approx(thickness, abs=0.06), (h, humidity, od)
            outer = od / 1000 + 2 * found
            assert outer / 2 * math.log(outer / (od / 1000)) == pytest.approx(flat, rel=1e-9)
            compared += 1
    assert compared == 16


# ASHRAE Fundamentals, chapter 23, table 2 (the cooling and heating rows of standard 90.1) [mm], by nominal size:
# below 25, 40, 100, 200 mm, and above; at a temperature within each row, with a conductivity within its range.
MINIMA = {
    (2, 0.036): (13, 25, 25, 25, 38),
    (10, 0.036): (13, 13, 25, 25, 25),
    (50, 0.036): (25, 25, 38, 38, 38),
    (80, 0.040): (38, 38, 51, 51, 51),
}


def test_least_insulation_by_the_energy_code() -> None:
    compared = 0
    for (degc, k), row in MINIMA.items():
        for size, thickness in zip((0.015, 0.030, 0.060, 0.150, 0.250), row, strict=True):
            assert f.code_minimum(degc, size, k) * 1000 == pytest.approx(thickness), (degc, size)
            compared += 1
    assert compared == 20
    assert len(minimum_rows()) == 4
    assert f.code_minimum(25, 0.015, 0.036) == 0.0
    with pytest.raises(f.BeyondError, match="the energy code's table for a line of 100 degC"):
        f.code_minimum(100, 0.015, 0.040)


def test_another_conductivity_asks_for_another_minimum() -> None:
    """T = r ((1 + t / r)^(K / k) - 1), k the upper end of the range: 20 mm tube, 13 mm listed, K 0.050."""
    by_hand = 10 * (2.3 ** (0.050 / 0.040) - 1)  # 18.3 mm
    assert f.code_minimum(10, 0.020, 0.050) * 1000 == pytest.approx(by_hand, rel=1e-9)


# Copper Tube Handbook, table 8: developed length of an offset or loop [in] by expansion and nominal size; the outside
# diameter is the nominal size and an eighth of an inch.
SIZES = (0.25, 0.375, 0.5, 0.75, 1.0, 1.25, 1.5, 2.0)
LOOPS = {
    0.5: (38, 44, 50, 59, 67, 74, 80, 91),
    1.0: (54, 63, 70, 83, 94, 104, 113, 129),
    2.0: (77, 89, 99, 117, 133, 147, 160, 183),
    4.0: (109, 126, 140, 166, 188, 208, 226, 259),
}
# The other rows of the same table, from memory.
LOOPS_REMEMBERED = {
    1.5: (66, 77, 86, 101, 115, 127, 138, 158),
    2.5: (86, 99, 111, 131, 149, 165, 179, 205),
    3.0: (94, 109, 122, 143, 163, 180, 196, 224),
    3.5: (102, 117, 131, 155, 176, 195, 212, 242),
}
#: The table is 88.7 sqrt(D e); the formula printed beside it gives 92.2, which is 4 % on the safe side.
TABLE_OVER_FORMULA = 88.7 / 92.195


def test_offsets_and_loops() -> None:
    compared = 0
    for expansion, row in (LOOPS | LOOPS_REMEMBERED).items():
        for nominal, printed in zip(SIZES, row, strict=True):
            found = f.offset_length((nominal + 0.125) * IN, expansion * IN) / IN
            assert found * TABLE_OVER_FORMULA == pytest.approx(printed, abs=1.0), (expansion, nominal)
            assert found >= printed, (expansion, nominal)
            compared += 1
    assert compared == 64


def test_expansion_by_hand() -> None:
    # 10 m by 10 K: 1.69 mm; 30 m by 60 K: 30.5 mm, and of 28.58 mm tube an offset of 2.72 m.
    assert f.expansion(10, 30, 20) * 1000 == pytest.approx(1.69, abs=0.005)
    grown = f.expansion(30, 60, 0)
    assert grown * 1000 == pytest.approx(30.5, abs=0.05)
    assert f.offset_length(0.02858, grown) == pytest.approx(2.72, abs=0.005)
    # A ring for an inch of movement of nominal 1 in: 94 / 2 pi = 15 in.
    assert f.coil_radius(94 * IN) / IN == pytest.approx(15, abs=0.05)


# MSS SP-58, copper, nominal size [in] and largest spacing [ft]; outside diameter an eighth of an inch more.
MSS = {0.25: 5, 0.375: 5, 0.5: 5, 0.625: 5, 0.75: 5, 1.0: 6, 1.25: 7, 1.5: 8, 2.0: 8, 2.5: 9, 3.0: 10}
# Facility Piping Systems Handbook, page 2.73: up to 1-1/4 6 ft, from 1-1/2 on 10 ft.
PLUMBING = {0.5: 6, 1.0: 6, 1.25: 6, 1.5: 10, 2.0: 10, 3.0: 10}
# EN 378-2, from memory: outside diameter [mm] and spacing [m].
EN_378 = {15.88: 2, 19.05: 2, 22.22: 3, 34.92: 3, 53.98: 4}


@pytest.mark.parametrize(("table", "rows"), [(Supports.MSS, MSS), (Supports.PLUMBING, PLUMBING)])
def test_spacing_of_supports(table: Supports, rows: dict[float, int]) -> None:
    for nominal, feet in rows.items():
        found = spacing_of(table, (nominal + 0.125) * IN)
        assert found is not None
        assert to_unit(found.spacing_m, "ft") == pytest.approx(feet), nominal


def test_spacing_by_en_378() -> None:
    for od, metres in EN_378.items():
        found = spacing_of(Supports.EN_378, od / 1000)
        assert found is not None
        assert found.spacing_m == metres, od
        assert not found.confidence.is_sure
    assert spacing_of(Supports.EN_378, 0.0127) is None


def test_a_size_between_two_has_the_spacing_of_the_smaller() -> None:
    # 1 in and 1-1/4 in outside are no plumbing sizes: nominal 7/8 and 1-1/8.
    for od, feet in ((0.0254, 5), (0.03175, 6)):
        found = spacing_of(Supports.MSS, od)
        assert found is not None
        assert to_unit(found.spacing_m, "ft") == pytest.approx(feet)
    spacings = [spacing_of(Supports.MSS, od / 10_000) for od in range(60, 700)]
    known = [one.spacing_m for one in spacings if one is not None]
    assert all(narrow <= wide for narrow, wide in pairwise(known))


def test_walls_by_form() -> None:
    assert f.b280_wall(TubeForm.STRAIGHT, 0.875 * IN) / IN == pytest.approx(0.045)
    assert f.b280_wall(TubeForm.COIL, 0.375 * IN) / IN == pytest.approx(0.032)
    with pytest.raises(f.BeyondError, match=r"wall of 25.4 mm tube by astm-b280-straight"):
        f.b280_wall(TubeForm.STRAIGHT, 0.0254)
