"""Schedules as tables on paper: figures as people read them, in the units of the document."""

from __future__ import annotations

from collections.abc import Sequence

from linewright.engine.records import Standing
from linewright.report.pdf.blocks import Grid, GridColumn
from linewright.report.schedules.tables import Cell, Column, Of, Table
from linewright.units import Dimension, UnitSystem, show, show_number, unit_label

UNKNOWN = "?"
#: Places where the usual ones would hide what a reader adds up.
_PLACES = {Dimension.MASS: 3, Dimension.LINEAR_MASS: 4, Dimension.LENGTH: 2, Dimension.NUMBER: 3}
#: Of a form: least height of its rows, least width of a column to write in [mm].
_ROW_MM, _WRITE_MM = 6.5, 26.0
_GRAVE = frozenset(standing.value for standing in (Standing.OVER, Standing.UNJUDGED, Standing.TO_CONFIRM))


def grid(table: Table, system: UnitSystem) -> Grid:
    """A schedule; columns in which nothing stands are left out, rows that are over or not judged stand out."""
    kept = [i for i in range(len(table.columns)) if any(row[i] != "" for row in table.rows)]
    columns = [table.columns[i] for i in kept]
    rows = tuple(tuple(cell_text(row[i], table.columns[i], system) for i in kept) for row in table.rows)
    standing = [i for i, column in enumerate(columns) if column.key == "standing"]
    warned = frozenset(n for n, row in enumerate(rows) if any(row[i] in _GRAVE for i in standing))
    heads = tuple(
        GridColumn(_heading(column, system), right=_is_figure(column, table.rows, i))
        for column, i in zip(columns, kept, strict=True)
    )
    return Grid(heads, rows, table.notes, warned)


def cell_text(cell: Cell, column: Column, system: UnitSystem) -> str:
    """A cell as it is printed; a question mark is a value that is not known."""
    if cell is None:
        return UNKNOWN
    if isinstance(cell, str):
        return cell
    if isinstance(cell, Of):
        return UNKNOWN if cell.value is None else _figure(cell.value, cell.dimension, system, unit=True)
    if column.dimension is None:
        return f"{cell:g}"
    return _figure(cell, column.dimension, system, unit=False)


def _figure(value: float, dimension: Dimension, system: UnitSystem, *, unit: bool) -> str:
    if dimension is Dimension.NUMBER:
        return f"{value:.6g}"
    places = _PLACES.get(dimension)
    return (show if unit else show_number)(value, dimension, system, places=places)


def _heading(column: Column, system: UnitSystem) -> str:
    label = "" if column.dimension is None else unit_label(column.dimension, system)
    return f"{column.heading} [{label}]" if label else column.heading


def _is_figure(column: Column, rows: Sequence[Sequence[Cell]], at: int) -> bool:
    return column.dimension is not None or any(isinstance(row[at], Of | float | int) for row in rows)


def form_grid(table: Table, system: UnitSystem, written: Sequence[str]) -> Grid:
    """A schedule as a form: its columns of keys in `written` stay, empty, and have room to write."""
    open_keys = [column.key in written for column in table.columns]
    marked = tuple(
        tuple(" " if is_open else cell for cell, is_open in zip(row, open_keys, strict=True)) for row in table.rows
    )
    found = grid(table._replace(rows=marked), system)
    open_ = [i for i, column in enumerate(found.columns) if column.heading in _headings(table, written)]
    rows = tuple(tuple("" if i in open_ else text for i, text in enumerate(row)) for row in found.rows)
    columns = tuple(
        column._replace(least_mm=_WRITE_MM) if i in open_ else column for i, column in enumerate(found.columns)
    )
    return found._replace(columns=columns, rows=rows, row_mm=_ROW_MM)


def _headings(table: Table, keys: Sequence[str]) -> list[str]:
    return [column.heading for column in table.columns if column.key in keys]
