"""Bounds set beside what a design has: exactly at it, just over, just under, well to either side."""

from __future__ import annotations

from dataclasses import replace
from decimal import Context, localcontext
from typing import Any

from linewright.book.measures import FACTS, MeasureName
from linewright.book.schema import Book, Condition, Limit, MeasureUse, Need, Relaxed
from linewright.model.design import Design, System
from linewright.units import Amount, Dimension
from tests.oracle.generate_dice import Dice
from tests.oracle.naive_actions import choose
from tests.oracle.naive_measures import measure
from tests.oracle.naive_numbers import PRECISION
from tests.oracle.naive_series import Sense
from tests.oracle.naive_sizes import Sizes, base_sizes
from tests.oracle.naive_tree import Facts, facts_of

#: Relative to max(1, value): within the tolerance of the comparison and just beyond it.
HAIRS = (0.0, 0.0, 0.0, 5e-10, -5e-10, 3e-9, -3e-9)
SHARES = (0.5, 0.8, 0.95, 1.05, 1.25, 2.0)


def tighten(dice: Dice, design: Design, system: System, book: Book) -> Book:
    """The same book with many of its bounds moved to where this design meets them."""
    with localcontext(Context(prec=PRECISION)):
        facts = facts_of(design, system, book)
        actions = tuple(
            replace(action, when=_condition(dice, facts, base_sizes(facts), action.when)) if action.when else action
            for action in book.sizing.actions
        )
        book = replace(book, sizing=replace(book.sizing, actions=actions))
        facts.book = book
        sizes = choose(facts)[1]
        limits = tuple(_limit(dice, facts, sizes, limit) for limit in book.limits)
        book = replace(book, limits=limits)
        if dice.maybe(0.5):
            additional = measure(facts, sizes, MeasureUse(measure=MeasureName.ADDITIONAL_CHARGE)).value
            most = dice.mass_kg(1, 15) if additional is None else max(0.0, beside(dice, float(additional.value)))
            book = replace(book, charge=replace(book.charge, max_kg=max(most, book.charge.min_kg or 0.0)))
    return book


def beside(dice: Dice, value: float, *, shares: tuple[float, ...] = SHARES) -> float:
    if dice.maybe(0.5):
        return value + dice.pick(HAIRS) * max(1.0, abs(value))
    return value * dice.pick(shares)


def _measured(facts: Facts, sizes: Sizes, use: MeasureUse, sense: Sense = Sense.MAX) -> float | None:
    value = measure(facts, sizes, use, sense=sense).value
    return None if value is None else float(value.value)


def _moved(dice: Dice, given: Amount, value: float | None, *, shares: tuple[float, ...] = SHARES) -> Amount:
    if value is None or dice.maybe(0.2):
        return given
    moved = beside(dice, value, shares=shares)
    if given.dimension is Dimension.NUMBER and dice.maybe(0.5):
        moved = float(round(moved))
    return Amount(max(0.0, moved), given.dimension)


def _limit(dice: Dice, facts: Facts, sizes: Sizes, limit: Limit) -> Limit:
    plain = (0.4, 0.6, 0.8, 0.95) if limit.relaxed and limit.max is not None else SHARES
    most, least = limit.max, limit.min
    if isinstance(most, Amount):
        most = _moved(dice, most, _measured(facts, sizes, limit), shares=plain)
    if isinstance(least, Amount):
        least = _moved(dice, least, _measured(facts, sizes, limit, Sense.MIN))
    if isinstance(most, Amount) and isinstance(least, Amount) and least.value > most.value:
        least = most
    relaxed = tuple(
        wide
        for one in limit.relaxed
        if (wide := _wider(_relaxed(dice, facts, sizes, limit=limit, relaxed=one), most, least)) is not None
    )
    when = tuple(_condition(dice, facts, sizes, condition) for condition in limit.when)
    return replace(limit, max=most, min=least, relaxed=relaxed, when=when)


def _wider(relaxed: Relaxed, most: object, least: object) -> Relaxed | None:
    """A relaxed bound beyond the plain one; none where nothing can be."""
    if relaxed.max is not None and isinstance(most, Amount) and relaxed.max.value <= most.value:
        return replace(relaxed, max=Amount(most.value * 1.25 + 0.5, most.dimension))
    if relaxed.min is not None and isinstance(least, Amount) and relaxed.min.value >= least.value:
        return replace(relaxed, min=Amount(least.value * 0.75, least.dimension)) if least.value else None
    return relaxed


def _relaxed(dice: Dice, facts: Facts, sizes: Sizes, *, limit: Limit, relaxed: Relaxed) -> Relaxed:
    wide = (0.9, 1.2, 1.5, 2.0)
    needs = tuple(_need(dice, facts, sizes, need) for need in relaxed.needs)
    if relaxed.max is not None:
        return replace(relaxed, max=_moved(dice, relaxed.max, _measured(facts, sizes, limit), shares=wide), needs=needs)
    assert relaxed.min is not None
    value = _measured(facts, sizes, limit, Sense.MIN)
    return replace(relaxed, min=_moved(dice, relaxed.min, value, shares=(0.3, 0.7, 1.1)), needs=needs)


def _need(dice: Dice, facts: Facts, sizes: Sizes, need: Need) -> Need:
    if need.measure is None:
        return need
    if need.max is not None:
        wide = (0.9, 1.0, 1.2, 2.0)
        return replace(need, max=_moved(dice, need.max, _measured(facts, sizes, need), shares=wide))
    assert need.min is not None
    low = (0.5, 0.9, 1.0, 1.1)
    return replace(need, min=_moved(dice, need.min, _measured(facts, sizes, need, Sense.MIN), shares=low))


def _condition(dice: Dice, facts: Facts, sizes: Sizes, condition: Condition) -> Condition:
    value = _measured(facts, sizes, condition)
    for side in ("over", "at_least", "under", "at_most"):
        amount = getattr(condition, side)
        if amount is not None:
            assert condition.measure is not None
            assert amount.dimension is FACTS[condition.measure].dimension
            moved: dict[str, Any] = {side: _moved(dice, amount, value)}
            return replace(condition, **moved)
    raise AssertionError("a condition needs one bound")
