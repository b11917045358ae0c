"""The few calls that a notebook or a script needs."""

from __future__ import annotations

from pathlib import Path

from linewright.app.books import book_files, library_of
from linewright.document.files import load_book, load_design
from linewright.engine import Library
from linewright.model.design import Design


def load(path: str | Path) -> Design:
    """Load a design file; the books that it names are not looked up.

    Raises InputFaultsError with every fault of the file.
    """
    return load_design(Path(path)).design


def load_library(path: str | Path) -> Library:
    """Load one book file, or every book of a folder.

    Raises InputFaultsError with the faults of the first book that has any.
    """
    given = Path(path)
    files = list(book_files([given]).values()) if given.is_dir() else [given]
    books = [load_book(file) for file in files]
    return library_of({book.compiled.book.id: book for book in books})
