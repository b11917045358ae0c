"""What a book is, its outdoor groups, indoor units and tubes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from enum import StrEnum
from typing import Annotated

from linewright.book.schema.filters import CountBy, Where
from linewright.book.schema.marks import ByRole, Inline
from linewright.book.schema.services import DrainTable, SupplyTable
from linewright.model.values import Role, no_entries, value
from linewright.units import Amount, LengthM, MassKg, PowerW, TubeM


class Status(StrEnum):
    """How far a book may be trusted."""

    DEMONSTRATION = "demonstration"
    TRANSCRIBED = "transcribed"
    CHECKED = "checked"


class Kind(StrEnum):
    """What the family does: all its units in one mode, or each in its own."""

    HEAT_PUMP = "heat-pump"
    HEAT_RECOVERY = "heat-recovery"


class Origin(StrEnum):
    """From where lengths are measured."""

    OUTDOOR = "outdoor"
    FIRST_OUTDOOR_JOINT = "first-outdoor-joint"
    FIRST_BRANCH = "first-branch"


@value
class Document:
    """The maker's printed document and who typed it."""

    title: str
    edition: str
    date: str
    typed_by: str
    checked_by: str = ""


@value
class IndexUnit:
    """What the capacity index is counted in."""

    unit: str


@value
class Range:
    """Least and largest value that are allowed."""

    min: Amount | None = None
    max: Amount | None = None


@value
class GroupRatio(Range):
    """A connection ratio of some units, or counted otherwise, that a group allows."""

    where: Where | None = None
    count_by: CountBy = CountBy.INDEX


@value
class OutdoorModule:
    """One outdoor cabinet."""

    model: str
    index: float
    cooling_w: PowerW
    heating_w: PowerW
    factory_charge_kg: MassKg
    cooling_input_w: PowerW | None = None
    heating_input_w: PowerW | None = None
    ports: ByRole = field(default_factory=no_entries)
    page: int | None = None


@value
class Group:
    """Modules that act as one outdoor unit; ratings not given are the sums of its modules."""

    modules: tuple[str, ...]
    index: float
    id: str = ""
    cooling_w: PowerW | None = None
    heating_w: PowerW | None = None
    cooling_input_w: PowerW | None = None
    heating_input_w: PowerW | None = None
    factory_charge_kg: MassKg | None = None
    indoor_count: Range = Range()
    connection_ratio: Range = Range()
    ratios: tuple[GroupRatio, ...] = ()
    largest_charge_kg: MassKg | None = None
    page: int | None = None


@value
class OutdoorTables:
    """Outdoor modules and the groups that may be formed of them."""

    modules: tuple[OutdoorModule, ...]
    groups: tuple[Group, ...]
    electrical: SupplyTable | None = None
    page: int | None = None


@value
class IndoorModel:
    """One indoor unit of the family, with its port sizes."""

    model: str
    kind: str
    index: float
    cooling_w: PowerW
    sensible_w: PowerW
    heating_w: PowerW
    ports: ByRole = field(default_factory=no_entries)
    page: int | None = None


@value
class IndoorTables:
    """Indoor units of the family."""

    models: tuple[IndoorModel, ...]
    electrical: SupplyTable | None = None
    condensate: DrainTable | None = None
    page: int | None = None


@value
class Tubes:
    """Ladders of tube sizes by role, with the least wall and the temper by size."""

    ladders: Annotated[Mapping[Role, tuple[TubeM, ...]], Inline()]
    temper: Mapping[TubeM, str] = field(default_factory=no_entries)
    wall_m: Mapping[TubeM, LengthM] = field(default_factory=no_entries)
    page: int | None = None
