"""Nodes to domain values: the declarations of the values are the schema.

A key is the field's name without its unit suffix (`length_m` is `length`, `from_` is `from`).
Every fault of the document is kept with its place; nothing is guessed.
"""

from __future__ import annotations

import dataclasses
import math
import types
import typing
from collections.abc import Callable
from collections.abc import Mapping as MappingType
from difflib import get_close_matches
from enum import Enum
from functools import cache
from typing import Annotated, Any, NamedTuple, TypeVar, Union, get_args, get_origin

from linewright.book.schema import Inline, OneOrMany
from linewright.document.source import Mapping, Node, Scalar, Sequence, Source
from linewright.units import Amount, Quantity, UnitFault, parse, parse_as

T = TypeVar("T")

HEADER = "linewright"
UNKNOWN = "unknown"
SUFFIXES = ("_kg_m", "_degc", "_m2", "_kg", "_pa", "_m", "_w", "_k")
TRUE, FALSE = ("true", "yes"), ("false", "no")


class _Missing(Enum):
    """Stands for a value that could not be understood; its fault is noted."""

    VALUE = 0


MISSING = _Missing.VALUE


class _FieldPlan(NamedTuple):
    name: str
    key: str
    hint: Any
    required: bool
    inline: bool


def decode(source: Source, hint: type[T]) -> T | None:
    """Decode the root of a document as `hint`; faults are kept in the source, and then there is no value."""
    result = _decode(source, source.root, hint, "")
    return None if result is MISSING else typing.cast("T", result)


@cache
def key_of(name: str) -> str:
    """Give the key in a file for a field's name."""
    name = name.rstrip("_")
    for suffix in SUFFIXES:
        if name.endswith(suffix):
            return name[: -len(suffix)]
    return name


@cache
def plan(cls: type) -> tuple[_FieldPlan, ...]:
    """Give how each field of a value class is read."""
    hints = typing.get_type_hints(cls, include_extras=True)
    return tuple(
        _FieldPlan(
            name=field.name,
            key=key_of(field.name),
            hint=hints[field.name],
            required=field.default is dataclasses.MISSING and field.default_factory is dataclasses.MISSING,
            inline=_is_inline(hints[field.name]),
        )
        for field in dataclasses.fields(cls)
    )


def _is_inline(hint: Any) -> bool:
    return any(isinstance(mark, Inline) for mark in getattr(hint, "__metadata__", ()))


def _decode(source: Source, node: Node, hint: Any, path: str) -> Any:
    source.nodes[path] = node
    return _reader(hint)(source, node, path)


Reader = Callable[[Source, Node, str], Any]


@cache
def _reader(hint: Any) -> Reader:
    """Give the function that reads one kind of value."""
    if dataclasses.is_dataclass(hint) and hint is not Amount:
        return lambda source, node, path: _value(source, node, hint, path)
    origin = get_origin(hint)
    if origin is Annotated:
        return _annotated(hint)
    if origin in (Union, types.UnionType):
        return _union(get_args(hint))
    if origin is tuple:
        item = get_args(hint)[0]
        return lambda source, node, path: _items(source, node, item, path)
    if origin is MappingType:
        key, item = get_args(hint)
        return lambda source, node, path: _mapping(source, node, key, item, path)
    if isinstance(hint, type) and issubclass(hint, Enum):
        return lambda source, node, path: _enum(source, node, hint, path)
    return _SCALARS[hint]


def _annotated(hint: Any) -> Reader:
    base, *marks = get_args(hint)
    for mark in marks:
        if isinstance(mark, Quantity):
            return lambda source, node, path: _quantity(source, node, mark, path)
        if isinstance(mark, OneOrMany):
            item = get_args(base)[0]
            return lambda source, node, path: (
                _items(source, node, item, path)
                if isinstance(node, Sequence)
                else _one(source, node, item, path)
            )
    return _reader(base)


def _one(source: Source, node: Node, item: Any, path: str) -> Any:
    single = _decode(source, node, item, path)
    return MISSING if single is MISSING else (single,)


def _union(options: tuple[Any, ...]) -> Reader:
    """Read a union: `None` is the word unknown; the node's own form picks among the rest."""
    optional = type(None) in options
    scalar = [option for option in options if option is not type(None) and not _wants_mapping(option)]
    mapping = [option for option in options if _wants_mapping(option)]

    def read(source: Source, node: Node, path: str) -> Any:
        if optional and isinstance(node, Scalar) and node.value == UNKNOWN:
            return None
        if mapping and (isinstance(node, Mapping) or not scalar):
            return _reader(mapping[0])(source, node, path)
        for option in scalar[1:]:
            if isinstance(option, type) and issubclass(option, Enum) and _is_member(node, option):
                return option(node.value)
        return _reader(scalar[0])(source, node, path)

    return read


def _wants_mapping(option: Any) -> bool:
    return get_origin(option) is MappingType or (dataclasses.is_dataclass(option) and option is not Amount)


def _is_member(node: Node, option: type[Enum]) -> bool:
    return isinstance(node, Scalar) and node.value in {member.value for member in option}


