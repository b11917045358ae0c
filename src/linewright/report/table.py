"""Plain tables of at most 80 columns: the last column wraps, others keep the width of their content."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from typing import NamedTuple

WIDTH = 80
GAP = "  "


class Column(NamedTuple):
    """A column: its heading, whether numbers stand to the right, and the most it may take."""

    heading: str
    right: bool = False
    most: int = 24


class Cell(NamedTuple):
    """A text and the style (a standing's name, or none) in which a terminal may show it."""

    text: str
    style: str = ""


Row = Sequence[Cell | str]


def table(columns: Sequence[Column], rows: Sequence[Row]) -> list[list[Cell]]:
    """Lay rows out: a list of lines, each a list of padded cells with their style."""
    cells = [[cell if isinstance(cell, Cell) else Cell(cell) for cell in row] for row in rows]
    widths = _widths(columns, cells)
    lines = _lines([Cell(column.heading, "heading") for column in columns], columns, widths)
    for row in cells:
        lines.extend(_lines(row, columns, widths))
    return lines


def _widths(columns: Sequence[Column], rows: Sequence[Sequence[Cell]]) -> list[int]:
    widths = []
    for i, column in enumerate(columns):
        longest = max([len(column.heading), *(len(row[i].text) for row in rows)])
        widths.append(longest if column is columns[-1] else min(longest, column.most))
    spare = WIDTH - sum(widths[:-1]) - len(GAP) * (len(widths) - 1)
    while spare < min(widths[-1], len(columns[-1].heading)) and max(widths[:-1]) > 4:
        widest = max(range(len(widths) - 1), key=lambda i: widths[i])
        widths[widest] -= 1
        spare += 1
    widths[-1] = min(widths[-1], max(spare, 4))
    return widths


def _lines(row: Sequence[Cell], columns: Sequence[Column], widths: Sequence[int]) -> list[list[Cell]]:
    wrapped = [_wrap(cell.text, width) for cell, width in zip(row, widths, strict=True)]
    lines = []
    for n in range(max(len(parts) for parts in wrapped)):
        line = []
        for cell, parts, column, width in zip(row, wrapped, columns, widths, strict=True):
            text = parts[n] if n < len(parts) else ""
            line.append(Cell(text.rjust(width) if column.right else text.ljust(width), cell.style))
        lines.append(line)
    return lines


def _wrap(text: str, width: int) -> list[str]:
    """Wrap at spaces, and at underscores of a long name."""
    if len(text) <= width:
        return [text]
    lines = textwrap.wrap(text.replace("_", f"_{_SOFT} "), width + text.count("_"))
    whole = [line.replace(f"{_SOFT} ", "").replace(_SOFT, "") for line in lines]
    return whole if all(len(line) <= width for line in whole) else _narrow(text, width)


def _narrow(text: str, width: int) -> list[str]:
    lines = textwrap.wrap(text.replace("_", f"_{_SOFT} "), width)
    return [line.replace(f"{_SOFT} ", "").replace(_SOFT, "") for line in lines] or [""]


_SOFT = "\u200b"
