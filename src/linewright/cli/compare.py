"""`linewright compare`: what differs between two designs."""

from __future__ import annotations

from pathlib import Path

import click

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
@click.argument("before", metavar="BEFORE")
@click.argument("after", metavar="AFTER")
@click.option("-o", "--output", type=click.Path(path_type=Path), help="Folder for words, numbers and marked-up sheets.")
@books_option
@json_option
@units_option
def command(
    before: str, after: str, output: Path | None, books: tuple[Path, ...], *, units: str | None, as_json: bool
) -> None:
    """Say what differs between the designs BEFORE and AFTER, and what comes of it: verdicts, margins, charge.

    Each is a design file, FILE@N for revision N of one that is kept, or NAME.db/DESIGN@N.
    """
    from linewright.app.keeping.revision import open_side
    from linewright.app.reviewing import review
    from linewright.report.compared import compared_json, compared_text

    with faults_shown(as_json=as_json):
        first, second = open_side(before, books), open_side(after, books)
    found = review(first, second)
    system = unit_system(units, second.loaded.design.units)
    if output is not None:
        from linewright.app.comparison import CONTENTS, comparison_files
        from linewright.app.marking import Sides
        from linewright.app.output_folder import check_folder, write_folder

        with faults_shown(as_json=as_json):
            check_folder(output, CONTENTS)
            files = comparison_files(Sides(first, second, found), system)
            write_folder(output, files)
        click.echo(f"wrote {len(files)} files to {output}", err=True)
    if as_json:
        write_json(compared_json(found.compared))
    else:
        click.echo(compared_text(found.compared, system=system, colour=colour()))
