"""Terms of the additional charge."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from enum import StrEnum

from linewright.book.schema.marks import Band
from linewright.model.values import no_entries, value
from linewright.units import LinearMassKgM, MassKg, TubeM


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
    multiplier: float | None = None
    min_kg: MassKg | None = None
    round: Rounding | None = None
    max_kg: MassKg | None = None
    page: int | None = None
