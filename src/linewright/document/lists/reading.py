"""A grid of a list to what each of its rows states, by key, as a design has it."""

from __future__ import annotations

from collections.abc import Mapping as MappingType
from collections.abc import Sequence as SequenceType
from typing import Any, NamedTuple

from linewright.document.columns import headings, open_grid, row_nodes, scalar
from linewright.document.decode import decode_at
from linewright.document.grid import Grid
from linewright.document.lists.kinds import ALIASES, OF, ListKind, Of, all_fields
from linewright.document.source import Mapping, Source
from linewright.errors import quoted
from linewright.model.edits import Kind

#: Larger than any list that somebody draws up.
MOST_ROWS, MOST_COLUMNS = 5_000, 200

Places = MappingType[tuple[str, str], tuple[int, int]]


class Stated(NamedTuple):
    """One row: its name, what it states by key, its node."""

    name: str
    row: MappingType[str, Any]
    node: Mapping


class Read(NamedTuple):
    """The rows of a grid that name something, the keys of its columns, and the source that takes faults."""

    source: Source
    keys: tuple[str, ...]
    rows: tuple[Stated, ...]


def read_rows(kind: ListKind, grid: Grid) -> Read:
    """Read what the rows of a list state; faults are noted in the source.

    Raises InputFaultsError where no column names the rows.
    """
    of, fields = OF[kind], {field.key: field for field in all_fields(kind)}
    source = open_grid(grid)
    _check_size(source, grid)
    names = {key: key for key in fields} | (ALIASES if kind is ListKind.RUNS else {})
    columns = headings(source, grid, names)
    nodes = row_nodes(source, grid, columns, {key: field.read for key, field in fields.items() if field.read})
    keys = tuple(column.key for column in columns if column is not None)
    if grid.rows and of.key not in keys:
        message = f"there is no column {quoted(of.key)}"
        what = "the far end of each run" if of.kind is Kind.RUN else f"the name of each {of.kind}"
        source.fault("", message, what, node=scalar(grid.rows[0][0]))
        source.refuse()
    rows: list[Stated] = []
    for i, node in enumerate(nodes):
        row = {
            key.value: decode_at(source, item, fields[key.value].hint, f"[{i}].{key.value}") for key, item in node.value
        }
        name = row.get(of.key)
        if name:
            rows.append(Stated(name, row, node))
        else:
            _note_nameless(source, node, of, i)
    _check_twice(source, rows, of)
    return Read(source, keys, tuple(rows))


def places(rows: SequenceType[Stated]) -> Places:
    """Row and column of each item and of each of its fields, such as `("J2", "length")`."""
    found = {}
    for name, _, node in rows:
        for key, item in (("", node), *((key.value, item) for key, item in node.value)):
            found[name, key] = (item.start_mark.line + 1, item.start_mark.column + 1)
    return found


def _check_size(source: Source, grid: Grid) -> None:
    """Refuse what is larger than any list of a design: each cell of it would be looked at for nothing."""
    columns = sum(bool(cell.text) for cell in grid.rows[0]) if grid.rows else 0
    for count, most, what in ((len(grid.rows), MOST_ROWS, "rows"), (columns, MOST_COLUMNS, "columns")):
        if count > most:
            source.fault("", f"the table has {count:,} {what}", f"at most {most:,}")
            source.refuse()


def _note_nameless(source: Source, node: Mapping, of: Of, at: int) -> None:
    message = f"the row names no {of.kind}"
    what = "its far end" if of.kind is Kind.RUN else "its name"
    source.fault(
        f"[{at}].{of.key}", message, f"{what} under {quoted(of.key)}; a row of totals is left out", node=node, value=""
    )


def _check_twice(source: Source, rows: SequenceType[Stated], of: Of) -> None:
    first: dict[str, int] = {}
    for name, _, node in rows:
        if name in first:
            message = f"{of.named(name)} stands twice, first in row {first[name]}"
            source.fault(of.key, message, f"each {of.kind} once", node=node, value=name)
        first.setdefault(name, node.start_mark.line + 1)
