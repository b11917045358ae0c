"""A page of text for a terminal or a file: lines of styled cells, painted only where colour is wanted."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence

from linewright.report.table import GAP, WIDTH, Cell, Column, Row, table

CODES = {
    "heading": "2",
    "title": "1",
    "over": "1;31",
    "unjudged": "1;33",
    "to confirm": "1;33",
    "on conditions": "36",
    "within": "32",
}


class Page:
    """Lines in the order in which they were added."""

    def __init__(self, *, colour: bool) -> None:
        """Start an empty page."""
        self._colour = colour
        self._lines: list[str] = []

    def title(self, text: str) -> None:
        """Add a heading line."""
        self._lines.extend(self._paint(line, "title") for line in textwrap.wrap(text, WIDTH))

    def text(self, text: str, *, indent: int = 0) -> None:
        """Add wrapped text."""
        pad = " " * indent
        self._lines.extend(textwrap.wrap(text, WIDTH, initial_indent=pad, subsequent_indent=pad + "  "))

    def blank(self) -> None:
        """Add an empty line."""
        self._lines.append("")

    def table(self, columns: Sequence[Column], rows: Sequence[Row]) -> None:
        """Add a table; nothing when it has no rows."""
        if rows:
            self._lines.extend(self._line(line) for line in table(columns, rows))

    def __str__(self) -> str:
        """Give the page as one text."""
        return "\n".join(self._lines)

    def _line(self, cells: Sequence[Cell]) -> str:
        if not self._colour:
            return GAP.join(cell.text for cell in cells).rstrip()
        return GAP.join(self._paint(cell.text, cell.style) for cell in cells)

    def _paint(self, text: str, style: str) -> str:
        code = CODES.get(style)
        return f"\x1b[{code}m{text}\x1b[0m" if self._colour and code else text
