"""Across the axis: at which lane every node lies, so that no two pipes lie on each other."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from linewright.model.tree import NO_PARENT, Tree
from linewright.model.values import NodeKind

# Two pipes nearer than this look like one.
LEAST_GAP = 0.3
# Where a joint may go instead, in lanes from the middle of its branches.
TRIES = (0.0, 0.33, -0.33, 0.5, -0.5, 0.67, -0.67, 0.17, -0.17, 0.83, -0.83)


class Flat(NamedTuple):
    """The horizontal part of a drawn run: its lane and its ends along the axis [m]."""

    lane: float
    from_m: float
    to_m: float


def node_lanes(tree: Tree, unit_lanes: Mapping[str, int], reach_m: Sequence[float], root_m: float) -> list[float]:
    """Give the lane of every node (position of its run): a unit's own, else midway between its outermost branches.

    A joint that would lie on another pipe is moved aside, within its branches where it can be.
    """
    lanes = [0.0] * len(tree.ids)
    flats = [
        Flat(float(unit_lanes[name]), _near(tree, reach_m, root_m, i), reach_m[i])
        for i, name in enumerate(tree.ids)
        if tree.unit_at[i] >= 0
    ]
    for i in range(len(tree.ids) - 1, -1, -1):
        if tree.unit_at[i] >= 0:
            lanes[i] = float(unit_lanes[tree.ids[i]])
            continue
        arms = [lanes[child] for child in tree.children[i]]
        if not arms:
            lanes[i] = float(max(unit_lanes.values(), default=0) + 1)
            continue
        start = _near(tree, reach_m, root_m, i)
        passes_through = tree.kind[i] is NodeKind.COUPLING and len(arms) == 1
        lanes[i] = arms[0] if passes_through else _free_lane(arms, flats, from_m=start, to_m=reach_m[i])
        flats.append(Flat(lanes[i], start, reach_m[i]))
    return lanes


def _near(tree: Tree, reach_m: Sequence[float], root_m: float, i: int) -> float:
    return root_m if tree.parent[i] == NO_PARENT else reach_m[tree.parent[i]]


def _free_lane(arms: Sequence[float], flats: Sequence[Flat], *, from_m: float, to_m: float) -> float:
    low, high = min(arms), max(arms)
    middle = (low + high) / 2
    options = [middle + aside for aside in TRIES]
    inside = [lane for lane in options if low < lane < high] or [middle]
    for lane in [*inside, *options]:
        if not any(_lies_on(flat, lane, from_m=from_m, to_m=to_m) for flat in flats):
            return lane
    return middle


def _lies_on(flat: Flat, lane: float, *, from_m: float, to_m: float) -> bool:
    overlap = min(flat.to_m, to_m) - max(flat.from_m, from_m)
    return abs(flat.lane - lane) < LEAST_GAP and overlap > 1e-9
