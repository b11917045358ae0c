"""A measured series and the ways to sum it up."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
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
    """What a measure comes to, between `low` and `high`; `None` is not known at all.

    A value that is not whole is a lower bound. With a tie the items of either line may be shown.
    """

    value: Known | None = None
    low: Decimal | None = None
    high: Decimal | None = None
    governs: tuple[str, ...] = ()
    items: Items = field(default_factory=dict)
    applicable: bool = True
    tie: bool = False


NOT_APPLICABLE = Measured(applicable=False)


def _settled(value: Known, governs: tuple[str, ...], items: Items) -> Measured:
    return Measured(value, value.value, value.value if value.whole else None, governs, items)


def largest(items: Items) -> Measured:
    """The largest item; with items missing a lower bound of it."""
    if not items:
        return NOT_APPLICABLE
    known = {subject: item for subject, item in items.items() if item is not None}
    if not known:
        return Measured(items=items)
    most = max(item.value for item in known.values())
    whole = len(known) == len(items) and all(item.whole for item in known.values())
    return _settled(Known(most, whole), _by(known, most), items)


def smallest(items: Items) -> Measured:
    """The smallest item; it has a value where no missing part of another item can change it."""
    if not items:
        return NOT_APPLICABLE
    known = {subject: item for subject, item in items.items() if item is not None}
    least = min((item.value for item in known.values()), default=None)
    high = min((item.value for item in known.values() if item.whole), default=None)
    low = least if len(known) == len(items) else None
    if low is None or low != high:
        return Measured(low=low, high=high, items=items)
    return Measured(Known(low), low, high, _by(known, low), items)


def by_sense(items: Items, sense: Sense) -> Measured:
    return largest(items) if sense is Sense.MAX else smallest(items)


def spread(items: Items) -> Measured:
    """The largest less the smallest, governed by both."""
    top, bottom = largest(items), smallest(items)
    if top.value is None or bottom.value is None or not top.value.whole:
        return Measured(items=items, applicable=top.applicable)
    difference = top.value.value - bottom.value.value
    governs = tuple(sorted(_pair(items))) if difference else ()
    return _settled(Known(difference), governs, items)


def _pair(items: Items) -> tuple[str, str]:
    values = {subject: item.value for subject, item in items.items() if item is not None}
    top = min(subject for subject, value in values.items() if value == max(values.values()))
    bottom = min(subject for subject, value in values.items() if value == min(values.values()))
    return top, bottom


def summed(items: Items) -> Measured:
    """The sum of all items, governed by none."""
    known = [item for item in items.values() if item is not None]
    parts = total(known)
    return _settled(Known(parts.value, parts.whole and len(known) == len(items)), (), items)


def single(value: Decimal | None, *, items: Items | None = None, governs: tuple[str, ...] = ()) -> Measured:
    """One number of the system as a whole, governed by none unless what it counts is named."""
    return Measured(items=items or {}) if value is None else _settled(Known(value), governs, items or {})


def _by(known: Mapping[str, Known], value: Decimal) -> tuple[str, ...]:
    return (min(subject for subject, item in known.items() if item.value == value),) if value else ()


def longer_items(of_lines: Sequence[Items]) -> Items:
    """Of each item the longer of the lines."""
    items: dict[str, Known | None] = {}
    for subject in of_lines[0]:
        lengths = [line[subject] for line in of_lines]
        known = [length for length in lengths if length is not None]
        whole = all(length.whole for length in known)
        items[subject] = Known(max(k.value for k in known), whole) if len(known) == len(lengths) else None
    return items


def longer(first: Measured, second: Measured) -> Measured:
    """Of two lines of tube the one on which a measure comes out longer; one alone is a lower bound."""
    lows = [one.low for one in (first, second) if one.low is not None]
    highs = [one.high for one in (first, second) if one.high is not None]
    low, high = max(lows, default=None), max(highs) if len(highs) > 1 else None
    if first.value is None or second.value is None:
        items = first.items if second.value is None else second.items
        return Measured(None, low, high, (), items, first.applicable)
    pick = second if second.value.value > first.value.value else first
    assert pick.value is not None
    whole = first.value.whole and second.value.whole
    tie = first.value.value == second.value.value
    return Measured(Known(pick.value.value, whole), low, high, pick.governs, pick.items, first.applicable, tie)
