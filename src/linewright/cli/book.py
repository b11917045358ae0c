"""`linewright book`: look into a book, or check it."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from linewright.app.books import book_files
from linewright.app.project import book_line, open_book
from linewright.app.shipped import shipped
from linewright.book.schema import Kind
from linewright.cli.common import (
    Exit,
    books_option,
    colour,
    faults_shown,
    json_option,
    unit_system,
    units_option,
    write_json,
)
from linewright.document.reading import read_text
from linewright.units import Dimension, UnitFault, UnitSystem, parse_as

STDIN = "-"


@click.group("book")
def command() -> None:
    """Look into a book, or check it."""


@command.command("check")
@click.argument("book")
@books_option
@json_option
def check(book: str, books: tuple[Path, ...], *, as_json: bool) -> None:
    """Check that BOOK (a file or an id) can be understood, and ask what a careful reader would ask of it.

    A doubt is no fault: the book can be used, and somebody should look. Whether its numbers are the maker's, nobody but
    a reader of the maker's document can say.
    """
    from linewright.app.auditing import doubts_of
    from linewright.report.audit_text import audit_json, audit_text

    with faults_shown(as_json=as_json):
        loaded = open_book(book, books)
    doubts = doubts_of(loaded.compiled.book)
    if as_json:
        write_json(audit_json(loaded, doubts))
    else:
        click.echo(audit_text(loaded, doubts, line=book_line(loaded.compiled.book), colour=colour()))
    raise SystemExit(Exit.UNJUDGED if doubts else Exit.FINE)


@command.command("new")
@click.argument("name")
@click.option("-o", "--output", "output", type=click.Path(path_type=Path), default=None, help="File to write.")
@click.option(
    "--kind",
    "kind",
    type=click.Choice([kind.value for kind in Kind]),
    default=Kind.HEAT_PUMP.value,
    help="Kind of family.",
)
@click.option("--refrigerant", "refrigerant", default="", help="Its designation, such as R-32.")
@units_option
def new(name: str, output: Path | None, *, kind: str, refrigerant: str, units: str | None) -> None:
    """Write a book to be filled in, with the id NAME: every section, with where a document usually prints it.

    What is blank in it is told by `linewright book check` until it is typed. No file is written over.
    """
    from linewright.app.new_book import write_skeleton

    path = Path(f"{name}.book.yaml") if output is None else output
    with faults_shown(as_json=False):
        write_skeleton(path, name, Kind(kind), units=unit_system(units, UnitSystem.SI), refrigerant=refrigerant)
    click.echo(f"wrote {path}: type what is blank from the maker's document; linewright book check {path} lists it")


@command.command("edit")
@click.argument("book", type=click.Path(path_type=Path))
@click.argument("edits")
@click.option("--dry-run", "dry_run", is_flag=True, help="Say what would change, and write nothing.")
@json_option
def edit(book: Path, edits: str, *, dry_run: bool, as_json: bool) -> None:
    """Apply EDITS (a file of edits, or - for standard input) to the file BOOK, all of them or none.

    What the edits do not touch keeps its text, order and comments. With --json the edits that undo them are written as
    well, and are accepted as EDITS.
    """
    from linewright.app.book_editing import edit_book, write_book
    from linewright.report.book_edits_text import book_edits_json, book_edits_text

    with faults_shown(as_json=as_json):
        text = sys.stdin.read() if edits == STDIN else read_text(Path(edits))
        edited = edit_book(book, text, edits)
        data = book_edits_json(edited.edit, edited.applied, edited.before, dry_run=dry_run)
        shown = book_edits_text(edited.edit, edited.applied, edited.before, colour=colour(), dry_run=dry_run)
        if not dry_run:
            write_book(edited)
    if as_json:
        write_json(data)
    else:
        click.echo(shown)


@command.command("table")
@click.argument("at")
@click.argument("table")
@click.option("--into", "into", type=click.Path(path_type=Path), default=None, help="The book file to put it into.")
@click.option("--dry-run", "dry_run", is_flag=True, help="Say what would change, and write nothing.")
@units_option
def table(at: str, table: str, into: Path | None, *, dry_run: bool, units: str | None) -> None:
    """Read TABLE as what stands at the path AT of a book, such as sizing.branch.rows, and print it as it is written.

    TABLE is a CSV file, a workbook (jobs.xlsx:Sheet1!A3:H12), or - for text that is pasted from a spreadsheet. With
    --into it is put into a book. A table with one cell that is not understood is not taken.
    """
    from linewright.app.book_editing import edit_table, table_text, write_book
    from linewright.report.book_edits_text import book_edits_text

    pasted = sys.stdin.read() if table == STDIN else None
    with faults_shown(as_json=False):
        if into is None:
            click.echo(table_text(at, table, pasted, unit_system(units, UnitSystem.SI)))
            return
        edited = edit_table(into, at, table, pasted)
        shown = book_edits_text(edited.edit, edited.applied, edited.before, colour=colour(), dry_run=dry_run)
        if not dry_run:
            write_book(edited)
    click.echo(shown)


@command.command("groups")
@click.argument("book")
@click.option("--index", "index", type=click.FloatRange(min=0, min_open=True), required=True, help="Sum of indices.")
@click.option("--indoor-count", "count", type=click.IntRange(min=1), default=None, help="Number of indoor units.")
@click.option("--cooling", "cooling", default=None, help="Least rated cooling, with its unit.")
@click.option("--heating", "heating", default=None, help="Least rated heating, with its unit.")
@books_option
@units_option
@json_option
def groups(
    book: str,
    index: float,
    books: tuple[Path, ...],
    *,
    count: int | None,
    cooling: str | None,
    heating: str | None,
    units: str | None,
    as_json: bool,
) -> None:
    """Propose outdoor groups of BOOK (a file or an id) for what they have to serve."""
    from linewright.engine.proposals import Wanted, propose_groups
    from linewright.report.groups_text import groups_json, groups_text

    with faults_shown(as_json=as_json):
        loaded = open_book(book, books)
    wanted = Wanted(index, count, _power(cooling, "--cooling"), _power(heating, "--heating"))
    proposals = propose_groups(loaded.compiled, wanted)
    if as_json:
        write_json(groups_json(proposals, wanted))
    else:
        system = unit_system(units, UnitSystem.SI)
        click.echo(groups_text(proposals, wanted, system=system, colour=colour()))
    raise SystemExit(Exit.FINE if any(item.serves for item in proposals) else Exit.OVER)


def _power(text: str | None, option: str) -> float | None:
    if text is None:
        return None
    try:
        return parse_as(text, Dimension.POWER)
    except UnitFault as fault:
        raise click.BadParameter(str(fault), param_hint=option) from None


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
