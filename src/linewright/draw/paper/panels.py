"""What stands beside the title block: the signs, the notes, the revisions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from linewright.draw.paper.extent import moved
from linewright.draw.paper.facts import Facts
from linewright.draw.paper.lettering import BODY, LEAST_MM, LINE, Area, fitted, lines_of
from linewright.draw.paper.marks import FINE, Box, Ink, Layer, Mark, Pen, Stroke, Words
from linewright.draw.primitives import Weight

ROW = LEAST_MM * LINE
_PAD, _HEAD = 2.0, 5.0
_MARK, _DATE = 12.0, 22.0
MOST_REVISIONS = 4


class Sign(NamedTuple):
    """An entry of the signs: its marks about an origin, and what it means."""

    marks: tuple[Mark, ...]
    words: str


def panel(area: Area, name: str, head: str) -> tuple[list[Mark], Area]:
    """Paint the edge and the head of a panel; gives what of it is left."""
    marks: list[Mark] = [
        Box(f"{name}/frame", Layer.BORDER, area.left, area.top, area.width, area.height, Pen(FINE)),
        Words(f"{name}/head", Layer.NOTE, area.left + _PAD, area.top + 4.4, head, BODY, Weight.SEMIBOLD),
    ]
    return marks, Area(area.left + _PAD, area.top + _HEAD + 1.2, area.right - _PAD, area.bottom - 1.2)


def notes_panel(area: Area, notes: Sequence[str], *, more: str) -> tuple[list[Mark], list[str]]:
    """Paint notes as far as they go in whole; gives those that found no room, which `more` then tells of."""
    marks, inner = panel(area, "notes", "Notes")
    y, left = inner.top, list(notes)
    while left:
        lines = lines_of(left[0], inner.width)
        keep = 1 if len(left) > 1 else 0
        if y + (len(lines) + keep) * ROW > inner.bottom:
            break
        for line in lines:
            y += ROW
            marks.append(Words(f"notes/{len(marks)}", Layer.NOTE, inner.left, y - 0.9, line, LEAST_MM))
        y += 0.6
        left.pop(0)
    if left:
        text = fitted(more, inner.width)
        marks.append(Words("notes/more", Layer.NOTE, inner.left, inner.bottom - 0.9, text, LEAST_MM, Weight.SEMIBOLD))
    return marks, left


def signs_panel(area: Area, signs: Sequence[Sign]) -> tuple[list[Mark], list[Sign]]:
    """Paint the signs of a drawing in columns; gives those that found no room."""
    marks, inner = panel(area, "signs", "Signs")
    y, left = inner.top, list(signs)
    while left:
        sign = left[0]
        lines = lines_of(sign.words, inner.width - 14)
        height = max(len(lines) * ROW, ROW) + 1.0
        if y + height > inner.bottom + 0.5:
            break
        marks += [
            moved(item._replace(id=f"signs/{len(signs) - len(left)}/{i}"), inner.left + 5, y + 1.9)
            for i, item in enumerate(sign.marks)
        ]
        for i, line in enumerate(lines):
            name = f"signs/{len(signs) - len(left)}/words/{i}"
            marks.append(Words(name, Layer.NOTE, inner.left + 13, y + ROW * (i + 1) - 0.6, line, LEAST_MM))
        y += height
        left.pop(0)
    return marks, left


def revisions_panel(area: Area, facts: Facts) -> list[Mark]:
    """Paint the table of revisions, the last ones where there are many; its lines stay where there is none."""
    marks, inner = panel(area, "revisions", "Revisions")
    shown = facts.revisions[-MOST_REVISIONS:]
    pitch = inner.height / (MOST_REVISIONS + 1)
    texts = [("mark", "date", "what for"), *shown]
    for i in range(MOST_REVISIONS + 1):
        y = inner.top + pitch * (i + 1)
        if i < MOST_REVISIONS:
            marks.append(
                Stroke(f"revisions/rule/{i}", Layer.BORDER, inner.left, y, inner.right, y, Pen(FINE, Ink.FAINT))
            )
        if i < len(texts):
            marks += _cells(f"revisions/{i}", texts[i], inner, y - pitch / 2 + 1.0, ink=Ink.DARK if i else Ink.QUIET)
    return marks


def _cells(name: str, texts: Sequence[str], inner: Area, y: float, *, ink: Ink) -> Iterator[Mark]:
    places = (
        (inner.left, _MARK),
        (inner.left + _MARK, _DATE),
        (inner.left + _MARK + _DATE, inner.width - _MARK - _DATE),
    )
    for i, (text, (x, width)) in enumerate(zip(texts, places, strict=True)):
        yield Words(f"{name}/{i}", Layer.NOTE, x, y, fitted(text, width - 1), LEAST_MM, ink=ink, full=text)
