"""Conditions: a measure or a value of the site beyond a bound, a declaration, an option that is on."""

from __future__ import annotations

from linewright.book.schema import Condition, SiteValue
from linewright.engine.judging import stands
from linewright.engine.measures import measure
from linewright.engine.missing import missing_of
from linewright.engine.records import Sense
from linewright.engine.state import State
from linewright.model.design import Site
from linewright.units import over


def condition_holds(state: State, condition: Condition) -> bool | None:
    """Say whether a condition holds; `None` where it cannot be known."""
    system = state.ground.system
    if condition.declared:
        return condition.declared in system.declared
    if condition.option:
        return condition.option in system.options
    if condition.not_option:
        return condition.not_option not in system.options
    if condition.site is not None:
        value = site_value(state.ground.surroundings.site, condition.site)
        return None if value is None else is_beyond(condition, value)
    series = measure(state, condition)
    if not series.applicable:
        return False
    missing = (*series.missing, *series.incomplete)
    whole = (
        series if series.least else series._replace(values={}, incomplete=frozenset(), missing=missing, spread=False)
    )
    for amount, sense, strict in (
        (condition.over, Sense.MAX, True),
        (condition.under, Sense.MIN, True),
        (condition.at_most, Sense.MAX, False),
        (condition.at_least, Sense.MIN, False),
    ):
        if amount is not None:
            kept = stands(whole, amount.value, sense)
            return None if kept is None else kept is not strict
    return None


def is_beyond(condition: Condition, value: float) -> bool:
    """Say whether one item of a series satisfies a condition."""
    if condition.over is not None:
        return over(value, condition.over.value)
    if condition.under is not None:
        return over(condition.under.value, value)
    if condition.at_least is not None:
        return not over(condition.at_least.value, value)
    return condition.at_most is not None and not over(value, condition.at_most.value)


def lacking_of(state: State, condition: Condition) -> tuple[str, ...]:
    """Name what a condition that cannot be known lacks."""
    if condition.site is not None:
        return (f"{condition.site} of the site",)
    return missing_of(state, condition, measure(state, condition))


def site_value(site: Site, name: SiteValue) -> float | None:
    """Give what a design states of its site; `None` where it states nothing."""
    if name is SiteValue.ALTITUDE:
        return site.altitude_m
    mode, _, axis = name.partition(".")
    conditions = getattr(site, mode)
    value: float | None = None if conditions is None else getattr(conditions, f"{axis}_degc")
    return value
