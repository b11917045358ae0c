"""Across the axis: at which lane every node lies, so that no two pipes lie on each other."""

from __future__ import annotations

from bisect import bisect_left, bisect_right, insort
from collections.abc import Mapping, Sequence
from math import inf
from typing import NamedTuple

from linewright.model.tree import NO_PARENT, Tree
from linewright.model.values import NodeKind

# Two pipes nearer than this look like one: what is wished for, and what will do [lanes].
GAPS = (0.45, 0.3)
# Where a joint may go instead, in lanes from the middle of its branches.
TRIES = (0.0, 0.33, -0.33, 0.5, -0.5, 0.67, -0.67, 0.17, -0.17, 0.83, -0.83)
# A pipe farther than this from the middle of the branches bars none of those [lanes].
FAR = 2.0
# Drawn lengths that a run takes at least, and room that a foreign pipe keeps before its ends, as parts of the extent.
LEAST_KNOWN, LEAST_UNKNOWN, APART = 0.03, 0.09, 0.03


class Flat(NamedTuple):
    """The horizontal part of a drawn run: its lane, its ends along the axis [m], the node that it leaves."""

    lane: float
    from_m: float
    to_m: float
    near: int


class Along(NamedTuple):
    """Where nodes (positions of their runs) and the root lie along the axis [m], and which runs are unknown."""

    reach_m: Sequence[float]
    root_m: float
    unknown: Sequence[bool]

    extent_m: float

    @classmethod
    def of(cls, reach_m: Sequence[float], root_m: float, unknown: Sequence[bool]) -> Along:
        """Note as well how far the pipe goes."""
        return cls(reach_m, root_m, unknown, max([1.0, *(reach - root_m for reach in reach_m)]))

    def flat(self, tree: Tree, i: int, lane: float) -> Flat:
        """Give the drawn horizontal of a run."""
        before = tree.parent[i]
        start = self.root_m if before == NO_PARENT else self.reach_m[before]
        least = self.extent_m * (LEAST_UNKNOWN if self.unknown[i] else LEAST_KNOWN)
        return Flat(lane, start, max(self.reach_m[i], start + least), before)


def node_lanes(tree: Tree, unit_lanes: Mapping[str, int], along: Along) -> list[float]:
    """Give the lane of every node (position of its run): a unit's own, else midway between its outermost branches.

    A joint that would lie on another pipe is moved aside, within its branches where it can be.
    """
    lanes = [float(unit_lanes[name]) if tree.unit_at[i] >= 0 else 0.0 for i, name in enumerate(tree.ids)]
    flats = sorted([along.flat(tree, i, lanes[i]) for i, unit in enumerate(tree.unit_at) if unit >= 0])
    lowest = float(max(unit_lanes.values(), default=0) + 1)
    for i in range(len(tree.ids) - 1, -1, -1):
        if tree.unit_at[i] >= 0:
            continue
        arms = [lanes[child] for child in tree.children[i]] or [lowest]
        through = tree.kind[i] is NodeKind.COUPLING and len(arms) == 1
        lanes[i] = arms[0] if through else _free_lane(arms, _beside(tree, i, flats, along, arms=arms))
        insort(flats, along.flat(tree, i, lanes[i]))
    return lanes


def _beside(tree: Tree, i: int, flats: list[Flat], along: Along, *, arms: Sequence[float]) -> list[float]:
    """Give the lanes of the pipes that run where run `i` does, or end or start close to it; not of its own branches.

    Nor of those that are too far from its branches, at the lanes `arms`, to be in the way. `flats` are in their order.
    """
    mine = along.flat(tree, i, 0.0)
    apart = along.extent_m * APART
    before, behind = mine.from_m - apart, mine.to_m + apart
    middle = _middle(arms)
    first, end = bisect_right(flats, (middle - FAR, inf)), bisect_left(flats, (middle + FAR,))
    return [lane for lane, from_m, to_m, near in flats[first:end] if near != i and to_m > before and from_m < behind]


def _free_lane(arms: Sequence[float], beside: Sequence[float]) -> float:
    low, middle, high = min(arms), _middle(arms), max(arms)
    options = [middle + aside for aside in TRIES]
    inside = [lane for lane in options if low < lane < high] or [middle]
    for gap in GAPS:
        for lane in [*inside, *options]:
            if all(abs(other - lane) >= gap for other in beside):
                return lane
    return middle


def _middle(arms: Sequence[float]) -> float:
    return (min(arms) + max(arms)) / 2
