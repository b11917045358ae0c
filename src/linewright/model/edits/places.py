"""Where things stand in a design: its lists and elements by name, and the design with one of them replaced."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from operator import attrgetter
from typing import Any, cast

from linewright.model.design import Design, Outdoor, Run, System
from linewright.model.edits.values import Item, Kind, Table

OF_DESIGN = (Table.LEVELS, Table.ROOMS, Table.SYSTEMS, Table.LOCKS)
#: Lists of names rather than of elements.
OF_NAMES = (Table.LOCKS, Table.DECLARED, Table.FORBIDDEN_ACTIONS)
_TABLES = {
    Kind.LEVEL: Table.LEVELS,
    Kind.ROOM: Table.ROOMS,
    Kind.SYSTEM: Table.SYSTEMS,
    Kind.RUN: Table.RUNS,
    Kind.UNIT: Table.UNITS,
    Kind.FITTING: Table.FITTINGS,
}
#: What one entry of a list is called.
WORD_OF = {
    **{table: kind.value for kind, table in _TABLES.items()},
    Table.LOCKS: "lock",
    Table.DECLARED: "declaration",
    Table.FORBIDDEN_ACTIONS: "forbidden size action",
}
_FAR_NODE, _ID = attrgetter("to"), attrgetter("id")
_KINDS = {table: kind for kind, table in _TABLES.items()}


class MissingError(Exception):
    """Something that an edit names is not there; carries what, its name, and the names that there are."""

    def __init__(self, what: str, name: str, known: Sequence[str]) -> None:
        """Keep what is missing."""
        self.what, self.name, self.known = what, name, tuple(known)
        super().__init__(f"there is no {what} '{name}'")


def name_of(item: Item) -> str:
    """Name of an item of a list: a run goes by its far node."""
    if isinstance(item, str):
        return item
    return item.to if isinstance(item, Run) else item.id


def _names(found: Sequence[Item]) -> list[str]:
    """Names of the items of a list, which are all of one kind."""
    if not found or isinstance(found[0], str):
        return [name_of(item) for item in found]
    return list(map(_FAR_NODE if isinstance(found[0], Run) else _ID, found))


def element(kind: Kind, name: str, system: str = "") -> str:
    """Name of an element among all of a design, such as `main/run:J2`."""
    if kind is Kind.SYSTEM:
        return f"system:{name or system}"
    where = f"{system}/" if system else ""
    return f"{where}{kind}:{name}" if name else f"{where}{kind}"


def item_element(table: Table, name: str, system: str = "") -> str:
    """Name of an item of a list among all of a design."""
    kind = _KINDS.get(table)
    return element(kind, name, system) if kind is not None else f"{system}/{table}:{name}"


def system_at(design: Design, name: str) -> int:
    """Position of a system; raises MissingError."""
    names = [system.id for system in design.systems]
    if name not in names:
        raise MissingError("system", name, names)
    return names.index(name)


def items(design: Design, table: Table, system: str = "") -> tuple[Item, ...]:
    """Give a list of a design or of one of its systems; raises MissingError."""
    if table is Table.LEVELS:
        return design.site.levels
    if table in OF_DESIGN:
        return cast("tuple[Item, ...]", getattr(design, table))
    return cast("tuple[Item, ...]", getattr(design.systems[system_at(design, system)], table))


def with_items(design: Design, table: Table, made: tuple[Any, ...], system: str = "") -> Design:
    """Give the design with one of its lists replaced."""
    if table is Table.LEVELS:
        return replace(design, site=replace(design.site, levels=made))
    if table in OF_DESIGN:
        return replace(design, **_field(table, made))
    return with_system(design, system, lambda old: replace(old, **_field(table, made)))


def _field(table: Table, made: tuple[Any, ...]) -> dict[str, Any]:
    return {table.value: made}


def with_system(design: Design, name: str, change: Callable[[System], System]) -> Design:
    """Give the design with one of its systems changed."""
    at = system_at(design, name)
    systems = (*design.systems[:at], change(design.systems[at]), *design.systems[at + 1 :])
    return replace(design, systems=systems)


def position(found: Sequence[Item], name: str, what: str) -> int:
    """Position of an item in a list; raises MissingError."""
    names = _names(found)
    if name not in names:
        raise MissingError(what, name, names)
    return names.index(name)


def get(design: Design, kind: Kind, name: str, system: str = "") -> object:
    """Give an element; raises MissingError."""
    if kind is Kind.PROJECT:
        return design
    if kind is Kind.SITE:
        return design.site
    if kind in _TABLES:
        found = items(design, _TABLES[kind], system)
        return found[position(found, name, kind.value)]
    of = design.systems[system_at(design, system)]
    outdoor = of.outdoor
    if kind is Kind.OUTDOOR:
        return outdoor
    if kind is Kind.PIPE:
        return outdoor.pipes[position(outdoor.pipes, name, "module pipe")]
    return outdoor.modules[_module_at(of, name)]


def element_named(design: Design, name: str) -> object:
    """Give what goes by a name such as `main/run:J2`; a name of a list is itself; raises MissingError."""
    if name.startswith("system:"):
        return get(design, Kind.SYSTEM, name.removeprefix("system:"))
    system, parted, rest = name.partition("/")
    if ":" in system:
        system, parted, rest = "", "", name
    rest = rest if parted else name
    system = system if parted else ""
    word, _, of = rest.partition(":")
    if word in set(Kind):
        return get(design, Kind(word), of, system)
    table = Table(word)
    found = items(design, table, system if parted else "")
    return found[position(found, of, WORD_OF[table])]


def put(design: Design, made: Any, kind: Kind, *, name: str, system: str = "") -> Design:  # noqa: ANN401 - any element
    """Give the design with an element replaced; raises MissingError."""
    if kind is Kind.PROJECT:
        return cast("Design", made)
    if kind is Kind.SITE:
        return replace(design, site=made)
    if kind in _TABLES:
        table = _TABLES[kind]
        found = items(design, table, system)
        at = position(found, name, kind.value)
        return with_items(design, table, (*found[:at], made, *found[at + 1 :]), system)
    outdoor = _outdoor(design.systems[system_at(design, system)], made, kind, name=name)
    return with_system(design, system, lambda old: replace(old, outdoor=outdoor))


def _outdoor(system: System, made: Any, kind: Kind, *, name: str) -> Outdoor:  # noqa: ANN401 - any element
    outdoor = system.outdoor
    if kind is Kind.OUTDOOR:
        return cast("Outdoor", made)
    if kind is Kind.PIPE:
        at = position(outdoor.pipes, name, "module pipe")
        return replace(outdoor, pipes=(*outdoor.pipes[:at], made, *outdoor.pipes[at + 1 :]))
    at = _module_at(system, name)
    return replace(outdoor, modules=(*outdoor.modules[:at], made, *outdoor.modules[at + 1 :]))


def _module_at(system: System, name: str) -> int:
    """Position of a module: by its id, else M1, M2, ... in the order of the list."""
    names = [module.id or f"M{i + 1}" for i, module in enumerate(system.outdoor.modules)]
    if name not in names:
        raise MissingError("outdoor module", name, names)
    return names.index(name)
