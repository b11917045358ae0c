"""Why a limit stands as it does, in words; and numbers of an evaluation as they are printed."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.engine.records import Check, Standing
from linewright.units import Dimension, UnitSystem, show, show_number

UNKNOWN = "?"


def because(check: Check, system: UnitSystem) -> Iterator[str]:
    """Why a limit stands as it does, where the table alone does not say it."""
    if check.standing is Standing.ON_CONDITIONS and check.plain_bound is not None:
        plain = number(check.plain_bound, check.dimension, system)
        yield f"{check.measure}: over {plain}, allowed because {_needs(check, system, last=True)}"
    elif check.standing is Standing.OVER and check.relaxed:
        yield f"{check.measure}: the wider bound does not hold: {_needs(check, system, last=False)}"
    if check.missing and check.margin is not None and check.margin < 0:
        bound = number(check.bound, check.dimension, system)
        yield f"{check.measure}: over {bound}; the wider bound is unjudged without {', '.join(check.missing)}"
    elif check.missing:
        left = ""
        if check.left is not None:
            left = f"; {number(check.left, check.dimension, system)} left for them"
        yield f"{check.measure}: unjudged without {', '.join(check.missing)}{left}"


def _needs(check: Check, system: UnitSystem, *, last: bool) -> str:
    tried = check.relaxed[-1:] if last else check.relaxed
    words = []
    for result in tried:
        for need in result.needs:
            if not last and need.holds:
                continue
            figures = ""
            if need.bound is not None:
                figures = (
                    f" {number(need.bound, need.dimension, system)} ({number(need.value, need.dimension, system)})"
                )
            words.append(
                f"{need.text}{figures}" + ("" if need.holds else " not met" if need.holds is False else " unknown")
            )
    return "; ".join(words) or "the value is beyond it"


def number(value: float | None, dimension: Dimension, system: UnitSystem, *, unit: bool = True) -> str:
    """Print a value, or a question mark where it is unknown."""
    if value is None:
        return UNKNOWN
    if dimension is Dimension.NUMBER:
        return f"{value:g}"
    return show(value, dimension, system) if unit else show_number(value, dimension, system)
