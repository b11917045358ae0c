"""The runs of a system as a table, one row each, and such a table back to edits of the system."""

from __future__ import annotations

import re
from collections.abc import Iterator
from collections.abc import Mapping as MappingType
from collections.abc import Sequence as SequenceType
from typing import Any, NamedTuple

from linewright.document.columns import Reader, headings, mark, open_grid, row_nodes, scalar
from linewright.document.decode import decode_at
from linewright.document.encode import UNKNOWN, Style, quantity
from linewright.document.grid import Cell, Grid
from linewright.document.plans import FieldPlan, plan
from linewright.document.source import Mapping, Node, Sequence, Source
from linewright.errors import quoted
from linewright.model.design import Run, System
from linewright.model.edits import Batch, Drop, Edit, Kind, Put, Set, Table
from linewright.model.values import Role
from linewright.units import Dimension

_FIELDS: MappingType[str, FieldPlan] = {field.key: field for field in plan(Run)}
_ITEM = re.compile(r"(?P<kind>.+?)(?:\s*[x*]\s*(?P<count>[0-9]+))?")


class RunList(NamedTuple):
    """What a table says: the edits, which runs it changes and adds, and those of the system that it leaves out.

    rows : row and column of each run of the table, and of each of its fields, such as `("J2", "length")`
    """

    edit: Batch
    changed: tuple[str, ...]
    added: tuple[str, ...]
    left_out: tuple[str, ...]
    rows: MappingType[tuple[str, str], tuple[int, int]]


def run_table(system: System, how: Style) -> list[list[str]]:
    """Headings and a row for each run; lengths in the unit of the style, tubes in that of tubes."""
    length, tube = how.unit(Dimension.LENGTH), how.unit(Dimension.TUBE)
    roles = [role for role in Role if any(role in run.override for run in system.runs)] or [Role.GAS, Role.LIQUID]
    heads = ["from", "to", f"length [{length}]", f"rise [{length}]", "bends", "items"]
    heads += [f"{role} [{tube}]" for role in roles]
    heads += ["ports", "location", f"as_built [{length}]"]
    return [heads, *(_row(run, roles, length, tube) for run in system.runs)]


def _row(run: Run, roles: SequenceType[Role], length: str, tube: str) -> list[str]:
    items = ", ".join(item.kind if item.count == 1 else f"{item.kind} x {item.count}" for item in run.items)
    return [
        run.from_,
        run.to,
        UNKNOWN if run.length_m is None else _number(run.length_m, Dimension.LENGTH, length),
        "" if run.rise_m is None else _number(run.rise_m, Dimension.LENGTH, length),
        str(run.bends),
        items,
        *(_number(run.override[role], Dimension.TUBE, tube) if role in run.override else "" for role in roles),
        " ".join(str(port) for port in run.ports),
        "" if run.location is None else run.location.value,
        "" if run.as_built_m is None else _number(run.as_built_m, Dimension.LENGTH, length),
    ]


def _number(value_si: float, dimension: Dimension, unit: str) -> str:
    """A bare number where it reads back as the same value in that unit, else with the unit that it needs."""
    text = quantity(value_si, dimension, unit)
    return text.removesuffix(f" {unit}") if text.endswith(f" {unit}") else text


def runs_from_grid(grid: Grid, system: System, *, remove: bool = False) -> RunList:
    """Read a table of runs. Columns that it has not stay as they are, and so do runs unless they are to be removed.

    Raises InputFaultsError with every fault, each with its row and its column.
    """
    source = open_grid(grid)
    columns = headings(source, grid, _NAMES)
    nodes = row_nodes(source, grid, columns, _READERS)
    stated = [column.key for column in columns if column is not None]
    if grid.rows and "to" not in stated:
        source.fault("", "there is no column 'to'", "the far end of each run", node=scalar(grid.rows[0][0]))
        source.refuse()
    rows = [_stated(source, node, i) for i, node in enumerate(nodes)]
    _check_twice(source, nodes, rows)
    read = _Reading(source, system, stated)
    edits = [edit for node, row in zip(nodes, rows, strict=True) if row.get("to") for edit in read.row(node, row)]
    left = tuple(run.to for run in system.runs if run.to not in {row.get("to") for row in rows})
    if remove:
        edits += [Drop(table=Table.RUNS, id=name, system=system.id) for name in left]
    source.refuse()
    return RunList(Batch(edits=tuple(edits)), tuple(read.changed), tuple(read.added), left, _places(nodes, rows))


def _places(
    nodes: SequenceType[Mapping], rows: SequenceType[MappingType[str, Any]]
) -> dict[tuple[str, str], tuple[int, int]]:
    found = {}
    for node, row in zip(nodes, rows, strict=True):
        name = str(row["to"])
        for key, item in (("", node), *((key.value, item) for key, item in node.value)):
            found[name, key] = (item.start_mark.line + 1, item.start_mark.column + 1)
    return found


