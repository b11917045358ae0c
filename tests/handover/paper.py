"""Documents on paper read back: their words, their tables, their pages."""

import io
import itertools
from typing import NamedTuple

import pdfplumber
import pypdfium2  # type: ignore[import-untyped] # comes with pdfplumber

from linewright.report.schedules.tables import Cell, Column, Of
from linewright.units import Dimension, UnitSystem, to_unit
from linewright.units.showing import style
from linewright.units.tubes import tube_number

MM = 72 / 25.4
#: Edges of two tables on one page that merely come close are not one edge.
_EDGES = {"snap_x_tolerance": 0.5}


class Read(NamedTuple):
    """A page: its size [mm], its words in reading order without spaces, its tables."""

    wide: float
    high: float
    text: str
    tables: list[list[list[str]]]
    outside: list[str]
    clashing: list[str]


def read(data: bytes, most: int | None = None) -> list[Read]:
    """Read all pages, or the first ones."""
    with pdfplumber.open(io.BytesIO(data)) as document:
        return [_page(page) for page in document.pages[:most]]


def texts(data: bytes) -> list[str]:
    """The words of every page without spaces: far faster than reading where each of them stands."""
    with pypdfium2.PdfDocument(data) as document:
        return [squeezed(page.get_textpage().get_text_range()) for page in document]


def sizes(data: bytes) -> list[tuple[float, float]]:
    """Width and height of every page [mm], to the thousandth."""
    with pypdfium2.PdfDocument(data) as document:
        return [(round(wide / MM, 3), round(high / MM, 3)) for wide, high in (page.get_size() for page in document)]


def before(data: bytes, heading: str) -> int:
    """How many pages stand before the one that begins with a heading, below the head of the page."""
    return next(i for i, text in enumerate(texts(data)) if heading in text[:120] and i > 1)


def _page(page: pdfplumber.page.Page) -> Read:
    # A table has cells with grounds; looking for one where there is none takes long.
    found = page.extract_tables(_EDGES) if len(page.rects) > 3 else []
    tables = [[[cell or "" for cell in row] for row in table] for table in found]
    beyond = [
        char["text"]
        for char in page.chars
        if char["text"].strip()
        and not (char["x0"] >= 0 and char["x1"] <= page.width and char["top"] >= 0 and char["bottom"] <= page.height)
    ]
    return Read(
        float(page.width) / MM, float(page.height) / MM, squeezed(page.extract_text()), tables, beyond, _clashing(page)
    )


def _clashing(page: pdfplumber.page.Page) -> list[str]:
    """Words of one line that run into the next: a column that is too narrow for what stands in it."""
    lines: dict[int, list[dict[str, float]]] = {}
    for word in page.extract_words(keep_blank_chars=False, x_tolerance=0.4):
        lines.setdefault(round(word["bottom"]), []).append(word)
    found = []
    for words in lines.values():
        words.sort(key=lambda word: word["x0"])
        found += [
            f"{one['text']}|{other['text']}"
            for one, other in itertools.pairwise(words)
            if other["x0"] < one["x1"] - 0.3
        ]
    return found


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
