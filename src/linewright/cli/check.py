"""`linewright check`: judge a design."""

from __future__ import annotations

from pathlib import Path
from typing import Any

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
from linewright.engine import Evaluation
from linewright.units import UnitSystem


@click.command("check")
@design_argument
@books_option
@json_option
@units_option
@click.option("--physics", "physics", is_flag=True, help="Work out the flow from first principles as well; advisory.")
def command(design: Path, books: tuple[Path, ...], units: str | None, *, as_json: bool, physics: bool) -> None:
    """Check DESIGN against its books: limits, sizes, fittings, capacity and charge."""
    with faults_shown(as_json=as_json):
        project = open_project(design, books)
    evaluation = project.evaluate()
    if as_json:
        from linewright.report.check_json import check_json

        write_json(check_json(evaluation) | (_physics_json(evaluation) if physics else {}))
    else:
        from linewright.report.check_text import check_text

        system = unit_system(units, project.loaded.design.units)
        click.echo(check_text(evaluation, system=system, colour=colour(), books=project.book_lines()))
        if physics:
            click.echo(_physics_text(evaluation, system))
    raise SystemExit(exit_code(evaluation.standing))


def _physics_json(evaluation: Evaluation) -> dict[str, Any]:
    from linewright.report.hydraulics_out import hydraulics_json

    return {"physics": [hydraulics_json(system.hydraulics) for system in evaluation.systems]}


def _physics_text(evaluation: Evaluation, system: UnitSystem) -> str:
    from linewright.report.hydraulics_out import hydraulics_text

    found = [one.hydraulics for one in evaluation.systems]
    return hydraulics_text(found, evaluation, system=system, colour=colour())
