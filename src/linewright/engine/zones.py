"""Where a run of a heat-recovery system lies: before a mode box, behind one, or on the way to none."""

from __future__ import annotations

from collections.abc import Mapping
from enum import Enum

from linewright.book.roles import UNIT_ROLES, direct_roles, outer_roles
from linewright.book.schema import Book
from linewright.model.tree import NO_PARENT, Tree
from linewright.model.values import NodeKind, Role


class Zone(Enum):
    """Where a run lies: a box at its far end or beyond, a box behind it and none beyond, or neither."""

    OUTER = "outer"
    INNER = "inner"
    DIRECT = "direct"


def find_zones(tree: Tree) -> tuple[Zone, ...]:
    """Give the zone of every run.

    Pipe that leaves a box on the way to another one is before a box again; what leaves it without a box hangs on it
    directly.
    """
    leads = [kind is NodeKind.BOX for kind in tree.kind]
    for i in range(len(leads) - 1, -1, -1):
        leads[i] = leads[i] or any(leads[child] for child in tree.children[i])
    zones: list[Zone] = []
    for i, before in enumerate(tree.parent):
        if leads[i]:
            zones.append(Zone.OUTER)
        elif before != NO_PARENT and (tree.kind[before] is NodeKind.BOX or zones[before] is Zone.INNER):
            zones.append(Zone.INNER)
        else:
            zones.append(Zone.DIRECT)
    return tuple(zones)


def roles_by_zone(book: Book) -> Mapping[Zone, tuple[Role, ...]]:
    """Tubes of a run by its zone."""
    return {Zone.OUTER: outer_roles(book), Zone.INNER: UNIT_ROLES, Zone.DIRECT: direct_roles(book)}
