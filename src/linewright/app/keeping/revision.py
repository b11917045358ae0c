"""A design as a file has it, or as it was at a revision that is kept: `FILE`, `FILE@N`, `NAME.db/DESIGN@N`."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple, NoReturn

from linewright.app.books import library_of
from linewright.app.project import Project, open_edited, open_project
from linewright.document.files import draft_from_text
from linewright.document.links import check_links
from linewright.errors import Fault, InputFaultsError, one_of, quoted

if TYPE_CHECKING:
    from linewright.app.keeping.workspace import Workspace
    from linewright.document.files import LoadedBook
    from linewright.store import Document

_AT = re.compile(r"(?P<path>.+)@(?P<number>[0-9]{1,9})")
#: The database of an opened folder, in it.
_DATABASE = ".linewright.db"


class _Wanted(NamedTuple):
    """What was asked for: its text, the path within it, the number of the revision (none: the last)."""

    text: str
    path: Path
    number: int | None

    @property
    def in_database(self) -> bool:
        return self.path.parent.suffix == ".db" and not self.path.parent.is_dir()

    @property
    def database(self) -> Path:
        return self.path.parent if self.in_database else self.path.parent / _DATABASE


def open_side(text: str, book_folders: Sequence[Path] = ()) -> Project:
    """Open a design file, or a revision of one that is kept, with its books as they are now.

    Raises InputFaultsError where there is no such file, database, design or revision, or where it has faults.
    """
    wanted = _wanted(text)
    if not wanted.in_database and wanted.number is None:
        return open_project(wanted.path, book_folders)
    with _opened(wanted) as (found, books):
        number, kept = found
        place = wanted.path.with_name(f"{wanted.path.name}@{number}")
        if wanted.in_database:
            return _in_database(kept, place.as_posix(), books)
        return open_edited(kept, place, book_folders)


def _wanted(text: str) -> _Wanted:
    match = None if Path(text).is_file() else _AT.fullmatch(text)
    if match is None:
        return _Wanted(text, Path(text), None)
    return _Wanted(text, Path(match["path"]), int(match["number"]))


@contextmanager
def _opened(wanted: _Wanted) -> Iterator[tuple[tuple[int, str], dict[str, LoadedBook]]]:
    """Number and text of the revision, and the books of its project."""
    from linewright.app.keeping.workspace import Workspace  # noqa: PLC0415 - a database is rarely wanted
    from linewright.store import NotThereError, StoreError, open_store  # noqa: PLC0415 - the same

    if not wanted.database.is_file():
        kept = "a database NAME.db" if wanted.in_database else "a design in a folder that was served, and is kept"
        message = f"there is no database {quoted(wanted.database.as_posix())}"
        _refuse(wanted, message, kept)
    try:
        store = open_store(wanted.database)
    except StoreError as error:
        _refuse(wanted, error.message, error.expected)
    try:
        workspace = Workspace(store)
        document = _document(wanted, workspace)
        number = document.head if wanted.number is None else wanted.number
        try:
            revision = workspace.revision(document.id, number)
        except NotThereError:
            message = f"there is no revision {number} of it"
            _refuse(wanted, message, f"1 to {document.head}")
        except StoreError as error:
            _refuse(wanted, error.message, error.expected)
        yield (number, revision.text), workspace.shelf(document.project_id).books
    finally:
        store.close()


def _document(wanted: _Wanted, workspace: Workspace) -> Document:
    """The one design of that name, or of that file, in all projects of the database."""
    from linewright.store import documents  # noqa: PLC0415 - a database is rarely wanted

    with workspace.store.reading() as connection:
        designs = [
            document
            for project in documents.list_projects(connection)
            for document in documents.list_documents(connection, project.id, "design")
        ]
    name = wanted.path.name
    found = [document for document in designs if name in (document.file, document.name)]
    known = one_of(name, [document.file or document.name for document in designs])
    if not found:
        message = f"no design is called {quoted(name)} there"
        _refuse(wanted, message, known)
    if len(found) > 1:
        message = f"{len(found)} designs are called {quoted(name)} there"
        _refuse(wanted, message, "a name that one design has")
    return found[0]


def _in_database(text: str, name: str, books: dict[str, LoadedBook]) -> Project:
    loaded = draft_from_text(text, name)
    wanted = {system.book for system in loaded.design.systems}
    mine = {key: book for key, book in sorted(books.items()) if key in wanted}
    check_links(loaded.design, {key: book.compiled for key, book in books.items()}, loaded.source)
    loaded.source.refuse()
    return Project(loaded, mine, library_of(mine))


def _refuse(wanted: _Wanted, message: str, expected: str) -> NoReturn:
    fault = Fault(file=wanted.text, line=0, column=0, path="", value="", message=message, expected=expected)
    raise InputFaultsError((fault,))
