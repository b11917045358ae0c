"""Documents on paper read back: their words, their tables, their pages."""

import io
from typing import NamedTuple

import pdfplumber

from linewright.report.schedules.tables import Cell, Column, Of
from linewright.units import Dimension, UnitSystem, to_unit
from linewright.units.showing import style
from linewright.units.tubes import tube_number

MM = 72 / 25.4


class Read(NamedTuple):
    """A page: its size [mm], its words in reading order without spaces, its tables."""

    wide: float
    high: float
    text: str
    tables: list[list[list[str]]]
    outside: list[str]


def read(data: bytes) -> list[Read]:
    with pdfplumber.open(io.BytesIO(data)) as document:
        return [_page(page) for page in document.pages]


def _page(page: pdfplumber.page.Page) -> Read:
    tables = [[[cell or "" for cell in row] for row in table] for table in page.extract_tables()]
    beyond = [
        char["text"]
        for char in page.chars
        if char["text"].strip()
        and not (char["x0"] >= 0 and char["x1"] <= page.width and char["top"] >= 0 and char["bottom"] <= page.height)
    ]
    return Read(float(page.width) / MM, float(page.height) / MM, squeezed(page.extract_text()), tables, beyond)


def squeezed(text: str) -> str:
    """A text without what a line break may add or take away."""
    return "".join(text.replace("\u200b", "").split())


def rows_under(pages: list[Read], headings: list[str]) -> list[list[str]]:
    """All rows below headings, over as many pages as they take; every page repeats the headings."""
    wanted = [squeezed(text) for text in headings]
    found = []
    for page in pages:
        for table in page.tables:
            if [squeezed(cell) for cell in table[0]] == wanted:
                found += [[squeezed(cell) for cell in row] for row in table[1:]]
    return found


def holds(text: str, cell: Cell, column: Column, system: UnitSystem) -> bool:
    """Whether a printed text is a cell's value, to the last printed place."""
    if isinstance(cell, Of):
        return holds(text, cell.value, column._replace(dimension=cell.dimension), system)
    if cell is None:
        return text == "?"
    if isinstance(cell, str):
        return text == squeezed(cell)
    if column.dimension is Dimension.TUBE:
        return text == squeezed(tube_number(cell, system))
    unit = "" if column.dimension is None else style(column.dimension, system).unit
    number = "".join(mark for mark in text if mark in "-.0123456789")
    places = len(number.partition(".")[2])
    return abs(float(number) - (to_unit(cell, unit) if unit else cell)) <= 0.5 * 10.0**-places + 1e-6
