"""Cells of a CSV file, of a worksheet or of pasted text, each with its row and column."""

from __future__ import annotations

import csv
import io
import re
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import NamedTuple

from linewright.document.reading import read_bytes, refuse
from linewright.document.unread import UnreadableError, column_number, unread_cells
from linewright.errors import listed, quoted

WORKBOOKS = (".xlsx", ".xlsm")
#: Workbooks of other kinds, in which errors of formulas cannot be told from empty cells.
_OTHER_WORKBOOKS = (".xls", ".xlsb", ".ods")
_SEPARATORS = "\t;,|"
_RANGE = re.compile(r"([A-Z]{1,3})([0-9]{1,7})(?::([A-Z]{1,3})([0-9]{1,7}))?")


class Cell(NamedTuple):
    """One cell: its text without blanks around it, its row and its column, both from 1."""

    text: str
    row: int
    column: int


class Grid(NamedTuple):
    """Rows of cells that hold something in at least one place; `file` names them in faults.

    unread : cells that hold a formula without a value, or an error, which is their text
    """

    file: str
    rows: tuple[tuple[Cell, ...], ...]
    unread: tuple[Cell, ...] = ()


def grid_of(name: str) -> Grid:
    """Read a file: CSV or text with tabs, or a workbook, with a sheet and a range if need be (`a.xlsx:Sheet!A3:H12`).

    Raises InputFaultsError.
    """
    path, sheet, cells = _parted(name)
    if path.suffix.lower() in WORKBOOKS:
        return _workbook(path, sheet, cells)
    if path.suffix.lower() in _OTHER_WORKBOOKS:
        refuse(str(path), f"a workbook {quoted(path.suffix.lower())} is not read", "the same, saved as .xlsx")
    return grid_from_text(_decoded(read_bytes(path)), str(path))


def grid_from_text(text: str, file: str) -> Grid:
    """Read rows from text whose cells are parted by tabs, semicolons or commas; the first row tells by which."""
    text = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n")
    first = next((line for line in text.split("\n") if line.strip()), "")
    try:
        separator = max(_SEPARATORS, key=lambda mark: len(next(csv.reader([first], delimiter=mark), [])))
        rows = list(csv.reader(io.StringIO(text, newline=""), delimiter=separator, strict=True))
    except csv.Error as error:
        refuse(file, f"the rows cannot be told apart: {error}", "a table saved as CSV, quotation marks in pairs")
    return Grid(file, _filled((row, 1) for row in rows))


def _parted(name: str) -> tuple[Path, str, str]:
    """Parts a name into file, sheet and range; a colon behind a drive letter belongs to the file."""
    for suffix in WORKBOOKS:
        at = name.lower().rfind(f"{suffix}:")
        if at >= 0:
            sheet, mark, cells = name[at + len(suffix) + 1 :].rpartition("!")
            is_range = _RANGE.fullmatch(cells.upper()) is not None
            whole = cells if mark or is_range else ""
            return Path(name[: at + len(suffix)]), sheet if mark or is_range else cells, whole
    return Path(name), "", ""


def _decoded(data: bytes) -> str:
    """Text of a CSV file: UTF-8, UTF-16 with its mark, or what spreadsheets of western Windows write."""
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return data.decode("utf-16", errors="replace")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace")


def _workbook(path: Path, sheet: str, cells: str) -> Grid:
    from python_calamine import CalamineError, CalamineWorkbook  # noqa: PLC0415 - keeps start-up short

    read_bytes(path)
    try:
        book = CalamineWorkbook.from_path(str(path))
        if sheet and sheet not in book.sheet_names:
            refuse(str(path), f"there is no sheet {quoted(sheet)}", listed(book.sheet_names))
        found = book.get_sheet_by_name(sheet) if sheet else book.get_sheet_by_index(0)
        rows = found.to_python(skip_empty_area=False)
        unread = unread_cells(path, found.name)
    except (CalamineError, UnreadableError) as error:
        refuse(str(path), f"the workbook cannot be read: {error}", "a workbook saved as .xlsx")
    texts = [[_text(value) for value in row] for row in rows]
    left, top, right, bottom = _bounds(cells)
    cut = [Cell(*cell) for cell in unread if top <= cell.row <= bottom and left <= cell.column <= right]
    return Grid(f"{path}:{sheet}" if sheet else str(path), _filled(_within(texts, cells)), tuple(cut))


def _text(value: object) -> str:
    """A cell as it is read: a whole number without its decimal point, as spreadsheets show it."""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return str(int(value)) if value.is_integer() and abs(value) < 1e15 else repr(value)
    return str(value)


def _bounds(cells: str) -> tuple[int, int, int, int]:
    """Left, top, right and bottom of a range, from 1; without one there is no end."""
    match = _RANGE.fullmatch(cells.upper()) if cells else None
    if match is None:
        return 1, 1, sys.maxsize, sys.maxsize
    left, top = column_number(match[1]), int(match[2])
    return (left, top, column_number(match[3]), int(match[4])) if match[3] else (left, top, left, top)


def _within(rows: list[list[str]], cells: str) -> Iterator[tuple[list[str], int]]:
    """Rows of a range, with the column in which they begin; rows above it are blank so that places stay."""
    left, top, right, bottom = _bounds(cells)
    for i, row in enumerate(rows, start=1):
        yield (row[left - 1 : right] if top <= i <= bottom else [], left)


def _filled(rows: Iterable[tuple[list[str], int]]) -> tuple[tuple[Cell, ...], ...]:
    made = []
    for i, (row, left) in enumerate(rows, start=1):
        cells = tuple(Cell(" ".join(text.split()), i, left + j) for j, text in enumerate(row))
        if any(cell.text for cell in cells):
            made.append(cells)
    return tuple(made)
