"""The few calls that a notebook or a script needs."""

from __future__ import annotations

from dataclasses import dataclass
from html import escape
from pathlib import Path

from linewright.app.books import book_files, library_of
from linewright.document.files import load_book, load_design
from linewright.draw import layout, sheet_scene, svg
from linewright.engine import Evaluation, Library
from linewright.engine.records import Check
from linewright.model.design import Design
from linewright.report.reasons import number
from linewright.units import UnitSystem


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


@dataclass(frozen=True, slots=True)
class Sheet:
    """The sheet of one system; a notebook shows it as a picture."""

    svg: str

    def _repr_svg_(self) -> str:
        """Give the picture to a notebook."""
        return self.svg


@dataclass(frozen=True, slots=True)
class Checks:
    """Verdicts as rows; a notebook shows them as a table, and a plain terminal as lines."""

    rows: tuple[Check, ...]
    units: UnitSystem

    def __str__(self) -> str:
        """Give one line for each verdict."""
        return "\n".join("  ".join(cell for cell in self._cells(row) if cell) for row in self.rows)

    def _repr_html_(self) -> str:
        """Give the table to a notebook."""
        heads = "".join(f"<th>{head}</th>" for head in ("check", "value", "bound", "left", "standing"))
        lines = "".join(
            f"<tr>{''.join(f'<td>{escape(cell)}</td>' for cell in self._cells(row))}</tr>" for row in self.rows
        )
        return f"<table><thead><tr>{heads}</tr></thead><tbody>{lines}</tbody></table>"

    def _cells(self, check: Check) -> tuple[str, ...]:
        numbers = (check.value, check.bound, check.margin)
        value, bound, margin = (number(item, check.dimension, self.units) for item in numbers)
        return check.subject, value, f"{check.sense} {bound}" if check.bound is not None else "", margin, check.standing


def show_sheet(evaluation: Evaluation, library: Library, system: str = "") -> Sheet:
    """Draw the sheet of one system (the first, where none is named).

    Raises KeyError for a system that the evaluation does not hold.
    """
    results = {result.id: result for result in evaluation.systems}
    result = results[system] if system else evaluation.systems[0]
    book = library.books[result.book].book
    return Sheet(svg(sheet_scene(layout(evaluation, result, book=book), evaluation.design.units)))


def show_checks(evaluation: Evaluation, *, units: UnitSystem | None = None) -> Checks:
    """Collect every verdict of an evaluation: limits, other checks, rooms."""
    rows = [check for result in evaluation.systems for check in (*result.limits, *result.checks)]
    rows += [check for room in evaluation.rooms for check in room.checks]
    return Checks(tuple(rows), units or evaluation.design.units)
