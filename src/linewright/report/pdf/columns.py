"""Widths of the columns of a table, so that it never runs over the edge of its page."""

from __future__ import annotations

import re
from collections.abc import Sequence

from linewright.draw.primitives import Weight
from linewright.draw.typeface import text_width
from linewright.report.pdf.blocks import GridColumn

PT_MM = 25.4 / 72.0
#: Between the text of a cell and its edge, on either side [mm].
INSET_MM = 1.3
SOFT = "\u200b"
_MARKS = re.compile(r"([./_@:\]-])(?=.)")
#: No column gets narrower than this [mm].
_NARROWEST_MM = 7.0
#: A word up to so wide is not broken where there is room for all other words [mm].
_LONG_MM = 28.0
#: The face is set with kerning, the table of widths is without.
_SLACK = 1.02


def column_widths(
    columns: Sequence[GridColumn], rows: Sequence[Sequence[str]], width_mm: float, size_pt: float
) -> list[float]:
    """Width of every column [mm]; together no more than `width_mm`.

    Each gets what its longest text needs, where there is room for all; else at least what its longest word needs, and
    where even that is too much the widest give way, whose words are then broken.
    """
    whole, word = [], []
    for i, column in enumerate(columns):
        texts = {row[i] for row in rows}
        heading = _width(column.heading, size_pt, Weight.SEMIBOLD)
        longest = max((_least(part, size_pt) for text in texts for part in text.split()), default=0.0)
        head_word = max((_width(part, size_pt, Weight.SEMIBOLD) for part in column.heading.split()), default=0.0)
        least = max(longest, head_word, column.least_mm, _NARROWEST_MM)
        word.append(least)
        whole.append(max(least, min(heading, 2.2 * least), *(_width(text, size_pt) for text in texts), 0.0))
    if sum(whole) <= width_mm:
        return _spread(whole, width_mm)
    if sum(word) <= width_mm:
        return _shared(whole, word, width_mm)
    return _lowered(word, width_mm)


def with_room(widths: Sequence[float], rows: Sequence[Sequence[str]], width_mm: float) -> list[float]:
    """Widths of a form: what is left of the page goes to the columns in which somebody is to write."""
    open_ = [i for i in range(len(widths)) if all(not row[i] for row in rows)]
    spare = max(width_mm - sum(widths), 0.0) / max(len(open_), 1)
    return [width + spare if i in open_ else width for i, width in enumerate(widths)]


def broken(text: str, width_mm: float, size_pt: float, *, inset_mm: float = INSET_MM) -> str:
    """A text in which a word that is wider than its column may break: behind a mark, else between any characters."""
    room = width_mm - 2 * inset_mm
    words = text.split(" ")
    if all(_bare(word, size_pt) <= room for word in words):
        return text
    return " ".join(word if _bare(word, size_pt) <= room else _softened(word, room, size_pt) for word in words)


def _least(word: str, size_pt: float) -> float:
    """Width below which a word has to be broken; a long one may be, behind its marks."""
    whole = _width(word, size_pt, Weight.SEMIBOLD)
    if whole <= _LONG_MM:
        return whole
    parts = _MARKS.sub(rf"\1{SOFT}", word).split(SOFT)
    return max(_LONG_MM, *(_width(part, size_pt, Weight.SEMIBOLD) for part in parts))


def _softened(word: str, room_mm: float, size_pt: float) -> str:
    parts = _MARKS.sub(rf"\1{SOFT}", word).split(SOFT)
    return SOFT.join(part if _bare(part, size_pt) <= room_mm else SOFT.join(part) for part in parts)


def _bare(text: str, size_pt: float, weight: Weight = Weight.SEMIBOLD) -> float:
    return max((text_width(line, size_pt, weight) for line in text.split("\n")), default=0.0) * PT_MM * _SLACK


def _width(text: str, size_pt: float, weight: Weight = Weight.REGULAR) -> float:
    return _bare(text, size_pt, weight) + 2 * INSET_MM


def _spread(whole: list[float], width_mm: float) -> list[float]:
    """All as wide as they need, and a little more where there is much room; short tables stay short."""
    spare = min((width_mm - sum(whole)) / len(whole), 6.0)
    return [width + spare for width in whole]


def _shared(whole: list[float], word: list[float], width_mm: float) -> list[float]:
    """What is left beyond the longest words goes where the texts are longest."""
    wants = [full - least for full, least in zip(whole, word, strict=True)]
    share = (width_mm - sum(word)) / sum(wants)
    return [least + share * want for least, want in zip(word, wants, strict=True)]


def _lowered(word: list[float], width_mm: float) -> list[float]:
    """The widest give way first, down to one common width."""
    found, order = list(word), sorted(range(len(word)), key=lambda i: word[i])
    left = width_mm
    for position, i in enumerate(order):
        found[i] = min(word[i], left / (len(order) - position))
        left -= found[i]
    return found
