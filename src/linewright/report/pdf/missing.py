"""Characters that the face of a document has not: each is printed as a square, and is told of."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from functools import cache

from linewright.draw.primitives import Weight
from linewright.draw.typeface import widths

SQUARE = "□"
#: Without a picture of their own: line ends, the soft break.
_MOST_NAMED = 12
_UNSEEN = {"\n", "\u200b"}


@cache
def _face() -> frozenset[str]:
    """The characters that both weights of the face hold."""
    return frozenset(_UNSEEN | (widths(Weight.REGULAR).keys() & widths(Weight.SEMIBOLD).keys()))


def printable(text: str) -> str:
    """A text, composed, with a square for every character that the face has not."""
    text, face = unicodedata.normalize("NFC", text), _face()
    return text if face.issuperset(text) else "".join(mark if mark in face else SQUARE for mark in text)


def lacking(texts: Iterable[str]) -> list[str]:
    """The characters that the face has not, in order of their code."""
    found = {mark for text in texts for mark in unicodedata.normalize("NFC", text)}
    return sorted(found - _face())


def lacking_words(marks: list[str]) -> str:
    """What a reader is told of characters that are printed as squares; empty where there are none."""
    if not marks:
        return ""
    codes = [f"U+{ord(mark):04X}" for mark in marks]
    named = ", ".join(codes[:_MOST_NAMED]) + (
        f" and {len(codes) - _MOST_NAMED} more" if len(codes) > _MOST_NAMED else ""
    )
    return (
        f"Names hold characters that the face of this document has not; each is printed {SQUARE}: {named}. "
        "The tables of the set (XLSX, CSV, JSON) hold them whole."
    )
