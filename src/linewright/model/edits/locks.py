"""Locks: what a design says must stay as it is.

A lock names an element (`main/run:J2`, `room:office`), one of its fields by its key in a file (`main/run:J2.length`),
all that hangs on a node (`main/subtree:J3`), or a whole system (`main`).
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields
from typing import Any

from linewright.model.design import ROOT, Design, Run, System
from linewright.model.edits.places import element, element_named, system_at
from linewright.model.edits.touches import ARMS, EXISTS, NAMES_IN, Touch
from linewright.model.edits.values import Kind, Table
from linewright.model.values import Role, key_of


def binding(design: Design, touch: Touch) -> str | None:
    """Give the lock of a design that a change would break, if any."""
    if not design.locks:
        return None
    found = next((subject for subject in _covering(design, touch) if subject in design.locks), None)
    if found is None and touch.field == EXISTS:
        parts = (f"{touch.element}.", f"{touch.element.removeprefix('system:')}/")
        return next((subject for subject in design.locks if subject.startswith(parts)), None)
    return found


def held(design: Design, subject: str) -> frozenset[Touch]:
    """Give all that a lock would hold, so that an edit of it and the lock meet."""
    touches = {touch for name, system in _named(design) for touch in _touches(design, name, system)}
    found = {touch for touch in touches if subject in _covering(design, touch)}
    stated = (
        Touch(element(Kind.FITTING, run.to, system.id), EXISTS) for system in design.systems for run in system.runs
    )
    found |= {touch for touch in stated if subject in _covering(design, touch)}
    system, inside, rest = subject.partition("/")
    if inside or system in {item.id for item in design.systems}:
        found.add(Touch(element(Kind.SYSTEM, system), EXISTS))
    if inside and "." in rest:
        found.add(Touch(subject.rpartition(".")[0], EXISTS))
    if not inside:
        found |= {Touch(f"{subject}/{table}", NAMES_IN) for table in Table}
    return frozenset(found)


def _touches(design: Design, name: str, system: str) -> Iterator[Touch]:
    """Everything that can be written of an element."""
    found: Any = element_named(design, name)
    yield Touch(name, EXISTS)
    for field in fields(found):
        yield Touch(name, field.name)
    if isinstance(found, Run):
        yield from (Touch(name, f"override.{role}") for role in Role)
        yield from (Touch(name, f"arm {run.to}") for run in design.systems[system_at(design, system)].runs)
        yield Touch(name, ARMS)


def _named(design: Design) -> Iterator[tuple[str, str]]:
    """Names of all elements with the system that they are in."""
    for name in _elements(design):
        system = name.partition("/")[0] if "/" in name else ""
        if ":subtree" not in name and "/subtree:" not in name and name not in {item.id for item in design.systems}:
            yield name, system


def is_subject(design: Design, subject: str) -> bool:
    """Say whether there is anything that a lock of this name would hold."""
    name, _, field = subject.rpartition(".")
    known = set(_elements(design))
    return subject in known or (bool(field) and name in known)


def _covering(design: Design, touch: Touch) -> Iterator[str]:
    if not touch.field.startswith("arm "):
        yield touch.element
    if touch.field != EXISTS:
        yield f"{touch.element}.{key_of(touch.field.partition('.')[0])}"
    system, _, rest = touch.element.partition("/")
    found = next((item for item in design.systems if item.id == system), None)
    if found is None:
        name = touch.element.removeprefix("system:")
        yield from (name,) if name != touch.element else ()
        return
    yield system
    node = rest.partition(":")[2]
    yield from (f"{system}/subtree:{above}" for above in _above(found, node))


def _above(system: System, node: str) -> Iterator[str]:
    into = {run.to: run.from_ for run in system.runs}
    seen: set[str] = set()
    while node in into and node not in seen:
        yield node
        seen.add(node)
        node = into[node]


def _elements(design: Design) -> Iterator[str]:
    yield from (element(Kind.ROOM, room.id) for room in design.rooms)
    yield from (element(Kind.LEVEL, level.id) for level in design.site.levels)
    yield element(Kind.SITE, "")
    for system in design.systems:
        yield system.id
        yield element(Kind.OUTDOOR, "", system.id)
        for kind, names in (
            (Kind.RUN, [run.to for run in system.runs]),
            (Kind.UNIT, [unit.id for unit in system.units]),
            (Kind.FITTING, [fitting.id for fitting in system.fittings]),
            (Kind.PIPE, [pipe.to for pipe in system.outdoor.pipes]),
            (Kind.MODULE, [module.id or f"M{i + 1}" for i, module in enumerate(system.outdoor.modules)]),
        ):
            yield from (element(kind, name, system.id) for name in names)
        yield from (f"{system.id}/subtree:{run.to}" for run in system.runs if run.to != ROOT)
