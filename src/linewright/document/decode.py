"""Nodes to domain values: the declarations of the values are the schema.

Every fault of the document is noted with its place and nothing is guessed: where a value is faulty a stand-in takes its
place, so that faults beyond it are found as well, and its path is remembered as a hole.
"""

from __future__ import annotations

import types
import typing
from collections.abc import Mapping as MappingType
from enum import Enum
from functools import cache
from typing import Annotated, TypeVar, Union, get_args, get_origin

from linewright.book.schema import OneOrMany
from linewright.document.entries import read_inline, read_mapping, unknown_key
from linewright.document.parsing import pairs
from linewright.document.plans import HEADER, FieldPlan, Hint, describe, is_value, plan
from linewright.document.scalars import (
    SCALARS,
    Reader,
    Value,
    blank,
    enum_reader,
    is_member,
    missing,
    quantity_reader,
    read_name,
)
from linewright.document.source import Alias, Mapping, Node, Scalar, Sequence, Source, step
from linewright.errors import quoted
from linewright.units import Quantity

__all__ = ["HEADER", "UNKNOWN", "decode", "decode_at", "plan"]

T = TypeVar("T")

UNKNOWN = "unknown"
#: A fault at one of these keys leaves in doubt what the keys beside it mean.
DECIDING = ("by", "measure")


def decode(source: Source, hint: type[T]) -> T:
    """Decode the root of a document as `hint`, with stand-ins where it is faulty; the source tells whether it is."""
    return typing.cast("T", _decode(source, source.root, hint, ""))


def decode_at(source: Source, node: Node, hint: Hint, path: str) -> Value:
    """Decode the node at a path as `hint`, with stand-ins where it is faulty."""
    return _decode(source, node, hint, path)


def _decode(source: Source, node: Node, hint: Hint, path: str) -> Value:
    source.nodes[path] = node
    odd = source.odd.get(id(node)) if source.odd else None
    if odd is not None:
        source.fault(path, odd.message, odd.expected, node=node)
        if isinstance(node, Alias):
            return missing(source, path, hint)
    return _reader(hint)(source, node, path)


@cache
def _reader(hint: Hint) -> Reader:
    """Give the function that reads one kind of value."""
    if is_value(hint):
        return lambda source, node, path: _value(source, node, hint, path)
    origin: Hint = get_origin(hint)
    arguments = get_args(hint)
    if origin is Annotated:
        return _annotated(hint)
    if origin in (Union, types.UnionType):
        return _union(hint)
    if origin is tuple:
        return lambda source, node, path: _items(source, node, arguments[0], path)
    if origin is MappingType:
        key, item = _reader(arguments[0]), arguments[1]
        return lambda source, node, path: read_mapping(
            source, node, path, hint=hint, key=key, item=lambda at, where: _decode(source, at, item, where)
        )
    if isinstance(hint, type) and issubclass(hint, Enum):
        return enum_reader(hint)
    return SCALARS[hint]


def _annotated(hint: Hint) -> Reader:
    base, *marks = get_args(hint)
    for mark in marks:
        if isinstance(mark, Quantity):
            return quantity_reader(mark, hint)
        if isinstance(mark, OneOrMany):
            item = get_args(base)[0]
            return lambda source, node, path: (
                _items(source, node, item, path) if isinstance(node, Sequence) else (_decode(source, node, item, path),)
            )
    return _reader(base)


def _union(hint: Hint) -> Reader:
    """Read a union: `None` is the word unknown; the node's own form picks among the rest."""
    options = [option for option in get_args(hint) if option is not type(None)]
    optional = len(options) < len(get_args(hint))
    expected = ", or ".join(describe(option) for option in options)

    def read(source: Source, node: Node, path: str) -> Value:
        if optional and isinstance(node, Scalar) and node.value == UNKNOWN:
            return None
        option = _option(node, options)
        if option is None:
            if blank(node):
                source.fault(path, "nothing is written here", expected, node=node)
            else:
                shown = quoted(str(node.value)) if node.value else "this"
                source.fault(path, f"{shown} is not known here", expected, node=node)
            return missing(source, path, hint)
        value = _reader(option)(source, node, path)
        return None if optional and source.is_hole(path) else value

    return read


