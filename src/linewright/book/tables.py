"""Printed tables of factors: linear and bilinear look-up, never beyond the table."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

from linewright.book.quantities import Report
from linewright.units import over


class Cell(NamedTuple):
    """Where a number lies on an axis: the two entries around it and the share of the second."""

    low: int
    high: int
    share: float


class Axis(NamedTuple):
    """Entries of one axis, ascending, under the name and dimension of what they are."""

    name: str
    entries: tuple[float, ...]

    def locate(self, number: float) -> Cell | None:
        """Give the entries around `number`, or none outside the axis."""
        entries = self.entries
        if over(entries[0], number) or over(number, entries[-1]):
            return None
        if len(entries) == 1:
            return Cell(0, 0, 0.0)
        high = 1
        while high < len(entries) - 1 and entries[high] < number:
            high += 1
        low = high - 1
        share = (number - entries[low]) / (entries[high] - entries[low])
        return Cell(low, high, min(max(share, 0.0), 1.0))


class Corner(NamedTuple):
    """What a bilinear look-up used, so that it can be shown and replayed."""

    x: float
    x0: float
    x1: float
    y: float
    y0: float
    y1: float
    f00: float
    f01: float
    f10: float
    f11: float


class Table(NamedTuple):
    """Factors over rows (x) and columns (y), under `key` of the table; a table of one column ignores y."""

    rows: Axis
    columns: Axis | None
    factor: tuple[tuple[float, ...], ...]
    path: str
    page: int | None
    key: str

    def corner(self, x: float, y: float = 0.0) -> Corner | None:
        """Give the four entries around a point, or none outside the table."""
        row = self.rows.locate(x)
        column = self.columns.locate(y) if self.columns is not None else Cell(0, 0, 0.0)
        if row is None or column is None:
            return None
        ys = self.columns.entries if self.columns is not None else (0.0,)
        low, high = self.factor[row.low], self.factor[row.high]
        return Corner(
            x,
            self.rows.entries[row.low],
            self.rows.entries[row.high],
            y,
            ys[column.low],
            ys[column.high],
            low[column.low],
            low[column.high],
            high[column.low],
            high[column.high],
        )


def compile_table(
    rows: Axis,
    columns: Axis | None,
    factor: Sequence[Sequence[float]],
    *,
    path: str,
    page: int | None,
    report: Report,
    key: str = "factor",
) -> Table:
    """Check axes and shape of a table and keep it for look-up; its factors stand under `key`."""
    for axis in (rows, columns):
        if axis is not None:
            _check_axis(axis, path, report)
    where = f"{path}.{key}"
    if len(factor) != len(rows.entries):
        what = "factors" if columns is None else "rows of factors"
        message = f"there are {len(factor)} {what} for {len(rows.entries)} entries of {rows.name}"
        report(where, message, f"{len(rows.entries)} {what}")
    for position, row in enumerate(factor):
        at = f"{where}[{position}]"
        if columns is not None and len(row) != len(columns.entries):
            message = f"the row has {len(row)} factors for {len(columns.entries)} entries of {columns.name}"
            report(at, message, f"{len(columns.entries)} factors")
        for column, number in enumerate(row):
            if number < 0:
                report(at if columns is None else f"{at}[{column}]", "the factor is negative", "zero or more")
    return Table(rows, columns, tuple(tuple(row) for row in factor), path, page, key)


def _check_axis(axis: Axis, path: str, report: Report) -> None:
    if not axis.entries:
        report(f"{path}.{axis.name}", f"the axis {axis.name} has no entries", "at least one")
    for position, (before, after) in enumerate(pairwise(axis.entries), start=1):
        if after <= before:
            where = f"{path}.{axis.name}[{position}]"
            report(where, "the entry is not above the one before it", "entries in ascending order, each once")
