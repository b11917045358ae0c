"""A table of a book out of a grid: a list of rows, a ladder, figures by tube size, a table of one axis or of two.

Headings are the keys of docs/reference/formats.md. Every cell that is not understood is told with its row and its
column, and then nothing is taken.
"""

from __future__ import annotations

import dataclasses
import re
from collections.abc import Mapping as MappingType
from collections.abc import Sequence as SequenceType
from typing import get_args, get_origin

from linewright.book.edits import SetValue
from linewright.document.book_paths import Place, meant
from linewright.document.columns import (
    Column,
    Reader,
    check_points,
    headings,
    mark,
    open_grid,
    row_nodes,
    scalar,
    value,
)
from linewright.document.decode import decode_at
from linewright.document.grid import Cell, Grid
from linewright.document.plans import Hint, is_value, plan
from linewright.document.source import Mapping, Node, Scalar, Sequence, Source
from linewright.errors import listed
from linewright.model.values import Role
from linewright.units import Quantity

_CORNER = re.compile(r"[/\\]")
_BETWEEN_FIGURES = re.compile(r"\s*[+;/]\s*")
_SPLIT = re.compile(r"\s*[+,;]\s*")


def table_from_grid(grid: Grid, place: Place) -> SetValue:
    """Read a grid as what stands, or may stand, at a place of a book.

    Raises InputFaultsError with every cell that is not understood.
    """
    source = open_grid(grid)
    hint, path, found = meant(place.hint, place.found), place.path, place.found
    if _is_list(hint) and _is_table(get_args(hint)[0]):
        hint, path, found = get_args(hint)[0], (*path, 0), found[0] if found else None
    node = _node(source, grid, hint)
    if node is source.root:
        source.refuse()
    made = decode_at(source, node, hint, "")
    source.refuse()
    if found is not None and is_value(hint):
        made = dataclasses.replace(found, **{name: getattr(made, name) for name in _stated(node, hint)})
    return SetValue(path=path, to=made)


def _is_table(item: Hint) -> bool:
    """Whether an item of a list is itself a table of figures."""
    return is_value(item) and any(field.name in ("factor", "capacity_w", "total") for field in plan(item))


def _is_list(hint: Hint) -> bool:
    origin: Hint = get_origin(meant(hint, None))
    return origin is tuple


def _node(source: Source, grid: Grid, hint: Hint) -> Node:
    if not grid.rows:
        source.fault("", "the table is empty", "a row of headings, and rows below it")
        return source.root
    origin: Hint = get_origin(hint)
    if origin is tuple:
        item = meant(get_args(hint)[0], None)
        return _rows(source, grid, item) if is_value(item) else _list(source, grid)
    if origin is MappingType:
        return _pairs(source, grid)
    if is_value(hint) and _is_table(hint):
        corner = grid.rows[0][0]
        return _matrix(source, grid, hint) if _CORNER.search(corner.text) else _columns(source, grid, hint)
    source.fault("", "no table stands there", "the path of a list of rows, or of a table of figures")
    return source.root


def _stated(node: Node, hint: Hint) -> list[str]:
    keys = {key.value for key, _ in node.value} if isinstance(node, Mapping) else set()
    return [field.name for field in plan(hint) if field.key in keys]


def _rows(source: Source, grid: Grid, item: Hint) -> Node:
    """A list of rows by the headings of their keys; `indoor_count.min` is a key inside another."""
    known, readers = _keys(item)
    columns = headings(source, grid, known)
    nodes = [_nested(node) for node in row_nodes(source, grid, columns, readers)]
    return _sequence(nodes, grid.rows[0][0])


def _keys(item: Hint) -> tuple[dict[str, str], dict[str, Reader]]:
    known: dict[str, str] = {}
    readers: dict[str, Reader] = {}
    for field in plan(item):
        hint = meant(field.hint, None)
        if field.inline:
            known |= {role.value: role.value for role in Role}
        elif is_value(hint):
            known |= {f"{field.key}.{inner.key}": f"{field.key}.{inner.key}" for inner in plan(hint)}
            known |= {field.key: field.key} if _may_be_scalar(field.hint) else {}
        else:
            known[field.key] = field.key
            if _is_list(hint):
                readers[field.key] = _figures if _is_figure(get_args(hint)[0]) else _several
            elif hint is str:
                readers[field.key] = _word
    return known, readers


def _may_be_scalar(hint: Hint) -> bool:
    """Whether a value that may have keys inside may stand as one word or figure as well."""
    options = [option for option in get_args(hint) if option is not type(None)]
    return any(not is_value(option) and get_origin(option) is None for option in options)


def _several(_: Source, cell: Cell, unit: str) -> Node:  # noqa: ARG001 - one signature
    """`A + B` in one cell as a list."""
    return _sequence([scalar(cell, part) for part in _SPLIT.split(cell.text) if part], cell)


def _figures(source: Source, cell: Cell, unit: str) -> Node:
    """`208 / 230` in one cell as a list of figures, each with the unit of the column."""
    parts = [part for part in _BETWEEN_FIGURES.split(cell.text) if part]
    return _sequence([value(source, cell._replace(text=part), unit) for part in parts], cell)


def _is_figure(item: Hint) -> bool:
    return any(isinstance(mark, Quantity) for mark in getattr(item, "__metadata__", ()))


def _word(_: Source, cell: Cell, unit: str) -> Node:  # noqa: ARG001 - one signature
    """A name is no number, whatever it looks like."""
    return scalar(cell)


