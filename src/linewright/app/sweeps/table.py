"""The rows of a sweep as a table that reports can write."""

from __future__ import annotations

from collections.abc import Sequence

from linewright.explore.sweeps import Bench, Row
from linewright.report.schedules.tables import Cell, Column, Table

NOTES = (
    "? is not known and is no pass; a cell without anything has nothing to say in its row.",
    "worst margin: what is left as a share of the bound; delivered of needed: below 100 % a room is short.",
)


def sweep_table(bench: Bench, rows: Sequence[Row]) -> Table:
    """Give the table: the values of each axis, how the design stands, the columns, why a row is no design."""
    columns = (
        Column("row", "row"),
        *(Column(axis.name, axis.name) for axis in bench.sweep.axes),
        Column("standing", "standing"),
        *(Column(column.key, column.heading, column.dimension) for column in bench.plan.columns),
        Column("fault", "why no design"),
    )
    made = tuple((row.row + 1, *labels(bench, row), row.standing, *row.cells, row.fault) for row in rows)
    title = bench.sweep.title or "sweep"
    return Table("sweep", title, columns, tuple(_cells(row) for row in made), NOTES)


def labels(bench: Bench, row: Row) -> tuple[str, ...]:
    """The value of each axis in a row, as the sweep has it, or its number where it is more than a word."""
    picked = bench.sweep.picked(row.row)
    return tuple(
        case.label or f"value {axis.cases.index(case) + 1}" for axis, case in zip(bench.sweep.axes, picked, strict=True)
    )


def _cells(row: tuple[Cell, ...]) -> tuple[Cell, ...]:
    return row
