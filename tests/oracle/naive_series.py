"""A measured series and the ways to sum it up."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from enum import Enum

from tests.oracle.naive_numbers import Known, total

Items = Mapping[str, Known | None]


class Sense(Enum):
    """Whether a largest or a least value is bounded."""

    MAX = "max"
    MIN = "min"


@dataclass(frozen=True)
class Measured:
    """What a measure comes to: `None` is no value at all, an unwhole value a bound of it."""

    value: Known | None = None
    governs: tuple[str, ...] = ()
    items: Items = field(default_factory=dict)
    applicable: bool = True


NOT_APPLICABLE = Measured(applicable=False)
NO_VALUE = Measured()


def largest(items: Items) -> Measured:
    """The largest item; with items missing a lower bound of it."""
    if not items:
        return NOT_APPLICABLE
    known = {subject: item for subject, item in items.items() if item is not None}
    if not known:
        return Measured(items=items)
    most = max(item.value for item in known.values())
    whole = len(known) == len(items) and all(item.whole for item in known.values())
    return Measured(Known(most, whole), _by(known, most), items)


def smallest(items: Items) -> Measured:
    """The smallest item, which a lower bound of one leaves without value; with items missing it is at most that."""
    if not items:
        return NOT_APPLICABLE
    known = {subject: item for subject, item in items.items() if item is not None}
    if not known or not all(item.whole for item in known.values()):
        return Measured(items=items)
    least = min(item.value for item in known.values())
    whole = len(known) == len(items)
    return Measured(Known(least, whole, upper=not whole), _by(known, least), items)


def by_sense(items: Items, sense: Sense) -> Measured:
    return largest(items) if sense is Sense.MAX else smallest(items)


def spread(items: Items) -> Measured:
    """The largest less the smallest, governed by both."""
    top, bottom = largest(items), smallest(items)
    if top.value is None or bottom.value is None or not top.value.whole:
        return Measured(items=items, applicable=top.applicable)
    difference = top.value.value - bottom.value.value
    governs = tuple(sorted(_pair(items))) if difference else ()
    return Measured(Known(difference), governs, items)


def _pair(items: Items) -> tuple[str, str]:
    values = {subject: item.value for subject, item in items.items() if item is not None}
    top = min(subject for subject, value in values.items() if value == max(values.values()))
    bottom = min(subject for subject, value in values.items() if value == min(values.values()))
    return top, bottom


def summed(items: Items) -> Measured:
    """The sum of all items, governed by none."""
    known = [item for item in items.values() if item is not None]
    parts = total(known)
    return Measured(Known(parts.value, parts.whole and len(known) == len(items)), (), items)


def single(value: Decimal | None, *, items: Items | None = None) -> Measured:
    """One number of the system as a whole, governed by none."""
    return Measured(None if value is None else Known(value), (), items or {})


def _by(known: Mapping[str, Known], value: Decimal) -> tuple[str, ...]:
    return (min(subject for subject, item in known.items() if item.value == value),) if value else ()


def longer(first: Measured, second: Measured) -> Measured:
    """Of two lines of tube the one on which a measure comes out longer."""
    items = {subject: _longer_item(first.items[subject], second.items[subject]) for subject in first.items}
    pick = first
    if first.value is None or second.value is None:
        return Measured(items=items, applicable=first.applicable)
    if second.value.value > first.value.value:
        pick = second
    assert pick.value is not None
    whole = first.value.whole and second.value.whole
    return Measured(Known(pick.value.value, whole), pick.governs, items, first.applicable)


def _longer_item(first: Known | None, second: Known | None) -> Known | None:
    if first is None or second is None:
        return None
    return Known(max(first.value, second.value), first.whole and second.whole)
