"""What edits did to a book: in words, each with what stood there before, and as `linewright/book-edits/1`."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from linewright.book.edits import AppliedToBook, BookBatch, BookEdit, carry_out
from linewright.book.schema import Book
from linewright.document.book_edits import encode_book_edits
from linewright.document.encode import Style, Tree
from linewright.document.render import Form
from linewright.report.page import Page

SCHEMA = "linewright/book-edits/1"


def book_edits_text(edit: BookEdit, applied: AppliedToBook, before: Book, *, colour: bool, dry_run: bool) -> str:
    """Write each edit, and where a value gave way to another, what it was."""
    page = Page(colour=colour)
    page.text(f"{before.id}:")
    for line in _lines(edit, before):
        page.text(line, indent=2)
    page.text("Lay it beside the maker's page again: nobody but a reader of it can say that the book is right.")
    if applied.book.status != before.status:
        page.text(f"Status: {before.status} before, {applied.book.status} after.")
    if dry_run:
        page.text("Nothing was written.")
    return str(page)


def book_edits_json(edit: BookEdit, applied: AppliedToBook, before: Book, *, dry_run: bool) -> dict[str, Any]:
    """Give what was applied and what undoes it."""
    return {
        "schema": SCHEMA,
        "dry_run": dry_run,
        "id": before.id,
        "applied": _plain(edit, before),
        "inverse": _plain(applied.inverse, applied.book),
    }


def _plain(edit: BookEdit, book: Book) -> list[dict[str, Any]]:
    made: list[dict[str, Any]] = json.loads(Form(as_json=True).flow(encode_book_edits(edit, book, Style())))
    return made


def _lines(edit: BookEdit, book: Book) -> Iterator[str]:
    for one in edit.edits if isinstance(edit, BookBatch) else (edit,):
        done = carry_out(book, one)
        yield from (_line(tree, done) for tree in encode_book_edits(one, book, Style()))
        book = done.book


def _line(tree: Tree, done: AppliedToBook) -> str:
    words = dict(tree) if isinstance(tree, dict) else {}
    kind, at = (Form().flow(words[key]) for key in ("edit", "at"))
    value = words.get("to", words.get("item"))
    line = f"{kind} {at}" + ("" if value is None else f": {Form().flow(value)}")
    (undo,) = encode_book_edits(done.inverse, done.book, Style())
    was = undo.get("to", undo.get("item")) if isinstance(undo, dict) else None
    return line if was is None else f"{line} (was {Form().flow(was)})"
