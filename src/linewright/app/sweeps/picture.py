"""The chart of a sweep: which figure over which axis, from its rows."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from linewright.app.sweeps.table import labels
from linewright.document.reading import refuse
from linewright.document.sweeps import Axis, ChartOf
from linewright.draw.chart import chart_scene
from linewright.draw.chart_records import Across, Chart, Curve, Mark, Point
from linewright.draw.svg import svg
from linewright.engine.records import Standing
from linewright.errors import quoted
from linewright.explore.sweeps import NO_DESIGN, Bench, Column, Row
from linewright.units import Dimension, UnitSystem

_HELD = (Standing.WITHIN.value, Standing.ON_CONDITIONS.value)


class _Axes(NamedTuple):
    """Positions of the axes across and of the lines, if there is one."""

    across: int
    lines: int | None


def chart_svg(bench: Bench, rows: Sequence[Row], project: str, system: UnitSystem) -> str:
    """Draw the chart of a sweep as SVG."""
    return svg(chart_scene(chart_of(bench, rows, project), system))


def check_figure(bench: Bench, file: str) -> None:
    """Raise InputFaultsError for a chart that would have no figure to draw."""
    columns = bench.plan.columns
    up = "" if bench.sweep.chart is None else bench.sweep.chart.up
    if up and not any(column.key in (up, f"{up}:value") and column.dimension is not None for column in columns):
        refuse(file, f"{quoted(up)} is no figure that could be drawn", "one subject, without *, that is a number")
    if not any(column.dimension is not None for column in columns):
        refuse(file, "there is no figure to draw", "a design with a system, or a subject under show that is a number")


def chart_of(bench: Bench, rows: Sequence[Row], project: str) -> Chart:
    """Choose what is drawn: what the sweep asks for, else its first axis and the first figure that is shown.

    Of axes that are neither across nor lines, the first value is drawn; in a zipped sweep all go along.
    """
    stated = bench.sweep.chart or ChartOf()
    axes = _axes(bench, stated)
    at, column = _figure(bench, stated.up)
    shown = [row for row in rows if _drawn(bench, row, axes)]
    sweep = bench.sweep
    held = [
        f"{axis.name}: {axis.cases[0].label or 'value 1'}"
        for i, axis in enumerate(sweep.axes)
        if sweep.combine is sweep.combine.GRID and i not in axes
    ]
    return Chart(
        title=sweep.title or f"{project}, sweep",
        subtitle=f"{project}{': ' if held else ''}{', '.join(held)}",
        across=_across(sweep.axes[axes.across]),
        up=column.heading,
        dimension=column.dimension or Dimension.NUMBER,
        lines="" if axes.lines is None else sweep.axes[axes.lines].name,
        curves=_curves(bench, shown, axes, at=at),
        notes=("By the book as it was typed. Between two points nothing was judged: the lines only lead the eye.",),
    )


def _axes(bench: Bench, stated: ChartOf) -> _Axes:
    names = [axis.name for axis in bench.sweep.axes]
    across = names.index(stated.across) if stated.across else 0
    if bench.sweep.combine is bench.sweep.combine.ZIP:
        return _Axes(across, None)
    if stated.lines:
        return _Axes(across, names.index(stated.lines))
    return _Axes(across, next((i for i in range(len(names)) if i != across), None))


def _figure(bench: Bench, up: str) -> tuple[int, Column]:
    """The column that is drawn: the one that is asked for, else the first shown, else the worst margin."""
    columns = bench.plan.columns
    keys = [column.key for column in columns]
    for key in (f"{up}:value", up) if up else ():
        if key in keys:
            return keys.index(key), columns[keys.index(key)]
    numbers = [i for i, column in enumerate(columns) if column.dimension is not None]
    shown = [i for i in numbers if keys[i].endswith(":value") or not keys[i].startswith(_own(columns))]
    at = (shown or numbers)[0]
    return at, columns[at]


def _own(columns: Sequence[Column]) -> tuple[str, ...]:
    """What the keys of the columns of whole systems begin with."""
    systems = [column.key.removesuffix("/standing") for column in columns if column.key.endswith("/standing")]
    tails = ("standing", "worst", "shortest", "additional_charge", "total_charge")
    return (*(f"{system}/{tail}" for system in systems for tail in tails), "cost")


def _drawn(bench: Bench, row: Row, axes: _Axes) -> bool:
    if bench.sweep.combine is bench.sweep.combine.ZIP:
        return True
    picked = bench.sweep.picked(row.row)
    return all(
        i in axes or case == axis.cases[0] for i, (axis, case) in enumerate(zip(bench.sweep.axes, picked, strict=True))
    )


def _across(axis: Axis) -> Across:
    words = tuple(case.label or f"value {i}" for i, case in enumerate(axis.cases, start=1))
    return Across(axis.name, _dimension(axis), words)


def _dimension(axis: Axis) -> Dimension | None:
    """What the values of an axis are all quantities of, if they are."""
    found = {None if case.amount is None else case.amount.dimension for case in axis.cases}
    return found.pop() if len(found) == 1 else None


def _curves(bench: Bench, rows: Sequence[Row], axes: _Axes, *, at: int) -> tuple[Curve, ...]:
    points: dict[str, list[Point]] = {}
    across = bench.sweep.axes[axes.across]
    by_quantity = _dimension(across) is not None
    for row in rows:
        words = labels(bench, row)
        case = bench.sweep.picked(row.row)[axes.across]
        amount = case.amount.value if by_quantity and case.amount is not None else None
        x = amount if amount is not None else float(across.cases.index(case))
        cell = row.cells[at]
        title = f"{', '.join(words)}: {row.fault or row.standing}"
        point = Point(x, float(cell) if isinstance(cell, float | int) else None, _mark(row), title)
        points.setdefault("" if axes.lines is None else words[axes.lines], []).append(point)
    return tuple(Curve(name, tuple(sorted(found, key=lambda point: point.x))) for name, found in points.items())


def _mark(row: Row) -> Mark:
    if row.standing == NO_DESIGN:
        return Mark.NO_DESIGN
    if row.standing == Standing.OVER.value:
        return Mark.OVER
    return Mark.HOLDS if row.standing in _HELD else Mark.OPEN
