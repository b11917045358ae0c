"""Tables on paper: filled from the top, column beside column, sheet after sheet."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from linewright.draw.paper.lettering import BODY, LEAST_MM, LINE, Area, lines_of, width_of
from linewright.draw.paper.marks import FINE, MEDIUM, Ink, Layer, Mark, Pen, Stroke, Words
from linewright.draw.primitives import Anchor, Weight

ROW = LEAST_MM * LINE
_HEAD, _PAD, _GAP, _BELOW = 5.5, 1.4, 9.0, 5.0
_NARROWEST = 12.0


class Column(NamedTuple):
    """A column: its head, the most of its width [mm], whether it holds numbers."""

    head: str
    most: float = 30.0
    number: bool = False


class Grid(NamedTuple):
    """A table: its name, its title, its columns, its rows of texts."""

    name: str
    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]


class _Row(NamedTuple):
    """A row broken into lines, and its height [mm]."""

    cells: tuple[list[str], ...]
    height: float


def filled(grids: Sequence[Grid], room: Area) -> list[list[Mark]]:
    """Fill sheets of the same room with tables; gives the marks of each sheet."""
    sheets: list[list[Mark]] = [[]]
    x, y, right = room.left, room.top, room.left
    for grid in grids:
        widths = _widths(grid, room.width)
        whole, rows = sum(widths), [_broken(row, widths) for row in grid.rows]
        at = 0
        while at < len(rows):
            head = _HEAD + ROW + 1.4
            if y > room.top and y + head + rows[at].height > room.bottom:
                x, y = right + _GAP, room.top
            if x > room.left and x + whole > room.right:
                sheets.append([])
                x, y, right = room.left, room.top, room.left
            taken = _fitting(rows, at, room.bottom - y - head)
            part = "" if at == 0 else f"/{at}"
            sheets[-1] += _table(grid, rows[at : at + taken], widths, Area(x, y, x + whole, room.bottom), part=part)
            y += head + sum(row.height for row in rows[at : at + taken]) + _BELOW
            right, at = max(right, x + whole), at + taken
    return [marks for marks in sheets if marks]


def _fitting(rows: Sequence[_Row], at: int, height: float) -> int:
    """Count the rows that go into a height; one at least."""
    count, used = 0, 0.0
    for row in rows[at:]:
        used += row.height
        if count and used > height:
            break
        count += 1
    return count


def _widths(grid: Grid, room: float) -> list[float]:
    """Give the widths of columns [mm]: what they hold, up to their most; the widest are made narrower to fit a room."""
    heads = [width_of(column.head, LEAST_MM, Weight.SEMIBOLD) + 2 * _PAD for column in grid.columns]
    wanted = []
    for k, column in enumerate(grid.columns):
        texts = [width_of(row[k]) for row in grid.rows]
        wanted.append(max(heads[k], min(max(texts, default=0.0), column.most) + 2 * _PAD))
    most = max(wanted)
    found = wanted
    while sum(found) > room and most > _NARROWEST:
        most -= 1.0
        found = [max(head, min(width, most)) for head, width in zip(heads, wanted, strict=True)]
    return found


def _broken(row: Sequence[str], widths: Sequence[float]) -> _Row:
    cells = tuple(lines_of(text, width - 2 * _PAD + 0.1) for text, width in zip(row, widths, strict=True))
    return _Row(cells, max(*(len(lines) for lines in cells), 1) * ROW + 0.9)


def _table(grid: Grid, rows: Sequence[_Row], widths: Sequence[float], area: Area, *, part: str) -> list[Mark]:
    name, y = f"{grid.name}{part}", area.top + 3.2
    title = grid.title if not part else f"{grid.title}, continued"
    marks: list[Mark] = [Words(f"{name}/title", Layer.TEXT, area.left, y, title, BODY, Weight.SEMIBOLD)]
    y = area.top + _HEAD + ROW
    for column, left, width in zip(grid.columns, _lefts(area.left, widths), widths, strict=True):
        marks.append(
            _cell(f"{name}/head/{column.head}", column.head, column, Area(left, y, left + width, y), head=True)
        )
    y += 0.4
    marks.append(Stroke(f"{name}/head/rule", Layer.BORDER, area.left, y, area.right, y, Pen(MEDIUM)))
    y += 1.0
    for n, row in enumerate(rows):
        for column, lines, left, width in zip(grid.columns, row.cells, _lefts(area.left, widths), widths, strict=True):
            for k, line in enumerate(lines):
                base = y + ROW * (k + 1)
                marks.append(_cell(f"{name}/{n}/{column.head}/{k}", line, column, Area(left, base, left + width, base)))
        y += row.height
        marks.append(
            Stroke(f"{name}/{n}/rule", Layer.BORDER, area.left, y - 0.3, area.right, y - 0.3, Pen(FINE, Ink.FAINT))
        )
    return marks


def _cell(name: str, text: str, column: Column, area: Area, *, head: bool = False) -> Words:
    """Write a cell; `area` gives its left, its right and its lower edge."""
    x, anchor = (area.right - _PAD, Anchor.END) if column.number else (area.left + _PAD, Anchor.START)
    weight = Weight.SEMIBOLD if head else Weight.REGULAR
    return Words(name, Layer.TEXT, x, area.bottom - 0.9, text, LEAST_MM, weight, anchor)


def _lefts(left: float, widths: Sequence[float]) -> list[float]:
    return [left + sum(widths[:k]) for k in range(len(widths))]
