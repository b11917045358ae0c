"""Across the axis: at which lane every node lies, so that no two pipes lie on each other."""

from __future__ import annotations

from bisect import bisect_left, bisect_right, insort
from collections.abc import Callable, Mapping, Sequence
from functools import partial
from math import inf
from typing import NamedTuple, TypeAlias

from linewright.model.tree import NO_PARENT, Tree
from linewright.model.values import NodeKind

# Two pipes nearer than this look like one: what is wished for, and what will do [lanes].
GAPS = (0.45, 0.3)
# Where a joint may go instead, in lanes from the middle of its branches.
TRIES = (0.0, 0.33, -0.33, 0.5, -0.5, 0.67, -0.67, 0.17, -0.17, 0.83, -0.83)
# A pipe farther than this from the middle of the branches bars none of those [lanes].
FAR = 2.0
# A pipe farther than this from a lane leaves it free [lanes].
CLOSE = 0.5
# Drawn lengths that a run takes at least, and room that a foreign pipe keeps before its ends, as parts of the extent.
LEAST_KNOWN, LEAST_UNKNOWN, APART = 0.03, 0.09, 0.03
_LAST = (inf, inf, 0)


#: The horizontal part of a drawn run along the axis: its ends [m], and the node that it leaves.
Span: TypeAlias = tuple[float, float, int]
#: The same across it: its lane before its span.
Flat: TypeAlias = tuple[float, Span]


class Horizontal(NamedTuple):
    """Where nodes (positions of their runs) and the root lie along the axis [m], and which runs are unknown."""

    reach_m: Sequence[float]
    root_m: float
    unknown: Sequence[bool]

    def spans(self, tree: Tree, extent_m: float) -> list[Span]:
        """Give the drawn horizontals of all runs; `extent_m`: how far the pipe goes."""
        reach_m, root_m = self.reach_m, self.root_m
        least = [extent_m * (LEAST_UNKNOWN if unknown else LEAST_KNOWN) for unknown in self.unknown]
        starts = [root_m if before == NO_PARENT else reach_m[before] for before in tree.parent]
        return [
            (start, max(reach, start + drawn), before)
            for start, reach, drawn, before in zip(starts, reach_m, least, tree.parent, strict=True)
        ]


def node_lanes(tree: Tree, unit_lanes: Mapping[str, int], along: Horizontal) -> list[float]:
    """Give the lane of every node (position of its run): a unit's own, else midway between its outermost branches.

    A joint that would lie on another pipe is moved aside, within its branches where it can be.
    """
    lanes = [float(unit_lanes[name]) if unit >= 0 else 0.0 for name, unit in zip(tree.ids, tree.unit_at, strict=True)]
    extent_m = max([1.0, *[reach - along.root_m for reach in along.reach_m]])
    spans, apart_m = along.spans(tree, extent_m), extent_m * APART
    flats = sorted([(lanes[i], spans[i]) for i, unit in enumerate(tree.unit_at) if unit >= 0])
    lowest = float(max(unit_lanes.values(), default=0) + 1)
    for i in range(len(tree.ids) - 1, -1, -1):
        if tree.unit_at[i] >= 0:
            continue
        arms = [lanes[child] for child in tree.children[i]] or [lowest]
        through = tree.kind[i] is NodeKind.COUPLING and len(arms) == 1
        lanes[i] = arms[0] if through else _free_lane(arms, partial(_beside, i, spans[i], flats=flats, apart_m=apart_m))
        insort(flats, (lanes[i], spans[i]))
    return lanes


def _beside(i: int, span: Span, middle: float, *, within: float, flats: list[Flat], apart_m: float) -> list[float]:
    """Give the lanes of the pipes that run where run `i` does, or end or start close to it; not of its own branches.

    Nor of those that are farther than `within` from a lane, and so not in the way. `flats` are in their order.
    """
    before, behind = span[0] - apart_m, span[1] + apart_m
    close = flats[bisect_right(flats, (middle - within, _LAST)) : bisect_left(flats, (middle + within,))]
    return [lane for lane, (from_m, to_m, near) in close if near != i and to_m > before and from_m < behind]


def _free_lane(arms: Sequence[float], beside: Callable[..., list[float]]) -> float:
    middle = _middle(arms)
    if _is_free(middle, beside(middle, within=CLOSE), GAPS[0]):
        return middle
    low, high, others = min(arms), max(arms), beside(middle, within=FAR)
    options = [middle + aside for aside in TRIES]
    inside = [lane for lane in options if low < lane < high] or [middle]
    for gap in GAPS:
        for lane in [*inside, *options]:
            if _is_free(lane, others, gap):
                return lane
    return middle


def _is_free(lane: float, beside: Sequence[float], gap: float) -> bool:
    return not [other for other in beside if abs(other - lane) < gap]


def _middle(arms: Sequence[float]) -> float:
    return (min(arms) + max(arms)) / 2
