"""What a sweep is made of, read once: so that every process judges the same, and a change is noticed."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import NamedTuple

from linewright import __version__
from linewright.app.books import check_folders, find_books
from linewright.app.project import Project, open_edited
from linewright.app.sweeps.checking import check_cases, check_shown
from linewright.document.files import LoadedBook, book_from_text, design_from_text
from linewright.document.reading import read_text
from linewright.document.source import step
from linewright.document.sweeps import Sweep, sweep_from_text
from linewright.engine import Library, evaluate
from linewright.errors import Fault, InputFaultsError, quoted
from linewright.explore.sweeps import Bench, plan_columns
from linewright.model.design import System
from linewright.model.edits import AddSystem, Batch, Edit, Put, Set
from linewright.takeoff import PriceList, read_prices


class Text(NamedTuple):
    """A document as it was read: its file, and its text."""

    file: str
    text: str


class Job(NamedTuple):
    """Everything that a process needs to judge rows, as texts.

    books : by id; files : of books that are varied, by the name under which the sweep names them
    shown : the subjects, each by its own name
    """

    design: Text
    sweep: Text
    books: tuple[tuple[str, Text], ...]
    files: tuple[tuple[str, Text], ...]
    shown: tuple[str, ...]
    prices: PriceList | None

    def digest(self) -> str:
        """Hash of all that decides what a row says; where files lie does not count, nor how lines end."""
        texts = [self.design.text, self.sweep.text, *self.shown, repr(self.prices), __version__]
        texts += [part for name, found in (*self.books, *self.files) for part in (name, found.text)]
        plain = json.dumps([text.replace("\r\n", "\n") for text in texts])
        return hashlib.sha256(plain.encode()).hexdigest()


class Prepared(NamedTuple):
    """A job, what it was made of, and the bench that rows are judged on in this process."""

    job: Job
    project: Project
    bench: Bench


def prepare(design: Path, spec: Path, folders: Sequence[Path], prices: str | None = None) -> Prepared:
    """Read a design, a sweep and every book that either names.

    Raises InputFaultsError with the faults of the design and of its books, then of the sweep and of what it names.
    """
    check_folders(folders)
    drawn = Text(str(design), read_text(design))
    project = open_edited(drawn.text, design, folders)
    text = Text(str(spec), read_text(spec))
    found = sweep_from_text(text.text, text.file)
    files = _varied(found, spec, project)
    check_cases(project.loaded.design, found, text.file)
    named = find_books(_named(found), [*folders, design.parent])
    if named.faulty:
        raise InputFaultsError.together(named.faulty.values())
    books = project.books | named.sound
    evaluation = project.evaluate()
    shown = check_shown(evaluation, found, text.file)
    job = Job(
        design=drawn,
        sweep=text,
        books=tuple((name, Text(book.source.file, _text(book))) for name, book in sorted(books.items())),
        files=tuple((name, Text(book.source.file, _text(book))) for name, book in sorted(files.items())),
        shown=tuple(shown),
        prices=None if prices is None else read_prices(prices),
    )
    return Prepared(job, project, bench_of(job))


def bench_of(job: Job) -> Bench:
    """Make the bench of a job; pure, the same in every process."""
    books = {name: book_from_text(text.text, text.file) for name, text in job.books}
    files = {name: book_from_text(text.text, text.file) for name, text in job.files}
    design = design_from_text(job.design.text, job.design.file).design
    found = sweep_from_text(job.sweep.text, job.sweep.file)
    library = Library.of({name: book.compiled for name, book in books.items()})
    plan = plan_columns(evaluate(design, library), job.shown, job.prices, found.systems)
    return Bench(design, books, files, found, plan)


def _text(book: LoadedBook) -> str:
    return read_text(Path(book.source.file))


def _varied(found: Sweep, spec: Path, project: Project) -> dict[str, LoadedBook]:
    """The files of books that are varied, by the names that the sweep has for them; they lie beside it."""
    files: dict[str, LoadedBook] = {}
    errors: list[InputFaultsError] = []
    for axis in found.axes:
        if axis.book and axis.book not in project.books:
            message = f"no system of the design has the book {quoted(axis.book)}"
            errors.append(_error(spec, axis.place.line, axis.place.column, (step(axis.place.path, "book"), message)))
        for case in axis.cases if axis.book else ():
            try:
                path = spec.parent / case.file
                files[case.file] = book_from_text(read_text(path), str(path))
            except InputFaultsError as error:
                errors.append(error)
                continue
            stated = files[case.file].compiled.book.id
            if stated != axis.book:
                message = f"the book in {case.file} is {quoted(stated)}, not {quoted(axis.book)}"
                errors.append(_error(spec, case.place.line, case.place.column, (case.place.path, message)))
    if errors:
        raise InputFaultsError.together(errors)
    return files


def _error(file: Path, line: int, column: int, said: tuple[str, str]) -> InputFaultsError:
    path, message = said
    right = "a book that a system of the design has, and files of that book"
    fault = Fault(file=str(file), line=line, column=column, path=path, value="", message=message, expected=right)
    return InputFaultsError((fault,))


def _named(found: Sweep) -> Iterator[str]:
    """Ids of the books that the values of a sweep name."""
    for axis in found.axes:
        for case in axis.cases:
            yield from _books_of((case.edit,))


def _books_of(edits: Iterable[Edit]) -> Iterator[str]:
    for edit in edits:
        if isinstance(edit, Batch):
            yield from _books_of(edit.edits)
        elif isinstance(edit, AddSystem):
            yield edit.added.book
        elif isinstance(edit, Put) and isinstance(edit.item, System):
            yield edit.item.book
        elif isinstance(edit, Set) and isinstance(book := edit.values.get("book"), str):
            yield book
