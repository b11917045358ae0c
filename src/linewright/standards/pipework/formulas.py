"""Formulas of pipework, all in SI: pressures in Pa (gauge unless said), lengths in m, temperatures in degC.

Sources: ASME B31.5 as [CDA-RATINGS] has it, [UKCB-FAQ] for the form of EN 1057, [JIS-COPPER] from memory; ISO 12241
and ASTM C680 as [ASHRAE-F23] has them; [ASHRAE-F1] for moist air; [CDA-EXPANSION] for expansion.
"""

from __future__ import annotations

from functools import lru_cache
from math import ceil, exp, log, pi, sqrt

from linewright.model.pipework import StrengthCode, Supports, TubeForm
from linewright.standards.pipework.data import (
    CoilTolerance,
    coil_tolerance,
    high_side_of,
    low_side_of,
    minimum_rows,
    spacing_of,
    standard_tube,
    stresses,
)
from linewright.standards.tube import astm_b280
from linewright.units import same_tube

KELVIN = 273.15
#: ASME B31.5 504.1.2: the formula of thin tube holds from this ratio of outside diameter to wall on (from memory).
THIN = 6.0
#: Factor of the wall in that formula, y = 0.4.
Y = 0.4
#: Expansion of copper [1/K]: 9.4e-6 per Fdeg [CDA-EXPANSION].
EXPANSION = 9.4e-6 * 1.8
#: Modulus and allowable stress of the formula of offsets [psi]; only their ratio counts.
MODULUS_PSI, OFFSET_STRESS_PSI = 17e6, 6000.0
#: Temperatures between which the expansion of copper is taken as constant (no source) [degC].
LEAST_MOVING, MOST_MOVING = -50.0, 150.0
#: Temperatures of pipe on a site under test (no source) [degC].
LEAST_TESTED, MOST_TESTED = -50.0, 100.0
#: Temperatures between which the formula of saturation holds [degC].
LEAST_SATURATION, MOST_SATURATION = -100.0, 200.0
_ICE = (-5.6745359e3, 6.3925247, -9.6778430e-3, 6.2215701e-7, 2.0747825e-9, -9.4840240e-13, 4.1635019)
_WATER = (-5.8002206e3, 1.3914993, -4.8640239e-2, 4.1764768e-5, -1.4452093e-8, 0.0, 6.5459673)
_CLOSE = 1e-12


class BeyondError(ValueError):
    """A condition beyond the range of a formula; the text says which."""


def stress_at(code: str, temper: str, t_degc: float) -> float:
    """Allowable stress of copper at a temperature, linear between the values of the table [Pa].

    Below the first temperature its value holds. Raises BeyondError above the last one, or without such a temper.
    """
    found = stresses().get((StrengthCode(code), temper))
    if found is None:
        raise BeyondError(f"allowable stress of {temper} copper by {code}")
    if t_degc > found.degc[-1] + 1e-9:
        raise BeyondError(f"allowable stress of {temper} copper by {code} above {found.degc[-1]:.4g} degC")
    if t_degc <= found.degc[0]:
        return found.pa[0]
    upper = next(i for i, degc in enumerate(found.degc) if t_degc <= degc + 1e-9)
    share = (t_degc - found.degc[upper - 1]) / (found.degc[upper] - found.degc[upper - 1])
    return found.pa[upper - 1] + min(share, 1.0) * (found.pa[upper] - found.pa[upper - 1])


def least_wall(wall_m: float, tolerance: float) -> float:
    """Wall less its tolerance, a share of it [m]."""
    return wall_m * (1.0 - tolerance)


def most_diameter(od_m: float, plus_m: float) -> float:
    """Outside diameter with its tolerance [m]."""
    return od_m + plus_m


def b31_5_pressure(stress_pa: float, wall_m: float, od_m: float) -> float:
    """ASME B31.5: P = 2 S t / (D - 0.8 t), seamless, no allowance for corrosion [Pa]."""
    if od_m / wall_m < THIN:
        raise BeyondError("the formula of thin tube, for a wall above a sixth of the diameter")
    return 2.0 * stress_pa * wall_m / (od_m - 2.0 * Y * wall_m)


def b31_5_wall(pressure_pa: float, stress_pa: float, od_m: float) -> float:
    """ASME B31.5: t = P D / (2 (S + 0.4 P)) [m]."""
    return pressure_pa * od_m / (2.0 * (stress_pa + Y * pressure_pa))


def en_pressure(stress_pa: float, wall_m: float, od_m: float) -> float:
    """EN 1057 form: P = 2 F t / (D - t), which is 20 F t / (D - t) in bar of F in N/mm2 [Pa]."""
    return 2.0 * stress_pa * wall_m / (od_m - wall_m)


def en_wall(pressure_pa: float, stress_pa: float, od_m: float) -> float:
    """EN 1057 form: t = P D / (2 F + P) [m]."""
    return pressure_pa * od_m / (2.0 * stress_pa + pressure_pa)


