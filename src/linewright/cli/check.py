"""`linewright check`: judge a design."""

from __future__ import annotations

from pathlib import Path

import click

from linewright.app.project import open_project
from linewright.cli.common import (
    books_option,
    colour,
    design_argument,
    exit_code,
    faults_shown,
    json_option,
    unit_system,
    units_option,
    write_json,
)


@click.command("check")
@design_argument
@books_option
@json_option
@units_option
def command(design: Path, books: tuple[Path, ...], units: str | None, *, as_json: bool) -> None:
    """Check DESIGN against its books: limits, sizes, fittings, capacity and charge."""
    with faults_shown(as_json=as_json):
        project = open_project(design, books)
    evaluation = project.evaluate()
    if as_json:
        from linewright.report.check_json import check_json

        write_json(check_json(evaluation))
    else:
        from linewright.report.check_text import check_text

        system = unit_system(units, project.loaded.design.units)
        click.echo(check_text(evaluation, system=system, colour=colour(), books=project.book_lines()))
    raise SystemExit(exit_code(evaluation.standing))
