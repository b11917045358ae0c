"""Opening a design with the books it names, and evaluating it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from linewright.app.books import book_files, check_folders, find_books, library_of
from linewright.app.shipped import shipped
from linewright.book.schema import Book
from linewright.document.files import LoadedBook, LoadedDesign, draft_design, draft_from_text, load_book
from linewright.document.links import check_links
from linewright.engine import Evaluation, Library, evaluate
from linewright.errors import Fault, InputFaultsError, one_of, quoted


class Project(NamedTuple):
    """A sound design, the books it names and the library made of them."""

    loaded: LoadedDesign
    books: dict[str, LoadedBook]
    library: Library

    def evaluate(self) -> Evaluation:
        """Judge the design."""
        return evaluate(self.loaded.design, self.library)

    def file_names(self) -> dict[str, str]:
        """Name of the file behind `design` and each `book:ID`, as the working writes them."""
        names = {"design": Path(self.loaded.source.file).name}
        return names | {f"book:{name}": Path(book.source.file).name for name, book in self.books.items()}

    def book_lines(self) -> dict[str, str]:
        """One line about each book: title, edition, date, status, refrigerant."""
        return {name: book_line(book.compiled.book) for name, book in self.books.items()}


def book_line(book: Book) -> str:
    """Say which book this is and how far it may be trusted."""
    document = book.document
    trust = {
        "demonstration": "demonstration data, not for construction",
        "transcribed": "transcribed, not yet checked",
    }
    status = trust.get(book.status.value, book.status.value)
    return f"book {book.title}, edition {document.edition}, {document.date} ({status}); {book.refrigerant}"


def open_project(path: Path, book_folders: Sequence[Path] = ()) -> Project:
    """Open a design and its books.

    Raises InputFaultsError with the faults of the design, of its books and of the links between them.
    """
    check_folders(book_folders)
    return _with_books(draft_design(path), path, book_folders)


def open_edited(text: str, path: Path, book_folders: Sequence[Path] = ()) -> Project:
    """Open the text that is to stand in a design file, and its books; raises as `open_project` does."""
    return _with_books(draft_from_text(text, str(path)), path, book_folders)


def _with_books(draft: LoadedDesign, path: Path, book_folders: Sequence[Path]) -> Project:
    wanted = (system.book for system in draft.design.systems)
    found = find_books(wanted, [*book_folders, path.parent])
    compiled = {name: book.compiled for name, book in found.sound.items()}
    check_links(draft.design, compiled, draft.source, faulty=found.faulty, ids=found.ids)
    errors = [error for error in (draft.source.error(), *found.faulty.values()) if error is not None]
    if errors:
        raise InputFaultsError.together(errors)
    return Project(draft, found.sound, library_of(found.sound))


def open_book(name: str, book_folders: Sequence[Path] = ()) -> LoadedBook:
    """Open a book by file or by id.

    Raises InputFaultsError when there is none or it has faults.
    """
    check_folders(book_folders)
    path = Path(name)
    if path.suffix in {".yaml", ".yml", ".json"} or path.is_file():
        return load_book(path)
    files = book_files([*book_folders, Path(), shipped("books")])
    if name in files:
        return load_book(files[name])
    fault = Fault(
        file=name,
        line=0,
        column=0,
        path="",
        value=name,
        message=f"there is no book {quoted(name)}",
        expected=f"a file, or {one_of(name, files)}",
    )
    raise InputFaultsError((fault,))
