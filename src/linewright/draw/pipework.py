"""The pipe itself: runs drawn to reach, legs between lanes, fittings, ticks of per-lane limits, ends at units."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from itertools import chain
from typing import NamedTuple

from linewright.draw.frame import Frame
from linewright.draw.loops import loop
from linewright.draw.plan import LengthLimit, Node, SheetLayout
from linewright.draw.primitives import AnyPrimitive, Circle, Line, Rect
from linewright.draw.run_words import run_title
from linewright.draw.spots import Spot
from linewright.draw.tube_words import pipework_of_runs
from linewright.draw.wording import limit_name
from linewright.model.design import Run
from linewright.model.kept import KeptEach
from linewright.model.values import NodeKind
from linewright.units import Dimension, UnitSystem, show

LEG_STROKE = 1.4
NODE_RADIUS = 4.6
HEADER_HALF = 4.0
BOX_HALF = 6.5
TICK_HALF = 11.0
THREE = 3
THIRD_APART, THIRD_STROKE = 2.2, 0.8


class PaintedRun(NamedTuple):
    """A run as it is painted: along its lane, its leg, and what stands at its far end."""

    along: list[AnyPrimitive]
    leg: list[AnyPrimitive]
    node: list[AnyPrimitive]


def paint_runs(sheet: SheetLayout, spots: list[Spot], frame: Frame, system: UnitSystem) -> list[PaintedRun]:
    """Paint each run and its far end: a joint, header, box, coupling or unit."""
    tree = sheet.result.tree
    bought = pipework_of_runs(sheet.result.pipework, system)
    rows = [
        (
            spot,
            run,
            None if bought is None else bought.get(spot.pipe.id, ()),
            _header_ys(sheet, spot, frame) if spot.pipe.far.kind is NodeKind.HEADER else (),
            system,
        )
        for spot, run in zip(spots, tree.runs, strict=True)
    ]
    return _RUNS(sheet.result.id, rows)


def _paint(  # noqa: PLR0917 - kept by these
    spot: Spot, run: Run, bought: tuple[str, ...] | None, ys: tuple[float, ...], system: UnitSystem
) -> PaintedRun:
    return PaintedRun(_along(spot, run, bought, system), _leg(spot), _node(spot.pipe.far, (spot.x1, spot.y1), ys))


#: The runs that were painted before, by system.
_RUNS: KeptEach[PaintedRun] = KeptEach(_paint)


def pipes(runs: Sequence[PaintedRun], spots: list[Spot]) -> list[AnyPrimitive]:
    """Give all runs, then what crosses them, then their legs."""
    along, legs, _ = zip(*runs, strict=True)
    return [*chain.from_iterable(along), *_gaps(spots), *chain.from_iterable(legs)]


def nodes(runs: Sequence[PaintedRun]) -> list[AnyPrimitive]:
    """Give what stands at the far end of each run."""
    return [*chain.from_iterable([run.node for run in runs])]


def _along(spot: Spot, run: Run, bought: tuple[str, ...] | None, system: UnitSystem) -> list[AnyPrimitive]:
    """Paint a run; `bought` says of its tubes what pipework does, none where that is not judged."""
    pipe, name = spot.pipe, f"run:{spot.pipe.id}"
    css = "pipe" if pipe.known else "pipe-unknown"
    title = run_title(pipe, run, bought or (), system)
    way = _Way(spot.x0, spot.x1, spot.y1, pipe.near.reach_m, pipe.far.reach_m, spot.stroke)
    found: list[AnyPrimitive] = [_run(name, name, "run", css, way, title)]
    found += _third_tube(name, spot)
    if pipe.beyond_m is not None:
        beyond = way._replace(x0=spot.x_at(pipe.beyond_m), from_m=pipe.beyond_m)
        found.append(_run(f"{name}/beyond", name, "run-beyond", "pipe-beyond", beyond, title))
    if bought is not None:
        found += loop(spot, run, name)
    if pipe.known and spot.stretched:
        found += _break_mark(name, spot, spot.stroke)
    return found


class _Way(NamedTuple):
    """From where to where a run is drawn [px] and goes [m], and its weight [px]."""

    x0: float
    x1: float
    y: float
    from_m: float
    to_m: float
    stroke: float


def _third_tube(name: str, spot: Spot) -> list[AnyPrimitive]:
    """A fine line along each side of a run of three tubes."""
    result = spot.pipe.result
    if result is None or len(result.tubes) < THREE:
        return []
    apart = spot.stroke / 2 + THIRD_APART
    return [
        Line(
            id=f"{name}/{side}",
            role="third-tube",
            css="break",
            group=name,
            x1=spot.x0,
            y1=spot.y1 + shift,
            x2=spot.x1,
            y2=spot.y1 + shift,
            stroke=THIRD_STROKE,
        )
        for side, shift in (("above", -apart), ("below", apart))
    ]


def _run(name: str, group: str, role: str, css: str, way: _Way, title: str) -> Line:  # noqa: PLR0917 - what differs between both
    return Line(
        id=name,
        role=role,
        css=css,
        group=group,
        title=title,
        x0_m=way.from_m,
        x1_m=way.to_m,
        x1=way.x0,
        y1=way.y,
        x2=way.x1,
        y2=way.y,
        stroke=way.stroke,
    )


def _break_mark(name: str, spot: Spot, stroke: float) -> list[AnyPrimitive]:
    """Two slanted strokes across a gap: drawn longer than it is."""
    x, y, half = (spot.x0 + spot.x1) / 2, spot.y1, stroke / 2 + 3
    gap = Line(
        id=f"{name}/break",
        role="break",
        css="gap",
        group=name,
        title="very short: drawn longer than it is",
        x1=x - 2.4,
        y1=y,
        x2=x + 2.4,
        y2=y,
        stroke=stroke + 1.5,
    )
    strokes = [
        Line(
            id=f"{name}/break/{side}",
            role="break",
            css="break",
            group=name,
            x1=at - 1.5,
            y1=y + half,
            x2=at + 1.5,
            y2=y - half,
            stroke=1.1,
        )
        for side, at in (("near", x - 2.4), ("far", x + 2.4))
    ]
    return [gap, *strokes]


def _leg(spot: Spot) -> list[AnyPrimitive]:
    if abs(spot.y1 - spot.y0) < 0.05:
        return []
    pipe = spot.pipe
    starts_beyond = pipe.beyond_m is not None and pipe.beyond_m <= pipe.near.reach_m
    leg = Line(
        id=f"run:{pipe.id}/leg",
        role="leg",
        css="leg-beyond" if starts_beyond else "leg",
        group=f"run:{pipe.id}",
        x1=spot.x0,
        y1=spot.y0,
        x2=spot.x0,
        y2=spot.y1 + (0.7 if spot.y1 > spot.y0 else -0.7),
        stroke=LEG_STROKE,
    )
    return [leg]


def _gaps(spots: list[Spot]) -> list[AnyPrimitive]:
    """Open the runs that a leg crosses, so that a crossing is not read as a joint."""
    by_y = sorted([(spot.y1, i, spot.x0 + 2, spot.x1 - 2) for i, spot in enumerate(spots)])
    found: list[AnyPrimitive] = []
    last = len(spots)
    for leg in spots:
        _, x, _, y0, y1, *_ = leg
        low, high = (y0 + 1, y1 - 1) if y0 <= y1 else (y1 + 1, y0 - 1)
        first = bisect_right(by_y, (low, last))
        if first < last and by_y[first][0] < high:
            between = by_y[first : bisect_left(by_y, (high, -1))]
            # Through such a run goes the leg.
            crossed = sorted([i for _, i, start, end in between if start < x < end])
            found += [_gap(leg, spots[i]) for i in crossed]
    return found


def _gap(leg: Spot, run: Spot) -> Line:
    return Line(
        id=f"run:{leg.pipe.id}/over:{run.pipe.id}",
        role="crossing",
        css="gap",
        group=f"run:{leg.pipe.id}",
        x1=leg.x0 - 4,
        y1=run.y1,
        x2=leg.x0 + 4,
        y2=run.y1,
        stroke=run.stroke + 1.5,
    )


def _node(node: Node, at: tuple[float, float], ys: tuple[float, ...]) -> list[AnyPrimitive]:
    match node.kind:
        case NodeKind.JOINT:
            return [_joint(node.id, *at)]
        case NodeKind.HEADER:
            return [_header(node, at[0], ys)]
        case NodeKind.BOX:
            return _box(node, *at)
        case NodeKind.COUPLING:
            return [_coupling(node, *at)]
        case NodeKind.UNIT | NodeKind.MODULE:
            return [_end(node.id, *at)]


def _header_ys(sheet: SheetLayout, spot: Spot, frame: Frame) -> tuple[float, ...]:
    """Give the heights of a header and of all that leaves it [px]."""
    return (spot.y1, *[frame.y(pipe.far.lane) for pipe in sheet.pipes if pipe.near.id == spot.pipe.far.id])


def _joint(node: str, x: float, y: float) -> Circle:
    return Circle(
        id=f"node:{node}", role="joint", css="node", group="fittings", title=node, x=x, y=y, radius=NODE_RADIUS
    )


def _header(node: Node, x: float, ys: Sequence[float]) -> Rect:
    top, bottom = min(ys) - 5, max(ys) + 5
    return Rect(
        id=f"node:{node.id}",
        role="header",
        css="header",
        group="fittings",
        title=node.id,
        x=x - HEADER_HALF,
        y=top,
        width=2 * HEADER_HALF,
        height=bottom - top,
        radius=2.5,
    )


def _box(node: Node, x: float, y: float) -> list[AnyPrimitive]:
    """Paint a square with a stroke from corner to corner: what comes in here leaves in either mode."""
    name = f"node:{node.id}"
    square = Rect(
        id=name,
        role="box",
        css="header",
        group="fittings",
        title=node.id,
        x=x - BOX_HALF,
        y=y - BOX_HALF,
        width=2 * BOX_HALF,
        height=2 * BOX_HALF,
    )
    stroke = Line(
        id=f"{name}/mode",
        role="box-mode",
        css="coupling",
        group="fittings",
        x1=x - BOX_HALF,
        y1=y + BOX_HALF,
        x2=x + BOX_HALF,
        y2=y - BOX_HALF,
        stroke=1.2,
    )
    return [square, stroke]


def _coupling(node: Node, x: float, y: float) -> Line:
    return Line(
        id=f"node:{node.id}",
        role="coupling",
        css="coupling",
        group="fittings",
        title=node.id,
        x1=x,
        y1=y - 5,
        x2=x,
        y2=y + 5,
        stroke=1.6,
    )


def _end(node: str, x: float, y: float) -> Rect:
    return Rect(
        id=f"node:{node}",
        role="unit-end",
        css="end",
        group="fittings",
        title=node,
        x=x,
        y=y - 5,
        width=4,
        height=10,
    )


def lane_ticks(sheet: SheetLayout, spots: list[Spot], frame: Frame, system: UnitSystem) -> list[AnyPrimitive]:
    """Paint each limit that stands at another reach on each lane as a tick there."""
    by_unit = {spot.pipe.far.id: spot for spot in spots if spot.pipe.far.kind is NodeKind.UNIT}
    found: list[AnyPrimitive] = []
    for limit in sheet.limits:
        found += [
            _tick(limit, unit, reach, by_unit[unit], frame=frame, system=system)
            for unit, reach in sorted(limit.ticks_m.items())
            if unit in by_unit and _tick_x(by_unit[unit], reach, frame) <= frame.tree_right
        ]
    return found


def _tick_x(spot: Spot, reach_m: float, frame: Frame) -> float:
    far = spot.pipe.far.reach_m
    if spot.pipe.near.reach_m <= reach_m <= far:
        return spot.x_at(reach_m)
    return spot.x1 + (reach_m - far) * frame.axis.px_per_m if reach_m > far else frame.x(reach_m)


def _tick(limit: LengthLimit, unit: str, reach_m: float, spot: Spot, *, frame: Frame, system: UnitSystem) -> Line:
    x = _tick_x(spot, reach_m, frame)
    bound = "" if limit.check.bound is None else show(limit.check.bound, Dimension.LENGTH, system)
    return Line(
        id=f"{limit.id}/{unit}",
        role="limit-tick",
        css="limit-tick-over" if limit.is_past(spot.pipe.far.reach_m, unit) else "limit-tick",
        group="limits",
        title=f"{unit}: {limit_name(limit.check)} {bound}",
        x0_m=reach_m,
        x1_m=reach_m,
        x1=x,
        y1=spot.y1 - TICK_HALF,
        x2=x,
        y2=spot.y1 + TICK_HALF,
        stroke=1.6,
    )
