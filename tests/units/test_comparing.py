"""The comparison, the tube tolerance and the rounding."""

from decimal import ROUND_CEILING, ROUND_FLOOR, ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from typing import cast

import pytest
from hypothesis import given
from hypothesis import strategies as st

from linewright.units import (
    Dimension,
    RoundingMode,
    from_unit,
    over,
    parse_as,
    round_half_up,
    same_tube,
    to_unit,
)

INF, NAN = float("inf"), float("nan")


# The rule itself: over means value - bound > 1e-9 x max(1, |bound|).
@pytest.mark.parametrize(
    ("value", "bound", "is_over"),
    [
        (70.0, 70.0, False),
        (69.999, 70.0, False),
        (70.001, 70.0, True),
        (70 + 0.9 * 70e-9, 70.0, False),
        (70 + 1.1 * 70e-9, 70.0, True),
        (0.9e-9, 0.0, False),
        (1.1e-9, 0.0, True),
        (0.5 + 0.9e-9, 0.5, False),
        (0.5 + 1.1e-9, 0.5, True),
        (1e-9, 0.0, False),
        (-70.0, -70.0, False),
        (-69.999, -70.0, True),
        (-70 + 0.9 * 70e-9, -70.0, False),
        (-70.001, -70.0, False),
        (1e6 + 0.9e-3, 1e6, False),
        (1e6 + 1.1e-3, 1e6, True),
        (1e300, INF, False),
        (INF, INF, False),
        (-INF, INF, False),
        (INF, 5.0, True),
        (-INF, 5.0, False),
        (5.0, -INF, True),
        (-INF, -INF, False),
    ],
)
def test_over(value: float, bound: float, *, is_over: bool) -> None:
    assert over(value, bound) is is_over


def test_sums_of_tenths_reach_a_bound_without_passing_it() -> None:
    assert sum([0.1] * 700) != 70.0
    assert not over(sum([0.1] * 700), 70.0)
    feet = [parse_as("10.1 ft", Dimension.LENGTH)] * 30
    assert not over(sum(feet), parse_as("303 ft", Dimension.LENGTH))
    assert over(sum(feet) + 1e-6, parse_as("303 ft", Dimension.LENGTH))


@pytest.mark.parametrize(("value", "bound"), [(NAN, 1.0), (1.0, NAN), (NAN, NAN), (NAN, INF)])
def test_an_unknown_is_never_within(value: float, bound: float) -> None:
    with pytest.raises(ValueError, match="not a number"):
        over(value, bound)


@pytest.mark.parametrize(
    ("a_mm", "b_mm", "same"),
    [
        (15.875, 15.88, True),
        (15.88, 15.9, True),
        (9.525, 9.52, True),
        (9.5, 9.6, True),
        (9.5, 9.601, False),
        (22.2, 22.22, True),
        (22.0, 22.22, False),
        (12.7, 12.0, False),
        (28.0, 28.58, False),
        (19.05, 19.05, True),
    ],
)
def test_same_tube(a_mm: float, b_mm: float, *, same: bool) -> None:
    assert same_tube(a_mm / 1000, b_mm / 1000) is same
    assert same_tube(b_mm / 1000, a_mm / 1000) is same


