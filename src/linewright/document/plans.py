"""How a declared value class is read: its keys, what it wants in words, what stands in for what is faulty.

A key is the field's name without its unit suffix (`length_m` is `length`, `from_` is `from`).
"""

from __future__ import annotations

import dataclasses
import math
import types
import typing
from collections.abc import Mapping as MappingType
from enum import Enum
from functools import cache
from typing import Annotated, Any, NamedTuple, TypeAlias, Union, get_args, get_origin

from linewright.book.schema import Inline
from linewright.model.values import key_of
from linewright.units import Amount, Dimension, Quantity
from linewright.units.faults import EXPECTED, EXPECTED_ANY

Hint: TypeAlias = Any

#: First key of every document.
HEADER = "linewright"
_MOST_KEYS = 4


class FieldPlan(NamedTuple):
    """How one field is read."""

    name: str
    key: str
    hint: Hint
    required: bool
    inline: bool


@cache
def plan(cls: type) -> tuple[FieldPlan, ...]:
    """Give how each field of a value class is read."""
    hints = typing.get_type_hints(cls, include_extras=True)
    return tuple(
        FieldPlan(
            name=field.name,
            key=key_of(field.name),
            hint=hints[field.name],
            required=field.default is dataclasses.MISSING and field.default_factory is dataclasses.MISSING,
            inline=any(isinstance(mark, Inline) for mark in getattr(hints[field.name], "__metadata__", ())),
        )
        for field in dataclasses.fields(cls)
    )


def is_value(hint: Hint) -> bool:
    """Say whether a hint is a declared value class (an amount is a scalar)."""
    return dataclasses.is_dataclass(hint) and hint is not Amount


@cache
def hole(hint: Hint) -> Any:  # noqa: ANN401 - gives a value of the type that a run-time hint names
    """Give a stand-in for a faulty value, so that faults beyond it are found; the document is refused all the same."""
    if is_value(hint):
        return hint(**{field.name: hole(field.hint) for field in plan(hint) if field.required})
    origin: Hint = get_origin(hint)
    arguments = get_args(hint)
    if origin is Annotated:
        return hole(arguments[0])
    if origin in (Union, types.UnionType):
        return None if type(None) in arguments else hole(arguments[0])
    if origin is tuple:
        return ()
    if origin is MappingType:
        return types.MappingProxyType({})
    if isinstance(hint, type) and issubclass(hint, Enum):
        return next(iter(hint))
    return _HOLES[hint]


_HOLES: dict[Hint, object] = {
    str: "",
    float: math.nan,
    int: 0,
    bool: False,
    Amount: Amount(math.nan, Dimension.NUMBER),
}


def describe(hint: Hint) -> str:
    """Say in words what a hint wants."""
    origin: Hint = get_origin(hint)
    arguments = get_args(hint)
    if origin is Annotated:
        quantity = next((mark for mark in arguments[1:] if isinstance(mark, Quantity)), None)
        return EXPECTED[quantity.dimension] if quantity is not None else describe(arguments[0])
    if origin in (Union, types.UnionType):
        parts = [describe(option) for option in arguments if option is not type(None)]
        return " or ".join(parts + (["'unknown'"] if type(None) in arguments else []))
    if origin is tuple:
        return f"a list, each entry {'with ' if is_value(arguments[0]) else ''}{describe(arguments[0])}"
    if origin is MappingType:
        return f"entries of {describe(arguments[0])}, each with {describe(arguments[1])}"
    if is_value(hint):
        return f"keys such as {_first_keys(hint)}"
    if isinstance(hint, type) and issubclass(hint, Enum):
        words = [str(member.value) for member in hint]
        return f"'{words[0]}'" if len(words) == 1 else "one of " + ", ".join(words)
    return _WORDS[hint]


def _first_keys(cls: type) -> str:
    fields = sorted(plan(cls), key=lambda field: not field.required)
    return ", ".join(field.key for field in fields[:_MOST_KEYS] if not field.inline)


_WORDS: dict[Hint, str] = {
    str: "a text",
    float: "a number without a unit",
    int: "a whole number",
    bool: "yes or no",
    Amount: EXPECTED_ANY,
}
