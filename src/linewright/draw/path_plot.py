"""A plot along the pipe to one unit: pressure of liquid and of gas in cooling, subcooling left. Distances are true."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import floor, log10
from typing import NamedTuple

from linewright.draw.primitives import Anchor, AnyPrimitive, AxisScale, Group, Line, Rect, Scene, Text, Weight
from linewright.draw.style import BODY, SMALL, TINY, TITLE
from linewright.draw.typeface import fit, text_width, wrap
from linewright.engine.hydraulics_records import ADVISORY, Hydraulics, Shares
from linewright.engine.records import SystemResult
from linewright.model.tree import Tree
from linewright.units import Dimension, UnitSystem, show, show_number, to_unit, unit_label
from linewright.units.showing import style

#: Where panels stand on the picture [px].
WIDTH, LEFT, RIGHT, PANEL, GAP, TOP = 1000.0, 84.0, 100.0, 132.0, 44.0, 92.0
#: How many steps a scale has at the most, and which steps it may take, times a power of ten.
_MOST_STEPS, _STEPS = 5, (1.0, 2.0, 5.0, 10.0)
_ROUND = 1e-9


class Along(NamedTuple):
    """One curve: values at the ends of the runs of a path, the root first; `zero` draws the line of zero."""

    name: str
    words: str
    dimension: Dimension
    values: tuple[float, ...]
    zero: bool = False


class _Panel(NamedTuple):
    """Where a curve stands: its top [px], and its scale in the printed unit."""

    top: float
    low: float
    high: float
    step: float

    def y(self, value: float) -> float:
        return self.top + PANEL * (self.high - value) / (self.high - self.low)


def path_scene(result: SystemResult, found: Hydraulics, unit: str, *, project: str, system: UnitSystem) -> Scene:
    """Draw what happens on the way to a unit.

    found : what flows in the system; ValueError where nothing was worked out, or the system has no such unit
    """
    if found.shares is None:
        raise ValueError(f"not worked out, for want of {'; '.join(found.missing)}")
    if unit not in {one.id for one in result.units}:
        raise ValueError(f"no unit '{unit}'")
    path = result.tree.path_to(result.tree.at[unit])
    reach = _reach(result, path)
    curves = _curves(found, found.shares, path)
    axis = AxisScale(
        name="equivalent",
        origin_px=LEFT,
        px_per_m=(WIDTH - LEFT - RIGHT) / max(reach[-1], 1e-3),
        from_m=0.0,
        to_m=reach[-1],
    )
    body: list[AnyPrimitive] = []
    y = TOP
    for curve in curves:
        body += _panel(curve, reach, axis, top=y, system=system, names=("outdoor", *(result.tree.ids[i] for i in path)))
        y += PANEL + GAP
    body += _marks(result.tree, path, reach, axis, bottom=y - GAP)
    body += _distances(reach, axis, y=y - GAP + 40.0, system=system)
    words, y = _foot(found, y + 24.0, system)
    title = f"{project}, system {result.id}: the way to {unit}"
    head = _text("title", "project", "text", title, x=LEFT, y=34.0, size=TITLE, weight=Weight.SEMIBOLD)
    under = _text("subtitle", "system", "quiet", ADVISORY, x=LEFT, y=56.0, size=BODY)
    paper = Rect(id="paper", role="paper", css="paper", group="plot", x=0, y=0, width=WIDTH, height=y)
    return Scene(
        title=title,
        description=f"{ADVISORY} {'; '.join(_ends(curve, system) for curve in curves)}.",
        width=WIDTH,
        height=y,
        units=system.value,
        axis=axis,
        groups=(Group(id="plot", label=title, aria="group"),),
        primitives=(paper, head, under, *body, *words),
    )


def _reach(result: SystemResult, path: Sequence[int]) -> tuple[float, ...]:
    """Equivalent length from the root to each end on the path [m]."""
    lengths = {run.id: run.equivalent_m or 0.0 for run in result.runs}
    found = [0.0]
    for i in path:
        found.append(found[-1] + lengths[result.tree.ids[i]])
    return tuple(found)


def _curves(found: Hydraulics, shares: Shares, path: Sequence[int]) -> tuple[Along, ...]:
    runs = [found.runs[i] for i in path]
    leaving_k = found.conditions.cooling.subcooling_k
    pressure, kelvin = Dimension.PRESSURE, Dimension.TEMPERATURE_DIFFERENCE
    return (
        Along("liquid", "liquid, absolute", pressure, (shares.liquid_pa, *(run.liquid_at_pa for run in runs))),
        Along(
            "subcooling",
            "subcooling left in the liquid",
            kelvin,
            (leaving_k, *(r.subcooling_at_k for r in runs)),
            zero=True,
        ),
        Along("gas", "gas, absolute", pressure, (shares.suction_pa, *(run.gas_at_pa for run in runs))),
    )


def _ends(curve: Along, system: UnitSystem) -> str:
    first, last = (show(curve.values[i], curve.dimension, system) for i in (0, -1))
    return f"{curve.words}: {first} at the outdoor group, {last} at the unit"


def _panel(
    curve: Along, reach: Sequence[float], axis: AxisScale, *, top: float, system: UnitSystem, names: Sequence[str]
) -> Iterator[AnyPrimitive]:
    """One curve with its scale; what lies below zero also carries a word."""
    shown = [_printed(value, curve.dimension, system) for value in curve.values]
    panel = _scaled(top, [*shown, 0.0] if curve.zero else shown)
    name = f"plot:{curve.name}"
    unit = unit_label(curve.dimension, system)
    yield _text(f"{name}/name", "axis-title", "text", f"{curve.words} [{unit}]", x=LEFT, y=top - 10.0, size=BODY)
    yield from _scale(name, panel)
    for i, (before, after) in enumerate(pairwise(shown)):
        below = curve.zero and min(before, after) < 0
        yield Line(
            id=f"{name}/{names[i + 1]}",
            role="run-beyond" if below else "run",
            css="pipe-beyond" if below else "pipe",
            group="plot",
            title=f"{names[i]} to {names[i + 1]}",
            x0_m=reach[i],
            x1_m=reach[i + 1],
            x1=axis.x(reach[i]),
            y1=panel.y(before),
            x2=axis.x(reach[i + 1]),
            y2=panel.y(after),
            stroke=2.2,
        )
    last = show_number(curve.values[-1], curve.dimension, system)
    boils = curve.zero and shown[-1] <= 0
    words = f"{last} ▲ boils" if boils else last
    css = "warning" if boils else "text"
    yield _text(
        f"{name}/last", "tick-number", css, words, x=axis.x(reach[-1]) + 6.0, y=panel.y(shown[-1]) + 4.0, size=SMALL
    )


def _scale(name: str, panel: _Panel) -> Iterator[AnyPrimitive]:
    count = round((panel.high - panel.low) / panel.step)
    places = max(0, -floor(log10(panel.step) + _ROUND))
    for i in range(count + 1):
        value = panel.low + i * panel.step
        y = panel.y(value)
        at_zero = abs(value) < _ROUND * panel.step and panel.low < 0
        yield Line(
            id=f"{name}/rule:{i}",
            role="zero" if at_zero else "rule",
            css="zero" if at_zero else "grid",
            group="plot",
            x1=LEFT,
            y1=y,
            x2=WIDTH - RIGHT,
            y2=y,
        )
        words = f"{0.0 if abs(value) < _ROUND else value:.{places}f}"
        yield _text(
            f"{name}/number:{i}", "tick-number", "quiet", words, x=LEFT - 8.0, y=y + 3.5, size=TINY, anchor=Anchor.END
        )


def _marks(
    tree: Tree, path: Sequence[int], reach: Sequence[float], axis: AxisScale, *, bottom: float
) -> Iterator[AnyPrimitive]:
    """A line at the far end of each run, and its name where there is room; the unit's own always."""
    last_x = axis.x(reach[-1])
    taken = axis.x(0.0) + text_width("outdoor", SMALL) / 2
    yield _text(
        "node:outdoor", "tag", "text", "outdoor", x=axis.x(0.0), y=bottom + 16.0, size=SMALL, anchor=Anchor.MIDDLE
    )
    room_of_last = text_width(tree.ids[path[-1]], SMALL) / 2 + 6.0
    for at, i in zip(reach[1:], path, strict=True):
        x, name = axis.x(at), tree.ids[i]
        yield Line(
            id=f"node:{name}/mark", role="rule", css="grid", group="plot", title=name, x1=x, y1=TOP, x2=x, y2=bottom
        )
        half = text_width(name, SMALL) / 2
        is_last = i == path[-1]
        if is_last or (x - half - 6.0 > taken and x + half < last_x - room_of_last):
            yield _text(f"node:{name}", "tag", "text", name, x=x, y=bottom + 16.0, size=SMALL, anchor=Anchor.MIDDLE)
            taken = x + half