def bought_wall(least_m: float, tolerance: float) -> float:
    """Nominal wall that is still enough where it is thinnest [m]."""
    return least_m / (1.0 - tolerance)


def air_pressure(altitude_m: float) -> float:
    """Pressure of the standard atmosphere, absolute [Pa]; from -5000 to 11000 m."""
    if not -5000.0 <= altitude_m <= 11_000.0:
        raise BeyondError(f"the standard atmosphere at {altitude_m:g} m")
    return 101_325.0 * float((1.0 - 2.25577e-5 * altitude_m) ** 5.2559)


def gauge_at(pressure_pa: float, air_pa: float, filled_degc: float, read_degc: float) -> float:
    """Gauge reading of a closed test at another temperature: (P + Pa) T2 / T1 - Pa [Pa]."""
    _of_site(filled_degc)
    _of_site(read_degc)
    return (pressure_pa + air_pa) * (read_degc + KELVIN) / (filled_degc + KELVIN) - air_pa


def gauge_per_kelvin(pressure_pa: float, air_pa: float, filled_degc: float) -> float:
    """Change of the gauge reading for each kelvin: (P + Pa) / T1 [Pa/K]."""
    _of_site(filled_degc)
    return (pressure_pa + air_pa) / (filled_degc + KELVIN)


def _of_site(t_degc: float) -> None:
    if not LEAST_TESTED <= t_degc <= MOST_TESTED:
        raise BeyondError(f"a test at {t_degc:g} degC")


def saturation_pressure(t_degc: float) -> float:
    """Pressure of saturated water vapour, over ice below 0 degC [Pa]; Hyland and Wexler 1983 [ASHRAE-F1]."""
    if not LEAST_SATURATION <= t_degc <= MOST_SATURATION:
        raise BeyondError(f"saturation of water at {t_degc:g} degC")
    t = t_degc + KELVIN
    first, *powers, last = _ICE if t_degc < 0.0 else _WATER
    return exp(first / t + sum(c * t**i for i, c in enumerate(powers)) + last * log(t))


#: A design has few airs and many lines in them.
@lru_cache(maxsize=1000)
def dew_point(t_degc: float, humidity: float) -> float:
    """Dew point of air, at which its vapour is saturated [degC].

    Raises BeyondError for air wetter than saturated.
    """
    if humidity > 1.0 + _CLOSE:
        raise BeyondError(f"a humidity of {humidity * 100:g} %, whose dew point is above the air")
    wanted = humidity * saturation_pressure(t_degc)
    low, high = LEAST_SATURATION, t_degc
    if wanted < saturation_pressure(low):
        raise BeyondError("air drier than any dew point of the formula")
    while high - low > 1e-10:
        middle = (low + high) / 2.0
        low, high = (middle, high) if saturation_pressure(middle) < wanted else (low, middle)
    return (low + high) / 2.0


def flat_thickness(  # noqa: PLR0917 - what the formula holds
    k: float, h: float, line_degc: float, dew_degc: float, air_degc: float
) -> float:
    """Insulation on a flat surface that keeps its face at the dew point: k / h (Td - Tl) / (Ta - Td) [m].

    Nought where the line is no colder than the dew point. Raises BeyondError for saturated air.
    """
    if line_degc >= dew_degc:
        return 0.0
    if air_degc - dew_degc < 1e-6:
        raise BeyondError("saturated air, in which no thickness keeps a cold line dry")
    return k / h * (dew_degc - line_degc) / (air_degc - dew_degc)


def round_thickness(flat_m: float, od_m: float) -> float:
    """Insulation around tube: s of (D + 2 s) / 2 ln((D + 2 s) / D) = flat thickness [m]."""
    low, high = 0.0, flat_m
    while high - low > 1e-12:
        middle = (low + high) / 2.0
        outer = od_m + 2.0 * middle
        low, high = (middle, high) if outer / 2.0 * log(outer / od_m) < flat_m else (low, middle)
    return high


def heat_gain(k: float, h: float, od_m: float, thickness_m: float, difference_k: float) -> float:  # noqa: PLR0917 - what it holds
    """Heat that each metre takes in: pi (Ta - Tl) / (ln(Do / D) / 2 k + 1 / (h Do)) [W]."""
    outer = od_m + 2.0 * thickness_m
    return pi * difference_k / (log(outer / od_m) / (2.0 * k) + 1.0 / (h * outer))


def other_conductivity(minimum_m: float, od_m: float, k: float, listed_k: float) -> float:
    """Minimum for another conductivity: r ((1 + t / r)^(K / k) - 1) [m]."""
    radius = od_m / 2.0
    return radius * (exp(log(1.0 + minimum_m / radius) * k / listed_k) - 1.0)


def stocked(needed_m: float, *stock_m: float) -> float:
    """Least stocked thickness that is enough [m].

    Raises BeyondError where none is.
    """
    found = [thickness for thickness in stock_m if thickness >= needed_m - 1e-9]
    if not found:
        raise BeyondError("the thickest that is stocked")
    return min(found)


