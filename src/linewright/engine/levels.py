"""Levels: the elevation of every node, stated, derived from a rise, or assumed and said so."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from linewright.model.design import Fitting, System
from linewright.model.tree import NO_PARENT, Tree
from linewright.model.values import NodeKind
from linewright.units import over


class Levels(NamedTuple):
    """Elevations [m] by node (position of its run), what was assumed, rises of runs, outdoor extremes."""

    node_m: tuple[float | None, ...]
    assumed: tuple[bool, ...]
    rise_m: tuple[float | None, ...]
    root_m: float | None
    highest_outdoor_m: float | None
    lowest_outdoor_m: float | None
    too_steep: tuple[int, ...]


def find_levels(system: System, tree: Tree, modules_m: Sequence[float | None]) -> Levels:
    """Find the elevation of every node of a system.

    modules_m : levels of the outdoor modules [m]
    """
    stated = _stated(system)
    node: list[float | None] = [None] * len(tree.ids)
    root = system.outdoor.elevation_m
    for i, run in enumerate(tree.runs):
        own = stated.get(run.to)
        if own is None and run.rise_m is not None:
            before = root if tree.parent[i] == NO_PARENT else node[tree.parent[i]]
            own = None if before is None else before + run.rise_m
        node[i] = own
    assumed = _assume(tree, node)
    rises = tuple(_rise(tree, node, root, i) for i in range(len(node)))
    known = [level for level in modules_m if level is not None]
    complete = len(known) == len(modules_m)
    return Levels(
        node_m=tuple(node),
        assumed=tuple(assumed),
        rise_m=rises,
        root_m=root,
        highest_outdoor_m=max(known) if complete else None,
        lowest_outdoor_m=min(known) if complete else None,
        too_steep=tuple(i for i, rise in enumerate(rises) if _steep(tree, rise, i)),
    )


def _stated(system: System) -> dict[str, float]:
    found = {unit.id: unit.elevation_m for unit in system.units if unit.elevation_m is not None}
    found |= {fitting.id: fitting.elevation_m for fitting in system.fittings if _has_level(fitting)}  # type: ignore[misc]
    return found


def _has_level(fitting: Fitting) -> bool:
    return fitting.elevation_m is not None


def _assume(tree: Tree, node: list[float | None]) -> list[bool]:
    """Give fittings without a level one: from a child's stated rise, else from the unit nearest downstream.

    Runs are walked from the ends inward, so that every unit is known before the fittings above it.
    """
    nearest: list[tuple[float, str, float] | None] = [None] * len(node)
    assumed = [False] * len(node)
    for i in range(len(node) - 1, -1, -1):
        level = node[i]
        if tree.kind[i] is NodeKind.UNIT:
            nearest[i] = None if level is None else (0.0, tree.ids[i], level)
            continue
        best: tuple[float, str, float] | None = None
        for child in tree.children[i]:
            far = nearest[child]
            if far is not None:
                option = (far[0] + (tree.runs[child].length_m or 0.0), far[1], far[2])
                best = option if best is None or option < best else best
        nearest[i] = best
        if level is None:
            node[i] = _from_child(tree, node, i)
            if node[i] is None and best is not None:
                node[i], assumed[i] = best[2], True
    return assumed


def _from_child(tree: Tree, node: list[float | None], i: int) -> float | None:
    for child in tree.children[i]:
        rise, level = tree.runs[child].rise_m, node[child]
        if rise is not None and level is not None:
            return level - rise
    return None


def _rise(tree: Tree, node: list[float | None], root: float | None, i: int) -> float | None:
    if tree.runs[i].rise_m is not None:
        return tree.runs[i].rise_m
    before = root if tree.parent[i] == NO_PARENT else node[tree.parent[i]]
    after = node[i]
    return None if before is None or after is None else after - before


def _steep(tree: Tree, rise: float | None, i: int) -> bool:
    length = tree.runs[i].length_m
    return rise is not None and length is not None and over(abs(rise), length)