def _stated(source: Source, node: Mapping, at: int) -> dict[str, Any]:
    """Fields of one row by key, as a design has them."""
    found: dict[str, Any] = {}
    for key, item in node.value:
        path = f"[{at}].{key.value}"
        if key.value in set(Role):
            sizes = Mapping("", [(key, item)], item.start_mark, item.end_mark, flow_style=True)
            found[f"override.{key.value}"] = decode_at(source, sizes, _FIELDS["override"].hint, path).get(
                Role(key.value)
            )
        else:
            found[key.value] = decode_at(source, item, _FIELDS[key.value].hint, path)
    if not found.get("to"):
        message = "the row names no run"
        source.fault(f"[{at}].to", message, "its far end under 'to'; a row of totals is left out", node=node, value="")
    return found


def _check_twice(source: Source, nodes: SequenceType[Mapping], rows: SequenceType[MappingType[str, Any]]) -> None:
    first: dict[str, int] = {}
    for i, (node, row) in enumerate(zip(nodes, rows, strict=True)):
        name = row.get("to", "")
        if name and name in first:
            message = f"the run to {quoted(name)} stands twice, first in row {first[name]}"
            source.fault(f"[{i}].to", message, "each run once", node=node, value=name)
        first.setdefault(name, node.start_mark.line + 1)


class _Reading:
    """Rows to edits, one after the other; what was changed and added so far."""

    def __init__(self, source: Source, system: System, stated: SequenceType[str]) -> None:
        self.source, self.system, self.stated = source, system, stated
        self.old = {run.to: run for run in system.runs}
        self.last = system.runs[-1].to if system.runs else None
        self.changed: list[str] = []
        self.added: list[str] = []

    def row(self, node: Mapping, row: MappingType[str, Any]) -> Iterator[Edit]:
        name = str(row["to"])
        if name in self.old:
            values = dict(self._differences(self.old[name], row))
            if values:
                self.changed.append(name)
                yield Set(kind=Kind.RUN, id=name, system=self.system.id, values=values)
            return
        missing = [key for key in ("from", "length") if key not in row]
        for key in missing:
            message = f"the run to {quoted(name)} is new, and its {key} is missing"
            self.source.fault(key, message, f"a cell under {quoted(key)}", node=node, value="")
        if not missing:
            self.added.append(name)
            yield Put(table=Table.RUNS, item=_new(row), after=self.last, system=self.system.id)
            self.last = name

    def _differences(self, old: Run, row: MappingType[str, Any]) -> Iterator[tuple[str, Any]]:
        """Fields that differ; a blank cell says that nothing is stated, and leaves near end and length as they are."""
        for key in self.stated:
            if key == "to" or (key in ("from", "length") and key not in row):
                continue
            if key in set(Role):
                size = row.get(f"override.{key}")
                if size != old.override.get(Role(key)):
                    yield f"override.{key}", size
                continue
            field = _FIELDS[key]
            new = row.get(key, _BLANK.get(key))
            if new != getattr(old, field.name):
                yield field.name, new


def _new(row: MappingType[str, Any]) -> Run:
    sizes = {
        Role(key.removeprefix("override.")): size for key, size in row.items() if key.startswith("override.") and size
    }
    fields = {_FIELDS[key].name: item for key, item in row.items() if key in _FIELDS}
    return Run(**fields, override=sizes)


#: What a blank cell stands for where that is not nothing.
_BLANK: MappingType[str, Any] = {"bends": 0, "items": (), "ports": ()}
_NAMES = {key: key for key in _FIELDS if key != "override"} | {role.value: role.value for role in Role}
_NAMES |= {"near_end": "from", "far_end": "to", "as-built": "as_built", "asbuilt": "as_built", "high/low": "high_low"}


def _items(_: Source, cell: Cell, unit: str) -> Node:  # noqa: ARG001 - one signature
    """`valve, trap x 2` as a list."""
    found: list[Node] = []
    for part in re.split(r"[,;+]", cell.text):
        match = _ITEM.fullmatch(part.strip())
        if match is not None and match["count"]:
            kind, count = (scalar(cell, text) for text in ("kind", "count"))
            entries = [(kind, scalar(cell, match["kind"])), (count, scalar(cell, match["count"]))]
            found.append(Mapping("", entries, mark(cell), mark(cell), flow_style=True))
        elif part.strip():
            found.append(scalar(cell, part.strip()))
    return Sequence("", found, mark(cell), mark(cell), flow_style=True)


def _ports(_: Source, cell: Cell, unit: str) -> Node:  # noqa: ARG001 - one signature
    """`1 2` or `1+2` as a list."""
    found = [scalar(cell, part) for part in re.split(r"[\s,;+]+", cell.text) if part]
    return Sequence("", found, mark(cell), mark(cell), flow_style=True)


def _name(_: Source, cell: Cell, unit: str) -> Node:  # noqa: ARG001 - one signature
    """A name is no number, whatever it looks like."""
    return scalar(cell)


_READERS: MappingType[str, Reader] = {
    "items": _items,
    "ports": _ports,
    "from": _name,
    "to": _name,
}
