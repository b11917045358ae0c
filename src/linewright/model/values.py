"""How domain values are declared: frozen, slotted, by keyword only."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from functools import cache
from types import MappingProxyType
from typing import Any, TypeVar, dataclass_transform

T = TypeVar("T")

#: Ends of field names that tell their unit.
SUFFIXES = ("_kg_m3", "_m3_s", "_kg_m", "_degc", "_m2", "_kg", "_pa", "_m", "_w", "_k", "_s", "_hz", "_v", "_a")


@dataclass_transform(frozen_default=True, kw_only_default=True, field_specifiers=(field,))
def value(cls: type[T]) -> type[T]:
    """Declare `cls` as a frozen, slotted dataclass whose fields are given by keyword."""
    return dataclass(frozen=True, slots=True, kw_only=True)(cls)


def no_entries() -> Mapping[Any, Any]:
    """Give a mapping without entries, the default of mappings that may be left out."""
    return MappingProxyType({})


@cache
def key_of(name: str) -> str:
    """Give the key in a file for a field's name."""
    name = name.rstrip("_")
    for suffix in SUFFIXES:
        if name.endswith(suffix):
            return name[: -len(suffix)]
    return name


class Role(StrEnum):
    """What one tube of a run carries."""

    LIQUID = "liquid"
    GAS = "gas"
    SUCTION = "suction"
    HIGH_LOW = "high_low"
    HIGH = "high"
    LOW = "low"

    @property
    def word(self) -> str:
        """What people call it."""
        return self.value.replace("_", "/")


class NodeKind(StrEnum):
    """What stands at the far end of a run."""

    JOINT = "joint"
    HEADER = "header"
    BOX = "box"
    COUPLING = "coupling"
    UNIT = "unit"
    MODULE = "module"
