"""The one comparison, the one tolerance on tube sizes and the one rounding of the program."""

from math import isinf, isnan
from typing import Literal

RoundingMode = Literal["half-up", "up", "down", "nearest"]
_MODES: frozenset[str] = frozenset({"half-up", "up", "down", "nearest"})

_TOLERANCE = 1e-9
#: Tube sizes are nominal: 15.88 mm and 5/8 in (15.875 mm) are one size.
_SAME_TUBE_M = 1e-4
_DECIMALS = 9
_PER_UNIT = 1_000_000_000
#: A step of 0.1 that came out of a conversion may be off in its last bits.
_STEP_WOBBLE = 1e-12


def over(value: float, bound: float) -> bool:
    """Whether `value` is over `bound`: value - bound > 1e-9 * max(1, |bound|).

    Both in the same unit. ValueError when either is not a number: an unknown is never a pass.
    """
    if value <= bound:
        return False
    excess = value - bound
    tolerance = _TOLERANCE * abs(bound) if abs(bound) > 1.0 else _TOLERANCE
    if excess > tolerance:
        return True
    if excess < tolerance:
        return False
    if isnan(value) or isnan(bound):
        raise ValueError("a comparison with a value that is not a number")
    # Either exactly on the tolerance, or the bound is infinite and so is the tolerance.
    return isinf(bound) and value > bound


def same_tube(a_m: float, b_m: float) -> bool:
    """Whether two outside diameters [m] are one nominal size: within 0.1 mm."""
    return abs(a_m - b_m) <= _SAME_TUBE_M + _TOLERANCE


def round_half_up(value: float, step: float, *, mode: RoundingMode = "half-up") -> float:
    """`value` rounded in decimal to a multiple of `step`, both in the same unit.

    The value is first rounded to 9 decimals, so that 11.15 that came out of a conversion as
    11.149999999999999 still rounds to 11.2.

    mode : "half-up" — to the nearest multiple, a tie away from zero;
        "up" — to the multiple that is not smaller; "down" — to the one that is not larger;
        "nearest" — to the nearest, a tie to the even multiple
    Raises ValueError for a value that is not finite and a step that is not a positive number of at
    most 9 decimals.
    """
    step_nano = _nano(step)
    if step_nano <= 0 or abs(step_nano / _PER_UNIT - step) > _STEP_WOBBLE * max(1.0, step):
        raise ValueError(f"a rounding step must be positive with at most 9 decimals, not {step!r}")
    return whole_steps(_nano(value), step_nano, mode=mode) * step_nano / _PER_UNIT


def round_to_places(value: float, places: int, *, mode: RoundingMode = "half-up") -> int:
    """`value` in whole units of the last of `places` decimals: (2.345, 2) is 235.

    Raises ValueError for a value that is not finite and for places outside 0 to 9.
    """
    if not 0 <= places <= _DECIMALS:
        raise ValueError(f"decimal places must be 0 to 9, not {places!r}")
    return whole_steps(_nano(value), 10 ** (_DECIMALS - places), mode=mode)


def whole_steps(amount: int, step: int, *, mode: RoundingMode) -> int:
    """Number of steps that `amount` rounds to; whole numbers, so nothing wobbles."""
    if mode not in _MODES:
        raise ValueError(f"unknown rounding mode {mode!r}")
    steps, rest = divmod(amount, step)
    if mode == "down" or rest == 0:
        return steps
    if mode == "up":
        return steps + 1
    if 2 * rest != step:
        return steps + (2 * rest > step)
    if mode == "half-up":
        return steps + (amount > 0)
    return steps + steps % 2


def _nano(value: float) -> int:
    """`value` in whole 1e-9, by way of its decimal digits."""
    digits = format(value, f".{_DECIMALS}f")
    try:
        return int(digits.replace(".", ""))
    except ValueError:
        raise ValueError(f"{value!r} cannot be rounded: it is not finite") from None
