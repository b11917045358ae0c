"""Locks: what a design says must stay as it is.

A lock names an element (`main/run:J2`, `room:office`), one of its fields by its key in a file (`main/run:J2.length`),
all that hangs on a node (`main/subtree:J3`), or a whole system (`main`).
"""

from __future__ import annotations

from collections.abc import Iterator

from linewright.model.design import ROOT, Design, System
from linewright.model.edits.places import element
from linewright.model.edits.touches import EXISTS, Touch
from linewright.model.edits.values import Kind
from linewright.model.values import key_of


def binding(design: Design, touch: Touch) -> str | None:
    """Give the lock of a design that a change would break, if any."""
    if not design.locks:
        return None
    return next((subject for subject in _covering(design, touch) if subject in design.locks), None)


def is_subject(design: Design, subject: str) -> bool:
    """Say whether there is anything that a lock of this name would hold."""
    name, _, field = subject.rpartition(".")
    known = set(_elements(design))
    return subject in known or (bool(field) and name in known)


def _covering(design: Design, touch: Touch) -> Iterator[str]:
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
