"""Sizes of paper [mm]: ISO 216 A sizes, and the North American letter, tabloid and architectural sizes (ANSI Y14.1)."""

from __future__ import annotations

from enum import StrEnum

#: Text of a drawing is at least so tall as printed [mm].
LEAST_TEXT_MM = 2.0
MARGIN_MM = 15.0
#: Above and below the text of a page, its head and foot included.
HEAD_MM = 22.0
FOOT_MM = 20.0


class Paper(StrEnum):
    """The paper on which a document is printed; sheets that need more go on a larger one of the same family."""

    A4 = "a4"
    LETTER = "letter"


SIZES: dict[Paper, tuple[tuple[str, float, float], ...]] = {
    Paper.A4: (
        ("A4", 210.0, 297.0),
        ("A3", 297.0, 420.0),
        ("A2", 420.0, 594.0),
        ("A1", 594.0, 841.0),
        ("A0", 841.0, 1189.0),
    ),
    Paper.LETTER: (
        ("letter", 215.9, 279.4),
        ("tabloid", 279.4, 431.8),
        ("ARCH C", 457.2, 609.6),
        ("ARCH D", 609.6, 914.4),
        ("ARCH E", 914.4, 1219.2),
    ),
}


def page_of(paper: Paper) -> tuple[float, float]:
    """Width and height of the upright page [mm]."""
    _, width, height = SIZES[paper][0]
    return width, height