def expansion(length_m: float, hot_degc: float, cold_degc: float) -> float:
    """How much copper grows from cold to hot: 16.92e-6 L (Th - Tc) [m]."""
    for t in (hot_degc, cold_degc):
        if not LEAST_MOVING <= t <= MOST_MOVING:
            raise BeyondError(f"expansion of copper at {t:g} degC")
    return EXPANSION * length_m * max(hot_degc - cold_degc, 0.0)


def between_anchors(length_m: float, loops: float) -> float:
    """Length of a run over one more than the loops on it [m]."""
    return length_m / (loops + 1.0)


def offset_length(od_m: float, expansion_m: float) -> float:
    """Developed length of an offset or loop that takes a movement: sqrt(3 E / S) sqrt(D e) [m]."""
    return sqrt(3.0 * MODULUS_PSI / OFFSET_STRESS_PSI) * sqrt(od_m * expansion_m)


def coil_radius(offset_m: float) -> float:
    """Radius of a ring of that length [m]."""
    return offset_m / (2.0 * pi)


def support_count(length_m: float, spacing_m: float, bends: float) -> float:
    """One at each end and between as the spacing asks, and one beside each bend."""
    return ceil(length_m / spacing_m - 1e-9) + 1.0 + bends if length_m > 0 else 0.0


def high_side_temperature(ambient_degc: float) -> float:
    """EN 378-2: temperature by which the high side, cooled by air, is designed [degC]; from memory."""
    found = high_side_of(ambient_degc)
    if found is None:
        raise BeyondError(f"design temperature of EN 378-2 for {ambient_degc:g} degC of ambient air")
    return found


def low_side_temperature(ambient_degc: float) -> float:
    """EN 378-2: temperature by which the low side outdoors is designed [degC]; from memory."""
    found = low_side_of(ambient_degc)
    if found is None:
        raise BeyondError(f"low-side design temperature of EN 378-2 for {ambient_degc:g} degC of ambient air")
    return found


def b280_wall(form: str, od_m: float) -> float:
    """Wall of a tube of [ASTM-B280] by its form, the thickest where a size has several [m]."""
    wanted = "straight" if form == TubeForm.STRAIGHT else "coil"
    found = [tube.wall_m for tube in astm_b280() if tube.form.value == wanted and same_tube(tube.od_m, od_m)]
    if not found:
        raise BeyondError(f"wall of {od_m * 1000:g} mm tube by {form}")
    return max(found)


def b280_wall_tolerance(od_m: float, wall_m: float) -> float:
    """Tolerance on the wall of drawn tube of [ASTM-B280] [m]."""
    tube = standard_tube(od_m, wall_m, "drawn")
    if tube is None or tube.wall_tolerance is None:
        raise BeyondError(f"tolerance on the wall of {od_m * 1000:g} mm tube")
    return tube.wall_tolerance.plus_minus_m


def b280_od_tolerance(od_m: float, wall_m: float) -> float:
    """Tolerance on the outside diameter of drawn tube of [ASTM-B280] [m]."""
    tube = standard_tube(od_m, wall_m, "drawn")
    if tube is None or tube.od_tolerance is None:
        raise BeyondError(f"tolerance on the diameter of {od_m * 1000:g} mm tube")
    return tube.od_tolerance.plus_minus_m


def coil_wall_tolerance(od_m: float) -> float:
    """Tolerance on the wall of an annealed coil of [ASTM-B280], from memory [m]."""
    return _coil(od_m).wall_m


def coil_od_tolerance(od_m: float) -> float:
    """Tolerance on the outside diameter of an annealed coil of [ASTM-B280], from memory [m]."""
    return _coil(od_m).od_m


def _coil(od_m: float) -> CoilTolerance:
    found = coil_tolerance(od_m)
    if found is None:
        raise BeyondError(f"tolerances of a coil of {od_m * 1000:g} mm")
    return found


def code_minimum(line_degc: float, od_m: float, k: float) -> float:
    """Least insulation by the energy code for the temperature of a line, for the conductivity in use [m].

    Nought between the ranges of the table, where none is asked for. Raises BeyondError above its last one.
    """
    row = next((row for row in minimum_rows() if row.above_degc < line_degc <= row.upto_degc), None)
    if row is None:
        if line_degc > max(one.upto_degc for one in minimum_rows()):
            raise BeyondError(f"the energy code's table for a line of {line_degc:g} degC")
        return 0.0
    thickness = row.thickness(od_m)
    if row.least_k - _CLOSE <= k <= row.most_k + _CLOSE:
        return thickness
    return other_conductivity(thickness, od_m, k, row.most_k)


def support_spacing(table: str, od_m: float) -> float:
    """Largest distance between supports of tube that lies flat, by a table [m]."""
    found = spacing_of(Supports(table), od_m)
    if found is None:
        raise BeyondError(f"spacing of {od_m * 1000:g} mm tube by {table}")
    return found.spacing_m
