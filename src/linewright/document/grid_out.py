"""Rows of text to a CSV file or a workbook."""

from __future__ import annotations

import csv
import datetime as dt
import io
import re
from collections.abc import Sequence
from decimal import Decimal

#: Workbooks of the same rows are the same, byte for byte.
CREATED = dt.datetime(2026, 1, 1, tzinfo=dt.UTC)
_NUMBER = re.compile(r"-?(?:0|[1-9][0-9]{0,14})(?:\.[0-9]+)?")
_WIDEST = 40
#: With these a spreadsheet begins a formula.
FORMULA = ("=", "+", "-", "@")


def harmless(text: str) -> str:
    """A text that a spreadsheet takes for a text: with an apostrophe before what it would work out as a formula."""
    return f"'{text}" if text.startswith(FORMULA) else text


def as_written(text: str) -> str:
    """A text without the apostrophe that `harmless` put before it."""
    return text[1:] if text[:1] == "'" and text[1:].startswith(FORMULA) else text


def csv_text(rows: Sequence[Sequence[str]]) -> str:
    """Rows as CSV: commas, and quotation marks where they are needed."""
    out = io.StringIO(newline="")
    csv.writer(out, lineterminator="\n").writerows(rows)
    return out.getvalue()


def workbook(rows: Sequence[Sequence[str]], sheet: str, texts: Sequence[int]) -> bytes:
    """Rows as a workbook of one sheet; columns of `texts` hold names, others numbers where they look like some."""
    from xlsxwriter import Workbook  # noqa: PLC0415 - keeps start-up short

    out = io.BytesIO()
    book = Workbook(out, {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False})
    book.set_properties({"created": CREATED})
    page, bold = book.add_worksheet(_sheet_name(sheet)), book.add_format({"bold": True})
    for i, row in enumerate(rows):
        for j, text in enumerate(row):
            if i and j not in texts and _is_number(text):
                page.write_number(i, j, float(text))
            elif text:
                page.write_string(i, j, text, bold if i == 0 else None)
    for j in range(len(rows[0]) if rows else 0):
        page.set_column(j, j, min(_WIDEST, max(len(row[j]) for row in rows) + 2))
    page.freeze_panes(1, 0)
    book.close()
    return out.getvalue()


def _is_number(text: str) -> bool:
    """Whether a workbook, which keeps fifteen digits, can hold a text as the number that it is."""
    return _NUMBER.fullmatch(text) is not None and Decimal(f"{Decimal(text):.15g}") == Decimal(text)


def _sheet_name(name: str) -> str:
    """A name that a sheet can have: at most 31 letters, without those that workbooks keep for themselves."""
    return re.sub(r"[\[\]:*?/\\']", "-", name)[:31] or "runs"
