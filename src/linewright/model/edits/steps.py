"""The three changes that all edits are made of: each gives the design after it, what undoes it, and what it touches."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import fields, replace
from types import MappingProxyType
from typing import Any, NamedTuple

from linewright.errors import one_of, quoted
from linewright.model.design import Design, Run
from linewright.model.edits.faults import refuse
from linewright.model.edits.fits import fits, hints_of
from linewright.model.edits.places import (
    WORD_OF,
    element,
    get,
    item_element,
    items,
    name_of,
    position,
    put,
    with_items,
)
from linewright.model.edits.touches import ARMS, EXISTS, NAMES_IN, Touch, Touched
from linewright.model.edits.values import Drop, FieldValue, Item, Kind, Put, Set
from linewright.model.values import Role, key_of

Step = Set | Put | Drop
#: Fields that no edit of a field changes: other things are named by them.
NAMES = {"id", "to"}
#: Lists and parts that have edits of their own.
PARTS = {
    "units",
    "runs",
    "fittings",
    "declared",
    "forbidden_actions",
    "outdoor",
    "site",
    "rooms",
    "systems",
    "locks",
    "levels",
}
OVERRIDE = "override"


class Stepped(NamedTuple):
    """A design after one step, the step that undoes it, and what it touches."""

    design: Design
    inverse: Step
    touched: Touched


def take(design: Design, step: Step) -> Stepped:
    """Make one step; raises EditRefusedError or MissingError."""
    if isinstance(step, Set):
        return _set(design, step)
    return _put(design, step) if isinstance(step, Put) else _drop(design, step)


def _set(design: Design, step: Set) -> Stepped:
    found = get(design, step.kind, step.id, step.system)
    name = element(step.kind, step.id, step.system)
    before: dict[str, FieldValue] = {}
    made = found
    for field, value in step.values.items():
        before[field] = _field(made, field, name)
        made = _with_field(made, field, value, name)
    writes = {Touch(name, field) for field in step.values}
    if isinstance(found, Run) and isinstance(made, Run) and "from_" in step.values:
        writes |= {*_arms(found, step.system), *_arms(made, step.system)}
    reads = {Touch(name, EXISTS), *_referred(step.values, step.system), *_within(step.system)}
    if step.kind in (Kind.MODULE, Kind.PIPE):
        reads.add(Touch(element(Kind.OUTDOOR, "", step.system), "modules"))
        reads.add(Touch(element(Kind.OUTDOOR, "", step.system), "pipes"))
    after = put(design, made, step.kind, name=step.id, system=step.system)
    return Stepped(after, replace(step, values=before), Touched(frozenset(reads), frozenset(writes)))


def _put(design: Design, step: Put) -> Stepped:
    found, name = items(design, step.table, step.system), name_of(step.item)
    if name in [name_of(item) for item in found]:
        raise refuse(f"{step.table}", f"the name {quoted(name)} is used already", "another name", name)
    place = _by_name(found, step) if step.by_name else _behind(found, step)
    after = with_items(design, step.table, (*found[: place.at], step.item, *found[place.at :]), step.system)
    reads = {*place.touched.reads, *_referred(_values(step.item), step.system), *_within(step.system)}
    writes = {Touch(item_element(step.table, name, step.system), EXISTS), *place.touched.writes}
    writes |= set(_arms(step.item, step.system))
    undo = Drop(table=step.table, id=name, system=step.system)
    return Stepped(after, undo, Touched(frozenset(reads), frozenset(writes)))


class _Place(NamedTuple):
    """Position in a list, and what it rests on."""

    at: int
    touched: Touched


def _behind(found: Sequence[Item], step: Put) -> _Place:
    """Behind the item that is named, where only one of two edits may put something."""
    whole = f"{step.system}/{step.table}"
    reads = {Touch(whole, NAMES_IN)}
    if step.after is None:
        return _Place(0, Touched(frozenset(reads), frozenset({Touch(whole, "first")})))
    reads.add(Touch(item_element(step.table, step.after, step.system), EXISTS))
    at = position(found, step.after, WORD_OF[step.table]) + 1
    return _Place(at, Touched(frozenset(reads), frozenset({Touch(whole, f"after {step.after}")})))


def _by_name(found: Sequence[Item], step: Put) -> _Place:
    """Before the first item with a greater name; two edits that do so commute."""
    whole, name = f"{step.system}/{step.table}", name_of(step.item)
    at = next((i for i, item in enumerate(found) if natural(name_of(item)) > natural(name)), len(found))
    reads = {Touch(item_element(step.table, name_of(found[at]), step.system), EXISTS)} if at < len(found) else set()
    return _Place(at, Touched(frozenset(reads), frozenset({Touch(whole, f"name {name}")})))


def natural(name: str) -> tuple[tuple[int, int, str], ...]:
    """Key by which U2 comes before U10."""
    parts = (part for part in re.split(r"([0-9]+)", name) if part)
    return tuple((0, int(part), "") if part.isascii() and part.isdigit() else (1, 0, part) for part in parts)


def _within(system: str) -> Iterator[Touch]:
    """What is done in a system rests on its being there."""
    if system:
        yield Touch(element(Kind.SYSTEM, system), EXISTS)


def _arms(item: Item, system: str) -> Iterator[Touch]:
    """The node that a run leaves has it for an arm."""
    if isinstance(item, Run):
        yield Touch(element(Kind.RUN, item.from_, system), f"arm {item.to}")


def _drop(design: Design, step: Drop) -> Stepped:
    found = items(design, step.table, step.system)
    at = position(found, step.id, WORD_OF[step.table])
    before = name_of(found[at - 1]) if at else None
    after = with_items(design, step.table, (*found[:at], *found[at + 1 :]), step.system)
    name = item_element(step.table, step.id, step.system)
    reads = {*_within(step.system), *(Touch(name, field) for field in _values(found[at]))}
    if isinstance(found[at], Run):
        reads.add(Touch(name, ARMS))
    writes = {Touch(name, EXISTS), *_arms(found[at], step.system)}
    undo = Put(table=step.table, item=found[at], after=before, system=step.system)
    return Stepped(after, undo, Touched(frozenset(reads), frozenset(writes)))


def _values(item: Item) -> dict[str, Any]:
    if isinstance(item, str):
        return {}
    found = {field.name: getattr(item, field.name) for field in fields(item)}
    if isinstance(item, Run):
        found |= {f"{OVERRIDE}.{role}": item.override.get(role) for role in Role}
    return found


def _referred(values: Any, system: str) -> list[Touch]:  # noqa: ANN401 - a mapping of any values
    """What values name and what therefore has to be there."""
    touches = []
    if isinstance(values.get("room"), str) and values["room"]:
        touches.append(Touch(element(Kind.ROOM, values["room"]), EXISTS))
    if isinstance(values.get("level"), str):
        touches.append(Touch(element(Kind.LEVEL, values["level"]), EXISTS))
    if isinstance(values.get("from_"), str):
        touches.append(Touch(element(Kind.RUN, values["from_"], system), EXISTS))
    return touches


def _field(found: object, field: str, name: str) -> FieldValue:
    head, _, tail = field.partition(".")
    _check_field(found, head, tail, name=name)
    return field_of(found, field)


def field_of(found: object, field: str) -> FieldValue:
    """Give a field such as `length_m` or `override.gas`; none where there is no such field."""
    head, _, tail = field.partition(".")
    value: FieldValue = getattr(found, head, None)
    return value.get(Role(tail)) if tail and isinstance(value, dict | MappingProxyType) else value


def _check_field(found: object, head: str, tail: str, *, name: str) -> None:
    parts = PARTS - {"units"} if isinstance(found, Design) else PARTS
    known = [field for field in hints_of(type(found)) if field not in NAMES | parts]
    if head not in known:
        expected = one_of(head, [key_of(field) for field in known])
        message = f"{quoted(head)} names it" if head in NAMES else f"there is no field {quoted(head)}"
        raise refuse(name, message, "another edit: a name stays" if head in NAMES else expected, head)
    if tail and (head != OVERRIDE or tail not in set(Role)):
        raise refuse(name, f"there is no field {quoted(f'{head}.{tail}')}", one_of(tail, [role.value for role in Role]))


def _with_field(found: Any, field: str, value: FieldValue, name: str) -> Any:  # noqa: ANN401 - any element
    head, _, tail = field.partition(".")
    if tail:
        sizes = {role: size for role, size in found.override.items() if role != tail}
        if value is not None:
            sizes[Role(tail)] = value
        value = MappingProxyType(sizes)
    if not fits(hints_of(type(found))[head], value):
        what = key_of(head).replace("_", " ")
        raise refuse(f"{name}.{key_of(head)}", f"{quoted(str(value))} is no {what}", "", str(value))
    return replace(found, **{head: value})
