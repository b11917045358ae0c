"""A changed design or book as text: into the text that it came from, or anew."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from linewright.book.schema import Book
from linewright.document.encode import Style, Word, encode_value
from linewright.document.files import LoadedDesign, book_from_text, draft_from_text
from linewright.document.header import BOOK, DESIGN
from linewright.document.patch import patched
from linewright.document.plans import HEADER
from linewright.document.render import document
from linewright.document.source import Source
from linewright.model.design import Design
from linewright.units import UnitSystem

T = TypeVar("T", Design, Book)
BOM = "\ufeff"


class NotSavedError(Exception):
    """A change that could not be written into a text so that it reads back as it is; nothing was written."""


def dump_design(design: Design, *, as_json: bool = False, units: UnitSystem | None = None) -> str:
    """Write a design anew; without `units` quantities are in the design's own."""
    style = Style(design.units if units is None else units)
    return document({HEADER: Word(DESIGN), **encode_value(design, style)}, as_json=as_json)


def dump_book(book: Book, *, as_json: bool = False, units: UnitSystem = UnitSystem.SI) -> str:
    """Write a book anew."""
    return document({HEADER: Word(BOOK), **encode_value(book, Style(units))}, as_json=as_json)


def save_design(text: str, new: Design) -> str:
    """Give the text of a design with only that changed in which `new` differs.

    Line ends and a byte order mark stay. Raises InputFaultsError for a text that is no design, NotSavedError where the
    result would not read back as `new`.
    """
    return _saved(text, new, _design, Style(new.units))


def save_book(text: str, new: Book, *, units: UnitSystem = UnitSystem.SI) -> str:
    """Give the text of a book with only that changed in which `new` differs; raises as `save_design` does."""
    return _saved(text, new, _book, Style(units))


def _saved(text: str, new: T, read: Callable[[str], tuple[Source, T]], style: Style) -> str:
    mark, ends = (BOM if text.startswith(BOM) else ""), ("\r\n" if "\r\n" in text else "\n")
    plain = text.removeprefix(BOM).replace("\r\n", "\n")
    source, old = read(plain)
    changed = patched(source, plain, old=old, new=new, how=style)
    if read(changed)[1] != new:
        raise NotSavedError("the changed text does not read back as the changed values")
    return mark + changed.replace("\n", ends)


def _design(text: str) -> tuple[Source, Design]:
    loaded: LoadedDesign = draft_from_text(text, "")
    loaded.source.refuse()
    return loaded.source, loaded.design


def _book(text: str) -> tuple[Source, Book]:
    loaded = book_from_text(text, "")
    return loaded.source, loaded.compiled.book