def _distances(reach: Sequence[float], axis: AxisScale, *, y: float, system: UnitSystem) -> Iterator[AnyPrimitive]:
    label = unit_label(Dimension.LENGTH, system)
    far = _printed(max(reach[-1], 1e-3), Dimension.LENGTH, system)
    step = _step(far)
    places = max(0, -floor(log10(step) + _ROUND))
    for i in range(int(far / step + _ROUND) + 1):
        x = axis.origin_px + (WIDTH - LEFT - RIGHT) * i * step / far
        yield _text(
            f"distance:{i}", "tick-number", "quiet", f"{i * step:.{places}f}", x=x, y=y, size=TINY, anchor=Anchor.MIDDLE
        )
    words = f"equivalent length from the outdoor group [{label}]"
    yield _text("distance/name", "axis-title", "quiet", words, x=LEFT, y=y + 17.0, size=SMALL)


def _foot(found: Hydraulics, y: float, system: UnitSystem) -> tuple[list[AnyPrimitive], float]:
    cooling = found.conditions.cooling
    state = show(cooling.condensing_degc, Dimension.TEMPERATURE, system)
    cold = show(cooling.evaporating_degc, Dimension.TEMPERATURE, system)
    words = (
        f"Cooling at full load: {state} condensing, {cold} dew point at the coils. Gas flows toward the outdoor group, "
        "liquid away from it. Between the ends of a run the lines are drawn straight. Below its bubble point liquid is "
        "still reckoned as liquid: what follows is too good. No substitute for the maker's rules."
    )
    lines = wrap(words, WIDTH - LEFT - RIGHT, SMALL)
    painted = [
        _text(f"foot:{i}", "foot", "quiet", line, x=LEFT, y=y + 34.0 + 16.0 * i, size=SMALL)
        for i, line in enumerate(lines)
    ]
    return list(painted), y + 34.0 + 16.0 * len(lines)


