"""`linewright remedies`: proven ways out of what is over."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

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

if TYPE_CHECKING:
    from linewright.app.remedying import Remedied
    from linewright.explore.remedies import Progress


@click.command("remedies")
@design_argument
@click.option("--check", "subject", default="", help="What to cure, as `why` takes it; all that is over if not given.")
@click.option("--system", "system", default="", help="Only what is over in this system and its rooms.")
@click.option("--budget", "budget", type=click.IntRange(min=2), default=400, show_default=True, help="Trials at most.")
@click.option("--apply", "apply", type=click.IntRange(min=1), help="Write the remedy of this number into DESIGN.")
@click.option("--dry-run", "dry_run", is_flag=True, help="With --apply: say what would change, and write nothing.")
@books_option
@json_option
@units_option
def command(  # noqa: PLR0917 - click calls it by name
    design: Path,
    subject: str,
    system: str,
    budget: int,
    apply: int | None,
    books: tuple[Path, ...],
    units: str | None,
    *,
    dry_run: bool,
    as_json: bool,
) -> None:
    """Find changes of DESIGN after which what is over holds, each proven by judging the whole design anew."""
    from linewright.app.remedying import find_remedies
    from linewright.explore.remedies import Wanted

    wanted = Wanted(subject=subject, system=system, budget=budget)
    with faults_shown(as_json=as_json):
        try:
            found = find_remedies(design, wanted, books, go_on=_said())
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
    import sys

    shown = sys.stderr is not None and sys.stderr.isatty()

    def go_on(progress: Progress) -> bool:
        if shown and progress.evaluations % 20 == 0:
            click.echo(f"\r{progress.evaluations}/{progress.budget}, {progress.found} found ", err=True, nl=False)
        return True

    return go_on


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