def _nested(node: Mapping) -> Mapping:
    """Entries with a dotted key as mappings inside."""
    entries: list[tuple[Node, Node]] = []
    inside: dict[str, Mapping] = {}
    for key, item in node.value:
        outer, _, inner = key.value.partition(".")
        if not inner:
            entries.append((key, item))
            continue
        if outer not in inside:
            inside[outer] = Mapping("", [], item.start_mark, item.end_mark, flow_style=True)
            entries.append((_renamed(key, outer), inside[outer]))
        inside[outer].value.append((_renamed(key, inner), item))
    return Mapping("", entries, node.start_mark, node.end_mark, flow_style=True)


def _renamed(key: Scalar, name: str) -> Scalar:
    return Scalar(key.tag, name, key.start_mark, key.end_mark, style=key.style)


def _list(source: Source, grid: Grid) -> Node:
    """Figures one below the other or one beside the other; a heading in front may carry their unit."""
    cells = [cell for row in grid.rows for cell in row if cell.text]
    check_points(source, cells)
    first = cells[0]
    heading = not re.match(r"[0-9.+-]", first.text)
    unit = _unit(first) if heading else ""
    return _sequence([value(source, cell, unit) for cell in (cells[1:] if heading else cells)], first)


def _pairs(source: Source, grid: Grid) -> Node:
    """Two columns: what a figure is for, and the figure."""
    first = grid.rows[0]
    if any(len([cell for cell in row if cell.text]) != 2 for row in grid.rows):
        source.fault("", "this has not two columns", "what a figure is for, and the figure", node=scalar(first[0]))
        return source.root
    pairs = [[cell for cell in row if cell.text] for row in grid.rows]
    check_points(source, (cell for row in pairs[1:] for cell in row))
    units = [_unit(cell) for cell in pairs[0]]
    entries = [(value(source, key, units[0]), value(source, figure, units[1])) for key, figure in pairs[1:]]
    return Mapping("", entries, mark(first[0]), mark(first[0]), flow_style=True)


def _columns(source: Source, grid: Grid, hint: Hint) -> Node:
    """A table of one axis: a column for the axis and one for each list of figures."""
    fields = {field.key: field for field in plan(hint) if _is_list(field.hint)}
    columns = headings(source, grid, {key: key for key in fields})
    lists: dict[str, list[Node]] = {column.key: [] for column in columns if column is not None}
    for node in row_nodes(source, grid, columns, {}):
        stated = {key.value: item for key, item in node.value}
        for key, figures in lists.items():
            if key not in stated:
                source.fault("", f"the row has nothing under '{key}'", "a figure in every row", node=node, value="")
                continue
            item = stated[key]
            is_rows = _is_list(get_args(meant(fields[key].hint, None))[0])
            figures.append(_sequence([item], item) if is_rows else item)
    entries = [
        (scalar(column.cell, column.key), _sequence(lists[column.key], column.cell))
        for column in columns
        if column is not None
    ]
    return Mapping("", entries, mark(grid.rows[0][0]), mark(grid.rows[0][0]), flow_style=True)


def _matrix(source: Source, grid: Grid, hint: Hint) -> Node:
    """A table of two axes: the corner names them, `outdoor_db [C] / indoor_wb [C]`, down and across."""
    corner, across = grid.rows[0][0], [cell for cell in grid.rows[0][1:] if cell.text]
    check_points(source, (cell for row in grid.rows for cell in row))
    if not across or not grid.rows[1:]:
        source.fault("", "the table is empty", "an axis across, an axis down, and a figure for each pair of them")
    fields = {field.key: field for field in plan(hint)}
    figures = "capacity" if "capacity" in fields else "factor"
    known = {key: key for key in fields if key not in (figures, "page", "input")}
    axes = [_axis(source, corner, part, known) for part in _CORNER.split(corner.text, maxsplit=1)]
    unit = _unit(grid.rows[1][0]) if len(grid.rows) > 1 and not grid.rows[1][0].text else ""
    down: list[Node] = []
    rows: list[Node] = []
    for row in grid.rows[1:]:
        there = {cell.column: cell for cell in row}
        cells = [there.get(head.column, Cell("", row[0].row, head.column)) for head in across]
        late = [cell for cell in row[1:] if cell.text and cell not in cells]
        for cell in [cell for cell in cells if not cell.text] + late:
            message = (
                "nothing is written here" if not cell.text else f"'{cell.text}' stands in a column without a heading"
            )
            source.fault("", message, "a figure in every cell of the table", node=scalar(cell))
        down.append(value(source, row[0], axes[0].unit))
        rows.append(_sequence([value(source, cell, unit) for cell in cells], row[0]))
    parts: list[tuple[str, SequenceType[Node]]] = [
        (axes[0].key, down),
        (axes[1].key, [value(source, cell, axes[1].unit) for cell in across]),
        (figures, rows),
    ]
    entries = [(scalar(corner, key), _sequence(items, corner)) for key, items in parts]
    return Mapping("", entries, mark(corner), mark(corner), flow_style=True)


def _axis(source: Source, corner: Cell, part: str, known: MappingType[str, str]) -> Column:
    name, _, unit = part.partition("[")
    key = name.strip().lower().replace(" ", "_")
    if key not in known:
        source.fault("", f"no axis is called '{name.strip()}'", listed(sorted(known)), node=scalar(corner))
    return Column(key, unit.strip(" ]"), corner)


def _unit(cell: Cell) -> str:
    match = re.search(r"[\[(]([^\])]*)[\])]", cell.text)
    return match[1].strip() if match else ""


def _sequence(items: SequenceType[Node], at: Cell | Node) -> Sequence:
    start = mark(at) if isinstance(at, Cell) else at.start_mark
    return Sequence("", list(items), start, start, flow_style=True)
