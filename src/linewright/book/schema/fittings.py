"""Fitting tables and equivalent lengths."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from enum import StrEnum

from linewright.book.schema.marks import Band
from linewright.model.values import no_entries, value
from linewright.units import LengthM, TubeM


class FittingBy(StrEnum):
    """What a fitting is looked up by: index, entering gas tube, or whichever row is later."""

    INDEX = "index"
    TUBE = "tube"
    LARGER = "larger"


@value
class FittingRow(Band):
    """A band of indices and/or the largest entering gas tube, and the fitting for it."""

    model: str
    gas: TubeM | None = None


@value
class FittingTable:
    """Fittings by index or by tube."""

    rows: tuple[FittingRow, ...]
    by: FittingBy = FittingBy.INDEX
    page: int | None = None


@value
class HeaderRow(Band):
    """A header: largest index through it, its ports, largest index through one port."""

    model: str
    ports: int
    port_index: float | None = None


@value
class HeaderTable:
    """Headers by index and ports."""

    rows: tuple[HeaderRow, ...]
    page: int | None = None


class AllowanceLine(StrEnum):
    """The line whose diameter decides an allowance; `both` judges the longer of the two."""

    GAS = "gas"
    LIQUID = "liquid"
    BOTH = "both"


class AllowanceAt(StrEnum):
    """Which run carries the allowance of a branch fitting."""

    ENTERS = "enters"
    LEAVES = "leaves"
    SPLIT = "split"


@value
class Fittings:
    """Fitting tables and equivalent lengths."""

    first: FittingTable
    joint: FittingTable
    header: HeaderTable | None = None
    outdoor_joint: FittingTable | None = None
    below_box: FittingTable | None = None
    below_box_header: HeaderTable | None = None
    allowance: Mapping[str, LengthM | Mapping[TubeM, LengthM]] = field(default_factory=no_entries)
    allowance_line: AllowanceLine = AllowanceLine.GAS
    allowance_at: AllowanceAt = AllowanceAt.ENTERS
    page: int | None = None
    allowance_page: int | None = None
