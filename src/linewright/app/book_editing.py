"""Editing a book file: read the edits, apply them, save the book into the same text."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import NamedTuple, get_args

from linewright.app.editing import whole_text
from linewright.app.output import write_aside
from linewright.book.edits import AppliedToBook, BookEdit, SetValue, apply_to_book
from linewright.book.schema import Book
from linewright.document.book_edits import book_edits_from_text
from linewright.document.book_paths import NoPlaceError, meant, place_in
from linewright.document.book_table import table_from_grid
from linewright.document.encode import Style, encode
from linewright.document.files import load_book
from linewright.document.grid import grid_from_text, grid_of
from linewright.document.render import Form
from linewright.document.saving import save_book
from linewright.errors import Fault, InputFaultsError
from linewright.model.edits import EditRefusedError
from linewright.units import UnitSystem


class EditedBook(NamedTuple):
    """A book file before and after an edit, the edit with what it did, and the text of the file after it."""

    path: Path
    edit: BookEdit
    applied: AppliedToBook
    text: str
    before: Book


def edit_book(path: Path, edits: str, edits_file: str) -> EditedBook:
    """Apply edits, given as their text, to a book file without writing it.

    Raises InputFaultsError where the book or the edits are not understood, or where no sound book comes of them.
    """
    before = load_book(path).compiled.book
    return _applied(path, before, book_edits_from_text(edits, edits_file, before), edits_file)


def table_edits(at: str, name: str, pasted: str | None, before: Book | None) -> SetValue:
    """Read a table out of a file, or out of pasted text, as what may stand at a path of a book.

    before : the book, or none for what any book may have there

    Raises InputFaultsError with every cell that is not understood.
    """
    try:
        place = place_in(before, at)
    except NoPlaceError as error:
        fault = Fault(file=name, line=0, column=0, path=at, value=at, message=str(error), expected=error.expected)
        raise InputFaultsError((fault,)) from None
    grid = grid_of(name) if pasted is None else grid_from_text(pasted, name)
    return table_from_grid(grid, place)


def edit_table(path: Path, at: str, name: str, pasted: str | None) -> EditedBook:
    """Put a table into a book file without writing it; raises as `table_edits` and `edit_book` do."""
    before = load_book(path).compiled.book
    edit = table_edits(at, name, pasted, before)
    return _applied(path, before, edit, name)


def table_text(at: str, name: str, pasted: str | None, units: UnitSystem) -> str:
    """Give a table as the text that stands in a book; raises as `table_edits` does."""
    edit = table_edits(at, name, pasted, None)
    hint = meant(place_in(None, at).hint, None)
    if isinstance(edit.path[-1], int):
        hint = get_args(hint)[0]
    return Form().block(encode(edit.to, hint, Style(units)), 0)


def _applied(path: Path, before: Book, edit: BookEdit, edits_file: str) -> EditedBook:
    try:
        applied = apply_to_book(before, edit)
    except EditRefusedError as error:
        raise InputFaultsError(replace(fault, file=edits_file) for fault in error.faults) from None
    return EditedBook(path, edit, applied, save_book(whole_text(path), applied.book), before)


def write_book(edited: EditedBook) -> None:
    """Write the edited text in place of the file; raises OSError."""
    write_aside(edited.path, edited.text)
