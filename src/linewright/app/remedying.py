"""Remedies for a design file: the search, and writing one of them into the file like any other edit."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import NamedTuple

from linewright.app.editing import Edited, edit_design
from linewright.app.project import Project, open_project
from linewright.explore.remedies import Outcome, Progress, Remedy, Wanted, find
from linewright.explore.remedies.prices import with_prices
from linewright.takeoff import PriceList


class Remedied(NamedTuple):
    """A project and what a search on it found."""

    path: Path
    project: Project
    outcome: Outcome

    @property
    def listed(self) -> tuple[Remedy, ...]:
        """All that can be applied by number, counted from 1: remedies, then those that make something else worse."""
        return (*self.outcome.remedies, *self.outcome.trades)


def find_remedies(
    path: Path,
    wanted: Wanted,
    book_folders: Sequence[Path] = (),
    *,
    prices: PriceList | None = None,
    go_on: Callable[[Progress], bool] | None = None,
    said: Callable[[str], None] = lambda _: None,
) -> Remedied:
    """Open a design and search; `go_on` is told how far it is and stops the search by saying no.

    With `prices` the list is in order of what each remedy adds to the take-off; `said` is told what is priced.

    Raises InputFaultsError for a design that is not sound, UnknownSubjectError for a subject or system that is none.
    """
    project = open_project(path, book_folders)
    design, library = project.loaded.design, project.library
    outcome = find(design, library, wanted, go_on=go_on)
    if prices is not None:
        outcome = with_prices(outcome, design, library, prices, progress=said)
    return Remedied(path, project, outcome)


def apply_remedy(found: Remedied, number: int, book_folders: Sequence[Path] = ()) -> Edited:
    """Apply what is listed under a number, counted from 1, without writing it.

    Raises IndexError where nothing is, InputFaultsError where the file has changed so that it cannot be applied.
    """
    if not 1 <= number <= len(found.listed):
        raise IndexError(number)
    return edit_design(found.path, found.listed[number - 1].edits, book_folders, edits_file=f"remedy {number}")
