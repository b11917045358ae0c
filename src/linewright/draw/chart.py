"""A chart of a figure over values that are varied: a line for each value of another axis, a sign at what does not hold.

Lines are told apart by their names at the right end, and points by their signs, never by colour alone.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from math import floor, log10
from typing import NamedTuple

from linewright.draw.chart_records import Across, Chart, Curve, Mark, Point
from linewright.draw.path_panels import printed, round_step
from linewright.draw.primitives import Anchor, AnyPrimitive, AxisScale, Circle, Group, Line, Rect, Scene, Text, Weight
from linewright.draw.style import BODY, SMALL, TINY, TITLE
from linewright.draw.typeface import fit, text_width, wrap
from linewright.draw.wording import OVER_SIGN
from linewright.units import UnitSystem, unit_label

#: Where things stand [px].
WIDTH, LEFT, RIGHT, TOP, HEIGHT = 1000.0, 84.0, 190.0, 112.0, 360.0
LEGEND_DOWN, NOTES_DOWN, LINE_DOWN, UNKNOWN_UP = 78.0, 104.0, 16.0, 12.0
#: Lines that are drawn at the most, and labels below that find room.
MOST_LINES, MOST_LABELS = 9, 12
_ROUND = 1e-9
_LABEL_HEIGHT = 14.0
_RADIUS = 4.0


class _Plot(NamedTuple):
    """The scales, in printed units."""

    left: float
    right: float
    low: float
    high: float
    step: float
    system: UnitSystem

    def x(self, value: float) -> float:
        return LEFT + (WIDTH - LEFT - RIGHT) * (value - self.left) / (self.right - self.left)

    def y(self, value: float) -> float:
        return TOP + HEIGHT * (self.high - value) / (self.high - self.low)


def chart_scene(chart: Chart, system: UnitSystem) -> Scene:
    """Draw a chart; at most the first few of its lines, and it says so."""
    drawn = chart.curves[:MOST_LINES]
    plot = _scaled(chart, drawn, system)
    body: list[AnyPrimitive] = [*_heads(chart, system), *_rules(plot), *_ticks(chart.across, plot)]
    feet = _feet(drawn)
    for curve in drawn:
        body += _line(chart, curve, plot, foot=feet[curve.name])
    body += _names(chart, drawn, plot, feet=feet)
    bottom = TOP + HEIGHT
    body += _legend(bottom + LEGEND_DOWN)
    notes, height = _notes(chart, bottom + NOTES_DOWN)
    paper = Rect(id="paper", role="paper", css="paper", group="plot", x=0, y=0, width=WIDTH, height=height)
    per = (WIDTH - LEFT - RIGHT) / (plot.right - plot.left)
    return Scene(
        title=chart.title,
        description=f"{chart.up} over {chart.across.name}. {chart.subtitle}",
        width=WIDTH,
        height=height,
        units=system.value,
        axis=AxisScale(name="chart", origin_px=plot.x(0.0), px_per_m=per, from_m=plot.left, to_m=plot.right),
        groups=(Group(id="plot", label=chart.title, aria="group"),),
        primitives=(paper, *body, *notes),
    )


def _scaled(chart: Chart, drawn: Sequence[Curve], system: UnitSystem) -> _Plot:
    values = [point.y for curve in drawn for point in curve.points if point.y is not None]
    shown = [printed(value, chart.dimension, system) for value in values] or [0.0, 1.0]
    low, high = min(shown), max(shown)
    step = round_step(max(high - low, abs(high) * 1e-3, 1e-6))
    first, last = floor(low / step + _ROUND), -floor(-high / step + _ROUND)
    places = [_across(chart.across, point.x, system) for curve in drawn for point in curve.points] or [0.0]
    if chart.across.dimension is None:
        places = [0.0, len(chart.across.words) - 1.0]
    left, right = min(places), max(places)
    edge = 0.5 if chart.across.dimension is None or right == left else (right - left) * 0.03
    return _Plot(left - edge, right + edge, first * step, max(last, first + 1) * step, step, system)


def _across(across: Across, value: float, system: UnitSystem) -> float:
    return value if across.dimension is None else printed(value, across.dimension, system)


def _heads(chart: Chart, system: UnitSystem) -> Iterator[Text]:
    yield _text("title", "project", "text", chart.title, x=LEFT, y=34.0, size=TITLE, weight=Weight.SEMIBOLD)
    yield _text("subtitle", "system", "quiet", chart.subtitle, x=LEFT, y=56.0, size=BODY)
    unit = unit_label(chart.dimension, system)
    words = f"{chart.up} [{unit}]" if unit else chart.up
    yield _text("up", "axis-title", "text", words, x=LEFT, y=TOP - 16.0, size=BODY)
    if chart.lines:
        x = WIDTH - RIGHT + 8.0
        name = fit(f"{chart.lines}:", RIGHT - 20.0, SMALL)
        yield _text("lines", "axis-title", "quiet", name, x=x, y=TOP - 16.0, size=SMALL, title=chart.lines)


def _rules(plot: _Plot) -> Iterator[AnyPrimitive]:
    places = max(0, -floor(log10(plot.step) + _ROUND))
    for i in range(round((plot.high - plot.low) / plot.step) + 1):
        value = plot.low + i * plot.step
        y, is_zero = plot.y(value), abs(value) < _ROUND * plot.step
        zero = is_zero and plot.low < 0
        role, css = ("zero", "zero") if zero else ("rule", "grid")
        yield Line(id=f"rule:{i}", role=role, css=css, group="plot", x1=LEFT, y1=y, x2=WIDTH - RIGHT, y2=y)
        words = f"{0.0 if is_zero else value:.{places}f}"
        yield _text(f"up:{i}", "tick-number", "quiet", words, x=LEFT - 8, y=y + 3.5, size=TINY, anchor=Anchor.END)


def _ticks(across: Across, plot: _Plot) -> Iterator[AnyPrimitive]:
    bottom = TOP + HEIGHT
    unit = "" if across.dimension is None else unit_label(across.dimension, plot.system)
    for i, (value, words) in enumerate(_tick_words(across, plot)):
        x = plot.x(value)
        yield Line(
            id=f"across:{i}/mark", role="rule", css="limit-tick", group="plot", x1=x, y1=bottom, x2=x, y2=bottom + 5.0
        )
        room = (WIDTH - LEFT - RIGHT) / min(max(len(across.words), 2), MOST_LABELS)
        shown = fit(words, room - 6.0, TINY)
        yield _text(
            *(f"across:{i}", "tick-number", "quiet", shown),
            x=x,
            y=bottom + 20.0,
            size=TINY,
            anchor=Anchor.MIDDLE,
            title=words,
        )
    name = f"{across.name} [{unit}]" if unit else across.name
    yield _text("across", "axis-title", "text", name, x=LEFT, y=bottom + 44.0, size=BODY)


def _tick_words(across: Across, plot: _Plot) -> Iterator[tuple[float, str]]:
    if across.dimension is None:
        every = -(-len(across.words) // MOST_LABELS)
        yield from ((float(i), words) for i, words in enumerate(across.words) if i % every == 0)
        return
    step = round_step(plot.right - plot.left)
    places = max(0, -floor(log10(step) + _ROUND))
    first, last = -floor(-plot.left / step + _ROUND), floor(plot.right / step + _ROUND)
    for i in range(first, last + 1):
        yield i * step, f"{0.0 if i == 0 else i * step:.{places}f}"


def _feet(drawn: Sequence[Curve]) -> dict[str, float]:
    """Where what is not known of each line stands [px]: above the foot, one line over the other."""
    feet, y = {}, TOP + HEIGHT - UNKNOWN_UP
    for curve in drawn:
        feet[curve.name] = y
        if any(point.y is None for point in curve.points):
            y -= _LABEL_HEIGHT
    return feet


def _line(chart: Chart, curve: Curve, plot: _Plot, *, foot: float) -> Iterator[AnyPrimitive]:
    for number, (before, after) in enumerate(pairwise(curve.points)):
        ends = [_place(chart, point, plot, foot=foot) for point in (before, after)]
        if before.y is not None and after.y is not None:
            yield Line(
                id=f"curve:{curve.name}/{number}",
                role="curve",
                css="pipe",
                group="plot",
                title=curve.name,
                x1=ends[0][0],
                y1=ends[0][1],
                x2=ends[1][0],
                y2=ends[1][1],
                stroke=1.4,
            )
    for number, point in enumerate(curve.points):
        yield _point(f"curve:{curve.name}/point:{number}", point, *_place(chart, point, plot, foot=foot))


def _place(chart: Chart, point: Point, plot: _Plot, *, foot: float) -> tuple[float, float]:
    """Where a point stands [px]; one that is not known stands at the foot of its line."""
    x = plot.x(_across(chart.across, point.x, plot.system))
    return x, foot if point.y is None else plot.y(printed(point.y, chart.dimension, plot.system))


def _point(name: str, point: Point, x: float, y: float) -> AnyPrimitive:
    unknown = "?" if point.y is None else ""
    sign = "×" if point.mark is Mark.NO_DESIGN else OVER_SIGN + unknown if point.mark is Mark.OVER else unknown
    if sign:
        css = "warning" if point.mark is Mark.OVER else "quiet"
        at = _text(name, "point", css, sign, x=x, y=y + 5.0, size=BODY + 2, anchor=Anchor.MIDDLE)
        return at._replace(title=point.title)
    css = "end" if point.mark is Mark.HOLDS else "node"
    return Circle(id=name, role="point", css=css, group="plot", x=x, y=y, radius=_RADIUS, title=point.title)


def _names(chart: Chart, drawn: Sequence[Curve], plot: _Plot, *, feet: Mapping[str, float]) -> Iterator[Text]:
    """The name of each line at its right end, or at its foot, moved apart where they would meet."""
    ends = []
    for curve in drawn:
        known = [point for point in curve.points if point.y is not None] or curve.points
        if known and curve.name:
            ends.append((_place(chart, known[-1], plot, foot=feet[curve.name])[1], curve.name))
    last = TOP - _LABEL_HEIGHT
    for y, name in sorted(ends):
        last = max(y, last + _LABEL_HEIGHT)
        words = fit(name, RIGHT - 20.0, SMALL)
        yield _text(f"curve:{name}", "tag", "text", words, x=WIDTH - RIGHT + 8.0, y=last + 4.0, size=SMALL, title=name)


def _legend(y: float) -> Iterator[AnyPrimitive]:
    """What the signs say."""
    x = LEFT
    signs = (
        (Mark.HOLDS, 0.0, "holds"),
        (Mark.OVER, 0.0, "over, or a room short"),
        (Mark.OPEN, 0.0, "unjudged or to confirm"),
        (Mark.OPEN, None, "figure not known"),
        (Mark.NO_DESIGN, None, "no design"),
    )
    for i, (mark, value, words) in enumerate(signs):
        yield _point(f"legend:{i}/sign", Point(0.0, value, mark, words), x + _RADIUS, y - 4.0)
        yield _text(f"legend:{i}", "legend", "quiet", words, x=x + 16.0, y=y, size=SMALL)
        x += 16.0 + text_width(words, SMALL) + 22.0


def _notes(chart: Chart, y: float) -> tuple[list[Text], float]:
    more = len(chart.curves) - MOST_LINES
    said = [*chart.notes, *([f"{more} more lines are not drawn; the table has them."] if more > 0 else [])]
    lines = [line for note in said for line in wrap(note, WIDTH - 2 * LEFT, SMALL)]
    painted = [
        _text(f"note:{i}", "foot", "quiet", line, x=LEFT, y=y + LINE_DOWN * i, size=SMALL)
        for i, line in enumerate(lines)
    ]
    return painted, y + LINE_DOWN * len(lines) + 8.0


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
    title: str = "",
) -> Text:
    room = WIDTH - x - 8.0 if anchor is Anchor.START else WIDTH
    return Text(
        id=name,
        role=role,
        css=css,
        group="plot",
        title=title or words,
        x=x,
        y=y,
        text=fit(words, room, size, weight=weight),
        size=size,
        anchor=anchor,
        weight=weight,
    )
