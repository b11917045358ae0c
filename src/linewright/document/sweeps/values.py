"""What a file of a sweep says."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from math import prod
from typing import NamedTuple

from linewright.model.edits import Edit
from linewright.model.values import value
from linewright.units import Amount

#: More rows are refused: the file of a sweep is then better parted.
MOST_ROWS = 100_000


class Combine(StrEnum):
    """How the values of several axes go together."""

    GRID = "grid"
    ZIP = "zip"


@value
class ChartOf:
    """What a chart shows: an axis across, a column upward, a line for each value of another axis."""

    across: str = ""
    up: str = ""
    lines: str = ""


@value
class SweepHead:
    """The keys of the file beside those that are varied."""

    title: str = ""
    combine: Combine = Combine.GRID
    systems: tuple[str, ...] = ()
    show: tuple[str, ...] = ()
    chart: ChartOf | None = None


class Place(NamedTuple):
    """Where something stands in the file: line and column from 1, path."""

    line: int
    column: int
    path: str


class Case(NamedTuple):
    """One value of an axis: how it is written, the edit that makes it, or the file of the book that is taken.

    amount : the value as a quantity, where it is one
    """

    label: str
    edit: Edit
    file: str
    amount: Amount | None
    place: Place


class Axis(NamedTuple):
    """What is varied, by name; `book` is the id of the book whose files are varied, if that is what is."""

    name: str
    cases: tuple[Case, ...]
    book: str
    place: Place


class Sweep(NamedTuple):
    """A whole sweep. Its rows are counted from 0; in a grid the last axis changes fastest.

    systems : those that are meant; none: the whole design
    places : where each of `systems`, of `show` and of `chart` stands, by path
    """

    title: str
    combine: Combine
    axes: tuple[Axis, ...]
    systems: tuple[str, ...]
    show: tuple[str, ...]
    chart: ChartOf | None
    places: Mapping[str, Place]

    @property
    def rows(self) -> int:
        """How many rows there are."""
        counts = [len(axis.cases) for axis in self.axes]
        return (counts[0] if self.combine is Combine.ZIP else prod(counts)) if counts else 0

    def picked(self, row: int) -> tuple[Case, ...]:
        """The case of each axis in a row."""
        if self.combine is Combine.ZIP:
            return tuple(axis.cases[row] for axis in self.axes)
        found = []
        for axis in reversed(self.axes):
            row, at = divmod(row, len(axis.cases))
            found.append(axis.cases[at])
        return tuple(reversed(found))
