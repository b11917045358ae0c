"""Where everything stands on the page: columns, the scale of the axis, the rows of lanes. Pixels from here on."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import ceil, floor, log10
from typing import NamedTuple

from linewright.draw.columns import FLOW_WIDTH, Column, make_columns
from linewright.draw.plan import Axis, Band, SheetLayout
from linewright.draw.primitives import AxisScale
from linewright.units import UnitSystem, from_unit, over

DEFAULT_WIDTH = 1600.0
LEAST_WIDTH = 1280.0
EDGE = 20.0
LEVELS_WIDTH = 104.0
TABLE_SHARE, LEAST_TABLE, MOST_TABLE, TABLE_GAP = 0.52, 790.0, 980.0, 22.0
HEAD_OF_LANES = 58.0

# A limit line farther out than this many times the pipe would squeeze the picture: it is named at the edge instead.
LINE_WITHIN = 2.0
LEAST_EXTENT_M = 5.0
#: The axis goes to a whole step, of which it has so many at least.
LEAST_STEPS = 10
END_ROOM_PX = 30.0
MODULE_ROOM_PX = 62.0
LEAST_TICK_PX = 44.0


class BandBox(NamedTuple):
    """One level on the page [px]."""

    band: Band
    top: float
    bottom: float


class Frame(NamedTuple):
    """The page: its width, the tree's zone, the scale, the rows, the columns [px]."""

    width: float
    tree_left: float
    tree_right: float
    table_left: float
    axis: AxisScale
    columns: dict[str, Column]
    bands: tuple[BandBox, ...]
    lane_y: tuple[float, ...]
    pitch: float
    top: float
    bottom: float

    def y(self, lane: float) -> float:
        """Give the y of a lane number, between the lanes in proportion [px]."""
        return height(lane, self.lane_y, self.pitch)

    def x(self, reach_m: float) -> float:
        """Give the x of a reach [px]."""
        return self.axis.x(reach_m)


def height(lane: float, lane_y: Sequence[float], pitch: float) -> float:
    """Give the y of a lane number among lanes at `lane_y`, beyond them in steps of `pitch` [px]."""
    low = min(max(floor(lane), 0), len(lane_y) - 1)
    if lane <= low or low + 1 >= len(lane_y):
        return lane_y[low] + (lane - low) * pitch
    return lane_y[low] + (lane - low) * (lane_y[low + 1] - lane_y[low])


def make_frame(sheet: SheetLayout, width: float, top: float, *, needs: Mapping[str, float]) -> Frame:
    """Divide the page below `top` [px] between levels, tree and table; `needs` are wanted widths of columns [px]."""
    more = FLOW_WIDTH if sheet.with_flow else 0.0
    table = min(max((width - more) * TABLE_SHARE, LEAST_TABLE), MOST_TABLE) + more
    tree_left, table_left = EDGE + LEVELS_WIDTH, width - table
    tree_right = table_left - TABLE_GAP
    lanes_top = top + HEAD_OF_LANES
    bands, lane_y, pitch, bottom = _rows(sheet, lanes_top)
    return Frame(
        width=width,
        tree_left=tree_left,
        tree_right=tree_right,
        table_left=table_left,
        axis=_axis(sheet, tree_left + 14, tree_right),
        columns=make_columns(needs, table_left + 10, width - EDGE - 4),
        bands=bands,
        lane_y=lane_y,
        pitch=pitch,
        top=lanes_top,
        bottom=bottom,
    )


def ticks(axis: AxisScale, system: UnitSystem) -> list[tuple[float, int]]:
    """Give the ticks of the axis: reach [m] and the whole number that stands there in the printed unit."""
    unit = "m" if system is UnitSystem.SI else "ft"
    one = from_unit(1.0, unit)
    least = LEAST_TICK_PX / (axis.px_per_m * one)
    decade = 10 ** floor(log10(least))
    step = max(1, round(next(k * decade for k in (1, 2, 5, 10) if k * decade >= least)))
    first = -floor(-axis.from_m / one / step + 1e-9)
    found = []
    at = first * step
    while not over(at * one, axis.to_m):
        found.append((at * one, at))
        at += step
    return found


def _rows(sheet: SheetLayout, top: float) -> tuple[tuple[BandBox, ...], tuple[float, ...], float, float]:
    count = len(sheet.lanes)
    pitch = 38.0 if count <= 24 else 34.0
    gap, least = 10.0, 50.0
    boxes, lane_y, at = [], [], top
    for band in sheet.bands:
        rows = band.last - band.first + 1
        height = max(rows * pitch, least)
        start = at + (height - rows * pitch) / 2 + pitch / 2
        lane_y += [start + i * pitch for i in range(rows)]
        boxes.append(BandBox(band, at, at + height))
        at += height + gap
    return tuple(boxes), tuple(lane_y), pitch, at - gap


def _axis(sheet: SheetLayout, left: float, right: float) -> AxisScale:
    least, to = _extent(sheet)
    start = left + (MODULE_ROOM_PX if least < 0 or len(sheet.module_rows) > 1 else 12.0)
    return _scale(sheet, least, to, start=start, end=right - END_ROOM_PX, right=right)


def _extent(sheet: SheetLayout) -> tuple[float, float]:
    """Give from where and to where the axis must go [m]: over all pipe, and to limit lines not too far beyond it."""
    reaches = [sheet.root.reach_m, *[pipe.far.reach_m for pipe in (*sheet.pipes, *sheet.module_pipes)]]
    least, farthest = min(0.0, *reaches), max(reaches)
    farthest = max(farthest, least + LEAST_EXTENT_M)
    lines = [limit.line_m for limit in sheet.limits if limit.line_m is not None]
    return least, _rounded_up(max([farthest, *(line for line in lines if line <= LINE_WITHIN * farthest)]))


def _rounded_up(extent_m: float) -> float:
    """Give the next whole step, so that the scale stays while a length changes a little; at most a tenth more."""
    decade = 10.0 ** floor(log10(extent_m / LEAST_STEPS))
    step = max(k * decade for k in (1, 2, 5) if k * decade * LEAST_STEPS <= extent_m)
    return ceil(extent_m / step - 1e-9) * step


def _scale(sheet: SheetLayout, least: float, to: float, *, start: float, end: float, right: float) -> AxisScale:
    name = Axis(sheet.axis).value
    per_m = (end - start) / (to - least)
    return AxisScale(
        name=name, origin_px=start - least * per_m, px_per_m=per_m, from_m=least, to_m=least + (right - start) / per_m
    )
