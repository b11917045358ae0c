"""A grid of a list to edits of the design: one gesture, in which what the grid does not say stays."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from linewright.document.grid import Grid
from linewright.document.lists.fittings import FittingRows
from linewright.document.lists.items import ItemRows
from linewright.document.lists.kinds import ListKind, listed_items
from linewright.document.lists.reading import Places, places, read_rows
from linewright.document.lists.runs import RunRows
from linewright.document.lists.units import UnitRows
from linewright.model.design import Design
from linewright.model.edits import Batch, Edit


class ListEdits(NamedTuple):
    """What a table says: the edits, which items it changes and adds, and those of the design that it leaves out.

    places : row and column of each item of the table, and of each of its fields, such as `("J2", "length")`
    """

    kind: ListKind
    system: str
    edit: Batch
    changed: tuple[str, ...]
    added: tuple[str, ...]
    left_out: tuple[str, ...]
    places: Places


_ROWS = {
    ListKind.LEVELS: ItemRows,
    ListKind.ROOMS: ItemRows,
    ListKind.UNITS: UnitRows,
    ListKind.RUNS: RunRows,
    ListKind.FITTINGS: FittingRows,
}


def edits_from_grid(kind: ListKind, grid: Grid, design: Design, *, system: str = "", remove: bool = False) -> ListEdits:
    """Read a table of a list. Columns that it has not stay as they are, and so do items unless they are to be removed.

    Raises InputFaultsError with every fault, each with its row and its column; MissingError where there is no such
    system.
    """
    read = read_rows(kind, grid)
    made = _ROWS[kind](kind, design, system, read)
    edits = [edit for stated in read.rows for edit in made.row(stated)]
    known = {made.known_as(stated.name) for stated in read.rows}
    left = tuple(name for name in listed_items(kind, design, system) if name not in known)
    if remove:
        edits += _removed(made, left)
    read.source.refuse()
    return ListEdits(
        kind, system, Batch(edits=tuple(edits)), tuple(made.changed), tuple(made.added), left, places(read.rows)
    )


def _removed(made: ItemRows, left: tuple[str, ...]) -> Iterator[Edit]:
    return made.without(left)