def _value(source: Source, node: Node, cls: type, path: str) -> Any:
    fields = plan(cls)
    shorthand = getattr(cls, "SHORTHAND", "")
    if shorthand and isinstance(node, Scalar):
        return cls(**{shorthand: node.value})
    if not isinstance(node, Mapping):
        source.fault(path, "this is not a mapping", f"keys such as {', '.join(f.key for f in fields[:4])}")
        return MISSING
    by_key = {field.key: field for field in fields if not field.inline}
    inline = next((field for field in fields if field.inline), None)
    given: dict[str, Any] = {}
    rest: list[tuple[Node, Node]] = []
    for key, item in node.value:
        field = by_key.get(key.value)
        if not path and key.value == HEADER:
            continue
        if field is None:
            rest.append((key, item))
        else:
            given[field.name] = _decode(source, item, field.hint, f"{path}.{key.value}" if path else key.value)
    if inline is not None:
        rest = _read_inline(source, inline, rest, given, path)
    for key, _ in rest:
        _unknown_key(source, key, fields, inline, path)
    for field in fields:
        if field.required and field.name not in given and not field.inline:
            source.fault(path, f"key '{field.key}' is missing", describe(field.hint))
            given[field.name] = MISSING
    return _with_holes(cls, fields, given)


def _with_holes(cls: type, fields: tuple[_FieldPlan, ...], given: dict[str, Any]) -> Any:
    """Make the value even where a field is faulty, so that faults beyond it are found as well."""
    for field in fields:
        if given.get(field.name) is MISSING:
            given[field.name] = _hole(field.hint)
    return MISSING if any(part is MISSING for part in given.values()) else cls(**given)


def _hole(hint: Any) -> Any:
    """Give a stand-in for a faulty value; the document is refused all the same."""
    if get_origin(hint) is Annotated:
        hint = get_args(hint)[0]
    origin = get_origin(hint)
    if origin in (Union, types.UnionType):
        return None if type(None) in get_args(hint) else _hole(get_args(hint)[0])
    if origin is tuple:
        return ()
    if origin is MappingType:
        return types.MappingProxyType({})
    if isinstance(hint, type) and issubclass(hint, Enum):
        return next(iter(hint))
    return _HOLES.get(hint, MISSING)


_HOLES: dict[Any, Any] = {str: "", float: math.nan, int: 0, bool: False}


def _read_inline(
    source: Source, field: _FieldPlan, rest: list[tuple[Node, Node]], given: dict[str, Any], path: str
) -> list[tuple[Node, Node]]:
    key_hint, item_hint = get_args(get_args(field.hint)[0])
    found: dict[Any, Any] = {}
    left = []
    for key, item in rest:
        name = _try_key(key, key_hint)
        if name is MISSING:
            left.append((key, item))
        else:
            found[name] = _decode(source, item, item_hint, f"{path}.{key.value}" if path else key.value)
    if found or field.required:
        sound = {name: item for name, item in found.items() if item is not MISSING}
        given[field.name] = types.MappingProxyType(sound)
    if field.required and not found:
        source.fault(path, "no entry is given", f"entries such as {_key_example(key_hint)}")
        given[field.name] = MISSING
    return left


def _try_key(key: Node, hint: Any) -> Any:
    if isinstance(hint, type) and issubclass(hint, Enum):
        return hint(key.value) if key.value in {member.value for member in hint} else MISSING
    if hint is int:
        return int(key.value) if key.value.lstrip("-").isdigit() else MISSING
    return MISSING


def _key_example(hint: Any) -> str:
    return ", ".join(str(member.value) for member in hint) if issubclass(hint, Enum) else "1: 0.5"


def _unknown_key(
    source: Source, key: Node, fields: tuple[_FieldPlan, ...], inline: _FieldPlan | None, path: str
) -> None:
    known = [field.key for field in fields if not field.inline]
    if inline is not None:
        hint = get_args(get_args(inline.hint)[0])[0]
        if issubclass(hint, Enum):
            known += [str(member.value) for member in hint]
    near = get_close_matches(key.value, known, n=1)
    expected = f"'{near[0]}'" if near else f"one of {', '.join(known)}"
    where = f"{path}.{key.value}" if path else key.value
    source.fault(where, f"key '{key.value}' is not known here", expected, node=key)


def _items(source: Source, node: Node, item: Any, path: str) -> Any:
    if not isinstance(node, Sequence):
        source.fault(path, "this is not a list", f"a list of {describe(item)}")
        return MISSING
    found = tuple(_decode(source, entry, item, f"{path}[{i}]") for i, entry in enumerate(node.value))
    return MISSING if any(entry is MISSING for entry in found) else found


def _mapping(source: Source, node: Node, key_hint: Any, item_hint: Any, path: str) -> Any:
    if not isinstance(node, Mapping):
        source.fault(path, "this is not a mapping", f"entries of {describe(item_hint)}")
        return MISSING
    found: dict[Any, Any] = {}
    for key, item in node.value:
        where = f"{path}.{key.value}"
        name = _reader(key_hint)(source, key, where)
        found[name] = _decode(source, item, item_hint, where)
    return MISSING if any(part is MISSING for pair in found.items() for part in pair) else types.MappingProxyType(found)


