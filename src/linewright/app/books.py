"""Finding books by id: beside the design, in a folder that is named, among the shipped demonstrations."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import NamedTuple

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


class FoundBooks(NamedTuple):
    """The wanted books by id: the sound ones, and what is wrong with the others; the ids of all that there are."""

    sound: dict[str, LoadedBook]
    faulty: dict[str, InputFaultsError]
    ids: tuple[str, ...]


def find_books(wanted: Iterable[str], folders: Sequence[Path]) -> FoundBooks:
    """Load the wanted books; an id that no folder holds is left out."""
    files = book_files([*folders, shipped("books")])
    found = FoundBooks({}, {}, tuple(files))
    for name in sorted(set(wanted) & files.keys()):
        try:
            found.sound[name] = load_book(files[name])
        except InputFaultsError as error:
            found.faulty[name] = error
    return found


def check_folders(folders: Sequence[Path]) -> None:
    """Raise InputFaultsError for every folder that does not exist: its books would be missed without a word."""
    faults = [
        Fault(
            file=str(folder),
            line=0,
            column=0,
            path="",
            value=str(folder),
            message="there is no such folder",
            expected="a folder that holds books",
        )
        for folder in folders
        if not folder.is_dir()
    ]
    if faults:
        raise InputFaultsError(faults)


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
