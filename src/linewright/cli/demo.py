"""`linewright demo`: the clinic, checked, printed and drawn."""

from __future__ import annotations

import os
import sys
import webbrowser
from pathlib import Path

import click

from linewright.app.output import write_aside
from linewright.app.project import open_project
from linewright.app.sheets import sheet
from linewright.app.shipped import shipped
from linewright.cli.common import Exit, colour, faults_shown, unit_system, units_option
from linewright.document.reading import read_text
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
@click.option("--page", is_flag=True, help="Then show the clinic on a page of this machine, until Ctrl-C.")
@click.option("--port", type=click.IntRange(0, 65535), default=8340, show_default=True, help="Port of the page.")
@units_option
def command(output: Path, units: str | None, port: int, *, page: bool) -> None:
    """Check the demonstration clinic, print its systems and write their sheets.

    The clinic has faults on purpose; the exit code is 0 when everything was printed and written. The page works on a
    copy of it in the folder demo, with every revision kept.
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
    if page:
        _show(port)
    raise SystemExit(Exit.FINE)


def _show(port: int) -> None:
    """Serve a copy of the clinic, which is made once and then worked on."""
    from linewright.cli.serve import serve_target, target_of

    folder = Path("demo")
    copy = folder / CLINIC[-1]
    with faults_shown(as_json=False):
        if not copy.exists():
            folder.mkdir(exist_ok=True)
            write_aside(copy, read_text(shipped("examples").joinpath(*CLINIC)))
    serve_target(target_of(copy), port, ready=_open)


def _open(address: str) -> None:
    """Say where the page is, and show it where a browser can be."""
    click.echo(f"The clinic is at {address} (Ctrl-C ends)")
    if os.name == "nt" or sys.platform == "darwin" or os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY"):
        webbrowser.open(address)
