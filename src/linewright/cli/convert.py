"""`linewright convert`: documents between YAML and JSON, lists of a design to and from CSV and workbooks."""

from __future__ import annotations

from pathlib import Path

import click

from linewright.cli.common import books_option, faults_shown, units_option
from linewright.units import UnitSystem

LISTED = ("levels", "rooms", "units", "runs", "fittings")
#: Lists that belong to no system.
OF_DESIGN = ("levels", "rooms")


@click.command("convert")
@click.argument("source")
@click.argument("target", type=click.Path(path_type=Path))
@click.option("--list", "of", type=click.Choice(LISTED), default="runs", help="Which list of the design is meant.")
@click.option("--system", "system", default=None, help="The system whose list is meant, where there are several.")
@click.option("--remove", "remove", is_flag=True, help="What the list leaves out is removed.")
@click.option("--replace", "replace", is_flag=True, help="A file that is there already may be replaced.")
@click.option("--dry-run", "dry_run", is_flag=True, help="Say what would change, and write nothing.")
@books_option
@units_option
def command(
    source: str,
    target: Path,
    books: tuple[Path, ...],
    *,
    of: str,
    system: str | None,
    remove: bool,
    replace: bool,
    dry_run: bool,
    units: str | None,
) -> None:
    """Convert SOURCE to TARGET, by the endings of their names.

    A design or a book to .yaml or .json: written anew, without comments. A design to .csv or .xlsx: a list of it, the
    runs of a system unless another one is named, one row each. A .csv or .xlsx to a design: its rows become edits, all
    of them or none; a sheet and a range are named as in runs.xlsx:Sheet1!A3:K40.
    """
    from linewright.app.converting import DOCUMENTS, LISTS, check_target, convert_document, write_list
    from linewright.document.lists import ListKind

    as_units = UnitSystem(units) if units else None
    ending, is_document = target.suffix.lower(), Path(source).suffix.lower() in DOCUMENTS
    if system is not None and of in OF_DESIGN:
        raise click.UsageError(f"{of} belong to no system: leave out --system")
    if not is_document and ending in DOCUMENTS:
        _read_in(source, target, books, of=of, system=system, remove=remove, dry_run=dry_run)
        return
    if not is_document or ending not in (*DOCUMENTS, *LISTS):
        raise click.UsageError(
            "one of the two is a design or a book (.yaml, .json), and TARGET ends with .csv or .xlsx"
        )
    with faults_shown(as_json=False):
        check_target(target, replace=replace or dry_run)
        if ending in DOCUMENTS:
            convert_document(Path(source), target, as_units)
            click.echo(f"wrote {target}; comments are not carried over")
        else:
            count = write_list(Path(source), target, ListKind(of), system, units=as_units)
            click.echo(f"wrote {target}: {count} {of}")


def _read_in(
    source: str, target: Path, books: tuple[Path, ...], *, of: str, system: str | None, remove: bool, dry_run: bool
) -> None:
    from linewright.app.converting import read_list
    from linewright.app.editing import write
    from linewright.cli.common import colour
    from linewright.document.lists import ListKind
    from linewright.report.edits_text import edits_text

    with faults_shown(as_json=False):
        found, edited = read_list(source, target, ListKind(of), system, books=books, remove=remove)
        touched, units = edited.applied.touched, edited.design.units
        shown = edits_text(edited.before, edited.after, touched, system=units, colour=colour(), dry_run=dry_run)
        if not dry_run and found.edit.edits:
            write(edited)
    click.echo(
        f"{len(found.changed)} {of} changed, {len(found.added)} added, {len(found.left_out) if remove else 0} removed"
    )
    if found.left_out and not remove:
        click.echo(f"not in the list, and left as they are: {', '.join(found.left_out)}")
    click.echo(shown)
