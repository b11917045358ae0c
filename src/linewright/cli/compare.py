"""`linewright compare`: what differs between two designs."""

from __future__ import annotations

from pathlib import Path

import click

from linewright.app.project import open_project
from linewright.cli.common import (
    books_option,
    colour,
    faults_shown,
    json_option,
    unit_system,
    units_option,
    write_json,
)


@click.command("compare")
@click.argument("before", metavar="BEFORE", type=click.Path(path_type=Path))
@click.argument("after", metavar="AFTER", type=click.Path(path_type=Path))
@books_option
@json_option
@units_option
def command(before: Path, after: Path, books: tuple[Path, ...], units: str | None, *, as_json: bool) -> None:
    """Say what differs between the designs BEFORE and AFTER, and what comes of it: verdicts, margins, charge."""
    from linewright.app.reviewing import review
    from linewright.report.compared import compared_json, compared_text

    with faults_shown(as_json=as_json):
        first, second = open_project(before, books), open_project(after, books)
    found = review(first, second)
    if as_json:
        write_json(compared_json(found))
    else:
        click.echo(compared_text(found, system=unit_system(units, second.loaded.design.units), colour=colour()))
