"""Match lines: where a drawing goes on, and on which sheet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from linewright.draw.paper.lettering import LEAST_MM, Area
from linewright.draw.paper.marks import MEDIUM, Dash, Ink, Layer, Mark, Pen, Stroke, Words
from linewright.draw.primitives import Anchor, Weight

_PEN = Pen(MEDIUM, Ink.WARNING, Dash.CHAIN)
_ABOVE, _BELOW, _BESIDE = -1.4, 3.4, 0.8


class Part(NamedTuple):
    """A part of a divided drawing as it stands on its sheet.

    area : its ground [mm], `side` the width of what is repeated left of it, `head` the height of what is above it
    column, row : which part it is; `numbers` gives the number of the sheet by column and row, in the order of parts
    """

    area: Area
    side: float
    head: float
    column: int
    row: int
    numbers: Mapping[tuple[int, int], int]

    def where(self, column: int, row: int) -> str:
        """Tell where another part stands: on which sheet, or above or below on this one."""
        if self.numbers[column, row] != self.numbers[self.column, self.row]:
            return f"sheet {self.numbers[column, row]}"
        return "above" if (row, column) < (self.row, self.column) else "below"


def match_marks(part: Part) -> Iterator[Mark]:
    """Draw the match lines of a part, each with the sheet on which the drawing goes on."""
    area, top = part.area, part.area.top - part.head
    for name, column, x, anchor in (
        ("left", part.column - 1, area.left, Anchor.START),
        ("right", part.column + 1, area.right, Anchor.END),
    ):
        if (column, part.row) in part.numbers:
            yield Stroke(f"match/{name}", Layer.MATCH, x, area.top, x, area.bottom, _PEN)
            words = f"match line {_letter(min(column, part.column))}, {part.where(column, part.row)}"
            beside = _BESIDE if anchor is Anchor.START else -_BESIDE
            yield _words(f"match/{name}/words", words, (x + beside, top + _ABOVE), anchor)
    left = area.left - part.side
    for name, row, y, base in (("top", part.row - 1, top, _ABOVE), ("bottom", part.row + 1, area.bottom, _BELOW)):
        if (part.column, row) in part.numbers:
            yield Stroke(f"match/{name}", Layer.MATCH, left, y, area.right, y, _PEN)
            words = f"match line {min(row, part.row) + 1}, {part.where(part.column, row)}"
            yield _words(f"match/{name}/words", words, (left + _BESIDE, y + base), Anchor.START)


def _letter(number: int) -> str:
    return chr(ord("A") + number % 26)


def _words(name: str, text: str, at: tuple[float, float], anchor: Anchor) -> Words:
    return Words(name, Layer.MATCH, *at, text, LEAST_MM, Weight.SEMIBOLD, anchor, Ink.WARNING)
