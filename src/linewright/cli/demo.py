"""`linewright demo`: the clinic, checked, printed and drawn."""

from __future__ import annotations

from pathlib import Path

import click

from linewright.app.output import write_aside
from linewright.app.project import open_project
from linewright.app.sheets import sheet
from linewright.app.shipped import shipped
from linewright.cli.common import Exit, colour, faults_shown, unit_system, units_option
from linewright.draw import Axis
from linewright.report.check_text import check_text

CLINIC = ("harbour-clinic", "harbour-clinic.design.yaml")


@click.command("demo")
@click.option(
    "-o",
    "--output",
    type=click.Path(path_type=Path),
    default=Path("sheets"),
    show_default=True,
    help="Folder for the sheets.",
)
@units_option
def command(output: Path, units: str | None) -> None:
    """Check the demonstration clinic, print its systems and write their sheets.

    The clinic has faults on purpose; the exit code is 0 when everything was printed and written.
    """
    with faults_shown(as_json=False):
        project = open_project(shipped("examples").joinpath(*CLINIC))
        evaluation = project.evaluate()
        system = unit_system(units, project.loaded.design.units)
        click.echo(check_text(evaluation, system=system, colour=colour(), books=project.book_lines()))
        click.echo()
        output.mkdir(parents=True, exist_ok=True)
        for result in evaluation.systems:
            path = output / f"harbour-clinic-{result.id}.svg"
            write_aside(path, sheet(project, evaluation, result, system=system, axis=Axis.ACTUAL, form="svg"))
            click.echo(f"sheet of system {result.id}: {path}")
    raise SystemExit(Exit.FINE)
