"""`linewright why`: the working behind a number."""

from __future__ import annotations

from pathlib import Path

import click

from linewright.app.project import open_project
from linewright.cli.common import (
    Exit,
    books_option,
    colour,
    design_argument,
    faults_shown,
    json_option,
    unit_system,
    units_option,
    write_json,
)
from linewright.engine.working import subjects, working
from linewright.errors import UnknownSubjectError


@click.command("why")
@design_argument
@click.argument("subject", required=False)
@books_option
@json_option
@units_option
def command(design: Path, subject: str | None, books: tuple[Path, ...], units: str | None, *, as_json: bool) -> None:
    """Show the working behind SUBJECT, such as main/limit:total_length, main/run:J2.gas_od or main/charge.

    Without SUBJECT: list what can be asked for.
    """
    with faults_shown(as_json=as_json):
        project = open_project(design, books)
    evaluation = project.evaluate()
    if subject is None:
        click.echo("\n".join(subjects(evaluation)))
        return
    try:
        steps = working(evaluation, subject)
    except UnknownSubjectError as error:
        click.echo(str(error), err=True)
        raise SystemExit(Exit.NOT_UNDERSTOOD) from None
    if as_json:
        from linewright.report.why_json import why_json

        write_json(why_json(steps, project.file_names()))
    else:
        from linewright.report.why_text import why_text

        system = unit_system(units, project.loaded.design.units)
        click.echo(why_text(steps, project.file_names(), system=system, colour=colour()))
