"""At which elevation each node of a system is to be drawn, and whether that is known or only where it has room.

A node whose elevation is stated, or follows from stated rises, is drawn there. A fitting of which only a storey can be
told is drawn at the height of the pipe before it, as far as that is on the same storey; a unit without an elevation on
the storey of its room. What has neither is drawn apart.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum
from typing import NamedTuple

from linewright.engine.records import Evaluation, SystemResult
from linewright.model.design import Level
from linewright.model.tree import NO_PARENT
from linewright.model.values import NodeKind
from linewright.units import over

#: Share of a storey's height at which a unit is drawn of which only the storey is known, and that height without a
#: level above [m].
_SHARE, _STOREY_M = 0.6, 3.0


class Sure(Enum):
    """What is known of the elevation of a node."""

    STATED = "stated"
    STOREY = "storey"
    NOWHERE = "nowhere"


class Aim(NamedTuple):
    """The elevation at which a node is to be drawn [m], `None` where it is drawn apart."""

    elevation_m: float | None
    sure: Sure


class Aims(NamedTuple):
    """Aims of the outdoor group and of each node (position of its run), and the levels that they span, from below."""

    root: Aim
    nodes: tuple[Aim, ...]
    levels: tuple[Level, ...]


def find_aims(evaluation: Evaluation, result: SystemResult) -> Aims:
    """Give where every node of a system is to be drawn."""
    levels = tuple(sorted(evaluation.design.site.levels, key=lambda level: (level.elevation_m, level.id)))
    root = _root(result)
    homes = _homes(evaluation, result, levels)
    nodes: list[Aim] = []
    for i, before in enumerate(result.tree.parent):
        nodes.append(_aim(result, i, root if before == NO_PARENT else nodes[before], levels=levels, home=homes[i]))
    return Aims(root, tuple(nodes), _spanned(levels, [root, *nodes]))


def _root(result: SystemResult) -> Aim:
    outdoor = result.system.outdoor
    if outdoor.elevation_m is not None:
        return Aim(outdoor.elevation_m, Sure.STATED)
    stated = [module.elevation_m for module in outdoor.modules if module.elevation_m is not None]
    return Aim(min(stated), Sure.STATED) if stated else Aim(None, Sure.NOWHERE)


def _aim(result: SystemResult, i: int, before: Aim, *, levels: Sequence[Level], home: float | None) -> Aim:
    found = result.state.ground.levels
    elevation = found.node_m[i]
    if elevation is not None and not found.assumed[i]:
        return Aim(elevation, Sure.STATED)
    about = elevation if elevation is not None else home
    if about is None:
        return Aim(None, Sure.NOWHERE)
    if result.tree.kind[i] is not NodeKind.UNIT and before.elevation_m is not None:
        at, there = storey(levels, before.elevation_m), storey(levels, about)
        if at == there:
            return Aim(before.elevation_m, Sure.STOREY)
    return Aim(about, Sure.STOREY)


def _homes(evaluation: Evaluation, result: SystemResult, levels: Sequence[Level]) -> list[float | None]:
    """Give where a node stands by the room of the first unit beyond it [m]."""
    rooms = {room.id: room.level for room in evaluation.design.rooms}
    middle = _middles(levels)
    tree, units = result.tree, {unit.id: unit for unit in result.system.units}
    found: list[float | None] = [None] * len(tree.ids)
    for i in range(len(tree.ids) - 1, -1, -1):
        if tree.unit_at[i] >= 0:
            found[i] = middle.get(rooms.get(units[tree.ids[i]].room, ""))
        elif tree.children[i]:
            known = [found[child] for child in tree.children[i] if found[child] is not None]
            found[i] = known[0] if known else None
    return found


def _middles(levels: Sequence[Level]) -> dict[str, float]:
    tops = [level.elevation_m for level in levels[1:]]
    heights = [top - level.elevation_m for level, top in zip(levels, tops, strict=False)]
    heights += [_STOREY_M] * (len(levels) - len(heights))
    return {
        level.id: level.elevation_m + _SHARE * (height if height > 0 else _STOREY_M)
        for level, height in zip(levels, heights, strict=True)
    }


def storey(levels: Sequence[Level], elevation_m: float) -> int:
    """Give the number of levels, from below, whose floor is not above an elevation [m]."""
    return len([level for level in levels if not over(level.elevation_m, elevation_m)])


def _spanned(levels: Sequence[Level], aims: Sequence[Aim]) -> tuple[Level, ...]:
    """Give the levels from the floor under the lowest node to the one above the highest."""
    known = [aim.elevation_m for aim in aims if aim.elevation_m is not None]
    if not known:
        return ()
    first = max(storey(levels, min(known)) - 1, 0)
    return tuple(levels[first : storey(levels, max(known)) + 1])
