"""`linewright edit`: change a design file by edits."""

from __future__ import annotations

import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path

import click

from linewright.app.editing import Edited, edit_design, read_edits, write
from linewright.cli.common import books_option, colour, design_argument, faults_shown, json_option, write_json
from linewright.document.reading import read_text

STDIN = "-"


@click.command("edit")
@design_argument
@click.argument("edits")
@click.option("--dry-run", "dry_run", is_flag=True, help="Say what would change, and write nothing.")
@books_option
@json_option
def command(design: Path, edits: str, books: tuple[Path, ...], *, dry_run: bool, as_json: bool) -> None:
    """Apply EDITS (a file of edits, or - for standard input) to DESIGN, all of them or none.

    What the edits do not touch keeps its text, order and comments. With --json the edits that undo them are written as
    well, and are accepted as EDITS.
    """
    with faults_shown(as_json=as_json):
        text = sys.stdin.read() if edits == STDIN else read_text(Path(edits))
        edited = edit_design(design, read_edits(text, edits), books, edits_file=edits)
        show = shown(edited, as_json=as_json, dry_run=dry_run)
        if not dry_run:
            write(edited)
    show()


def shown(edited: Edited, *, as_json: bool, dry_run: bool) -> Callable[[], None]:
    """Make the report before anything is written: a file is not changed by a command that then cannot say how."""
    units = edited.design.units
    if as_json:
        from linewright.report.edits_json import edits_json

        data = edits_json(edited.edit, edited.applied, edited.before, edited.after, units=units, dry_run=dry_run)
        return partial(write_json, data)
    from linewright.report.edits_text import edits_text

    touched = edited.applied.touched
    text = edits_text(edited.before, edited.after, touched, system=units, colour=colour(), dry_run=dry_run)
    return partial(click.echo, text)
