"""Design and book files into values: every fault at once, or the value with the place of everything in it."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from pathlib import Path
from typing import NamedTuple

from linewright.book.compiled import CompiledBook, compile_book
from linewright.book.schema import Book
from linewright.document.decode import decode
from linewright.document.header import BOOK, DESIGN, check_header
from linewright.document.links import check_links
from linewright.document.parsing import parse_text
from linewright.document.reading import read_text
from linewright.document.source import Source
from linewright.model.design import Design
from linewright.model.soundness import check_structure


class LoadedBook(NamedTuple):
    """A sound book, its source and the hash of its text."""

    compiled: CompiledBook
    source: Source
    sha256: str


class LoadedDesign(NamedTuple):
    """A sound design and its source."""

    design: Design
    source: Source
    sha256: str


def load_book(path: Path) -> LoadedBook:
    """Load a book file.

    Raises InputFaultsError with every fault.
    """
    return book_from_text(read_text(path), str(path))


def book_from_text(text: str, file: str) -> LoadedBook:
    """Load a book from its text; `file` names it in faults.

    Raises InputFaultsError with every fault.
    """
    source = parse_text(text, file)
    check_header(source, BOOK, Book)
    book = decode(source, Book)
    compiled = compile_book(book, source.derive)
    source.refuse()
    return LoadedBook(compiled, source, _hash(text))


def load_design(path: Path) -> LoadedDesign:
    """Load a design file; what it names in books is not looked up here (`link`).

    Raises InputFaultsError with every fault.
    """
    loaded = draft_design(path)
    loaded.source.refuse()
    return loaded


def design_from_text(text: str, file: str) -> LoadedDesign:
    """Load a design from its text; `file` names it in faults.

    Raises InputFaultsError with every fault.
    """
    loaded = draft_from_text(text, file)
    loaded.source.refuse()
    return loaded


def draft_design(path: Path) -> LoadedDesign:
    """Load a design file whose faults, if any, stay in its source: stand-ins are where they are.

    For a caller that looks for faults elsewhere as well and refuses them all together: nobody may judge a draft.
    Raises InputFaultsError when the file is no such document at all.
    """
    return draft_from_text(read_text(path), str(path))


def draft_from_text(text: str, file: str) -> LoadedDesign:
    """Load a draft (see `draft_design`) from its text."""
    source = parse_text(text, file)
    check_header(source, DESIGN, Design)
    design = decode(source, Design)
    check_structure(design, source)
    return LoadedDesign(design, source, _hash(text))


def link(loaded: LoadedDesign, books: Mapping[str, CompiledBook]) -> None:
    """Raise InputFaultsError with everything that a design names and its books do not hold."""
    check_links(loaded.design, books, loaded.source)
    loaded.source.refuse()


def _hash(text: str) -> str:
    return hashlib.sha256(text.replace("\r\n", "\n").encode()).hexdigest()
