"""Levels: the elevation of every node, stated, derived from a rise, or assumed and said so."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from linewright.model.design import Fitting, System
from linewright.model.tree import NO_PARENT, Tree
from linewright.model.values import NodeKind
from linewright.units import over

#: Wider than any tolerance of a comparison: lengths so far apart are not equal.
NEAR = 1e-8


class Levels(NamedTuple):
    """Elevations [m] by node (position of its run), what was assumed from which unit, rises, outdoor extremes.

    `of_units_m` are the known elevations by the unit's id, `unknown_units` the ids of the others.
    """

    node_m: tuple[float | None, ...]
    assumed: tuple[bool, ...]
    assumed_from: tuple[str, ...]
    rise_m: tuple[float | None, ...]
    root_m: float | None
    highest_outdoor_m: float | None
    lowest_outdoor_m: float | None
    too_steep: tuple[int, ...]
    of_units_m: Mapping[str, float]
    unknown_units: tuple[str, ...]


def find_levels(
    system: System, tree: Tree, rises_m: Sequence[float | None], modules_m: Sequence[float | None]
) -> Levels:
    """Find the elevation of every node of a system.

    rises_m : stated rises of the runs [m]
    modules_m : levels of the outdoor modules [m]
    """
    stated, root = _stated(system), system.outdoor.elevation_m
    node = list(map(stated.get, tree.ids))
    if rises_m.count(None) < len(rises_m):
        while _carry(tree, node, root):
            pass
    assumed_from = _assume(tree, node)
    rises = _rises(tree, rises_m, node, root)
    of_units = {tree.ids[run]: node[run] for run in tree.unit_runs}
    known = [level for level in modules_m if level is not None]
    complete = len(known) == len(modules_m)
    return Levels(
        node_m=tuple(node),
        assumed=tuple([bool(unit) for unit in assumed_from]),
        assumed_from=tuple(assumed_from),
        rise_m=rises,
        root_m=root,
        highest_outdoor_m=max(known) if complete else None,
        lowest_outdoor_m=min(known) if complete else None,
        too_steep=_too_steep(tree, rises),
        of_units_m={name: level for name, level in of_units.items() if level is not None},
        unknown_units=tuple([name for name, level in of_units.items() if level is None]),
    )


def _stated(system: System) -> dict[str, float]:
    found = {unit.id: unit.elevation_m for unit in system.units if unit.elevation_m is not None}
    found |= {fitting.id: fitting.elevation_m for fitting in system.fittings if _has_level(fitting)}  # type: ignore[misc]
    return found


def _has_level(fitting: Fitting) -> bool:
    return fitting.elevation_m is not None


def _carry(tree: Tree, node: list[float | None], root: float | None) -> bool:
    """Carry known levels along stated rises: all that follows outward, then one inward; say whether one did."""
    for i, run in enumerate(tree.runs):
        near = root if tree.parent[i] == NO_PARENT else node[tree.parent[i]]
        if node[i] is None and run.rise_m is not None and near is not None:
            node[i] = near + run.rise_m
    inward = [i for i in range(len(node)) if _leads_inward(tree, node, i)]
    if not inward:
        return False
    child = min(inward, key=lambda i: tree.ids[i])
    node[tree.parent[child]] = (node[child] or 0.0) - (tree.runs[child].rise_m or 0.0)
    return True


def _leads_inward(tree: Tree, node: list[float | None], i: int) -> bool:
    """Say whether the level of run i's near node follows from its far node and its stated rise."""
    before = tree.parent[i]
    return before != NO_PARENT and node[before] is None and node[i] is not None and tree.runs[i].rise_m is not None


#: Length to the unit of known level nearest downstream [m], its id, its level [m].
_Near = tuple[float, str, float]


def _is_nearer(one: _Near, other: _Near) -> bool:
    """Of two units equally far, but for what rounding leaves, the one whose name sorts first."""
    apart = other[0] - one[0]
    if apart == 0.0:
        return one[1] < other[1]
    if abs(apart) > NEAR * max(1.0, one[0]):
        return apart > 0
    if over(other[0], one[0]):
        return True
    return not over(one[0], other[0]) and one[1] < other[1]


def _assume(tree: Tree, node: list[float | None]) -> list[str]:
    """Give every fitting that is still without a level that of the unit of known level nearest downstream.

    Runs are walked from the ends inward. Gives the unit behind each assumed level.
    """
    nearest: list[_Near | None] = [None] * len(node)
    assumed_from = [""] * len(node)
    for i in range(len(node) - 1, -1, -1):
        level = node[i]
        if tree.kind[i] is NodeKind.UNIT:
            nearest[i] = None if level is None else (0.0, tree.ids[i], level)
            continue
        best: _Near | None = None
        for child in tree.children[i]:
            far = nearest[child]
            if far is not None:
                option = (far[0] + (tree.runs[child].length_m or 0.0), far[1], far[2])
                best = option if best is None or _is_nearer(option, best) else best
        nearest[i] = best
        if level is None and best is not None:
            node[i], assumed_from[i] = best[2], best[1]
    return assumed_from


def _rises(
    tree: Tree, stated: Sequence[float | None], node: list[float | None], root: float | None
) -> tuple[float | None, ...]:
    rises: list[float | None] = []
    for rise, parent, after in zip(stated, tree.parent, node, strict=True):
        before = root if parent == NO_PARENT else node[parent]
        between = None if before is None or after is None else after - before
        rises.append(between if rise is None else rise)
    return tuple(rises)


def _too_steep(tree: Tree, rises: Sequence[float | None]) -> tuple[int, ...]:
    found = []
    for i, (run, rise) in enumerate(zip(tree.runs, rises, strict=True)):
        length = run.length_m
        if rise and length is not None and over(abs(rise), length):
            found.append(i)
    return tuple(found)
