"""What holds of every tube, air and run."""

from hypothesis import assume, given
from hypothesis import strategies as st

from linewright.model.pipework import StrengthCode
from linewright.standards.pipework import formulas as f

OD = st.floats(0.006, 0.108)
SHARE = st.floats(0.01, 0.16)
STRESS = st.floats(2e7, 8e7)
DEGC = st.floats(5, 45)
HUMIDITY = st.floats(0.05, 0.97)


@given(OD, SHARE, SHARE, STRESS)
def test_a_thicker_wall_never_rates_lower(od: float, one: float, other: float, stress: float) -> None:
    thin, thick = sorted((one, other))
    for pressure in (f.b31_5_pressure, f.en_pressure):
        assert pressure(stress, thin * od, od) <= pressure(stress, thick * od, od)


@given(OD, st.floats(1e5, 6e6), STRESS)
def test_a_wall_that_is_needed_holds(od: float, wanted: float, stress: float) -> None:
    assert f.en_pressure(stress, f.en_wall(wanted, stress, od), od) >= wanted * (1 - 1e-12)
    wall = f.b31_5_wall(wanted, stress, od)
    assume(wall * f.THIN <= od)
    assert f.b31_5_pressure(stress, wall, od) >= wanted * (1 - 1e-12)


@given(st.floats(20, 200), st.floats(20, 200))
def test_hotter_copper_is_never_stronger(one: float, other: float) -> None:
    cool, hot = sorted((one, other))
    for code, temper in ((StrengthCode.ASME, "annealed"), (StrengthCode.ASME, "drawn"), (StrengthCode.EN, "annealed")):
        assert f.stress_at(code, temper, hot) <= f.stress_at(code, temper, cool)


def thickness(od: float, line: float, air: float, humidity: float) -> float:
    flat = f.flat_thickness(0.04, 6.8, line, f.dew_point(air, humidity), air)
    return f.round_thickness(flat, od)


@given(OD, DEGC, HUMIDITY, HUMIDITY)
def test_wetter_air_never_needs_less_insulation(od: float, air: float, one: float, other: float) -> None:
    dry, wet = sorted((one, other))
    assert thickness(od, 4.0, air, dry) <= thickness(od, 4.0, air, wet) + 1e-9


@given(OD, DEGC, HUMIDITY, st.floats(-10, 20), st.floats(-10, 20))
def test_a_colder_line_never_needs_less(od: float, air: float, humidity: float, one: float, other: float) -> None:
    cold, warm = sorted((one, other))
    assert thickness(od, warm, air, humidity) <= thickness(od, cold, air, humidity) + 1e-9


@given(DEGC, st.floats(0.02, 1.0))
def test_a_dew_point_is_never_above_its_air(air: float, humidity: float) -> None:
    dew = f.dew_point(air, humidity)
    assert dew <= air
    assert abs(f.saturation_pressure(dew) - humidity * f.saturation_pressure(air)) < 1e-3


@given(OD, st.floats(0.001, 0.1), DEGC, HUMIDITY)
def test_the_surface_of_a_needed_thickness_stands_at_the_dew_point(
    od: float, k: float, air: float, humidity: float
) -> None:
    """The heat that comes in by the surface is h times its area times what it is colder than the air."""
    dew = f.dew_point(air, humidity)
    assume(dew - 2.0 > 0.1 and air - dew > 0.1)
    s = f.round_thickness(f.flat_thickness(k, 6.8, 2.0, dew, air), od)
    heat = f.heat_gain(k, 6.8, od, s, air - 2.0)
    assert abs(heat / (6.8 * 3.141592653589793 * (od + 2 * s)) - (air - dew)) < 1e-3


@given(OD, st.floats(0, 100), st.floats(0, 100), st.floats(0, 5))
def test_a_longer_run_never_moves_less(od: float, one: float, other: float, loops: float) -> None:
    short, long = (f.expansion(f.between_anchors(length, loops), 80, 4) for length in sorted((one, other)))
    assert short <= long
    assert f.offset_length(od, short) <= f.offset_length(od, long)


@given(st.floats(0.1, 100), st.floats(0.5, 5), st.integers(0, 9))
def test_no_span_is_longer_than_the_spacing(length: float, spacing: float, bends: int) -> None:
    count = f.support_count(length, spacing, bends)
    assert length / (count - 1 - bends) <= spacing * (1 + 1e-6)


@given(st.floats(1e5, 5e6), st.floats(0, 3000), st.floats(-10, 45), st.floats(-10, 45))
def test_a_gauge_comes_back_with_the_temperature(p: float, altitude: float, first: float, then: float) -> None:
    air = f.air_pressure(altitude)
    there = f.gauge_at(p, air, first, then)
    assert abs(f.gauge_at(there, air, then, first) - p) < 1e-3
    assert (there >= p) == (then >= first) or abs(there - p) < 1e-3
