"""Columns of a run that are no plain fields: items and ports in one cell, a size for each role."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import get_args

from linewright.document.columns import mark, scalar
from linewright.document.grid import Cell
from linewright.document.lists.fields import Holds, ListField, fields_of
from linewright.document.plans import plan
from linewright.document.source import Mapping, Node, Sequence, Source
from linewright.model.design import Item, Run, Unit
from linewright.model.values import Role
from linewright.units import Dimension

_ITEM = re.compile(r"(?P<kind>.+?)(?:\s*[x*]\s*(?P<count>[0-9]+))?")
_HINTS = {field.name: field.hint for field in plan(Run)}
#: Fields of the unit at the far end that a list of runs may hold.
OF_UNIT = ("model", "room", "label")
#: Behind these come items and sizes, and then the ports, as a run is measured on a drawing.
_FIRST = ("from", "to", "length", "rise", "bends")


def run_fields(roles: Iterable[Role] = Role) -> tuple[ListField, ...]:
    """Give the columns of runs, with sizes of so many roles, without those of units."""
    plain = fields_of(Run)
    return (
        *(field for field in plain if field.key in _FIRST),
        ListField("items", "items", _HINTS["items"], Holds.TEXT, default=(), write=_items_written, read=_items_read),
        *(_size(role) for role in roles),
        ListField("ports", "ports", _HINTS["ports"], Holds.TEXT, default=(), write=_ports_written, read=_ports_read),
        *(field for field in plain if field.key not in _FIRST),
    )


def far_unit_fields() -> tuple[ListField, ...]:
    """Give the columns of the unit at the far end of a run; none of them has to be there."""
    return tuple(field for field in fields_of(Unit) if field.key in OF_UNIT)


def _size(role: Role) -> ListField:
    hint = get_args(_HINTS["override"])[1]
    return ListField(role.value, f"override.{role}", hint, Holds.NUMBER, dimension=Dimension.TUBE)


def _items_written(items: tuple[Item, ...]) -> str:
    return ", ".join(item.kind if item.count == 1 else f"{item.kind} x {item.count}" for item in items)


def _ports_written(ports: tuple[int, ...]) -> str:
    return " ".join(str(port) for port in ports)


def _items_read(_: Source, cell: Cell, unit: str) -> Node:  # noqa: ARG001 - one signature
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


def _ports_read(_: Source, cell: Cell, unit: str) -> Node:  # noqa: ARG001 - one signature
    """`1 2` or `1+2` as a list."""
    found = [scalar(cell, part) for part in re.split(r"[\s,;+]+", cell.text) if part]
    return Sequence("", found, mark(cell), mark(cell), flow_style=True)