def _enum(source: Source, node: Node, cls: type[Enum], path: str) -> Any:
    if _is_member(node, cls):
        return cls(node.value)  # type: ignore[attr-defined]
    source.nodes.setdefault(path, node)
    text = node.value if isinstance(node, Scalar) else "this"
    near = get_close_matches(str(text), [str(member.value) for member in cls], n=1)
    expected = f"'{near[0]}'" if near else describe(cls)
    source.fault(path, f"'{text}' is not known here" if isinstance(node, Scalar) else "this is not a word", expected, node=node)
    return MISSING


def _quantity(source: Source, node: Node, mark: Quantity, path: str) -> Any:
    if not isinstance(node, Scalar):
        source.fault(path, "this is not a quantity", describe(mark), node=node)
        return MISSING
    try:
        return parse_as(node.value, mark.dimension)
    except UnitFault as fault:
        source.fault(path, fault.message, fault.expected, node=node)
        return MISSING


def _amount(source: Source, node: Node, path: str) -> Any:
    if not isinstance(node, Scalar):
        source.fault(path, "this is not a quantity", "a number with its unit", node=node)
        return MISSING
    try:
        return parse(node.value)
    except UnitFault as fault:
        source.fault(path, fault.message, fault.expected, node=node)
        return MISSING


def _text(source: Source, node: Node, path: str) -> Any:
    if isinstance(node, Scalar):
        return str(node.value)
    source.fault(path, "this is not a text", "a text", node=node)
    return MISSING


def _number(source: Source, node: Node, path: str) -> Any:
    if isinstance(node, Scalar):
        try:
            number = float(node.value)
        except ValueError:
            number = math.nan
        if math.isfinite(number) and "_" not in node.value:
            return number
    source.fault(path, f"'{getattr(node, 'value', '')}' is not a number" if isinstance(node, Scalar) else "this is not a number", "a finite number without a unit", node=node)
    return MISSING


def _integer(source: Source, node: Node, path: str) -> Any:
    if isinstance(node, Scalar) and node.value.isascii() and node.value.isdigit() and len(node.value) < 10:
        return int(node.value)
    source.fault(path, "this is not a count", "a whole number, 0 or more", node=node)
    return MISSING


def _flag(source: Source, node: Node, path: str) -> Any:
    if isinstance(node, Scalar) and node.value.lower() in TRUE + FALSE:
        return node.value.lower() in TRUE
    source.fault(path, "this is neither yes nor no", "yes or no", node=node)
    return MISSING


_SCALARS: dict[Any, Reader] = {
    str: _text,
    float: _number,
    int: _integer,
    bool: _flag,
    Amount: _amount,
}


def describe(hint: Any) -> str:
    """Say in words what a hint wants."""
    if isinstance(hint, Quantity):
        return EXAMPLES[hint.dimension.value]
    if get_origin(hint) is Annotated:
        base, *marks = get_args(hint)
        quantity = next((mark for mark in marks if isinstance(mark, Quantity)), None)
        return describe(quantity or base)
    if get_origin(hint) in (Union, types.UnionType):
        parts = [describe(option) for option in get_args(hint) if option is not type(None)]
        return " or ".join(parts + (["'unknown'"] if type(None) in get_args(hint) else []))
    if get_origin(hint) is tuple:
        return f"a list of {describe(get_args(hint)[0])}"
    if get_origin(hint) is MappingType:
        return "a mapping"
    if dataclasses.is_dataclass(hint) and hint is not Amount:
        return f"a mapping with {', '.join(field.key for field in plan(typing.cast(type, hint))[:4])}"
    if isinstance(hint, type) and issubclass(hint, Enum):
        return "one of " + ", ".join(str(member.value) for member in hint)
    return _WORDS.get(hint, "a value")


_WORDS: dict[Any, str] = {
    str: "a text",
    float: "a number",
    int: "a whole number",
    bool: "yes or no",
    Amount: "a number with its unit",
}

EXAMPLES: dict[str, str] = {
    "1": "a number",
    "ratio": "a ratio such as 115 % or 1.15",
    "m": "a length such as 12 m, 40 ft or 12'-6\"",
    "m2": "an area such as 20 m2 or 215 ft2",
    "W": "a power such as 5.6 kW, 19 MBH or 1.5 tons",
    "kg": "a mass such as 4.2 kg, 9 lb or 6 oz",
    "kg/m": "a mass per length such as 0.05 kg/m or 0.04 lb/ft",
    "degC": "a temperature such as 35 C or 95 F",
    "K": "a temperature difference such as 5 K",
    "Pa": "a pressure such as 4.15 MPa, 41.5 bar or 600 psi",
    "m3/s": "an air flow such as 200 L/s or 420 cfm",
    "tube": "a tube size such as 15.88 mm or 5/8 in",
}
