"""Curves over the length of a path: each in a panel with its own scale of round steps."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import floor, log10
from typing import NamedTuple

from linewright.draw.primitives import Anchor, AnyPrimitive, AxisScale, Line, Text, Weight
from linewright.draw.style import BODY, SMALL, TINY
from linewright.draw.typeface import fit
from linewright.draw.wording import OVER_SIGN
from linewright.units import Dimension, UnitSystem, show_number, to_unit, unit_label
from linewright.units.showing import style

#: Where panels stand on the picture [px].
WIDTH, LEFT, RIGHT, PANEL, GAP, TOP = 1000.0, 84.0, 100.0, 132.0, 44.0, 92.0
#: How many steps a scale has at the most, and which steps it may take, times a power of ten.
_MOST_STEPS, _STEPS = 5, (1.0, 2.0, 5.0, 10.0)
_ROUND = 1e-9
#: What stays free at the edge of the page [px].
_EDGE = 4.0


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


def panel_of(
    curve: Along, reach: Sequence[float], axis: AxisScale, *, top: float, system: UnitSystem, names: Sequence[str]
) -> Iterator[AnyPrimitive]:
    """One curve with its scale; what lies below zero also carries a word."""
    shown = [printed(value, curve.dimension, system) for value in curve.values]
    panel = _scaled(top, [*shown, 0.0] if curve.zero else shown)
    name = f"plot:{curve.name}"
    unit = unit_label(curve.dimension, system)
    yield text_line(f"{name}/name", "axis-title", "text", f"{curve.words} [{unit}]", x=LEFT, y=top - 10.0, size=BODY)
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
    words = f"{last} {OVER_SIGN} boils" if boils else last
    css = "warning" if boils else "text"
    yield text_line(
        f"{name}/last", "tick-number", css, words, x=axis.x(reach[-1]) + 6.0, y=panel.y(shown[-1]) + 4.0, size=SMALL
    )
    if curve.zero:
        yield from _lowest(name, panel, shown, [axis.x(at) for at in reach])


def _lowest(name: str, panel: _Panel, shown: Sequence[float], xs: Sequence[float]) -> Iterator[AnyPrimitive]:
    """The sign where a curve that ends above zero was below it."""
    at = min(range(len(shown)), key=lambda i: shown[i])
    if shown[at] < 0 < shown[-1]:
        words, y = f"{OVER_SIGN} boils", panel.y(shown[at]) + 14.0
        yield text_line(f"{name}/lowest", "tick-number", "warning", words, x=xs[at] + 5.0, y=y, size=SMALL)


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
        yield text_line(
            f"{name}/number:{i}", "tick-number", "quiet", words, x=LEFT - 8.0, y=y + 3.5, size=TINY, anchor=Anchor.END
        )


def _scaled(top: float, values: Sequence[float]) -> _Panel:
    """Fit a scale of round steps around values, zero among them where it is asked for."""
    low, high = min(values), max(values)
    step = round_step(max(high - low, abs(high) * 1e-3, 1e-6))
    first = floor(low / step + _ROUND)
    last = -floor(-high / step + _ROUND)
    return _Panel(top, first * step, max(last, first + 1) * step, step)


def round_step(span: float) -> float:
    """Give the least round step of which so much takes no more than a few."""
    power = 10.0 ** floor(log10(span / _MOST_STEPS))
    return next(one * power for one in _STEPS if span / (one * power) <= _MOST_STEPS + _ROUND)


def printed(value: float, dimension: Dimension, system: UnitSystem) -> float:
    """An SI value in the printed unit."""
    unit = style(dimension, system).unit
    return to_unit(value, unit) if unit else value


def text_line(
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
    """A line of text in the group of the plot, cut where the page ends."""
    room = WIDTH - x - _EDGE if anchor is Anchor.START else WIDTH
    text = fit(words, room, size, weight=weight)
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
