"""How domain values are declared: frozen, slotted, by keyword only."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from types import MappingProxyType
from typing import Any, TypeVar, dataclass_transform

T = TypeVar("T")


@dataclass_transform(frozen_default=True, kw_only_default=True, field_specifiers=(field,))
def value(cls: type[T]) -> type[T]:
    """Declare `cls` as a frozen, slotted dataclass whose fields are given by keyword."""
    return dataclass(frozen=True, slots=True, kw_only=True)(cls)


def no_entries() -> Mapping[Any, Any]:
    """Give a mapping without entries, the default of mappings that may be left out."""
    return MappingProxyType({})


class Role(StrEnum):
    """What one tube of a run carries."""

    LIQUID = "liquid"
    GAS = "gas"
    SUCTION = "suction"
    HIGH_LOW = "high_low"
    HIGH = "high"
    LOW = "low"


class NodeKind(StrEnum):
    """What stands at the far end of a run."""

    JOINT = "joint"
    HEADER = "header"
    BOX = "box"
    COUPLING = "coupling"
    UNIT = "unit"
    MODULE = "module"
