"""The lists of a design that go as tables, and what each is of."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum
from types import MappingProxyType
from typing import NamedTuple

from linewright.document.lists.fields import ListField, fields_of
from linewright.document.lists.run_fields import far_unit_fields, run_fields
from linewright.errors import quoted
from linewright.model.design import Design, Fitting, Level, Room, Run, System, Unit
from linewright.model.edits import Kind, Table
from linewright.model.edits.places import items, name_of, system_at
from linewright.model.values import Role


class ListKind(StrEnum):
    """A list that can be had and given as a table."""

    LEVELS = "levels"
    ROOMS = "rooms"
    UNITS = "units"
    RUNS = "runs"
    FITTINGS = "fittings"

    @property
    def of_system(self) -> bool:
        """Say whether each system has such a list."""
        return self not in (ListKind.LEVELS, ListKind.ROOMS)


class Of(NamedTuple):
    """What a list is of: the class of its items, their list, the column that names them."""

    cls: type
    table: Table
    kind: Kind
    key: str = "id"

    def named(self, name: str) -> str:
        """Name an item in a message; a run goes by its far end."""
        return f"the run to {quoted(name)}" if self.kind is Kind.RUN else f"the {self.kind} {quoted(name)}"


OF = MappingProxyType(
    {
        ListKind.LEVELS: Of(Level, Table.LEVELS, Kind.LEVEL),
        ListKind.ROOMS: Of(Room, Table.ROOMS, Kind.ROOM),
        ListKind.UNITS: Of(Unit, Table.UNITS, Kind.UNIT),
        ListKind.RUNS: Of(Run, Table.RUNS, Kind.RUN, "to"),
        ListKind.FITTINGS: Of(Fitting, Table.FITTINGS, Kind.FITTING),
    }
)
#: Other names that the columns of runs go by.
ALIASES = {"near_end": "from", "far_end": "to", "as-built": "as_built", "asbuilt": "as_built", "high/low": "high_low"}


def own_fields(kind: ListKind, roles: Iterable[Role] = Role) -> tuple[ListField, ...]:
    """Give the columns of what a list is of."""
    return run_fields(roles) if kind is ListKind.RUNS else fields_of(OF[kind].cls)


def all_fields(kind: ListKind, roles: Iterable[Role] = Role) -> tuple[ListField, ...]:
    """Give all columns of a list; behind those of a run stand those of the unit at its far end."""
    return (*own_fields(kind, roles), *(far_unit_fields() if kind is ListKind.RUNS else ()))


def system_of(design: Design, name: str) -> System:
    """Find a system; raises MissingError."""
    return design.systems[system_at(design, name)]


def listed_items(kind: ListKind, design: Design, system: str) -> dict[str, object]:
    """Give what a list holds by name; the fittings are all nodes that are no unit, with nothing said where it is not.

    Raises MissingError.
    """
    of = OF[kind]
    found: dict[str, object] = {name_of(one): one for one in items(design, of.table, system)}
    if kind is ListKind.FITTINGS:
        return {name: found.get(name, Fitting(id=name)) for name in nodes_of(system_of(design, system))}
    return found


def nodes_of(system: System) -> list[str]:
    """Give the far ends of runs that are no units, in the order of the runs."""
    units = {unit.id for unit in system.units}
    return [run.to for run in system.runs if run.to not in units]
