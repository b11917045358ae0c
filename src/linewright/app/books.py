"""Finding books by id: beside the design, in a folder that is named, among the shipped demonstrations."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from pathlib import Path

from linewright.app.shipped import shipped
from linewright.document.files import LoadedBook, load_book
from linewright.document.source import MOST_BYTES
from linewright.engine import Library
from linewright.errors import Fault, InputFaultsError

PATTERNS = ("*.book.yaml", "*.book.yml", "*.book.json")
_ID = re.compile(r"""^\s*["']?id["']?\s*:\s*["']?([^"'\s,#]+)""", re.MULTILINE)


def book_files(folders: Sequence[Path]) -> dict[str, Path]:
    """Give the file of every book id found in the folders; an earlier folder wins."""
    found: dict[str, Path] = {}
    for folder in folders:
        for pattern in PATTERNS:
            for path in sorted(folder.glob(pattern)):
                name = _peek(path)
                if name is not None:
                    found.setdefault(name, path)
    return found


def find_books(wanted: Iterable[str], folders: Sequence[Path]) -> dict[str, LoadedBook]:
    """Load the wanted books; an id that no folder holds is left out.

    Raises InputFaultsError with the faults of every wanted book.
    """
    files = book_files([*folders, shipped("books")])
    loaded: dict[str, LoadedBook] = {}
    faults: list[Fault] = []
    for name in sorted(set(wanted)):
        if name not in files:
            continue
        try:
            loaded[name] = load_book(files[name])
        except InputFaultsError as error:
            faults.extend(error.faults)
    if faults:
        raise InputFaultsError(tuple(faults))
    return loaded


def library_of(books: dict[str, LoadedBook]) -> Library:
    """Make the library that an evaluation looks up."""
    return Library.of(
        {name: book.compiled for name, book in books.items()},
        {name: book.sha256 for name, book in books.items()},
    )


def _peek(path: Path) -> str | None:
    """Read the id of a book without parsing the whole file."""
    try:
        if path.stat().st_size > MOST_BYTES:
            return None
        with path.open(encoding="utf-8", errors="replace") as file:
            match = _ID.search(file.read(4000))
    except OSError:
        return None
    return match[1] if match else None
