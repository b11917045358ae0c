"""Whether a value is one that a field of a declared class may have."""

from __future__ import annotations

import math
import types
import typing
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from enum import Enum
from functools import cache
from typing import Annotated, Any, Union, get_args, get_origin

Hint = Any


def hints_of(cls: Hint) -> Mapping[str, Hint]:
    """Type hints of the fields of a declared class."""
    return _hints(cls)


@cache
def _hints(cls: Hint) -> Mapping[str, Hint]:
    hints = typing.get_type_hints(cls, include_extras=True)
    return {field.name: hints[field.name] for field in fields(cls)}


def fits(hint: Hint, value: object) -> bool:
    """Say whether a value is of a hinted type; numbers have to be finite."""
    origin: Hint = get_origin(hint)
    arguments = get_args(hint)
    if origin is Annotated:
        return fits(arguments[0], value)
    if origin in (Union, types.UnionType):
        return any(fits(option, value) for option in arguments)
    if origin is tuple:
        return isinstance(value, tuple) and all(fits(arguments[0], item) for item in value)
    if origin in (Mapping, dict):
        return isinstance(value, Mapping) and all(
            fits(arguments[0], key) and fits(arguments[1], item) for key, item in value.items()
        )
    return _is_plain(hint, value)


def _is_plain(hint: Hint, value: object) -> bool:
    if hint in (None, type(None)):
        return value is None
    if hint is float:
        return isinstance(value, float | int) and not isinstance(value, bool) and math.isfinite(value)
    if hint is int:
        return isinstance(value, int) and not isinstance(value, bool)
    if isinstance(hint, type) and is_dataclass(hint):
        return isinstance(value, hint) and all(fits(of, getattr(value, name)) for name, of in hints_of(hint).items())
    return isinstance(value, hint) and (issubclass(hint, Enum) or not isinstance(value, Enum) or hint is not str)
