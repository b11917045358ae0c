"""What differs between two designs, field by field."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import fields
from typing import Any, NamedTuple

from linewright.document.edit_words import CLASSES
from linewright.document.encode import Style, encode
from linewright.document.plans import plan
from linewright.document.render import Form
from linewright.model.design import Design, System
from linewright.model.edits.places import element, name_of
from linewright.model.edits.values import Kind


class Difference(NamedTuple):
    """One field of one element, such as `main/run:J2` and `length`, in two designs; "" where it is not there."""

    element: str
    field: str
    before: str
    after: str


#: Parts that are elements of their own, or lists of such.
_PARTS = {
    Kind.PROJECT: {"site", "rooms", "systems"},
    Kind.SITE: {"levels"},
    Kind.SYSTEM: {"outdoor", "units", "runs", "fittings"},
    Kind.OUTDOOR: {"modules", "pipes"},
}


def compare(before: Design, after: Design) -> list[Difference]:
    """Give every field that differs, by element; of an element that is only in one, one line for the whole of it."""
    old, new = dict(_elements(before)), dict(_elements(after))
    how = Style(after.units)
    found: list[Difference] = []
    for name in [*old, *(name for name in new if name not in old)]:
        found += _differences(name, old.get(name), new.get(name), how)
    return found


def shown(value: object, kind: Kind, field: str, units: Style) -> str:
    """Give the value of a field as it would stand in a file; "" where nothing is stated, an empty text among it."""
    hints = {one.name: one.hint for one in plan(CLASSES[kind])}
    if value is None or value == "" or field not in hints:
        return "" if value is None else str(value)
    return Form().flow(encode(value, hints[field], units))


def _differences(
    name: str, old: tuple[Kind, Any] | None, new: tuple[Kind, Any] | None, how: Style
) -> Iterator[Difference]:
    if old is None or new is None:
        yield Difference(name, "exists", "yes" if old else "", "yes" if new else "")
        return
    kind, one = old
    other = new[1]
    if one is other:
        return
    for field in fields(one):
        if field.name in _PARTS.get(kind, set()):
            continue
        first, second = getattr(one, field.name), getattr(other, field.name)
        if first != second:
            key = next(item.key for item in plan(CLASSES[kind]) if item.name == field.name)
            yield Difference(name, key, shown(first, kind, field.name, how), shown(second, kind, field.name, how))


def elements_of(design: Design) -> dict[str, tuple[Kind, Any]]:
    """Every element of a design by its name, with its kind."""
    return dict(_elements(design))


def _elements(design: Design) -> Iterator[tuple[str, tuple[Kind, Any]]]:
    yield element(Kind.PROJECT, ""), (Kind.PROJECT, design)
    yield element(Kind.SITE, ""), (Kind.SITE, design.site)
    for level in design.site.levels:
        yield element(Kind.LEVEL, level.id), (Kind.LEVEL, level)
    for room in design.rooms:
        yield element(Kind.ROOM, room.id), (Kind.ROOM, room)
    for system in design.systems:
        yield from _of_system(system)


def _of_system(system: System) -> Iterator[tuple[str, tuple[Kind, Any]]]:
    yield element(Kind.SYSTEM, system.id), (Kind.SYSTEM, system)
    yield element(Kind.OUTDOOR, "", system.id), (Kind.OUTDOOR, system.outdoor)
    lists: Mapping[Kind, tuple[Any, ...]] = {
        Kind.PIPE: system.outdoor.pipes,
        Kind.UNIT: system.units,
        Kind.RUN: system.runs,
        Kind.FITTING: system.fittings,
    }
    for i, module in enumerate(system.outdoor.modules):
        yield element(Kind.MODULE, module.id or f"M{i + 1}", system.id), (Kind.MODULE, module)
    for kind, items in lists.items():
        for item in items:
            yield element(kind, name_of(item), system.id), (kind, item)
