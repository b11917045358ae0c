"""The blanks as one table to fill in: CSV, or a workbook whose first sheet it is."""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import Any

from linewright.document.grid_out import CREATED, csv_text, harmless
from linewright.report.forms.blanks import Blank
from linewright.report.schedules.about import About

COLUMNS = ("system", "form", "item", "field", "expected", "value", "unit")
#: The first rows name the design and the books that the form is of.
ABOUT = ("", "about", "design", "sha256")
_VALUE = COLUMNS.index("value")
_WIDTHS = (12, 14, 14, 26, 46, 18, 8)


def form_rows(blanks: Sequence[Blank], about: About) -> list[tuple[str, ...]]:
    """All rows below the headings; values are empty but that of the first."""
    head = (*ABOUT, about.design, about.sha256, "")
    said = [("", ABOUT[1], name, "", "", text, "") for name, text in about.rows() if name != "design"]
    return [head, *said, *((*blank.key, blank.expected, "", blank.unit) for blank in blanks)]


def form_csv(blanks: Sequence[Blank], about: About) -> str:
    """The table as CSV."""
    return csv_text([COLUMNS, *(tuple(map(harmless, row)) for row in form_rows(blanks, about))])


def form_workbook(blanks: Sequence[Blank], about: About) -> bytes:
    """The table as a workbook: what is to be filled in has a frame, all else is locked against slips."""
    from xlsxwriter import Workbook  # noqa: PLC0415 - keeps start-up short

    out = io.BytesIO()
    book = Workbook(out, {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False})
    book.set_properties({"created": CREATED, "title": about.project})
    page = book.add_worksheet("record")
    bold = book.add_format({"bold": True, "bottom": 1})
    blank = book.add_format({"border": 1, "bg_color": "#FFF9E5", "locked": False, "num_format": "@"})
    for j, (heading, width) in enumerate(zip(COLUMNS, _WIDTHS, strict=True)):
        page.write_string(0, j, heading, bold)
        page.set_column(j, j, width)
    for i, row in enumerate(form_rows(blanks, about), start=1):
        for j, text in enumerate(row):
            if j == _VALUE and row[1] != ABOUT[1]:
                page.write_blank(i, j, None, blank)
            else:
                page.write_string(i, j, text)
    page.freeze_panes(1, 0)
    page.protect("", {"format_columns": True, "format_rows": True, "autofilter": True, "sort": False})
    page.autofilter(0, 0, len(form_rows(blanks, about)), len(COLUMNS) - 1)
    _about(book.add_worksheet("about"), about, bold)
    book.close()
    return out.getvalue()


def _about(page: Any, about: About, bold: object) -> None:  # noqa: ANN401 - untyped
    for i, (name, said) in enumerate((*about.rows(), *about.warned())):
        page.write_string(i, 0, name, bold)
        page.write_string(i, 1, said)
    page.set_column(0, 0, 24)
    page.set_column(1, 1, 110)
