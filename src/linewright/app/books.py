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
from linewright.errors import Fault, InputFaultsError, quoted

#: So many letters of a file are searched for its id.
_START = 20_000
PATTERNS = ("*.book.yaml", "*.book.yml", "*.book.json")
_VALUE = r"""\s*:\s*(?:"([^"\n]*)"|'([^'\n]*)'|([^\s,#"'}][^,#\n}]*))"""
#: At the left edge of a document, as it is written by hand; anywhere, as in JSON.
_IDS = (re.compile(rf"^id{_VALUE}", re.MULTILINE), re.compile(rf"""[\s{{,]["']?id["']?{_VALUE}"""))


def book_files(folders: Sequence[Path]) -> dict[str, Path]:
    """Give the file of every book id found in the folders; an earlier folder wins."""
    return {name: paths[0] for name, paths in _all_files(folders).items()}


def _all_files(folders: Sequence[Path]) -> dict[str, list[Path]]:
    """Files of every book id: those of the first folder that holds it."""
    found: dict[str, list[Path]] = {}
    for folder in dict.fromkeys(folders):
        here: dict[str, list[Path]] = {}
        for path in sorted(path for pattern in PATTERNS for path in folder.glob(pattern)):
            name = _peek(path)
            if name is not None:
                here.setdefault(name, []).append(path)
        found = {**here, **found}
    return found


class FoundBooks(NamedTuple):
    """The wanted books by id: the sound ones, and what is wrong with the others; the ids of all that there are."""

    sound: dict[str, LoadedBook]
    faulty: dict[str, InputFaultsError]
    ids: tuple[str, ...]


def find_books(wanted: Iterable[str], folders: Sequence[Path]) -> FoundBooks:
    """Load the wanted books; an id that no folder holds is left out."""
    files = _all_files([*folders, shipped("books")])
    found = FoundBooks({}, {}, tuple(files))
    for name in sorted(set(wanted) & files.keys()):
        try:
            found.sound[name] = load_book(_only(name, files[name]))
        except InputFaultsError as error:
            found.faulty[name] = error
    return found


def _only(name: str, paths: Sequence[Path]) -> Path:
    """The one file of a book; which of two is meant, nobody could say."""
    if len(paths) > 1:
        fault = Fault(
            file=str(paths[1]),
            line=0,
            column=0,
            path="id",
            value=name,
            message=f"the book {quoted(name)} stands in {paths[0].name} as well",
            expected="another id, or one of the files in another folder",
        )
        raise InputFaultsError((fault,))
    return paths[0]


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
        with path.open(encoding="utf-8-sig", errors="replace") as file:
            start = file.read(_START)
    except OSError:
        return None
    match = next((match for pattern in _IDS if (match := pattern.search(start))), None)
    return next(text for text in match.groups() if text is not None).strip() if match else None
