"""A list of a design as a table: columns that say what they hold, and a row for each item."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import NamedTuple

from linewright.document.encode import Style
from linewright.document.lists.fields import Holds, ListField
from linewright.document.lists.kinds import OF, ListKind, listed_items, own_fields, system_of
from linewright.document.lists.run_fields import far_unit_fields
from linewright.model.design import Design, System
from linewright.model.edits.steps import field_of
from linewright.model.values import Role

Choices = Mapping[str, tuple[str, ...]]
_FREE: Choices = MappingProxyType({})


class Column(NamedTuple):
    """One column: its key, the heading that says key and unit, what its cells hold, what they may hold if not all."""

    key: str
    heading: str
    unit: str
    holds: Holds
    choices: tuple[str, ...]


class Row(NamedTuple):
    """One item: its name, and a cell for each column."""

    id: str
    cells: tuple[str, ...]


class ListTable(NamedTuple):
    """A list of a design; `system` is empty where it belongs to none, `key` the column that names the items."""

    kind: ListKind
    system: str
    key: str
    columns: tuple[Column, ...]
    rows: tuple[Row, ...]

    @property
    def texts(self) -> list[list[str]]:
        """Headings and rows."""
        return [[column.heading for column in self.columns], *(list(row.cells) for row in self.rows)]

    @property
    def words(self) -> list[int]:
        """Positions of the columns that hold no numbers."""
        return [at for at, column in enumerate(self.columns) if column.holds is not Holds.NUMBER]


def list_table(
    kind: ListKind,
    design: Design,
    how: Style,
    *,
    system: str = "",
    choices: Choices = _FREE,
    roles: Iterable[Role] = (),
) -> ListTable:
    """Give a list as a table; what a book offers, and the tubes that it knows, say `choices` and `roles`.

    Raises MissingError where there is no such system.
    """
    found = listed_items(kind, design, system)
    tubes = run_roles(system_of(design, system), roles) if kind is ListKind.RUNS else ()
    own = own_fields(kind, tubes)
    beyond = far_unit_fields() if kind is ListKind.RUNS else ()
    units = {unit.id: unit for unit in system_of(design, system).units} if beyond else {}
    rows = tuple(
        Row(name, (*_cells(own, item, how), *_cells(beyond, units.get(name), how))) for name, item in found.items()
    )
    columns = tuple(
        Column(field.key, field.heading(how), field.unit(how), field.holds, choices.get(field.key, ()))
        for field in (*own, *beyond)
    )
    return ListTable(kind, system if kind.of_system else "", OF[kind].key, columns, rows)


def run_roles(system: System, known: Iterable[Role] = ()) -> tuple[Role, ...]:
    """Give the roles that have a column: those of the book if known, those overridden; else gas and liquid."""
    stated = {role for run in system.runs for role in run.override} | set(known)
    return tuple(role for role in Role if role in stated) or (Role.GAS, Role.LIQUID)


def _cells(fields: Iterable[ListField], item: object, how: Style) -> Iterable[str]:
    return ("" if item is None else field.text(field_of(item, field.name), how) for field in fields)
