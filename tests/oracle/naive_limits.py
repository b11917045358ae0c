"""Limits: plain bounds, relaxed bounds and what they need."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from linewright.book.measures import MeasureName
from linewright.book.schema import BoundTable, Condition, FromGroup, Limit, MeasureUse, Need, Relaxed
from tests.oracle.naive_measures import measure
from tests.oracle.naive_numbers import Known, exact, find_band, over
from tests.oracle.naive_series import Measured, Sense
from tests.oracle.naive_sizes import Sizes
from tests.oracle.naive_tree import Facts

SUMS = (MeasureName.MAIN_LENGTH, MeasureName.TOTAL_LENGTH)
CHARGES = (MeasureName.ADDITIONAL_CHARGE, MeasureName.TOTAL_CHARGE, MeasureName.CHARGE_PER_LENGTH)


@dataclass
class Verdict:
    """The standing of one bound of one limit; `shown` is the bound that the standing speaks of."""

    measure: MeasureName
    sense: Sense
    standing: str
    measured: Measured
    plain: Decimal | None = None
    shown: Decimal | None = None
    is_relaxed: bool = False

    @property
    def left(self) -> Decimal | None:
        """What the plain bound leaves for what is missing: less the largest of the lower bounds that lack it."""
        value, items = self.measured.value, self.measured.items.values()
        if self.standing != "unjudged" or self.sense is Sense.MIN or value is None or value.whole or self.plain is None:
            return None
        if exceeds(self.measured, self.plain, self.sense) is True:
            return None
        lacking = [item.value for item in items if item is not None and not item.whole]
        return self.plain - (max(lacking) if lacking and self.measure not in SUMS else value.value)

    @property
    def margin(self) -> Decimal | None:
        if self.measured.value is None or self.shown is None:
            return None
        if (
            self.sense is Sense.MIN
            and self.plain is not None
            and exceeds(self.measured, self.plain, self.sense) is None
        ):
            return None
        left = self.shown - self.measured.value.value
        return left if self.sense is Sense.MAX else -left


def judge_all(facts: Facts, sizes: Sizes, chosen: Sequence[str]) -> list[Verdict]:
    verdicts = []
    for limit in facts.book.limits:
        for sense, bound in ((Sense.MIN, limit.min), (Sense.MAX, limit.max)):
            if bound is not None:
                verdicts.append(judge(facts, sizes, limit, sense=sense, chosen=chosen))
    return verdicts


def judge(facts: Facts, sizes: Sizes, limit: Limit, *, sense: Sense, chosen: Sequence[str]) -> Verdict:
    measured = measure(facts, sizes, limit, sense=sense)
    verdict = Verdict(limit.measure, sense, "unjudged", measured)
    applies = _all([holds(facts, sizes, condition) for condition in limit.when])
    if not measured.applicable or applies is False:
        verdict.standing = "not applicable"
        return verdict
    if _is_unstated(facts, limit, sense):
        verdict.standing = "unstated"
        return verdict
    verdict.plain = verdict.shown = plain_bound(facts, sizes, limit, sense=sense)
    if verdict.plain is None or applies is None:
        return verdict
    beyond = exceeds(measured, verdict.plain, sense)
    if beyond is not True:
        verdict.standing = "within" if beyond is False else "unjudged"
        return verdict
    _relax(facts, sizes, limit, verdict=verdict, chosen=chosen)
    return verdict


def _relax(facts: Facts, sizes: Sizes, limit: Limit, *, verdict: Verdict, chosen: Sequence[str]) -> None:
    """Over the plain bound: try the relaxed ones in the order of the book."""
    verdict.standing = "over"
    for relaxed in limit.relaxed:
        bound = relaxed_bound(relaxed, verdict.sense)
        if bound is None:
            continue
        needs = _all([need_holds(facts, sizes, need, chosen=chosen) for need in relaxed.needs])
        beyond = exceeds(verdict.measured, bound, verdict.sense)
        if needs is True:
            verdict.shown, verdict.is_relaxed = bound, True
        if needs is True and beyond is False:
            verdict.standing = "on conditions"
            return
        if needs is not False and beyond is not True:
            verdict.standing = "unjudged"


def relaxed_bound(relaxed: Relaxed, sense: Sense) -> Decimal | None:
    amount = relaxed.max if sense is Sense.MAX else relaxed.min
    return None if amount is None else exact(amount.value)


def plain_bound(facts: Facts, sizes: Sizes, limit: Limit, *, sense: Sense) -> Decimal | None:
    bound = limit.max if sense is Sense.MAX else limit.min
    if isinstance(bound, BoundTable):
        by = measure(facts, sizes, MeasureUse(measure=bound.by)).value
        row = find_band(bound.rows, by.value) if by is not None and by.whole else None
        return None if row is None else exact(row.bound.value)
    amount = _group_amount(facts, limit, sense) if isinstance(bound, FromGroup) else bound
    return None if amount is None else exact(amount.value)


def _group_amount(facts: Facts, limit: Limit, sense: Sense):  # type: ignore[no-untyped-def]  # noqa: ANN202
    group = facts.group
    limits = group.indoor_count if limit.measure is MeasureName.INDOOR_COUNT else group.connection_ratio
    return limits.max if sense is Sense.MAX else limits.min


def _is_unstated(facts: Facts, limit: Limit, sense: Sense) -> bool:
    bound = limit.max if sense is Sense.MAX else limit.min
    return isinstance(bound, FromGroup) and _group_amount(facts, limit, sense) is None


def exceeds(measured: Measured, bound: Decimal, sense: Sense) -> bool | None:
    """Whether a measure is beyond a bound; `None` where it is not known well enough to say."""
    low, high = measured.low, measured.high
    if sense is Sense.MIN:
        sure, clear = high is not None and over(bound, high), low is not None and not over(bound, low)
    else:
        sure, clear = low is not None and over(low, bound), high is not None and not over(high, bound)
    return True if sure else False if clear else None


def need_holds(facts: Facts, sizes: Sizes, need: Need, *, chosen: Sequence[str]) -> bool | None:
    if need.action:
        return need.action in chosen and sizes.carried[need.action]
    if need.declared:
        return need.declared in facts.system.declared
    assert need.measure is not None
    results: list[bool | None] = []
    for sense, amount in ((Sense.MIN, need.min), (Sense.MAX, need.max)):
        if amount is not None:
            measured = measure(facts, sizes, need, sense=sense)
            results.append(_need_bound(measured, exact(amount.value), sense))
    return _all(results)


def _need_bound(measured: Measured, bound: Decimal, sense: Sense) -> bool | None:
    if not measured.applicable:
        return True
    beyond = exceeds(measured, bound, sense)
    return None if beyond is None else not beyond


def _all(results: Sequence[bool | None]) -> bool | None:
    if False in results:
        return False
    return None if None in results else True


def holds(facts: Facts, sizes: Sizes, condition: Condition) -> bool | None:
    measured = measure(facts, sizes, condition)
    if not measured.applicable:
        return False
    return between(measured.low, measured.high, condition)


def satisfies(value: Known | None, condition: Condition) -> bool | None:
    """Whether a number meets a condition; `None` where it is not known well enough to say."""
    if value is None:
        return None
    return between(value.value, value.value if value.whole else None, condition)


def between(low: Decimal | None, high: Decimal | None, condition: Condition) -> bool | None:
    """Whether a number from `low` to `high` meets a condition; an end that is not known may be anywhere."""
    for amount, turned in ((condition.over, False), (condition.at_most, True)):
        if amount is not None:
            met = _exceeds(low, high, exact(amount.value))
            return met if met is None else met is not turned
    for amount, turned in ((condition.under, False), (condition.at_least, True)):
        if amount is not None:
            met = _falls_short(low, high, exact(amount.value))
            return met if met is None else met is not turned
    return None


def _exceeds(low: Decimal | None, high: Decimal | None, bound: Decimal) -> bool | None:
    if low is not None and over(low, bound):
        return True
    return False if high is not None and not over(high, bound) else None


def _falls_short(low: Decimal | None, high: Decimal | None, bound: Decimal) -> bool | None:
    if high is not None and over(bound, high):
        return True
    return False if low is not None and not over(bound, low) else None
