"""Editing a book file: read the edits, apply them, save the book into the same text."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

from linewright.app.editing import whole_text
from linewright.app.output import write_aside
from linewright.book.edits import AppliedToBook, BookEdit, apply_to_book
from linewright.book.schema import Book
from linewright.document.book_edits import book_edits_from_text
from linewright.document.files import load_book
from linewright.document.saving import save_book
from linewright.errors import InputFaultsError
from linewright.model.edits import EditRefusedError


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
    edit = book_edits_from_text(edits, edits_file, before)
    try:
        applied = apply_to_book(before, edit)
    except EditRefusedError as error:
        raise InputFaultsError(replace(fault, file=edits_file) for fault in error.faults) from None
    return EditedBook(path, edit, applied, save_book(whole_text(path), applied.book), before)


def write_book(edited: EditedBook) -> None:
    """Write the edited text in place of the file; raises OSError."""
    write_aside(edited.path, edited.text)
