"""The groups of a scene and what they are to a screen reader: the lanes are a table, the rest are named parts."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from itertools import compress, count
from operator import attrgetter, is_not
from typing import NamedTuple

from linewright.draw.plan import SheetLayout
from linewright.draw.primitives import AnyPrimitive, Group
from linewright.model.kept import MOST_SHEETS, Last

#: Groups that are kept at hand: a sheet has those of the revision before.
MOST_KNOWN = 10_000
NAMED = {
    "paper": ("paper", "presentation"),
    "title": ("title", "group"),
    "axis": ("axis of reach", "group"),
    "limits": ("length limits", "group"),
    "fittings": ("fittings and units on the pipe", "group"),
    "outdoor": ("outdoor group", "group"),
    "margins": ("margins", "group"),
    "lanes": ("columns", "row"),
    "lanes-span": ("over the columns", "presentation"),
    "legend": ("signs", "group"),
}
PREFIXES = {
    "margin": ("margin", "group"),
    "level": ("level", "group"),
    "run": ("run", "group"),
    "node": ("fitting", "group"),
    "unit": ("indoor unit", "row"),
    "foot": ("below the lanes", "group"),
}


_GROUP = attrgetter("group")


class _Named(NamedTuple):
    """Primitives, and the groups that they name."""

    primitives: Sequence[AnyPrimitive]
    groups: tuple[Group, ...]


def groups_of(sheet: SheetLayout, primitives: Sequence[AnyPrimitive]) -> tuple[Group, ...]:
    """Give the groups that `primitives` name, in order of first use, the table of lanes around its rows."""
    name = sheet.result.id
    before = _BEFORE.get(name)
    groups = _groups(name, primitives) if before is None or _regrouped(before.primitives, primitives) else before.groups
    _BEFORE.put(name, _Named(primitives, groups))
    return groups


def _regrouped(before: Sequence[AnyPrimitive], now: Sequence[AnyPrimitive]) -> bool:
    """Say whether primitives that stand in their places belong to other groups than before, or are others."""
    if len(before) != len(now):
        return True
    return any(before[at].group != now[at].group for at in compress(count(), map(is_not, before, now)))


def _groups(system: str, primitives: Sequence[AnyPrimitive]) -> tuple[Group, ...]:
    table = Group(id="table", label=f"indoor units of system {system}", aria="table")
    names = dict.fromkeys(map(_GROUP, primitives))
    return (Group(id="paper", label="paper", aria="presentation"), table, *map(_group, names))


#: The sheets before, by system.
_BEFORE: Last[_Named] = Last(MOST_SHEETS)


@lru_cache(maxsize=MOST_KNOWN)
def _group(name: str) -> Group:
    prefix, _, rest = name.partition(":")
    if name in NAMED:
        label, aria = NAMED[name]
    else:
        label, aria = PREFIXES.get(prefix, (prefix, "group"))
        label = f"{label} {rest}"
    return Group(id=name, label=label, aria=aria, parent="table" if aria == "row" else "")
