"""`linewright book`: look into a book, or check it."""

from __future__ import annotations

from pathlib import Path

import click

from linewright.app.books import book_files
from linewright.app.project import book_line, open_book
from linewright.app.shipped import shipped
from linewright.cli.common import (
    books_option,
    colour,
    faults_shown,
    json_option,
    unit_system,
    units_option,
    write_json,
)
from linewright.units import UnitSystem


@click.group("book")
def command() -> None:
    """Look into a book, or check it."""


@command.command("check")
@click.argument("book")
@books_option
@json_option
def check(book: str, books: tuple[Path, ...], *, as_json: bool) -> None:
    """Check that BOOK (a file or an id) can be understood: keys, units, names, bands, tables.

    Whether its numbers are the maker's, nobody but a reader of the maker's document can say.
    """
    with faults_shown(as_json=as_json):
        loaded = open_book(book, books)
    line = book_line(loaded.compiled.book)
    if as_json:
        write_json(
            {
                "schema": "linewright/book-check/1",
                "id": loaded.compiled.book.id,
                "sha256": loaded.sha256,
                "faults": [],
            }
        )
    else:
        click.echo(f"{loaded.compiled.book.id}: {line}")
        click.echo(
            "understood: keys, units, names, bands and tables hold together. "
            "Values, gaps and swapped rows are not audited."
        )


@command.command("show")
@click.argument("book", required=False)
@books_option
@units_option
def show(book: str | None, books: tuple[Path, ...], units: str | None) -> None:
    """Print what BOOK (a file or an id) says; without BOOK, list the books that are found."""
    if book is None:
        for name, path in sorted(book_files([*books, Path(), shipped("books")]).items()):
            click.echo(f"{name}  {path.name}")
        return
    with faults_shown(as_json=False):
        loaded = open_book(book, books)
    from linewright.report.book_text import book_text

    system = unit_system(units, UnitSystem.SI)
    click.echo(book_text(loaded.compiled, line=book_line(loaded.compiled.book), system=system, colour=colour()))
