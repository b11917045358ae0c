"""Draws the pipes of a riser diagram: a line for every tube, side by side, broken where one crosses another."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence

from linewright.draw.paper.marks import HEAVY, MEDIUM, TUBE_LAYERS, Dash, Ink, Layer, Mark, Pen, Stroke
from linewright.draw.riser.arrange import Arranged
from linewright.draw.riser.outdoor import Outside
from linewright.draw.riser.parts import DROP, RADIUS
from linewright.draw.riser.pieces import SHAFT, Point
from linewright.draw.riser.symbols import break_marks
from linewright.draw.run_words import ROLE_ORDER
from linewright.engine.records import SystemResult
from linewright.model.design import Location
from linewright.model.values import NodeKind, Role

#: From line to line of one run of two tubes, and of three [mm].
_APART, _CLOSER = 1.1, 0.9
_GAP = 1.7
_LEAST_SHAFT = 8.0
_COUPLING = 0.55

Way = Sequence[Point]


def tube_pen(role: Role) -> Pen:
    """Give how a tube is drawn: what carries gas heavy, liquid fine in the accent."""
    if role is Role.LIQUID:
        return Pen(MEDIUM, Ink.ACCENT)
    if role in (Role.HIGH_LOW, Role.HIGH):
        return Pen(0.35, Ink.DARK, Dash.DASHED)
    return Pen(HEAVY, Ink.DARK)


def pipe_marks(result: SystemResult, arranged: Arranged, group: Outside) -> Iterator[Mark]:
    """Draw all runs and module pipes."""
    runs = {run.id: run for run in result.runs}
    pipes = {pipe.id: pipe for pipe in result.outdoor.pipes}
    shafts = shaft_runs(result)
    ways: list[tuple[str, Way, list[Role]]] = []
    discs = _discs(result, arranged, group)
    for name, outside_way in group.routes.items():
        tubes = pipes[name].tubes if name in pipes else {}
        ways.append((f"module-pipe:{name}", outside_way, _roles(tubes)))
    for i, route in sorted(arranged.routes.items()):
        name = result.tree.ids[i]
        ways.append((f"run:{name}", route, _roles(runs[name].tubes)))
        if i in shafts:
            yield from _shaft(name, route)
    upright = [(a, b) for _, way, _ in ways for a, b in _pieces(way) if abs(a.x - b.x) < 1e-9]
    for name, way, roles in ways:
        for tube in _tubes(name, way, roles, upright):
            yield _trimmed(tube, discs)


def _discs(result: SystemResult, arranged: Arranged, group: Outside) -> list[tuple[Point, float]]:
    """Give the circles and bars at which pipe ends, with their half width [mm]."""
    found = [(at, RADIUS) for at in group.joints.values()]
    for i, spot in arranged.spots.items():
        if not spot.right and result.tree.kind[i] is not NodeKind.UNIT:
            half = _COUPLING if result.tree.kind[i] is NodeKind.COUPLING else RADIUS
            found.append((Point(spot.x, spot.y), half))
    return found


def _trimmed(tube: Stroke, discs: list[tuple[Point, float]]) -> Stroke:
    """End a tube where the symbol begins, so that nothing has to be hidden."""
    for at, half in discs:
        for first, (x, y) in ((True, (tube.x1, tube.y1)), (False, (tube.x2, tube.y2))):
            if abs(x - at.x) <= _APART * 1.6 and abs(y - at.y) <= _APART * 1.6:
                tube = _ended(tube, at, half, first=first)
    return tube


def _ended(tube: Stroke, at: Point, half: float, *, first: bool) -> Stroke:
    level = abs(tube.y1 - tube.y2) < 1e-9
    off = tube.y1 - at.y if level else tube.x1 - at.x
    reach = max(half * half - off * off, 0.0) ** 0.5 if half > _COUPLING else half
    other = (tube.x2 if first else tube.x1) if level else (tube.y2 if first else tube.y1)
    middle = at.x if level else at.y
    if abs(other - middle) <= reach:
        return tube
    edge = middle + (reach if other > middle else -reach)
    if level:
        return tube._replace(x1=edge) if first else tube._replace(x2=edge)
    return tube._replace(y1=edge) if first else tube._replace(y2=edge)


def shaft_runs(result: SystemResult) -> frozenset[int]:
    """Give the runs to fittings that lie in a shaft, whose walls are drawn."""
    tree = result.tree
    lie = (run.location is Location.SHAFT for run in tree.runs)
    return frozenset(i for i, is_in in enumerate(lie) if is_in and tree.kind[i] is not NodeKind.UNIT)


def _roles(tubes: Mapping[Role, object]) -> list[Role]:
    return [role for role in ROLE_ORDER if role in tubes] or [Role.GAS]


def _pieces(way: Way) -> list[tuple[Point, Point]]:
    return list(itertools.pairwise(way))


def _tubes(name: str, way: Way, roles: list[Role], upright: list[tuple[Point, Point]]) -> Iterator[Stroke]:
    for k, role in enumerate(roles):
        off = (k - (len(roles) - 1) / 2) * (_APART if len(roles) <= 2 else _CLOSER)
        points = _beside(way, off)
        for n, (a, b) in enumerate(_pieces(points)):
            for m, (start, end) in enumerate(_broken((a, b), (way[n], way[n + 1]), upright)):
                part = f"{name}/{role.value}/{n}" + (f"/{m}" if m else "")
                yield Stroke(part, TUBE_LAYERS[role], start.x, start.y, end.x, end.y, tube_pen(role))


def _beside(way: Way, off: float) -> list[Point]:
    """Give a way of right angles moved to its right side by `off` [mm]."""
    moves = []
    for a, b in _pieces(way):
        length = abs(b.x - a.x) + abs(b.y - a.y) or 1.0
        moves.append((-(b.y - a.y) / length * off, (b.x - a.x) / length * off))
    found = []
    for n, point in enumerate(way):
        before, after = moves[max(n - 1, 0)], moves[min(n, len(moves) - 1)]
        if before == after:
            found.append(Point(point.x + before[0], point.y + before[1]))
        else:
            found.append(Point(point.x + before[0] + after[0], point.y + before[1] + after[1]))
    return found


def _broken(
    line: tuple[Point, Point], middle: tuple[Point, Point], upright: list[tuple[Point, Point]]
) -> Iterator[tuple[Point, Point]]:
    """Leave a gap in a level piece wherever an upright pipe crosses it; `middle` is the middle of its run."""
    (a, b), (near, far) = line, middle
    if abs(near.y - far.y) > 1e-9:
        yield a, b
        return
    low, high = min(near.x, far.x), max(near.x, far.x)
    crossed = sorted(
        {
            one.x
            for one, other in upright
            if low + _GAP < one.x < high - _GAP and min(one.y, other.y) + 0.1 < near.y < max(one.y, other.y) - 0.1
        }
    )
    start, sign = a, 1 if b.x > a.x else -1
    for x in crossed if sign > 0 else reversed(crossed):
        yield start, Point(x - sign * _GAP, a.y)
        start = Point(x + sign * _GAP, a.y)
    yield start, b


def _shaft(name: str, way: Way) -> Iterator[Stroke]:
    """Draw the walls of the shaft beside the upright piece of a run in one."""
    pen = Pen(MEDIUM, Ink.QUIET, Dash.DOTTED)
    for a, b in _pieces(way):
        if abs(a.x - b.x) < 1e-9 and abs(a.y - b.y) >= _LEAST_SHAFT:
            low, high = min(a.y, b.y) + 1.0, max(a.y, b.y) - 1.0
            for side in (-1, 1):
                x = a.x + side * SHAFT
                yield Stroke(f"shaft:{name}/{side}", Layer.DIMENSION, x, low, x, high, pen)


def break_signs(result: SystemResult, arranged: Arranged, group: Outside) -> Iterator[Stroke]:
    """Mark each upright piece whose end is not drawn at its true height."""
    for i, spot in sorted(arranged.spots.items()):
        pieces = [(a, b) for a, b in _pieces(arranged.routes[i]) if abs(a.x - b.x) < 1e-9]
        if not spot.true and pieces:
            yield from _sign(f"run:{result.tree.ids[i]}/break", *pieces[-1])
    if len(group.modules) > 1:
        for module in group.modules:
            a, b = _pieces(group.routes[module.id])[-1]
            yield from _sign(f"module-pipe:{module.id}/break", a, b)


def _sign(name: str, a: Point, b: Point) -> Iterator[Stroke]:
    toward = 1 if b.y > a.y else -1
    y = b.y - toward * min(DROP / 4, abs(b.y - a.y) / 2)
    for n, mark in enumerate(break_marks()):
        yield mark._replace(id=f"{name}/{n}", x1=mark.x1 + a.x, x2=mark.x2 + a.x, y1=mark.y1 + y, y2=mark.y2 + y)
