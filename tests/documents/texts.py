"""The contract's two files, damaged at a marked place, and the faults that are found in them."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

from linewright.document.files import book_from_text, draft_from_text, load_book
from linewright.document.links import check_links
from linewright.errors import Fault, InputFaultsError

ROOT = Path(__file__).parents[2]
DESIGN_FILE = ROOT / "examples" / "boat-house" / "boat-house.design.yaml"
BOOK_FILE = ROOT / "books" / "minimal.book.yaml"
DESIGN = DESIGN_FILE.read_text(encoding="utf-8")
BOOK = BOOK_FILE.read_text(encoding="utf-8")
MARK = "«"


class Place(NamedTuple):
    """Line and column, counted from 1."""

    line: int
    column: int


class Expect(NamedTuple):
    """One fault: where, what is there, what is wrong, what would be right."""

    path: str
    value: str
    message: str
    expected: str


class Case(NamedTuple):
    """A change of one of the two files, with a mark before every place that is then faulty."""

    name: str
    old: str
    new: str
    faults: tuple[Expect, ...]


def case(name: str, old: str, new: str, *faults: tuple[str, str, str, str]) -> Case:
    return Case(name, old, new, tuple(Expect(*fault) for fault in faults))


def damaged(text: str, *changes: tuple[str, str]) -> tuple[str, list[Place]]:
    """Make changes, each to the one place where its text stands; gives the marked places."""
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times"
        text = text.replace(old, new)
    return unmarked(text)


def unmarked(text: str) -> tuple[str, list[Place]]:
    """Take the marks out of a text; gives their places."""
    parts = text.split(MARK)
    places = []
    before = ""
    for part in parts[:-1]:
        before += part
        places.append(Place(before.count("\n") + 1, len(before) - before.rfind("\n")))
    return "".join(parts), places


def design_faults(text: str, file: str = "boat.design.yaml") -> tuple[Fault, ...]:
    """Faults of a design, those of its links to the shipped book included."""
    try:
        draft = draft_from_text(text, file)
        check_links(draft.design, {"minimal": load_book(BOOK_FILE).compiled}, draft.source)
        draft.source.refuse()
    except InputFaultsError as error:
        return error.faults
    return ()


def book_faults(text: str, file: str = "some.book.yaml") -> tuple[Fault, ...]:
    """Faults of a book."""
    try:
        book_from_text(text, file)
    except InputFaultsError as error:
        return error.faults
    return ()


def told(faults: tuple[Fault, ...]) -> list[tuple[Place, Expect]]:
    """What the faults say, without the file."""
    return [
        (Place(fault.line, fault.column), Expect(fault.path, fault.value, fault.message, fault.expected))
        for fault in faults
    ]
