"""`linewright headroom`: what a design has to spare."""

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
    stoppable,
    unit_system,
    units_option,
    write_json,
)
from linewright.cli.progress import Counter
from linewright.engine.evaluate import overall
from linewright.engine.records import Standing
from linewright.explore.headroom_records import GrowthKind

#: Rows of each kind that are printed without --all.
MOST_ROWS = 12


@click.command("headroom")
@design_argument
@click.option("--system", "system", default=None, help="The system that is meant; without it, each.")
@click.option(
    "--only",
    "only",
    type=click.Choice([kind.value for kind in GrowthKind]),
    multiple=True,
    help="What is let grow; may be given several times.  [default: all]",
)
@click.option("--beside", is_flag=True, help="Leave out what is unjudged or to confirm, and say so.")
@click.option("--all", "whole", is_flag=True, help="Print every row, not only those that give first.")
@books_option
@json_option
@units_option
def command(
    design: Path,
    system: str | None,
    only: tuple[str, ...],
    *,
    beside: bool,
    whole: bool,
    books: tuple[Path, ...],
    units: str | None,
    as_json: bool,
) -> None:
    """Say how far lengths, levels, counts and loads of DESIGN may grow before something gives, and what gives first."""
    kinds = [GrowthKind(name) for name in only] or list(GrowthKind)
    with stoppable(), faults_shown(as_json=as_json):
        from linewright.app.sparing import spare

        project = open_project(design, books)
        with Counter() as counter:
            found = spare(project, system, kinds, beside=beside, progress=counter.tell)
    stated = project.loaded.design
    if as_json:
        from linewright.report.headroom_json import headroom_json

        write_json(headroom_json(found, project=stated.project, units=stated.units))
    else:
        from linewright.report.headroom_text import headroom_text

        shown, most = unit_system(units, stated.units), None if whole else MOST_ROWS
        text = headroom_text(found, project=stated.project, system=shown, colour=colour(), most=most)
        click.echo(text)
    raise SystemExit(exit_code(overall({one.standing for one in found}) if found else Standing.UNJUDGED))
