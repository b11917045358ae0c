"""Tables under a marked-up sheet: cells are wrapped, so that nothing is cut off."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from linewright.draw.primitives import AnyPrimitive, Line, Text, Weight
from linewright.draw.style import BODY, SMALL
from linewright.draw.typeface import wrap

EDGE, LINE_PX, GAP_PX, ROW_GAP = 20.0, 15.0, 22.0, 5.0


class MarkTable(NamedTuple):
    """A table: title, headings with the share of the width that each column has, rows of words."""

    title: str
    columns: tuple[tuple[str, float], ...]
    rows: tuple[tuple[str, ...], ...]
    empty: str


def tables(found: Sequence[MarkTable], width: float, top: float) -> tuple[list[AnyPrimitive], float]:
    """Paint tables one below another; gives the y below them too."""
    painted: list[AnyPrimitive] = []
    y = top
    for number, table in enumerate(found):
        drawn, y = _table(f"marks/table{number}", table, width - 2 * EDGE, y)
        painted += drawn
        y += GAP_PX
    return painted, y


def _table(name: str, table: MarkTable, width: float, top: float) -> tuple[list[AnyPrimitive], float]:
    y = top + BODY
    painted: list[AnyPrimitive] = [_text(f"{name}/title", table.title, EDGE, y, weight=Weight.SEMIBOLD)]
    y += LINE_PX + 2
    if not table.rows:
        return [*painted, _text(f"{name}/empty", table.empty, EDGE, y, css="quiet")], y + LINE_PX
    lefts = _lefts(table, width)
    head = [_text(f"{name}/head/{j}", word, lefts[j], y, css="quiet") for j, (word, _) in enumerate(table.columns)]
    painted += [*head, _rule(f"{name}/rule", EDGE, width, y + 5)]
    y += LINE_PX + 5
    for i, row in enumerate(table.rows):
        cells = [wrap(cell, lefts[j + 1] - lefts[j] - 10, SMALL, weight=_weight(j)) for j, cell in enumerate(row)]
        for j, lines in enumerate(cells):
            painted += [
                _text(f"{name}/{i}/{j}/{n}", line, lefts[j], y + n * LINE_PX, weight=_weight(j))
                for n, line in enumerate(lines)
            ]
        y += LINE_PX * max(1, *(len(lines) for lines in cells)) + ROW_GAP
    return painted, y


def _weight(column: int) -> Weight:
    """The first column holds the tag."""
    return Weight.SEMIBOLD if column == 0 else Weight.REGULAR


def _lefts(table: MarkTable, width: float) -> list[float]:
    """Left edges of the columns, and the right edge of the last."""
    whole, x = sum(share for _, share in table.columns), EDGE
    lefts = [x]
    for _, share in table.columns:
        x += width * share / whole
        lefts.append(x)
    return lefts


def _text(name: str, words: str, x: float, y: float, *, css: str = "text", weight: Weight = Weight.REGULAR) -> Text:
    return Text(
        id=name, role="mark-table", css=css, group="marks-table", x=x, y=y, text=words, size=SMALL, weight=weight
    )


def _rule(name: str, x: float, width: float, y: float) -> Line:
    return Line(id=name, role="mark-table", css="rule", group="marks-table", x1=x, y1=y, x2=x + width, y2=y)
