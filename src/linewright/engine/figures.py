"""Figures that several stages hand on: series, table rows, charge."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple


class Series(NamedTuple):
    """A measure: its value by subject, which of them are only lower bounds, and its aggregate.

    The aggregate of a `spread` is a difference between items, not one of them; of a `least` the smallest item.
    """

    values: Mapping[str, float]
    incomplete: frozenset[str]
    value: float | None
    governs: tuple[str, ...]
    missing: tuple[str, ...] = ()
    applicable: bool = True
    spread: bool = False
    least: bool = False

    @property
    def complete(self) -> bool:
        """Say whether nothing is missing from the aggregate."""
        return not self.incomplete and not self.missing


class TableRow(NamedTuple):
    """Which row of which table gave a value."""

    path: str
    position: int
    page: int | None
    number: float | None
    lower: float | None
    upper: float | None


class ChargeTerm(NamedTuple):
    """One term of the additional charge [kg]."""

    name: str
    kg: float | None
    length_m: float | None = None
    kg_per_m: float | None = None
    path: str = ""
    missing: str = ""
    od_m: float | None = None
    covered_m: float = 0.0


class ChargeResult(NamedTuple):
    """The additional and total charge [kg]; a missing term leaves them unknown."""

    factory_kg: float
    terms: tuple[ChargeTerm, ...]
    sum_kg: float | None
    multiplier: float | None
    unrounded_kg: float | None
    rounded_kg: float | None
    total_kg: float | None
    missing: tuple[str, ...]
