"""`linewright draw`: the sheet of a system."""

from __future__ import annotations

from pathlib import Path

import click

from linewright.app.output import write_aside
from linewright.app.project import Project, open_project
from linewright.app.sheets import path_plot, sheet
from linewright.cli.common import Exit, books_option, design_argument, faults_shown, unit_system, units_option
from linewright.draw import Axis
from linewright.engine.records import SystemResult
from linewright.units import UnitSystem


@click.command("draw")
@design_argument
@click.argument("system", required=False)
@click.option("--format", "form", type=click.Choice(["svg", "scene"]), default="svg", show_default=True)
@click.option("--axis", type=click.Choice([axis.value for axis in Axis]), help="[default: actual]")
@click.option("--path", "unit", help="Plot pressure and subcooling along the pipe to this unit instead.")
@click.option("--physics", is_flag=True, help="Add loss, subcooling left and oil margin to the lanes.")
@click.option("-o", "--output", type=click.Path(path_type=Path), help="File to write; without it, standard output.")
@books_option
@units_option
def command(  # noqa: PLR0917 - click passes them by name
    design: Path,
    system: str | None,
    form: str,
    axis: str | None,
    unit: str | None,
    output: Path | None,
    books: tuple[Path, ...],
    units: str | None,
    *,
    physics: bool,
) -> None:
    """Draw the sheet of SYSTEM of DESIGN (needed where the design has several systems)."""
    if unit is not None and axis is not None:
        click.echo("--axis goes with the sheet; the plot of --path is along the equivalent length", err=True)
        raise SystemExit(Exit.NOT_UNDERSTOOD)
    if unit is not None and physics:
        click.echo("--physics goes with the sheet; the plot of --path is physics already", err=True)
        raise SystemExit(Exit.NOT_UNDERSTOOD)
    with faults_shown(as_json=False):
        project = open_project(design, books)
    evaluation = project.evaluate()
    names = [result.id for result in evaluation.systems]
    wanted = system or (names[0] if len(names) == 1 else None)
    result = next((item for item in evaluation.systems if item.id == wanted), None)
    if result is None:
        said = f"no system '{system}'" if system else "which system?"
        click.echo(f"{said} expected one of {', '.join(names) or 'none: the design has no systems'}", err=True)
        raise SystemExit(Exit.NOT_UNDERSTOOD)
    shown = unit_system(units, project.loaded.design.units)
    if unit is None:
        along = Axis(axis or Axis.ACTUAL)
        text = sheet(project, evaluation, result, system=shown, axis=along, form=form, with_flow=physics)
    else:
        text = _path(project, result, unit, system=shown, form=form)
    if output is None:
        click.echo(text, nl=False)
        return
    with faults_shown(as_json=False):
        write_aside(output, text)
    click.echo(f"wrote {output}", err=True)


def _path(project: Project, result: SystemResult, unit: str, *, system: UnitSystem, form: str) -> str:
    units = sorted(one.id for one in result.units)
    if unit not in units:
        click.echo(f"no unit '{unit}' in system {result.id} expected one of {', '.join(units)}", err=True)
        raise SystemExit(Exit.NOT_UNDERSTOOD)
    try:
        return path_plot(project, result, unit, system=system, form=form)
    except ValueError as why:
        click.echo(f"no plot of system {result.id}: {why}", err=True)
        raise SystemExit(Exit.UNJUDGED) from None
