"""The checklist as text and as blocks of a document."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from linewright.report.page import Page
from linewright.report.pdf.blocks import Blanks, Block, Heading, Layout, Say, Tone, Turn
from linewright.report.pdf.grids import cell_text, form_grid, grid
from linewright.report.schedules.tables import Table
from linewright.units import UnitSystem, unit_label

#: Columns that somebody writes in.
WRITTEN = ("done", "answer")
_SIGN = ("installer, firm", "date", "supervisor", "signature")
_NOTHING = "Nothing to list."


def checklist_text(tables: Sequence[Table], units: UnitSystem) -> str:
    """Write every table as lines, those to be done with a box before them."""
    page = Page(colour=False)
    page.title("Installer's checklist")
    for table in tables:
        page.blank()
        page.title(table.title)
        box = "[ ] " if any(column.key in WRITTEN for column in table.columns) else ""
        for row in table.rows:
            page.text(box + "; ".join(_said(table, row, units)))
        if not table.rows:
            page.text(_NOTHING)
        for note in table.notes:
            page.text(note)
    page.blank()
    page.text("  ".join(f"{name}: ____________" for name in _SIGN))
    return f"{page}\n"


def _said(table: Table, row: Sequence[object], units: UnitSystem) -> Iterator[str]:
    for cell, column in zip(row, table.columns, strict=True):
        if cell == "" or column.key in WRITTEN:
            continue
        unit = "" if column.dimension is None or cell is None else unit_label(column.dimension, units)
        text = cell_text(cell, column, units)  # type: ignore[arg-type] # rows hold cells
        named = column.key in ("id", "text", "system", "standing", "run", "place")
        said = f"{text} {unit}".rstrip()
        yield said if named else f"{column.heading}: {said}"


def checklist_blocks(tables: Sequence[Table], units: UnitSystem) -> Iterator[Block]:
    """Set every table, those to be done with room to write, and lines to sign."""
    yield Turn(Layout.ACROSS)
    yield Heading("Installer's checklist", listed=False)
    yield Say("Made from the book, the design and its verdicts. What nobody states is not known; ask.", Tone.NOTE)
    for table in tables:
        yield Heading(table.title, 2)
        if not table.rows:
            yield Say(_NOTHING, Tone.NOTE)
            yield from (Say(note, Tone.NOTE) for note in table.notes)
        elif any(column.key in WRITTEN for column in table.columns):
            yield form_grid(table, units, WRITTEN)
        else:
            yield grid(table, units)
    yield Blanks(_SIGN)
