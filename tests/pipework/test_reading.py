"""The verdict on a gauge reading: what holds, what falls, and what cannot be told and so never passes."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linewright.engine.pipework_reading import Allowed, Reading, Tightness, judge_reading

KPA = 1e3
START = Reading(4.15e6, 27.0)
GAUGE = Allowed(20 * KPA, 1.0)


def judged(now_mpa: float, degc: float = 12.0, *, start: Reading = START, allowed: Allowed = GAUGE) -> Tightness:
    return judge_reading(start, Reading(now_mpa * 1e6, degc), allowed).tightness


def test_a_night_has_cooled_it() -> None:
    """4.15 MPa at 27 degC; at 12 degC 3.9375 MPa by the gas law, 3.917 MPa of nitrogen as it is (CoolProp)."""
    found = judge_reading(START, Reading(3.92e6, 12.0), GAUGE)
    assert found.tightness is Tightness.HOLDS
    assert found.expected_pa == pytest.approx(3.9375e6, abs=100)
    assert found.nitrogen_pa == pytest.approx(3.9168e6, abs=5e3)
    assert found.difference_pa == pytest.approx(3.92e6 - 3.9168e6, abs=5e3)
    # 20 kPa of the gauge and 1 K at 14.16 kPa for each.
    assert found.unseen_pa == pytest.approx(34.16 * KPA, abs=20)
    assert [term.name for term in found.terms][-1] == "reading less what a tight pipe shows"


def test_the_same_pressure_in_the_same_cold_has_fallen_where_it_was_never_warm() -> None:
    assert judged(3.92, start=Reading(4.15e6, 12.0)) is Tightness.FALLS


def test_a_pipe_that_is_tight_by_either_formula_has_not_been_shown_to_leak() -> None:
    """Between nitrogen and the gas law, 21 kPa apart, with a gauge that is off by 5 kPa at the most."""
    sharp = Allowed(5 * KPA)
    assert [judged(mpa, allowed=sharp) for mpa in (3.9375, 3.925, 3.917)] == [Tightness.HOLDS] * 3
    assert judged(3.90, allowed=sharp) is Tightness.FALLS


def test_warmed_by_the_sun_the_gas_law_would_hide_a_leak() -> None:
    """4.15 MPa, 5 to 25 degC: nitrogen shows 4.491 MPa (CoolProp), the gas law 4.456: there it has lost 35 kPa."""
    start = Reading(4.15e6, 5.0)
    assert judged(4.491, 25.0, start=start) is Tightness.HOLDS
    assert judged(4.456, 25.0, start=start) is Tightness.UNTOLD
    assert judged(4.40, 25.0, start=start) is Tightness.FALLS


def test_higher_than_the_temperature_explains_is_no_pass() -> None:
    """40 bar at 20 degC, 39.2 bar at 12 degC: a tight pipe shows 38.9; pipe is warmer than read, or a leak hides."""
    found = judge_reading(Reading(4.0e6, 20.0), Reading(3.92e6, 12.0), Allowed(10 * KPA))
    assert found.tightness is Tightness.UNTOLD
    assert found.why[0].startswith("higher than the temperature explains")


@pytest.mark.parametrize(
    ("start", "now", "word"),
    [
        (Reading(None, 20.0), Reading(4e6, 20.0), "the gauge at the start is not known"),
        (Reading(4e6, None), Reading(4e6, 20.0), "the temperature of the pipe at the start is not known"),
        (Reading(4e6, 20.0), Reading(None, 20.0), "the gauge now is not known"),
        (Reading(4e6, 20.0), Reading(4e6, None), "the temperature of the pipe now is not known"),
        (Reading(0.0, 20.0), Reading(0.0, 20.0), "there was no pressure at the start"),
        (Reading(4e6, 20.0), Reading(4e6, 150.0), "beyond the formula: a test at 150 degC"),
        (Reading(7e6, 20.0), Reading(7e6, 20.0), "beyond the formula: nitrogen at 7 MPa"),
        (Reading(4e6, 20.0), Reading(-2e5, 20.0), "beyond the formula: a gauge that shows less than a vacuum"),
    ],
)
def test_what_is_missing_or_impossible_is_named(start: Reading, now: Reading, word: str) -> None:
    found = judge_reading(start, now, GAUGE)
    assert found.tightness is Tightness.UNTOLD
    assert word in found.why


def test_without_a_tolerance_nothing_passes_though_the_difference_is_shown() -> None:
    found = judge_reading(START, Reading(4.15e6, 27.0), Allowed(None))
    assert found.tightness is Tightness.UNTOLD
    assert found.difference_pa == pytest.approx(0.0, abs=1e-6)
    assert found.why == ("how far the readings may be off is not stated",)
    assert judged(4.15, 27.0, allowed=Allowed(-1.0)) is Tightness.UNTOLD


def test_a_tolerance_wider_than_the_pressure_tells_nothing() -> None:
    assert judged(0.0, allowed=Allowed(5e6)) is Tightness.UNTOLD


def test_too_early_is_no_pass_but_a_fall_is_one_at_any_time() -> None:
    day = 86_400.0
    for held, verdict in ((None, Tightness.UNTOLD), (3_600.0, Tightness.UNTOLD), (day, Tightness.HOLDS)):
        allowed = GAUGE._replace(asked_s=day, held_s=held)
        assert judged(4.15, 27.0, allowed=allowed) is verdict
        assert judged(3.0, 27.0, allowed=allowed) is Tightness.FALLS


def test_thin_air_changes_what_a_gauge_shows_little_but_does() -> None:
    """1500 m: 84.56 kPa. (4150 + 84.56) x 285.15 / 300.15 - 84.56 = 3938.4 kPa."""
    found = judge_reading(START, Reading(3.93e6, 12.0), GAUGE._replace(altitude_m=1500.0))
    assert found.expected_pa == pytest.approx(3938.4e3, abs=150)


@given(
    pressure=st.floats(5e5, 5.5e6),
    first=st.floats(-10, 45),
    then=st.floats(-10, 45),
    share=st.floats(0, 1),
    within=st.floats(0, 5e4),
    doubt=st.floats(0, 5),
)
def test_less_pressure_never_makes_a_better_verdict(
    pressure: float, first: float, then: float, share: float, within: float, doubt: float
) -> None:
    """A reading below one that falls falls; none that is lower than it should be by more than is allowed holds."""
    start, allowed, less = Reading(pressure, first), Allowed(within, doubt), share * pressure
    tight = judge_reading(start, Reading(pressure, then), allowed)
    assert tight.nitrogen_pa is not None
    lower = judge_reading(start, Reading(pressure - less, then), allowed)
    if tight.tightness is Tightness.FALLS:
        assert lower.tightness is Tightness.FALLS
    if lower.tightness is Tightness.HOLDS:
        assert pressure - less >= tight.nitrogen_pa - within - 1e-8 * pressure
