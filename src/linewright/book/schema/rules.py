"""Rules that no table holds: requirements, options, operating ranges, pressures, notes to print."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from enum import StrEnum
from typing import Annotated

from linewright.book.schema.capacity import Capacity
from linewright.book.schema.charge import Term
from linewright.book.schema.family import Range
from linewright.book.schema.filters import Where
from linewright.book.schema.fittings import Fittings
from linewright.book.schema.limits import Limit
from linewright.book.schema.marks import OneOrMany
from linewright.book.schema.sizing import Sizing
from linewright.book.schema.uses import Condition
from linewright.model.values import no_entries, value
from linewright.units import DensityKgM3, LengthM, MassKg, PressurePa, Ratio, TempK, TimeS, TubeM


class LevelReference(StrEnum):
    """To which point of a unit levels are measured."""

    CONNECTION = "connection"
    BASE = "base"
    TOP = "top"


class AppliesTo(StrEnum):
    """What a requirement is asked of."""

    SYSTEM = "system"
    OUTDOOR = "outdoor"
    MODULE_PIPES = "module-pipes"
    FIRST_JOINT = "first-joint"
    JOINTS = "joints"
    HEADERS = "headers"
    BOXES = "boxes"
    UNITS = "units"
    UNIT_RUNS = "unit-runs"


@value
class Requirement:
    """An installation rule, or a setting to be made at start-up, that no number proves."""

    id: str
    text: str
    applies_to: AppliesTo = AppliesTo.SYSTEM
    kind: tuple[str, ...] = ()
    where: Where | None = None
    setting: bool = False
    when: Annotated[tuple[Condition, ...], OneOrMany()] = ()
    page: int | None = None


@value
class Option:
    """A kit or setting that a design may switch on; its sections stand in for those of the book while it is on."""

    id: str
    text: str
    when: Annotated[tuple[Condition, ...], OneOrMany()] = ()
    charge_kg: MassKg | None = None
    terms: tuple[Term, ...] = ()
    limits: tuple[Limit, ...] = ()
    sizing: Sizing | None = None
    fittings: Fittings | None = None
    capacity: Capacity | None = None
    page: int | None = None


@value
class OperatingRange:
    """Temperatures of one mode within which the family works."""

    outdoor_db: Range = Range()
    outdoor_wb: Range = Range()
    indoor_db: Range = Range()
    indoor_wb: Range = Range()


class Oil(StrEnum):
    """Kind of the oil in the compressors."""

    ESTER = "ester"
    ETHER = "ether"
    MINERAL = "mineral"
    ALKYLBENZENE = "alkylbenzene"


@value
class Operation:
    """Where and how the family works."""

    cooling: OperatingRange = OperatingRange()
    heating: OperatingRange = OperatingRange()
    altitude: Range = Range()
    least_capacity: Ratio | None = None
    leaving_subcooling_k: TempK | None = None
    oil: Oil | None = None
    oil_density_kg_m3: DensityKgM3 | None = None
    page: int | None = None


@value
class PressureStage:
    """One stage of the pressure test and how long it is held."""

    pressure_pa: PressurePa
    hold_s: TimeS | None = None


@value
class Pressures:
    """Nameplate pressures [Pa, gauge], the stages of the test, the vacuum [Pa, absolute]."""

    high_pa: PressurePa | None = None
    low_pa: PressurePa | None = None
    test: tuple[PressureStage, ...] = ()
    vacuum_pa: PressurePa | None = None
    vacuum_hold_s: TimeS | None = None
    tube_listing: str = ""
    insulation_m: Mapping[TubeM, LengthM] = field(default_factory=no_entries)
    page: int | None = None


@value
class PrintedNote:
    """What the maker wants printed with a design."""

    text: str
    page: int | None = None
