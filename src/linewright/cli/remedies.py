"""`linewright remedies`: proven ways out of what is over."""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

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
from linewright.errors import UnknownSubjectError
from linewright.units import Dimension, UnitFault, parse_as

if TYPE_CHECKING:
    from linewright.app.remedying import Remedied
    from linewright.explore.remedies import OutdoorPlace, Progress
    from linewright.takeoff import PriceList


class Place(click.ParamType):  # type: ignore[type-arg] # generic in some versions only
    """A place for the outdoor group: the length of the main from there, its elevation, or both."""

    name = "place"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:  # noqa: ANN401
        """Read it."""
        from linewright.explore.remedies import OutdoorPlace

        found: dict[str, float] = {}
        for part in str(value).split(","):
            word, _, amount = part.strip().partition(" ")
            if word not in ("main", "elevation") or word in found:
                self.fail(f"{part.strip()!r} is no part of a place: write 'main 30 m, elevation 12 m'", param, ctx)
            try:
                found[word] = parse_as(amount, Dimension.LENGTH)
            except UnitFault as error:
                self.fail(str(error), param, ctx)
        if found.get("main", 1.0) <= 0:
            self.fail("the main from a place is longer than nothing", param, ctx)
        return OutdoorPlace(main_m=found.get("main"), elevation_m=found.get("elevation"))


@click.command("remedies")
@design_argument
@click.option("--check", "subject", default="", help="What to cure, as `why` takes it; all that is over if not given.")
@click.option("--system", "system", default="", help="Only what is over in this system and its rooms.")
@click.option(
    "--budget", "budget", type=click.IntRange(min=2), help="Trials at most; 160, and 480 while nothing is found."
)
@click.option("--physics", is_flag=True, help="Liquid that boils and oil that stays behind as well (advisory).")
@click.option("--outdoor-place", "place", type=Place(), help="Where the outdoor group could stand instead.")
@click.option("--prices", "prices", help="Order by what is added to the take-off at these prices (CSV or XLSX).")
@click.option("--apply", "apply", type=click.IntRange(min=1), help="Write the remedy of this number into DESIGN.")
@click.option("--dry-run", "dry_run", is_flag=True, help="With --apply: say what would change, and write nothing.")
@books_option
@json_option
@units_option
def command(  # noqa: PLR0917 - click calls it by name
    design: Path,
    subject: str,
    system: str,
    budget: int | None,
    place: OutdoorPlace | None,
    prices: str | None,
    apply: int | None,
    books: tuple[Path, ...],
    units: str | None,
    *,
    physics: bool,
    dry_run: bool,
    as_json: bool,
) -> None:
    """Find changes of DESIGN after which what is over holds, each proven by judging the whole design anew."""
    from linewright.app.remedying import find_remedies
    from linewright.explore.remedies import Wanted

    wanted = Wanted(subject=subject, system=system, budget=budget, outdoor_place=place, physics=physics)
    with faults_shown(as_json=as_json):
        try:
            listed = None if prices is None else _prices(prices)
            found = find_remedies(design, wanted, books, prices=listed, go_on=_said(), said=_pricing)
        except UnknownSubjectError as error:
            click.echo(str(error), err=True)
            raise SystemExit(Exit.NOT_UNDERSTOOD) from None
    if apply is not None:
        _apply(found, apply, books, as_json=as_json, dry_run=dry_run)
        return
    _show(found, units, as_json=as_json)
    over = found.outcome.targets and not found.outcome.remedies
    raise SystemExit(Exit.OVER if over else Exit.FINE)


def _said() -> Callable[[Progress], bool]:
    """Say on the error stream how far the search is, on a terminal only."""
    shown = sys.stderr is not None and sys.stderr.isatty()

    def go_on(progress: Progress) -> bool:
        if shown and progress.evaluations % 20 == 0:
            click.echo(f"\r{progress.evaluations}/{progress.budget}, {progress.found} found ", err=True, nl=False)
        return True

    return go_on


def _pricing(what: str) -> None:
    if sys.stderr is not None and sys.stderr.isatty():
        click.echo(f"\r{what}   ", err=True, nl=False)


def _prices(file: str) -> PriceList:
    from linewright.takeoff import read_prices

    return read_prices(file)


def _show(found: Remedied, units: str | None, *, as_json: bool) -> None:
    design = found.project.loaded.design
    if as_json:
        from linewright.report.remedies_json import remedies_json

        write_json(remedies_json(found.outcome, project=design.project, units=design.units))
        return
    from linewright.report.remedies_text import remedies_text

    system = unit_system(units, design.units)
    click.echo(remedies_text(found.outcome, project=design.project, system=system, colour=colour()))


def _apply(found: Remedied, number: int, books: tuple[Path, ...], *, as_json: bool, dry_run: bool) -> None:
    from linewright.app.editing import write
    from linewright.app.remedying import apply_remedy
    from linewright.cli.edit import shown

    if number > len(found.listed):
        click.echo(f"there is no remedy {number}: {len(found.listed)} were found", err=True)
        raise SystemExit(Exit.NOT_UNDERSTOOD)
    with faults_shown(as_json=as_json):
        edited = apply_remedy(found, number, books)
        show = shown(edited, as_json=as_json, dry_run=dry_run)
        if not dry_run:
            write(edited)
    show()
