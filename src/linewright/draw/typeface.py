"""Widths of text in the committed face, from a generated table: no font library is needed at run time.

The figures are those of `fonts/LinewrightSans-*.ttf`; where the picture is shown in another face they are estimates.
"""

from __future__ import annotations

import base64
import json
import unicodedata
from functools import cache, lru_cache
from importlib.resources import files

from linewright.draw.primitives import Weight

FAMILY = "Linewright Sans"
FALLBACK = (FAMILY, "Inter", "Segoe UI", "Helvetica Neue", "Arial", "sans-serif")
MOST_EMBEDDED_BYTES = 80_000
ELLIPSIS = "…"

# Per mille of the size, for characters that the committed face does not have.
_WIDE = 1000
_USUAL = 680


@cache
def widths(weight: Weight) -> dict[str, int]:
    """Give the advance widths by character [1/1000 of the size]."""
    text = (files("linewright.draw") / "fonts" / "widths.json").read_text(encoding="ascii")
    table: dict[str, dict[str, dict[str, int]]] = json.loads(text)
    return table[weight]["widths"]


def face_file(weight: Weight) -> bytes:
    """Give the committed TTF of a weight."""
    name = {Weight.REGULAR: "LinewrightSans-Regular.ttf", Weight.SEMIBOLD: "LinewrightSans-SemiBold.ttf"}[weight]
    return (files("linewright.draw") / "fonts" / name).read_bytes()


def embedded_face(weight: Weight) -> str:
    """Give a face as a data URI, empty if it is too large to stand in every picture."""
    data = face_file(weight)
    if len(data) > MOST_EMBEDDED_BYTES:
        return ""
    return "data:font/ttf;base64," + base64.b64encode(data).decode("ascii")


def text_width(text: str, size: float, weight: Weight = Weight.REGULAR) -> float:
    """Give the width of a line of text [px], without kerning, which on the whole makes it narrower."""
    return _thousandths(text, weight) * size / 1000


@lru_cache(maxsize=20_000)
def _thousandths(text: str, weight: Weight) -> int:
    """Width of a text in thousandths of its size; words come again and again."""
    table = widths(weight)
    return sum([table[mark] if mark in table else _other(mark) for mark in text])


@lru_cache(maxsize=4_000)
def fit(text: str, width: float, size: float, *, weight: Weight = Weight.REGULAR) -> str:
    """Give as much of `text` as `width` [px] holds, with an ellipsis where something is left out."""
    if text_width(text, size, weight) <= width:
        return text
    room = width - text_width(ELLIPSIS, size, weight)
    taken = 0.0
    for i, mark in enumerate(text):
        taken += text_width(mark, size, weight)
        if taken > room:
            return text[:i].rstrip() + ELLIPSIS
    return text


def wrap(text: str, width: float, size: float, *, weight: Weight = Weight.REGULAR) -> list[str]:
    """Break `text` into lines of at most `width` [px], inside a word only where it is longer than a line."""
    return list(_wrapped(text, width, size, weight))


@lru_cache(maxsize=2_000)
def _wrapped(text: str, width: float, size: float, weight: Weight) -> tuple[str, ...]:
    lines: list[str] = []
    line, used, space = "", 0, _thousandths(" ", weight)
    for word in text.split():
        own = _thousandths(word, weight)
        longer = used + space + own if line else own
        if longer * size / 1000 <= width:
            line, used = f"{line} {word}" if line else word, longer
            continue
        if line:
            lines.append(line)
        *full, line = _pieces(word, width, size, weight=weight)
        lines, used = [*lines, *full], _thousandths(line, weight)
    return (*lines, line) if line else tuple(lines)


def _pieces(word: str, width: float, size: float, *, weight: Weight) -> list[str]:
    pieces = [""]
    for mark in word:
        if pieces[-1] and text_width(pieces[-1] + mark, size, weight) > width:
            pieces.append("")
        pieces[-1] += mark
    return pieces


def _other(mark: str) -> int:
    if unicodedata.combining(mark) or unicodedata.category(mark) in ("Cf", "Cc"):
        return 0
    return _WIDE if unicodedata.east_asian_width(mark) in ("W", "F") else _USUAL