def _scaled(top: float, values: Sequence[float]) -> _Panel:
    """Fit a scale of round steps around values, zero among them where it is asked for."""
    low, high = min(values), max(values)
    step = _step(max(high - low, abs(high) * 1e-3, 1e-6))
    first = floor(low / step + _ROUND)
    last = -floor(-high / step + _ROUND)
    return _Panel(top, first * step, max(last, first + 1) * step, step)


def _step(span: float) -> float:
    """Give the least round step of which so much takes no more than a few."""
    power = 10.0 ** floor(log10(span / _MOST_STEPS))
    return next(one * power for one in _STEPS if span / (one * power) <= _MOST_STEPS + _ROUND)


def _printed(value: float, dimension: Dimension, system: UnitSystem) -> float:
    """An SI value in the printed unit."""
    unit = style(dimension, system).unit
    return to_unit(value, unit) if unit else value


def _text(
    name: str,
    role: str,
    css: str,
    words: str,
    *,
    x: float,
    y: float,
    size: float,
    anchor: Anchor = Anchor.START,
    weight: Weight = Weight.REGULAR,
) -> Text:
    text = fit(words, WIDTH - 20.0, size, weight=weight)
    return Text(
        id=name,
        role=role,
        css=css,
        group="plot",
        title=words,
        x=x,
        y=y,
        text=text,
        size=size,
        anchor=anchor,
        weight=weight,
    )
