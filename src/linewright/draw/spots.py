"""Where the nodes of the tree stand on the page, with least drawn lengths and no leg upon another."""

from __future__ import annotations

from bisect import bisect_left, bisect_right, insort
from collections.abc import Sequence
from math import inf
from typing import NamedTuple, TypeAlias

from linewright.draw.frame import Frame, height
from linewright.draw.plan import Pipe, SheetLayout
from linewright.draw.primitives import AxisScale
from linewright.draw.style import pipe_stroke
from linewright.model.kept import Kept, KeptEach
from linewright.model.tree import NO_PARENT

LEAST_RUN_PX = 14.0
UNKNOWN_RUN_PX = 46.0
# Legs keep apart, even where long chains leave little room.
LEG_APART_PX, LEAST_APART_PX = 9.0, 2.5
SAME_PX = 0.01
MOST_SHRINKS = 60
SHRINK, SQUEEZE = 0.95, 0.88


#: Where the leg of a fitting stands, and from where to where it goes [px].
Leg: TypeAlias = tuple[float, float, float]


class Spot(NamedTuple):
    """One run on the page [px]: leg at `x0` from `y0` to `y1`, then along `y1` to `x1`.

    `stretched`: drawn longer than it is, because it is very short or unknown; `stroke`: its weight [px].
    """

    pipe: Pipe
    x0: float
    x1: float
    y0: float
    y1: float
    stretched: bool
    stroke: float

    def x_at(self, reach_m: float) -> float:
        """Give where a reach within the run is drawn [px]."""
        span = self.pipe.far.reach_m - self.pipe.near.reach_m
        share = (reach_m - self.pipe.near.reach_m) / span if span else 1.0
        return self.x0 + share * (self.x1 - self.x0)


def place(sheet: SheetLayout, frame: Frame) -> tuple[Frame, list[Spot]]:
    """Place all runs; where least lengths push the far end off the page, they and the scale are made smaller."""
    squeeze = 1.0
    spots = _place(sheet, frame, squeeze)
    for _ in range(MOST_SHRINKS):
        if max([spot.x1 for spot in spots]) <= frame.tree_right - LEAST_RUN_PX:
            break
        squeeze *= SQUEEZE
        frame = frame._replace(axis=_smaller(frame.axis, SHRINK))
        spots = _place(sheet, frame, squeeze)
    return frame, spots


def _smaller(axis: AxisScale, factor: float) -> AxisScale:
    start, right = axis.x(axis.from_m), axis.x(axis.to_m)
    per_m = axis.px_per_m * factor
    return AxisScale(
        name=axis.name,
        origin_px=start - axis.from_m * per_m,
        px_per_m=per_m,
        from_m=axis.from_m,
        to_m=axis.from_m + (right - start) / per_m,
    )


def _place(sheet: SheetLayout, frame: Frame, squeeze: float) -> list[Spot]:
    parent, lanes = sheet.result.tree.parent, tuple([pipe.far.lane for pipe in sheet.pipes])
    *ups, root = _UPS(sheet.result.id, parent, lanes, sheet.root.lane, frame.lane_y, frame.pitch)
    start = frame.x(sheet.root.reach_m)
    legs: list[Leg] = [(start, root.top, root.bottom)] if root.is_drawn else []
    apart = max(LEG_APART_PX * squeeze, LEAST_APART_PX)
    ends: list[float] = []
    placed = []
    px_per_m, known_px, unknown_px = frame.axis.px_per_m, squeeze * LEAST_RUN_PX, squeeze * UNKNOWN_RUN_PX
    reached = [frame.axis.x(pipe.far.reach_m) for pipe in sheet.pipes]
    for pipe, up, before, reached_px in zip(sheet.pipes, ups, parent, reached, strict=True):
        x0, y0 = (start, root.y) if before == NO_PARENT else (ends[before], ups[before].y)
        length_m = pipe.length_m
        least = unknown_px if length_m is None else known_px
        x1 = max(reached_px, x0 + least)
        stretched = length_m is None or px_per_m * length_m < least - SAME_PX
        if up.arms > 1 and up.is_drawn:
            x1 = _free_x((x1, up.top, up.bottom), legs, apart=apart)
        ends.append(x1)
        placed.append((pipe, x0, x1, y0, up.y, stretched))
    return _SPOTS(sheet.result.id, placed)


class _Upright(NamedTuple):
    """A node on the page, without where it stands along it: its y, from where to where its leg goes [px], its arms.

    is_drawn : whether the leg is more than a point
    """

    y: float
    top: float
    bottom: float
    arms: int
    is_drawn: bool

    @classmethod
    def of(cls, y: float, ends: Sequence[float], arms: int) -> _Upright:
        """Give a node whose leg reaches some heights [px]."""
        top, bottom = min(ends), max(ends)
        return cls(y, top, bottom, arms, bottom - top > 1)


def _uprights(  # noqa: PLR0917 - kept by these
    parent: Sequence[int], lanes: Sequence[float], root_lane: float, lane_y: Sequence[float], pitch: float
) -> list[_Upright]:
    """Give the nodes of a tree at their lanes, and last the root, where `NO_PARENT` points."""
    arms: list[list[float]] = [[lane] for lane in (*lanes, root_lane)]
    for lane, before in zip(lanes, parent, strict=True):
        arms[before].append(lane)
    y = {lane: height(lane, lane_y, pitch) for lane in (*lanes, root_lane)}
    return [_Upright.of(y[of_node[0]], [y[lane] for lane in of_node], len(of_node) - 1) for of_node in arms]


#: The nodes of the sheet before, by system.
_UPS: Kept[list[_Upright]] = Kept(_uprights)


def _spot(pipe: Pipe, x0: float, x1: float, y0: float, y1: float, stretched: bool) -> Spot:  # noqa: FBT001, PLR0917 - kept by these
    gas = pipe.result.gas_side if pipe.result else None
    return Spot(pipe, x0, x1, y0, y1, stretched, pipe_stroke(gas.od_m if gas else None))


#: The runs of the sheet before, by system.
_SPOTS: KeptEach[Spot] = KeptEach(_spot)


def _free_x(leg: Leg, legs: list[Leg], *, apart: float) -> float:
    """Move a leg aside while it would lie upon the leg of another fitting, and add it to them, who stand in order."""
    x, top, bottom = leg
    for _ in range(len(legs) + 1):
        near = legs[bisect_left(legs, (x - apart,)) : bisect_right(legs, (x + apart, inf))]
        # Both share more than a point of height, and stand too close.
        if not [at for at, high, low in near if bottom - high > 1 and low - top > 1 and abs(x - at) < apart - SAME_PX]:
            break
        x += apart
    insort(legs, (x, top, bottom))
    return x
