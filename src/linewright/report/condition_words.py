"""Conditions of a book in words."""

from __future__ import annotations

from collections.abc import Sequence

from linewright.book.measures import FACTS
from linewright.book.schema import Condition, SiteValue
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


def _subject(condition: Condition) -> tuple[str, Dimension]:
    if condition.measure is not None:
        variant = variant_words(condition)
        name = f"{condition.measure} ({variant})" if variant else condition.measure.value
        return name, FACTS[condition.measure].dimension
    altitude = condition.site is SiteValue.ALTITUDE
    return f"{condition.site} of the site", Dimension.LENGTH if altitude else Dimension.TEMPERATURE
