"""A grid with a row of headings to nodes: each row a mapping whose places are rows and columns of the grid.

A heading is a key, in any case and order, with the unit of its bare numbers in brackets: `length [m]`. What a cell
means is decided by what reads the nodes, as with a document.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from collections.abc import Mapping as MappingType
from typing import NamedTuple

from linewright.document.grid import Cell, Grid
from linewright.document.source import Mapping, Mark, Node, Scalar, Sequence, Source
from linewright.errors import listed, nearest, quoted

_HEADING = re.compile(r"(?P<name>[^\[(]*?)\s*(?:[\[(](?P<unit>[^\])]*)[\])])?")
_BARE = re.compile(r"[+-]?(?:(?:[0-9]+[ -])?[0-9]+/[0-9]+|(?:[0-9]+(?:[.][0-9]*)?|[.][0-9]+)(?:[eE][+-]?[0-9]+)?)")
_COMMA = re.compile(r"(?<![0-9])([+-]?[0-9]+),([0-9]+)(?![0-9,.])")
_POINT = re.compile(r"[+-]?([1-9][0-9]{0,2})[.]([0-9]{3})(?![0-9.,]).*")
#: Digits between two signs that part thousands.
_GROUP = 3
_TAG = "tag:yaml.org,2002:str"


class Column(NamedTuple):
    """What stands in a column: its key, and the unit of bare numbers (none: the cell has its own)."""

    key: str
    unit: str
    cell: Cell


#: Makes the node of one cell out of the ordinary, such as a list in one cell.
Reader = Callable[[Source, Cell, str], Node]


def mark(cell: Cell) -> Mark:
    """The place of a cell."""
    return Mark("", 0, cell.row - 1, cell.column - 1, None, 0)


def scalar(cell: Cell, text: str | None = None) -> Scalar:
    """A cell as a node."""
    return Scalar(_TAG, cell.text if text is None else text, mark(cell), mark(cell), style='"')


def open_grid(grid: Grid) -> Source:
    """A source whose faults have rows and columns of a grid for places; cells without a value are its first faults."""
    start = Mark("", 0, 0, 0, None, 0)
    source = Source(grid.file, Sequence("", [], start, start, flow_style=True))
    for cell in grid.unread:
        message = f"the cell has no value but the error {quoted(cell.text)}"
        if not cell.text:
            message = "the cell has a formula, and no value of it was saved"
        source.fault("", message, "a value, or an empty cell", node=scalar(cell))
    return source


def headings(source: Source, grid: Grid, known: MappingType[str, str]) -> list[Column | None]:
    """Columns by the first row of a grid; `known` gives the key for every name that a heading may have."""
    found: list[Column | None] = []
    first = grid.rows[0] if grid.rows else ()
    for cell in first:
        match = _HEADING.fullmatch(cell.text)
        name = match["name"].strip().lower().replace(" ", "_") if match else cell.text
        if not cell.text:
            found.append(None)
        elif name not in known:
            near = nearest(name, known)
            expected = quoted(near) if near else listed(sorted(set(known)))
            source.fault("", f"no column is called {quoted(cell.text)}", expected, node=scalar(cell))
            found.append(None)
        elif any(other is not None and other.key == known[name] for other in found):
            source.fault("", f"the column {quoted(cell.text)} stands twice", "each column once", node=scalar(cell))
            found.append(None)
        else:
            found.append(Column(known[name], (match["unit"] or "").strip() if match else "", cell))
    if not first:
        source.fault("", "the table is empty", "a row of headings, and rows below it")
    return found


def row_nodes(
    source: Source, grid: Grid, columns: list[Column | None], readers: MappingType[str, Reader]
) -> list[Mapping]:
    """A mapping for each row below the headings; blank cells are left out."""
    made = []
    heads = {cell.column: cell.text for cell in grid.rows[0]} if grid.rows else {}
    placed = [(cell, column) for row in grid.rows[1:] for cell, column in zip(row, columns, strict=False)]
    check_points(source, (cell for cell, column in placed if column is not None and column.key not in readers))
    for row in grid.rows[1:]:
        entries: list[tuple[Node, Node]] = []
        for cell, column in zip(row, [*columns, *[None] * len(row)], strict=False):
            if not cell.text:
                continue
            if column is None:
                if not heads.get(cell.column):
                    message = f"{quoted(cell.text)} stands in a column without a heading"
                    source.fault("", message, "a heading, or nothing there", node=scalar(cell))
                continue
            node = (
                readers[column.key](source, cell, column.unit)
                if column.key in readers
                else value(source, cell, column.unit)
            )
            entries.append((scalar(column.cell, column.key), node))
        start = mark(row[0])
        made.append(Mapping("", entries, start, mark(row[-1]), flow_style=True))
    return made


def value(source: Source, cell: Cell, unit: str) -> Node:
    """A cell with the unit of its column behind a bare number; a comma parts decimals where it can do nothing else."""
    text = cell.text
    comma = _COMMA.search(text)
    if comma is not None and len(comma[2]) == _GROUP and comma[1].lstrip("+-") != "0":
        message = f"the comma in {quoted(text)} may part decimals or thousands"
        source.fault("", message, _either(comma[1], comma[2]), node=scalar(cell))
        text = _COMMA.sub(r"\1.\2", text)
    elif comma is not None:
        text = _COMMA.sub(r"\1.\2", text)
    if unit and _BARE.fullmatch(text):
        text = f"{text} {unit}"
    return scalar(cell, text)


def check_points(source: Source, cells: Iterable[Cell]) -> None:
    """Note each figure whose point may part thousands, because another figure of the table has a decimal comma."""
    figures = [cell for cell in cells if cell.text]
    if not any(_has_decimal_comma(cell.text) for cell in figures):
        return
    for cell in figures:
        match = _POINT.fullmatch(cell.text)
        if match is not None:
            message = f"the point in {quoted(cell.text)} may part thousands, as others have a decimal comma"
            source.fault("", message, _either(match[1], match[2]), node=scalar(cell))


def _has_decimal_comma(text: str) -> bool:
    comma = _COMMA.match(text)
    return comma is not None and (len(comma[2]) != _GROUP or comma[1].lstrip("+-") == "0")


def _either(whole: str, part: str) -> str:
    """Both meanings of a number, written so that each can mean nothing else."""
    return f"{whole}.{part}0 or {whole}{part}"