@pytest.mark.parametrize(
    ("value", "step", "mode", "rounded"),
    [
        # 8.80 lb + 1.05 lb + 0.9 lb + 0.4 lb to a tenth: common practice, no source.
        (8.80 + 1.05 + 0.9 + 0.4, 0.1, "half-up", 11.2),
        (11.15, 0.1, "half-up", 11.2),
        (11.149999999999999, 0.1, "half-up", 11.2),
        (11.1499, 0.1, "half-up", 11.1),
        (11.15, 0.1, "nearest", 11.2),
        (11.25, 0.1, "nearest", 11.2),
        (11.25, 0.1, "half-up", 11.3),
        (11.11, 0.1, "up", 11.2),
        (11.1, 0.1, "up", 11.1),
        (11.100000000000001, 0.1, "up", 11.1),
        (11.19, 0.1, "down", 11.1),
        (11.2, 0.1, "down", 11.2),
        (11.199999999999998, 0.1, "down", 11.2),
        (2.97, 0.1, "half-up", 3.0),
        (2.97, 0.05, "half-up", 2.95),
        (2.975, 0.05, "half-up", 3.0),
        (2.97, 0.25, "half-up", 3.0),
        (7.0, 5.0, "half-up", 5.0),
        (7.5, 5.0, "half-up", 10.0),
        (0.3125, 0.0625, "half-up", 0.3125),
        (-0.25, 0.1, "half-up", -0.3),
        (-0.25, 0.1, "nearest", -0.2),
        (-0.35, 0.1, "nearest", -0.4),
        (-0.26, 0.1, "half-up", -0.3),
        (-0.24, 0.1, "half-up", -0.2),
        (-0.25, 0.1, "up", -0.2),
        (-0.25, 0.1, "down", -0.3),
        (0.0, 0.1, "up", 0.0),
    ],
)
def test_rounding(value: float, step: float, mode: str, rounded: float) -> None:
    assert round_half_up(value, step, mode=cast("RoundingMode", mode)) == rounded


def test_a_charge_in_pounds_that_went_through_kilograms() -> None:
    # Common practice, no source: 11.15 lb is rounded half-up to a tenth, 11.2 lb.
    wobbling = [to_unit(from_unit(n, "lb"), "lb") for n in (x + 0.05 for x in range(1000))]
    assert any(value != x + 0.05 for x, value in enumerate(wobbling))
    for x, value in enumerate(wobbling):
        assert round_half_up(value, 0.1) == (10 * x + 1) / 10
    mass_kg = sum(parse_as(t, Dimension.MASS) for t in ("8.80 lb", "1.05 lb", "0.9 lb", "0.4 lb"))
    assert round_half_up(to_unit(mass_kg, "lb"), 0.1) == 11.2


DECIMAL_MODE = {
    "half-up": ROUND_HALF_UP,
    "up": ROUND_CEILING,
    "down": ROUND_FLOOR,
    "nearest": ROUND_HALF_EVEN,
}


@given(
    value=st.floats(-1e6, 1e6),
    step=st.sampled_from(["0.001", "0.01", "0.05", "0.1", "0.25", "0.5", "1", "5", "10"]),
    mode=st.sampled_from(sorted(DECIMAL_MODE)),
)
def test_rounding_agrees_with_decimal_arithmetic(value: float, step: str, mode: str) -> None:
    nine = Decimal(value).quantize(Decimal("1e-9"), ROUND_HALF_EVEN)
    steps = (nine / Decimal(step)).quantize(Decimal(1), DECIMAL_MODE[mode])
    rounded = round_half_up(value, float(step), mode=cast("RoundingMode", mode))
    assert rounded == float(steps * Decimal(step))


@pytest.mark.parametrize("step", [0.0, -0.1, 1e-10, 1 / 3])
def test_a_step_that_is_no_decimal_step(step: float) -> None:
    with pytest.raises(ValueError, match="rounding step"):
        round_half_up(1.0, step)


@pytest.mark.parametrize("value", [NAN, INF, -INF])
def test_what_is_not_finite_cannot_be_rounded(value: float) -> None:
    with pytest.raises(ValueError, match="not finite"):
        round_half_up(value, 0.1)
    with pytest.raises(ValueError, match="not finite"):
        round_half_up(1.0, value)


def test_an_unknown_mode() -> None:
    with pytest.raises(ValueError, match="sideways"):
        round_half_up(1.0, 0.1, mode=cast("RoundingMode", "sideways"))


def test_a_converted_step_is_still_a_step() -> None:
    step = to_unit(from_unit(0.1, "lb"), "lb")
    assert round_half_up(11.15, step) == 11.2
