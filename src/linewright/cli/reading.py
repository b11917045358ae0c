"""`linewright reading`: whether a pressure test holds, by the gauge at its start and now."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

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
from linewright.engine.pipework_reading import Allowed, Reading, Tightness
from linewright.units import Dimension, UnitFault, parse_as

if TYPE_CHECKING:
    from linewright.app.gauge import GaugeResult

_UNKNOWN = ("", "?", "unknown")


class Gauge(click.ParamType):  # type: ignore[type-arg] # generic in some versions only
    """A gauge pressure and the temperature of the pipe: `40 bar, 20 degC`; `unknown` for what was not written down."""

    name = "pressure, temperature"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Reading:  # noqa: ANN401
        """Read it."""
        parts = [part.strip() for part in str(value).split(",")]
        if len(parts) != 2:
            self.fail(f"{str(value)!r} is no pressure and temperature such as '40 bar, 20 degC'", param, ctx)
        read = []
        for part, dimension in zip(parts, (Dimension.PRESSURE, Dimension.TEMPERATURE), strict=True):
            try:
                read.append(None if part.casefold() in _UNKNOWN else parse_as(part, dimension))
            except UnitFault as error:
                self.fail(str(error), param, ctx)
        return Reading(*read)


class Least(click.ParamType):  # type: ignore[type-arg] # generic in some versions only
    """A quantity of nought or more."""

    name = "quantity"

    def __init__(self, dimension: Dimension) -> None:
        """Keep what it measures."""
        self.dimension = dimension

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> float:  # noqa: ANN401
        """Read it."""
        try:
            found = parse_as(str(value), self.dimension)
        except UnitFault as error:
            self.fail(str(error), param, ctx)
        if found < 0.0:
            self.fail(f"{value} is below nought", param, ctx)
        return found


@click.command("reading")
@design_argument
@click.argument("system")
@click.option("--start", type=Gauge(), required=True, help="Gauge and pipe at the start: '40 bar, 20 degC'.")
@click.option("--now", type=Gauge(), required=True, help="Gauge and pipe now.")
@click.option("--within", type=Least(Dimension.PRESSURE), help="What both readings together may be off by.")
@click.option("--pipe-within", type=Least(Dimension.TEMPERATURE_DIFFERENCE), help="What the temperature may be off by.")
@click.option("--held", type=Least(Dimension.TIME), help="How long the pressure was held.")
@books_option
@json_option
@units_option
def command(  # noqa: PLR0917 - click passes them by name
    design: Path,
    system: str,
    start: Reading,
    now: Reading,
    within: float | None,
    pipe_within: float | None,
    held: float | None,
    books: tuple[Path, ...],
    units: str | None,
    *,
    as_json: bool,
) -> None:
    """Tell whether the pressure test of SYSTEM of DESIGN holds, by the gauge at its start and now."""
    from linewright.app.gauge import read_gauge

    with faults_shown(as_json=as_json):
        project = open_project(design, books)
    wanted = next((one for one in project.loaded.design.systems if one.id == system), None)
    if wanted is None:
        names = ", ".join(one.id for one in project.loaded.design.systems)
        click.echo(f"no system '{system}' expected one of {names or 'none: the design has no systems'}", err=True)
        raise SystemExit(Exit.NOT_UNDERSTOOD)
    found = read_gauge(project, wanted, start=start, now=now, allowed=Allowed(within, pipe_within or 0.0, held_s=held))
    if as_json:
        from linewright.report.reading_text import SCHEMA, reading_json

        head = {"schema": SCHEMA, "system": found.system, "stage": found.stage, "stage_pa": found.stage_pa}
        write_json(head | reading_json(found.read) | {"passed": found.passed, "note": found.note})
    else:
        from linewright.report.reading_text import reading_text

        shown = unit_system(units, project.loaded.design.units)
        click.echo(reading_text(found.read, _notes(found), system=shown, colour=colour()))
    raise SystemExit(_exit(found))


def _notes(found: GaugeResult) -> tuple[str, ...]:
    if found.stage is None:
        return (found.note,)
    asked = "no time is stated" if found.asked_s is None else f"to be held for {found.asked_s / 3600.0:g} h"
    return (f"stage {found.stage} of the book, {asked}",)


def _exit(found: GaugeResult) -> Exit:
    if found.read.tightness is Tightness.FALLS:
        return Exit.OVER
    return Exit.FINE if found.passed else Exit.UNJUDGED
