"""An open database with what is at hand of it: documents as values, libraries, evaluations."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from datetime import UTC, datetime
from functools import cache, partial
from threading import Lock
from typing import Any, NamedTuple, Protocol

from sqlalchemy import Connection

from linewright.app.books import book_files
from linewright.app.keeping.kinds import BOOK, DESIGN, KINDS, Kind
from linewright.app.keeping.memory import Memory
from linewright.app.shipped import shipped
from linewright.document.files import LoadedBook, book_from_text, load_book
from linewright.document.links import check_links
from linewright.engine import Evaluation, Library, evaluate
from linewright.errors import InputFaultsError
from linewright.model.design import Design
from linewright.model.edits.faults import Found
from linewright.store import Document, Revision, Store, StoreError, documents, revisions

_DESIGNS, _EVALUATIONS, _BOOKS = 64, 24, 32


class Shelf(NamedTuple):
    """The books that a project can use: its own and the shipped ones; `key` tells one state of them from another."""

    books: dict[str, LoadedBook]
    key: tuple[tuple[str, str], ...]

    @property
    def library(self) -> Library:
        """Give the library that an evaluation looks up."""
        compiled = {name: book.compiled for name, book in self.books.items()}
        return Library.of(compiled, {name: book.sha256 for name, book in self.books.items()})


class Judged(NamedTuple):
    """An evaluation, and the state of the books that it was made on."""

    shelf: tuple[tuple[str, str], ...]
    evaluation: Evaluation

    @classmethod
    def ahead(cls, design: Design, shelf: Shelf) -> Judged:
        """Judge a design that names only what the books hold, before it is kept."""
        return cls(shelf.key, evaluate(design, shelf.library))


class Begun(NamedTuple):
    """What a change begins with: the document, the revision that the same request made if it came before, the books.

    Only a design has books.
    """

    document: Document
    made: int | None
    shelf: Shelf | None


class Files(Protocol):
    """What keeps documents in step with files."""

    def bring_in(self, document: Document) -> None:
        """Take in what was changed outside."""

    def changed(self, document: int) -> None:
        """Save a document to its file, soon."""


class Workspace:
    """What the program works with while a database is open."""

    def __init__(self, store: Store, *, now: Callable[[], str] | None = None) -> None:
        """Keep the database; `now` gives the time, as it is written."""
        self.store, self.now = store, now or _now
        self._values: Memory[tuple[int, int], Any] = Memory(_DESIGNS)
        self._judged: Memory[tuple[int, int, tuple[tuple[str, str], ...]], Evaluation] = Memory(_EVALUATIONS)
        self._read: Memory[tuple[int, int, str], LoadedBook] = Memory(_BOOKS)
        self._writing: dict[int, Lock] = {}
        self.files: Files | None = None

    def document(self, kind: str, document: int) -> Document:
        """Find a document; raises NotThereError."""
        with self.store.reading() as connection:
            return documents.find_document(connection, kind, document)

    def revision(self, document: int, number: int) -> Revision:
        """Read a revision; raises NotThereError, and StoreError where it is not what was written."""
        with self.store.reading() as connection:
            return revisions.read(connection, document, number, place=self.store.place)

    def value(self, document: Document, number: int) -> Any:  # noqa: ANN401 - a design or a book
        """Give a document as it was at a revision; raises as `revision` does."""
        return self._values.get((document.id, number), lambda: self._parsed(document, number))

    def remember(self, document: int, number: int, value: object) -> None:
        """Keep at hand what was just made."""
        self._values.put((document, number), value)

    def alone(self, document: int) -> Lock:
        """Give the lock of a document: changes of it within this program wait for each other."""
        return self._writing.setdefault(document, Lock())

    def shelf(self, project: int) -> Shelf:
        """Give the books that a project can use."""
        with self.store.reading() as connection:
            return _shelf(self._own_books(connection, project))

    def begun(self, kind: Kind, document: int, key: str = "") -> Begun:
        """Read what a change begins with, all of it of one state of the database; raises NotThereError."""
        with self.store.reading() as connection:
            found = documents.find_document(connection, kind.name, document)
            made = revisions.number_of_request(connection, found.id, key) if key else None
            shelf = _shelf(self._own_books(connection, found.project_id)) if kind is DESIGN else None
        return Begun(found, made, shelf)

    def _own_books(self, connection: Connection, project: int) -> list[LoadedBook]:
        """Give the books of a project; of one that is at hand as its head is, only that head is looked up."""
        own = documents.list_documents(connection, project, BOOK.name)
        return [self._read.get((one.id, one.head, one.name), partial(self._book, connection, one)) for one in own]

    def _book(self, connection: Connection, document: Document) -> LoadedBook:
        revision = revisions.read(connection, document.id, document.head, place=self.store.place)
        return book_from_text(revision.text, document.name)

    def judge(self, document: Document, number: int) -> Evaluation:
        """Judge a design as it was at a revision, on the books as they are now.

        Raises InputFaultsError where it names what these do not hold.
        """
        shelf = self.shelf(document.project_id)
        key = (document.id, number, shelf.key)
        return self._judged.get(key, lambda: judged(self.value(document, number), shelf))

    def remember_judged(self, document: int, number: int, found: Judged) -> None:
        """Keep at hand how a revision that is on the disk was judged."""
        self._judged.put((document, number, found.shelf), found.evaluation)

    def _parsed(self, document: Document, number: int) -> Any:  # noqa: ANN401 - a design or a book
        revision = self.revision(document.id, number)
        try:
            return KINDS[document.kind].read(revision.text, document.name)
        except InputFaultsError as error:
            what = f"revision {number} of {document.kind} {document.id}"
            raise StoreError(
                self.store.place, f"{what} is not understood any more: {error}", "a document that this version can read"
            ) from None


def judged(design: Design, shelf: Shelf) -> Evaluation:
    """Judge a design; raises InputFaultsError where it names what the books do not hold."""
    check_against(design, shelf)
    return evaluate(design, shelf.library)


def check_against(design: Design, shelf: Shelf) -> None:
    """Raise InputFaultsError with everything that a design names and the books do not hold."""
    notes = Found(design)
    check_links(design, {name: book.compiled for name, book in shelf.books.items()}, notes)
    if notes.faults:
        raise InputFaultsError(notes.faults)


def _shelf(own: Iterable[LoadedBook]) -> Shelf:
    """Give the books that a project can use: one of its own goes before a shipped one of the same id."""
    books = {**shipped_books(), **{book.compiled.book.id: book for book in own}}
    return Shelf(books, tuple(sorted((name, book.sha256) for name, book in books.items())))


@cache
def shipped_books() -> dict[str, LoadedBook]:
    """Give the demonstration books."""
    return {name: load_book(path) for name, path in book_files([shipped("books")]).items()}


def _now() -> str:
    return datetime.now(UTC).isoformat(timespec="milliseconds")


__all__ = ["BOOK", "DESIGN", "Shelf", "Workspace", "check_against", "judged", "shipped_books"]
