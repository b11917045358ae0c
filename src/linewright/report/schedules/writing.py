"""Tables as CSV, as a workbook, as JSON: the same input gives the same bytes."""

from __future__ import annotations

import io
import re
from collections.abc import Iterator, Sequence
from decimal import Decimal
from typing import Any

from linewright.document.grid_out import CREATED, csv_text, harmless
from linewright.report.schedules.about import About
from linewright.report.schedules.tables import Cell, Column, Of, Table
from linewright.units import Dimension, UnitSystem, to_unit, unit_label
from linewright.units.showing import style

#: What is written where something is not known.
UNKNOWN = "?"
_DIGITS = 7
_WIDEST = 48


def table_csv(table: Table, about: About, system: UnitSystem) -> str:
    """One table: what it is of, a row of headings, the rows, notes; what is no row of the table begins with #."""
    said_first = (("schedule", table.title), *about.rows(), *about.warned())
    head = [(f"# {name}", harmless(said)) for name, said in said_first]
    rows = [[_in_csv(cell, column, system) for cell, column in row] for row in _cells(table)]
    notes = [("# note", harmless(note)) for note in table.notes]
    return csv_text([*head, _headings(table, system), *rows, *notes])


def tables_json(tables: Sequence[Table], about: About) -> dict[str, Any]:
    """All tables as plain values: SI units, named beside each column or value; `null` is not known."""
    return {
        "schema": "linewright/schedules/1",
        "about": about.json(),
        **about.warned_json(),
        "schedules": [
            {
                "name": table.name,
                "title": table.title,
                "columns": [
                    {"key": column.key, "unit": None if column.dimension is None else column.dimension.si}
                    for column in table.columns
                ],
                "rows": [[_plain(cell) for cell in row] for row in table.rows],
                "notes": list(table.notes),
            }
            for table in tables
        ],
    }


def workbook(tables: Sequence[Table], about: About, system: UnitSystem) -> bytes:
    """All tables in one workbook, a sheet for each, after a sheet that says what they are of."""
    from xlsxwriter import Workbook  # noqa: PLC0415 - keeps start-up short

    out = io.BytesIO()
    book = Workbook(out, {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False})
    book.set_properties({"created": CREATED, "title": about.project})
    bold = book.add_format({"bold": True})
    first = book.add_worksheet("about")
    for i, (name, said) in enumerate(about.rows()):
        first.write_string(i, 0, name, bold)
        first.write_string(i, 1, said)
    first.set_column(0, 0, 24)
    _warnings(book.add_worksheet("read first"), about, bold)
    for table in tables:
        _sheet(book.add_worksheet(table.name), table, system, bold)
    book.close()
    return out.getvalue()


def _warnings(page: Any, about: About, bold: object) -> None:  # noqa: ANN401 - untyped
    """What has to be read first and what was not judged, on a sheet of its own."""
    for i, (name, said) in enumerate(about.warned()):
        page.write_string(i, 0, name, bold)
        page.write_string(i, 1, said)
    page.set_column(0, 0, 14)
    page.set_column(1, 1, 110)


def _sheet(page: Any, table: Table, system: UnitSystem, bold: object) -> None:  # noqa: ANN401 - untyped
    widths = [len(heading) for heading in _headings(table, system)]
    for j, heading in enumerate(_headings(table, system)):
        page.write_string(0, j, heading, bold)
    for i, row in enumerate(_cells(table), start=1):
        for j, (cell, column) in enumerate(row):
            text = _text(cell, column, system)
            if isinstance(cell, str | None) or text == UNKNOWN:
                page.write_string(i, j, text)
            else:
                page.write_number(i, j, float(text))
            widths[j] = max(widths[j], len(text))
    for j, width in enumerate(widths):
        page.set_column(j, j, min(width + 2, _WIDEST))
    page.freeze_panes(1, 0)
    for i, note in enumerate(table.notes):
        page.write_string(len(table.rows) + 2 + i, 0, note)


def _headings(table: Table, system: UnitSystem) -> list[str]:
    found, own = [], _own(table)
    for position, column in enumerate(table.columns):
        label = "" if column.dimension is None else unit_label(column.dimension, system)
        found.append(f"{column.heading} [{label}]" if label else column.heading)
        if position in own:
            found.append(f"unit of {column.heading}")
    return found


def _own(table: Table) -> frozenset[int]:
    """Columns whose rows differ in dimension, so that a column of units stands beside each."""
    return frozenset(i for row in table.rows for i, cell in enumerate(row) if isinstance(cell, Of))


def _cells(table: Table) -> Iterator[list[tuple[Cell, Column]]]:
    """The cells of each row; a unit as a cell of its own behind values that have one each."""
    own = _own(table)
    for row in table.rows:
        found = []
        for position, (cell, column) in enumerate(zip(row, table.columns, strict=True)):
            found.append((cell, column))
            if position in own:
                found.append((cell.dimension.value if isinstance(cell, Of) else "", _UNIT))
        yield found


_UNIT = Column("unit", "unit")
_BY_VALUE = {dimension.value: dimension for dimension in Dimension}


def _text(cell: Cell, column: Column, system: UnitSystem) -> str:
    if column is _UNIT:
        return unit_label(_BY_VALUE[str(cell)], system) if cell else ""
    if cell is None:
        return UNKNOWN
    if isinstance(cell, str):
        return cell
    value = cell.value if isinstance(cell, Of) else cell
    dimension = cell.dimension if isinstance(cell, Of) else column.dimension
    return UNKNOWN if value is None else _figure(value, dimension, system)


def _in_csv(cell: Cell, column: Column, system: UnitSystem) -> str:
    """A cell; a text that a spreadsheet would take for a formula has an apostrophe before it."""
    text = _text(cell, column, system)
    return harmless(text) if isinstance(cell, str) else text


def _figure(value: float, dimension: Dimension | None, system: UnitSystem) -> str:
    """A number in the printed unit, to seven digits, as a plain decimal."""
    unit = "" if dimension is None else style(dimension, system).unit
    number = to_unit(value, unit) if unit else value
    text = format(Decimal(f"{number:.{_DIGITS}g}"), "f")
    return re.sub(r"[.]?0+$", "", text) if "." in text else text


def _plain(cell: Cell) -> Any:  # noqa: ANN401 - a plain value
    if isinstance(cell, Of):
        return {"value": cell.value, "unit": cell.dimension.si}
    return cell
