"""A design: a site, its rooms and its systems. Every quantity is SI; `None` means unknown."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from enum import StrEnum
from typing import ClassVar

from linewright.model.pipework import Pipework
from linewright.model.safety import Access, Mounting, Occupancy, Refrigerant, Space
from linewright.model.values import NodeKind, Role, no_entries, value
from linewright.units import AreaM2, FlowM3S, LengthM, MassKg, PowerW, TempC, TubeM, UnitSystem

ROOT = "outdoor"


class Location(StrEnum):
    """Where a run lies."""

    INDOORS = "indoors"
    OUTDOORS = "outdoors"
    SHAFT = "shaft"


@value
class CoolingConditions:
    """Site conditions for cooling [degC]."""

    outdoor_db_degc: TempC
    indoor_wb_degc: TempC
    indoor_db_degc: TempC | None = None


@value
class HeatingConditions:
    """Site conditions for heating [degC]."""

    outdoor_wb_degc: TempC
    indoor_db_degc: TempC
    outdoor_db_degc: TempC | None = None


@value
class Level:
    """A storey and the elevation of its floor [m]; `underground` says whether it lies below the ground."""

    id: str
    elevation_m: LengthM
    name: str = ""
    underground: bool | None = None


@value
class Site:
    """Design conditions and levels; a mode without conditions is not judged."""

    cooling: CoolingConditions | None = None
    heating: HeatingConditions | None = None
    altitude_m: LengthM | None = None
    levels: tuple[Level, ...] = ()


@value
class Room:
    """A room and its loads [W]; a load of `None` is unknown and leaves the room unjudged.

    Openings, air flows and the alarm are what counts when refrigerant leaks into it.
    """

    id: str
    level: str
    name: str = ""
    area_m2: AreaM2 | None = None
    height_m: LengthM | None = None
    cooling_w: PowerW | None = None
    sensible_w: PowerW | None = None
    heating_w: PowerW | None = None
    use: str = ""
    access: Access | None = None
    occupancy: Occupancy | None = None
    restricted: bool | None = None
    exhaust_m3_s: FlowM3S | None = None
    circulation_m3_s: FlowM3S | None = None
    opening_m2: AreaM2 | None = None
    opening_edge_m: LengthM | None = None
    alarm: bool = False


@value
class Module:
    """One outdoor module of a group; without an elevation it stands at the group's."""

    SHORTHAND: ClassVar[str] = "model"

    model: str
    id: str = ""
    elevation_m: LengthM | None = None


@value
class Item:
    """Something on a run that has an allowance or breaks a rise (valve, trap, loop, sleeve)."""

    SHORTHAND: ClassVar[str] = "kind"

    kind: str
    count: int = 1


@value
class Run:
    """One length of pipe, all its tubes, named by its far node. A length of `None` is unknown.

    `ports` are those of the mode box that it leaves, counted from 1; several are joined. It `crosses` the rooms in
    which it has joints, valves or other places where refrigerant may leak.
    """

    from_: str
    to: str
    length_m: LengthM | None
    rise_m: LengthM | None = None
    bends: int = 0
    items: tuple[Item, ...] = ()
    override: Mapping[Role, TubeM] = field(default_factory=no_entries)
    location: Location | None = None
    as_built_m: LengthM | None = None
    ports: tuple[int, ...] = ()
    crosses: tuple[str, ...] = ()


@value
class Outdoor:
    """The outdoor group: its modules, the elevation of its pipe connection, its module pipes."""

    modules: tuple[Module, ...]
    elevation_m: LengthM | None = None
    pipes: tuple[Run, ...] = ()


@value
class Unit:
    """An indoor unit; without a room it serves none and is judged in none."""

    id: str
    model: str
    room: str = ""
    elevation_m: LengthM | None = None
    label: str = ""
    mounting: Mounting | None = None


@value
class Fitting:
    """What is said of a fitting beyond the runs that meet in it; without a model the book's table picks one."""

    id: str
    kind: NodeKind | None = None
    model: str = ""
    elevation_m: LengthM | None = None
    straight_before_m: LengthM | None = None
    straight_after_m: LengthM | None = None
    label: str = ""
    room: str = ""
    location: Location | None = None


@value
class Block:
    """The coincident load of a system where it is below the sum of its rooms [W]."""

    cooling_w: PowerW | None = None
    heating_w: PowerW | None = None


@value
class Confirmed:
    """A requirement of the book that is stated as met: everywhere, or at the elements that are named."""

    SHORTHAND: ClassVar[str] = "id"

    id: str
    at: tuple[str, ...] = ()


@value
class System:
    """One outdoor group, its indoor units and the pipe between them.

    `tight` says that the pipe is made as the alternative for tight systems asks; `releasable` gives what can leak into
    a room with the shut-off valves closed [kg].
    """

    id: str
    book: str
    outdoor: Outdoor
    units: tuple[Unit, ...]
    runs: tuple[Run, ...]
    name: str = ""
    fittings: tuple[Fitting, ...] = ()
    block: Block | None = None
    declared: tuple[str, ...] = ()
    options: tuple[str, ...] = ()
    confirmed: tuple[Confirmed, ...] = ()
    forbidden_actions: tuple[str, ...] = ()
    tight: bool = False
    releasable: Mapping[str, MassKg] = field(default_factory=no_entries)
    leak_detection: bool = False


@value
class Design:
    """Everything that the user states about one project."""

    project: str
    units: UnitSystem = UnitSystem.SI
    site: Site
    rooms: tuple[Room, ...] = ()
    systems: tuple[System, ...] = ()
    locks: tuple[str, ...] = ()
    note: str = ""
    refrigerant: Refrigerant | None = None
    spaces: tuple[Space, ...] = ()
    pipework: Pipework | None = None
