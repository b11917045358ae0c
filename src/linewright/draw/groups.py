"""The groups of a scene and what they are to a screen reader: the lanes are a table, the rest are named parts."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from operator import attrgetter

from linewright.draw.plan import SheetLayout
from linewright.draw.primitives import AnyPrimitive, Group
from linewright.model.kept import Kept

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


def groups_of(sheet: SheetLayout, primitives: Sequence[AnyPrimitive]) -> tuple[Group, ...]:
    """Give the groups that `primitives` name, in order of first use, the table of lanes around its rows."""
    return _GROUPS(sheet.result.id, sheet.result.id, tuple(dict.fromkeys(map(_GROUP, primitives))))


def _groups(system: str, names: Sequence[str]) -> tuple[Group, ...]:
    table = Group(id="table", label=f"indoor units of system {system}", aria="table")
    return (Group(id="paper", label="paper", aria="presentation"), table, *map(_group, names))


#: The groups of the sheets before, by system.
_GROUPS: Kept[tuple[Group, ...]] = Kept(_groups)


@lru_cache(maxsize=MOST_KNOWN)
def _group(name: str) -> Group:
    prefix, _, rest = name.partition(":")
    if name in NAMED:
        label, aria = NAMED[name]
    else:
        label, aria = PREFIXES.get(prefix, (prefix, "group"))
        label = f"{label} {rest}"
    return Group(id=name, label=label, aria=aria, parent="table" if aria == "row" else "")
