"""What the commands share: options, faults on the right stream, exit codes."""

from __future__ import annotations

import json
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from enum import IntEnum
from pathlib import Path
from typing import Any

import click

from linewright.engine.records import Standing
from linewright.errors import Fault, InputFaultsError
from linewright.report.faults_json import faults_json
from linewright.report.faults_text import faults_text
from linewright.units import UnitSystem


class Exit(IntEnum):
    """What a command's exit code says."""

    FINE = 0
    OVER = 1
    NOT_UNDERSTOOD = 2
    UNJUDGED = 3


design_argument = click.argument("design", type=click.Path(path_type=Path))
books_option = click.option(
    "--books",
    "books",
    type=click.Path(path_type=Path, file_okay=False),
    multiple=True,
    help="Folder of books, searched first.",
)
json_option = click.option("--json", "as_json", is_flag=True, help="Write JSON.")
units_option = click.option(
    "--units",
    "units",
    type=click.Choice([system.value for system in UnitSystem]),
    default=None,
    help="Units of the output.",
)


def exit_code(standing: Standing) -> Exit:
    """Exit code of an overall standing: an unknown is never a pass."""
    if standing is Standing.OVER:
        return Exit.OVER
    return Exit.UNJUDGED if standing in (Standing.UNJUDGED, Standing.TO_CONFIRM) else Exit.FINE


def unit_system(units: str | None, stated: UnitSystem) -> UnitSystem:
    """Units of the output: the option's, else the design's."""
    return UnitSystem(units) if units else stated


def write_json(data: dict[str, Any]) -> None:
    """Write JSON to standard output; what is not a number never gets out."""
    click.echo(json.dumps(data, indent=1, ensure_ascii=False, allow_nan=False))


def colour() -> bool:
    """Colour only on a terminal; a program may be started without any output."""
    return sys.stdout is not None and sys.stdout.isatty()


@contextmanager
def faults_shown(*, as_json: bool) -> Iterator[None]:
    """Show the faults of an input and leave with the code for input that is not understood."""
    try:
        yield
    except InputFaultsError as error:
        _show(error, as_json=as_json)
        raise SystemExit(Exit.NOT_UNDERSTOOD) from None
    except OSError as error:
        place = str(error.filename or "")
        fault = Fault(
            file=place,
            line=0,
            column=0,
            path="",
            value="",
            message=error.strerror or str(error),
            expected="a place that can be written",
        )
        _show(InputFaultsError((fault,)), as_json=as_json)
        raise SystemExit(Exit.NOT_UNDERSTOOD) from None


@contextmanager
def stoppable() -> Iterator[None]:
    """Leave when told to stop, with a code that says nothing of a design."""
    try:
        yield
    except KeyboardInterrupt as stopped:
        click.echo(f"stopped: {str(stopped) or 'there is no result'}", err=True)
        raise SystemExit(Exit.NOT_UNDERSTOOD) from None


def _show(error: InputFaultsError, *, as_json: bool) -> None:
    if as_json:
        write_json(faults_json(error.faults, more=error.more))
    else:
        click.echo(faults_text(error), err=True)
