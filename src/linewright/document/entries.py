"""Entries of mappings: free keys, keys that stand beside others, and keys that are not known."""

from __future__ import annotations

import types
from collections.abc import Callable, Container
from enum import Enum
from typing import TypeAlias, get_args

from linewright.document.parsing import pairs
from linewright.document.plans import HEADER, FieldPlan, Hint, describe
from linewright.document.scalars import Reader, Value, blank, missing
from linewright.document.source import Mapping, Node, Scalar, Source, step
from linewright.errors import listed, nearest, quoted
from linewright.units import same_tube

ItemReader: TypeAlias = Callable[[Node, str], Value]


def read_mapping(source: Source, node: Node, path: str, *, hint: Hint, key: Reader, item: ItemReader) -> Value:
    """Read a mapping of free keys; two spellings of one key are a fault."""
    if not isinstance(node, Mapping):
        message = "nothing is written here" if blank(node) else "this is not a mapping of keys to values"
        source.fault(path, message, describe(hint), node=node)
        return missing(source, path, hint)
    found: dict[Value, Value] = {}
    for at, entry in pairs(source, node, path):
        where = step(path, at.value)
        source.nodes[where] = at
        name = key(source, at, where)
        if not source.sound(where):
            continue
        if isinstance(name, str) and not name.strip():
            source.fault(where, "a key is blank", "a text", node=at)
        twin = _twin(name, found)
        if twin is not None:
            source.fault(where, f"{quoted(at.value)} stands twice, once in another spelling", "each key once", node=at)
        found[name] = item(entry, where)
    return types.MappingProxyType(found)


def read_inline(
    source: Source,
    field: FieldPlan,
    rest: list[tuple[Scalar, Node]],
    given: dict[str, Value],
    *,
    path: str,
    item: ItemReader,
) -> list[tuple[Scalar, Node]]:
    """Read the entries that stand beside the keys of their owner; gives the entries that are none of them."""
    hint = _key_hint(field)
    found: dict[Value, Value] = {}
    left = []
    for key, entry in rest:
        name = _key(key.value, hint)
        if name is None:
            left.append((key, entry))
            continue
        where = step(path, key.value)
        if name in found:
            source.fault(
                where, f"{quoted(key.value)} stands twice, once in another spelling", "each key once", node=key
            )
        found[name] = item(entry, where)
    if found or field.required:
        given[field.name] = types.MappingProxyType(found)
    if field.required and not found and not left:
        source.fault(path, "no entry is given", f"entries such as {_example(hint)}")
        source.hole(path)
    return left


def unknown_key(
    source: Source,
    key: Scalar,
    fields: tuple[FieldPlan, ...],
    inline: FieldPlan | None,
    *,
    path: str,
    given: Container[str],
) -> str | None:
    """Note a key that is not known; gives the key that is meant, which is a hole then unless it is given as well."""
    known = {field.key: field.name in given for field in fields if not field.inline}
    hint = _key_hint(inline) if inline is not None else None
    if isinstance(hint, type) and issubclass(hint, Enum):
        known |= {str(member.value): False for member in hint}
    if not path:
        known[HEADER] = HEADER in source.nodes
    meant = nearest(key.value, [name for name, there in known.items() if not there] or known, alike=0.5)
    expected = f"'{meant}'" if meant is not None else listed(known)
    source.fault(step(path, key.value), f"the key {quoted(key.value)} is not known here", expected, node=key)
    if meant is not None:
        source.hole(step(path, meant))
    return meant


def _twin(name: Value, found: dict[Value, Value]) -> Value | None:
    """A key that says the same: tubes of one nominal size, or the same word."""
    if isinstance(name, float):
        return next((size for size in found if same_tube(size, name)), None)
    return name if name in found else None


def _key_hint(field: FieldPlan) -> Hint:
    return get_args(get_args(field.hint)[0])[0]


def _key(text: str, hint: Hint) -> Value | None:
    if issubclass(hint, Enum):
        return hint(text) if text in {member.value for member in hint} else None
    return int(text) if text.isascii() and text.isdigit() and len(text) < 10 else None


def _example(hint: Hint) -> str:
    return ", ".join(str(member.value) for member in hint) if issubclass(hint, Enum) else "1: 0.5"
