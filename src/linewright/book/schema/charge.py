"""Terms of the additional charge."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from enum import StrEnum
from typing import Annotated

from linewright.book.measures import MeasureName
from linewright.book.schema.marks import Band, OneOrMany
from linewright.book.schema.uses import Condition
from linewright.model.values import Role, no_entries, value
from linewright.units import LengthM, LinearMassKgM, MassKg, TubeM


@value
class ChargeBand(Band):
    """A band of the connection ratio and the charge that it adds."""

    add_kg: MassKg


class RoundMode(StrEnum):
    """How a charge is rounded."""

    HALF_UP = "half-up"
    UP = "up"
    DOWN = "down"


class RoundAt(StrEnum):
    """Whether each term or the total is rounded."""

    TERM = "term"
    TOTAL = "total"


@value
class Rounding:
    """Step of a rounded charge, in the book's own unit, and how it is rounded."""

    step: str
    mode: RoundMode
    at: RoundAt = RoundAt.TOTAL


class Per(StrEnum):
    """What a term of the charge is counted over."""

    LENGTH = "length"
    UNIT = "unit"
    MODULE = "module"
    BOX = "box"
    GROUP = "group"
    SYSTEM = "system"
    INDEX = "index"


class IndexOf(StrEnum):
    """Whose capacity index a term is counted over."""

    INDOOR = "indoor"
    OUTDOOR = "outdoor"


class CoveredFrom(StrEnum):
    """Which tubes the length covered by the factory charge is taken off first."""

    LARGEST = "largest"
    SMALLEST = "smallest"
    MAIN = "main"


@value
class Covered:
    """Length of liquid line that the factory charge covers."""

    length_m: LengthM
    from_: CoveredFrom = CoveredFrom.LARGEST


@value
class Term:
    """A term of any shape: so much per length, unit, module, group, index or system, or by bands of a measure."""

    name: str
    per: Per = Per.SYSTEM
    lines: tuple[Role, ...] = ()
    rate_kg_m: LinearMassKgM | Mapping[TubeM, LinearMassKgM] | None = None
    beyond_m: LengthM | None = None
    add_kg: MassKg | None = None
    each: Mapping[str, MassKg] = field(default_factory=no_entries)
    of: IndexOf = IndexOf.INDOOR
    by: MeasureName | None = None
    rows: tuple[ChargeBand, ...] = ()
    when: Annotated[tuple[Condition, ...], OneOrMany()] = ()
    page: int | None = None


@value
class Charge:
    """Terms of the additional charge."""

    liquid: Mapping[TubeM, LinearMassKgM] = field(default_factory=no_entries)
    gas: Mapping[TubeM, LinearMassKgM] = field(default_factory=no_entries)
    suction: Mapping[TubeM, LinearMassKgM] = field(default_factory=no_entries)
    high_low: Mapping[TubeM, LinearMassKgM] = field(default_factory=no_entries)
    high: Mapping[TubeM, LinearMassKgM] = field(default_factory=no_entries)
    low: Mapping[TubeM, LinearMassKgM] = field(default_factory=no_entries)
    group: Mapping[str, MassKg] = field(default_factory=no_entries)
    module: Mapping[str, MassKg] = field(default_factory=no_entries)
    connection_ratio: tuple[ChargeBand, ...] = ()
    indoor: Mapping[str, MassKg] = field(default_factory=no_entries)
    indoor_each_kg: MassKg | None = None
    box: Mapping[str, MassKg] = field(default_factory=no_entries)
    box_each_kg: MassKg | None = None
    constant_kg: MassKg | None = None
    covered: Covered | None = None
    terms: tuple[Term, ...] = ()
    multiplier: float | None = None
    min_kg: MassKg | None = None
    round: Rounding | None = None
    max_kg: MassKg | None = None
    page: int | None = None
