"""`linewright record`: a filled record of the site, read back and judged."""

from __future__ import annotations

import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from linewright.app.output import write_aside
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
from linewright.units import UnitSystem

if TYPE_CHECKING:
    from linewright.app.recording import Recorded


@click.command("record")
@design_argument
@click.argument("filled")
@click.option("--edits", type=click.Path(path_type=Path), help="Write the lengths as built as edits to this file.")
@books_option
@json_option
@units_option
def command(
    design: Path, filled: str, *, edits: Path | None, books: tuple[Path, ...], units: str | None, as_json: bool
) -> None:
    """Judge FILLED, a filled form of the set of DESIGN: pressure test, evacuation, charge, lengths as built."""
    from linewright.app.recording import record
    from linewright.engine.site_verdicts import Outcome
    from linewright.report.edits_json import plain_edits

    with faults_shown(as_json=as_json):
        project = open_project(design, books)
        system = unit_system(units, project.loaded.design.units)
        found = record(project, filled, system)
        plain = plain_edits(found.edits, project.loaded.design.units)
        if edits is not None:
            write_aside(edits, json.dumps(plain, indent=1, ensure_ascii=False) + "\n")
    _show(found, plain, system, as_json=as_json)
    exits = {Outcome.FAILS: Exit.OVER, Outcome.NOT_JUDGED: Exit.UNJUDGED}
    raise SystemExit(exits.get(found.outcome, Exit.FINE))


def _show(found: Recorded, plain: list[dict[str, Any]], system: UnitSystem, *, as_json: bool) -> None:
    from linewright.report.forms.recorded import built_text, record_json, record_text

    if as_json:
        others = {
            "outcome": found.outcome.value,
            "of_this_design": found.of_this_design,
            "standing_as_built": found.built.standing.value,
            "edits": plain,
        }
        write_json(record_json(found.verdicts, found.labels, **others))
        return
    if found.of_this_design is not True:
        click.echo(
            "The form is not known to be of this state of the design: its SHA-256 is another or missing.", err=True
        )
    click.echo(record_text(found.verdicts, found.labels, system=system, colour=colour()))
    click.echo()
    click.echo(built_text(found.changed, found.charges, found.built.standing, system=system))
    click.echo(f"\nIn all: {found.outcome.value}.")
