"""`linewright draw`: the sheet or the riser diagram of a system."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path

import click

from linewright.app.drawings import Kind, Request, drawings
from linewright.app.output import write_bytes_aside
from linewright.app.project import Project, open_project
from linewright.app.sheets import path_plot, sheet
from linewright.cli.common import Exit, books_option, design_argument, faults_shown, unit_system, units_option
from linewright.cli.papers import paper_option, revision_option
from linewright.draw import Axis
from linewright.draw.paper import Drawing, paper_svg
from linewright.draw.paper.facts import Revision
from linewright.engine import Evaluation
from linewright.engine.records import SystemResult
from linewright.units import UnitSystem


@click.command("draw")
@design_argument
@click.argument("system", required=False)
@click.option("--kind", type=click.Choice([kind.value for kind in Kind]), default="sheet", show_default=True)
@click.option("--format", "form", type=click.Choice(["svg", "scene", "dxf"]), default="svg", show_default=True)
@paper_option
@revision_option
@click.option("--axis", type=click.Choice([axis.value for axis in Axis]), help="[default: actual]")
@click.option("--path", "unit", help="Plot pressure and subcooling along the pipe to this unit instead.")
@click.option("--physics", is_flag=True, help="Add loss, subcooling left and oil margin to the lanes.")
@click.option("-o", "--output", type=click.Path(path_type=Path), help="File to write; without it, standard output.")
@books_option
@units_option
def command(  # noqa: PLR0917 - click passes them by name
    design: Path,
    system: str | None,
    kind: str,
    form: str,
    paper: str | None,
    revisions: tuple[Revision, ...],
    axis: str | None,
    unit: str | None,
    output: Path | None,
    books: tuple[Path, ...],
    units: str | None,
    *,
    physics: bool,
) -> None:
    """Draw the sheet or the riser of SYSTEM of DESIGN (needed where the design has several systems)."""
    on_paper = kind != Kind.SHEET or form == "dxf" or paper is not None or bool(revisions)
    _refuse_what_does_not_go_together(kind, form, unit, axis, physics=physics, on_paper=on_paper)
    with faults_shown(as_json=False):
        project = open_project(design, books)
    evaluation = project.evaluate()
    result = _chosen(evaluation, system)
    shown = unit_system(units, project.loaded.design.units)
    if on_paper:
        request = Request(paper or "", revisions, Axis(axis or Axis.ACTUAL), physics)
        with faults_shown(as_json=False):
            found = drawings(project, evaluation, result, Kind(kind), request=request, system=shown)
        _write([_dxf(one) if form == "dxf" else paper_svg(one).encode() for one in found], output)
    elif unit is None:
        along = Axis(axis or Axis.ACTUAL)
        text = sheet(project, evaluation, result, system=shown, axis=along, form=form, with_flow=physics)
        _write([text.encode()], output)
    else:
        _write([_path(project, result, unit, system=shown, form=form).encode()], output)


def _refuse_what_does_not_go_together(
    kind: str, form: str, unit: str | None, axis: str | None, *, physics: bool, on_paper: bool
) -> None:
    said = ""
    if unit is not None and axis is not None:
        said = "--axis goes with the sheet; the plot of --path is along the equivalent length"
    elif unit is not None and physics:
        said = "--physics goes with the sheet; the plot of --path is physics already"
    elif unit is not None and on_paper:
        said = "--path is not drawn on paper; leave out --kind, --paper, --revision and --format dxf"
    elif kind != Kind.SHEET and (axis is not None or physics):
        said = "--axis and --physics go with the sheet"
    elif form == "scene" and on_paper:
        said = "--format scene is the sheet alone; leave out --kind, --paper and --revision"
    if said:
        click.echo(said, err=True)
        raise SystemExit(Exit.NOT_UNDERSTOOD)


def _chosen(evaluation: Evaluation, system: str | None) -> SystemResult:
    names = [result.id for result in evaluation.systems]
    wanted = system or (names[0] if len(names) == 1 else None)
    result = next((item for item in evaluation.systems if item.id == wanted), None)
    if result is None:
        said = f"no system '{system}'" if system else "which system?"
        click.echo(f"{said} expected one of {', '.join(names) or 'none: the design has no systems'}", err=True)
        raise SystemExit(Exit.NOT_UNDERSTOOD)
    return result


def _dxf(drawing: Drawing) -> bytes:
    from linewright.draw.dxf import dxf

    return dxf(drawing)


def _write(sheets: Sequence[bytes], output: Path | None) -> None:
    """Write one sheet to its place; several get a number each, and need a place."""
    if output is None:
        if len(sheets) > 1:
            click.echo(f"the drawing has {len(sheets)} sheets: name a file with -o, each gets a number", err=True)
            raise SystemExit(Exit.NOT_UNDERSTOOD)
        click.echo(sheets[0].decode(), nl=False)
        return
    many = len(sheets) > 1
    for number, data in enumerate(sheets, start=1):
        place = output.with_name(f"{output.stem}-{number}{output.suffix}") if many else output
        with faults_shown(as_json=False):
            write_bytes_aside(place, data)
        click.echo(f"wrote {place}", err=True)


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
