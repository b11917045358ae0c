"""Conditions of a book in words."""

from __future__ import annotations

from collections.abc import Sequence

from linewright.book.measures import FACTS
from linewright.book.schema import Condition, Need, SiteValue
from linewright.engine.measures import variant_words
from linewright.units import Dimension, UnitSystem, show

_WORDS = (("over", "over"), ("under", "under"), ("at_least", "at least"), ("at_most", "at most"))


def conditions_words(conditions: Sequence[Condition], system: UnitSystem) -> str:
    """Say when all of some conditions hold; empty where there is none."""
    return " and ".join(condition_words(condition, system) for condition in conditions)


def condition_words(condition: Condition, system: UnitSystem) -> str:
    """Say when one condition holds."""
    if condition.declared:
        return f"declared: {condition.declared}"
    if condition.option or condition.not_option:
        return f"option {condition.option or condition.not_option} is {'on' if condition.option else 'off'}"
    subject, dimension = _subject(condition)
    bounds = ((word, getattr(condition, key)) for key, word in _WORDS)
    return f"{subject} " + " ".join(f"{word} {show(item.value, dimension, system)}" for word, item in bounds if item)


def need_words(need: Need, system: UnitSystem) -> str:
    """Say what a wider bound needs."""
    if need.measure is None:
        return need.action or need.declared or f"option {need.option} on"
    subject, dimension = _subject(need)
    bounds = ((word, amount) for word, amount in (("at least", need.min), ("at most", need.max)) if amount is not None)
    return f"{subject} " + " ".join(f"{word} {show(amount.value, dimension, system)}" for word, amount in bounds)


def _subject(condition: Condition | Need) -> tuple[str, Dimension]:
    if condition.measure is not None:
        variant = variant_words(condition)
        name = f"{condition.measure} ({variant})" if variant else condition.measure.value
        return name, FACTS[condition.measure].dimension
    site = condition.site if isinstance(condition, Condition) else None
    altitude = site is SiteValue.ALTITUDE
    return f"{site} of the site", Dimension.LENGTH if altitude else Dimension.TEMPERATURE