def _option(node: Node, options: list[Hint]) -> Hint | None:
    """Which of the options a node is meant as; none for a word that is no word of any."""
    scalar = [option for option in options if not _wants_mapping(option)]
    if not scalar or (isinstance(node, Mapping) and len(scalar) < len(options)):
        return next(option for option in options if _wants_mapping(option))
    if not isinstance(node, Scalar) or len(scalar) == 1 or _numeric(node.value):
        return scalar[0]
    return next((option for option in scalar if _is_enum(option) and is_member(node, option)), None)


def _is_enum(option: Hint) -> bool:
    return isinstance(option, type) and issubclass(option, Enum)


def _numeric(text: str) -> bool:
    """Whether a text is meant as a number."""
    return text[:1].isdigit() or text[:1] in ("+", "-", ".")


def _wants_mapping(option: Hint) -> bool:
    origin: Hint = get_origin(option)
    return origin is MappingType or is_value(option)


def _value(source: Source, node: Node, cls: type, path: str) -> Value:
    fields = plan(cls)
    shorthand = getattr(cls, "SHORTHAND", "")
    if shorthand and isinstance(node, Scalar):
        return cls(**{shorthand: read_name(source, node, path)})
    if not isinstance(node, Mapping):
        message = "nothing is written here" if blank(node) else "this is not a mapping of keys to values"
        source.fault(path, message, describe(cls), node=node)
        return missing(source, path, cls)
    given, rest = _given(source, node, fields, path)
    inline = next((field for field in fields if field.inline), None)
    if inline is not None:
        item = get_args(get_args(inline.hint)[0])[1]
        rest = read_inline(
            source, inline, rest, given, path=path, item=lambda at, where: _decode(source, at, item, where)
        )
    meant = {unknown_key(source, key, fields, inline, path=path, given=given) for key, _ in rest}
    for field in fields:
        if field.name not in given and field.required and not field.inline:
            if field.key not in meant:
                where = step(path, field.key)
                source.fault(where, f"the key '{field.key}' is missing", describe(field.hint), node=node, value="")
            given[field.name] = missing(source, step(path, field.key), field.hint)
    _spread_doubt(source, path)
    return cls(**given)


def _given(
    source: Source, node: Mapping, fields: tuple[FieldPlan, ...], path: str
) -> tuple[dict[str, Value], list[tuple[Scalar, Node]]]:
    """Values of the keys that are fields, and the entries that are none."""
    by_key = {field.key: field for field in fields if not field.inline}
    given: dict[str, Value] = {}
    rest: list[tuple[Scalar, Node]] = []
    for key, item in pairs(source, node, path):
        field = by_key.get(key.value)
        if not path and key.value == HEADER:
            continue
        if field is None:
            rest.append((key, item))
            continue
        where = step(path, field.key)
        if field.required and field.hint is str:
            source.nodes[where] = item
            given[field.name] = _decode_name(source, item, where)
        else:
            given[field.name] = _decode(source, item, field.hint, where)
    return given, rest


def _decode_name(source: Source, node: Node, path: str) -> Value:
    """A text that has to be there: blank is no text."""
    text = _decode(source, node, str, path)
    return read_name(source, node, path) if isinstance(node, Scalar) and not text.strip() else text


def _spread_doubt(source: Source, path: str) -> None:
    """Where what decides a row is in doubt, so is the row."""
    if path and any(not source.sound(step(path, key)) for key in DECIDING):
        source.hole(path)


def _items(source: Source, node: Node, item: Hint, path: str) -> Value:
    if not isinstance(node, Sequence):
        whole = tuple[item, ...]
        message = "nothing is written here" if blank(node) else "this is not a list"
        source.fault(path, message, describe(whole), node=node)
        return missing(source, path, whole)
    read = _decode_name_or(item)
    return tuple(read(source, entry, f"{path}[{i}]") for i, entry in enumerate(node.value))


def _decode_name_or(item: Hint) -> Reader:
    if item is str:
        return _decode_name
    return lambda source, node, path: _decode(source, node, item, path)
