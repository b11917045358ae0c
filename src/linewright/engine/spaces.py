"""In which rooms the parts of a system stand, and which rooms a leak fills together: cases for a standard to judge."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from linewright.engine.ground import Ground
from linewright.model.design import Design, Level, Location, Room, Unit
from linewright.model.safety import Access, JoinedBy, Mounting, Occupancy, Profile, Space
from linewright.standards.safety.case import Case
from linewright.standards.safety.formulas import low_volume, volume

#: Kinds of indoor units of which everybody knows how they hang; of others a design states it.
KNOWN_MOUNTING: Mapping[str, Mounting] = {
    "cassette": Mounting.CEILING,
    "ducted": Mounting.CEILING,
    "ceiling": Mounting.CEILING,
    "wall": Mounting.WALL,
    "window": Mounting.WINDOW,
    "floor": Mounting.FLOOR,
}
#: Least share of its airflow that a duct may be cut down to and still join rooms, by profile.
LEAST_SHARE: Mapping[Profile, float] = {Profile.EN_378: 0.25, Profile.ASHRAE_15: 0.10, Profile.IEC_60335: 0.0}
_LOWEST = (Mounting.FLOOR, Mounting.WINDOW, Mounting.WALL, Mounting.CEILING)
_STRICTEST = (Access.GENERAL, Access.SUPERVISED, Access.AUTHORISED)


class Joined(NamedTuple):
    """Rooms that count as one space for a room, or what is lacking to say so."""

    space: Space
    rooms: tuple[Room, ...]
    missing: tuple[str, ...]


class Parts(NamedTuple):
    """Ids of units and fittings by room, and of those of which nobody knows where they stand.

    A run that has joints in a room goes by its far end.
    """

    by_room: Mapping[str, tuple[str, ...]]
    unplaced: tuple[str, ...]


def parts_of(ground: Ground) -> Parts:
    """Where the units and fittings of a system stand; outdoors and in a shaft nobody is."""
    by_room: dict[str, list[str]] = {}
    unplaced: list[str] = []
    units = {unit.id: unit for unit in ground.system.units}
    fittings = {fitting.id: fitting for fitting in ground.system.fittings}
    for name, run in zip(ground.tree.ids, ground.tree.runs, strict=True):
        if name in units:
            room, away = units[name].room, False
        else:
            fitting = fittings.get(name)
            location = fitting.location if fitting is not None and fitting.location is not None else run.location
            room = fitting.room if fitting is not None else ""
            away = location in (Location.OUTDOORS, Location.SHAFT)
        if room:
            by_room.setdefault(room, []).append(name)
        elif not away:
            unplaced.append(name)
        for crossed in run.crosses:
            if crossed != room:
                by_room.setdefault(crossed, []).append(name)
    return Parts({room: tuple(names) for room, names in by_room.items()}, tuple(unplaced))


def mounting_of(ground: Ground, unit: Unit) -> Mounting | None:
    """How a unit hangs: as stated, else by the kind of its model."""
    if unit.mounting is not None:
        return unit.mounting
    return KNOWN_MOUNTING.get(next(model.kind for model in ground.models if model.model == unit.model))


def lowest_unit(ground: Ground, rooms: Sequence[Room]) -> Unit | None:
    """The unit of the system that hangs lowest in some rooms; one of which nobody knows it comes first."""
    names = {room.id for room in rooms}
    there = [unit for unit in ground.system.units if unit.room in names]
    return min(there, key=lambda unit: _height(mounting_of(ground, unit)), default=None)


def _height(mounting: Mounting | None) -> int:
    return -1 if mounting is None else _LOWEST.index(mounting)


def joined_to(design: Design, room: Room, profile: Profile) -> Joined | None:
    """The rooms that are joined to a room; none where it stands alone, or where the joint does not count."""
    space = next((space for space in design.spaces if room.id in space.rooms), None)
    if space is None:
        return None
    rooms = tuple(other for other in design.rooms if other.id in space.rooms)
    missing = [f"{what} of {other.id}" for other in rooms for what in _unsized(other)]
    if space.joined_by is JoinedBy.DUCT:
        if space.least_airflow is None:
            missing.append(f"least airflow of {space.id}")
        elif space.least_airflow < LEAST_SHARE[profile]:
            return None
    elif profile is Profile.IEC_60335 and space.opening_m2 is None:
        missing.append(f"opening of {space.id}")
    return Joined(space, rooms, tuple(missing))


def _unsized(room: Room) -> Iterator[str]:
    if room.area_m2 is None:
        yield "area"
    if room.height_m is None:
        yield "height"


def case_of(
    design: Design, ground: Ground, room: Room, charge_kg: float, *, parts: Parts, joined: Joined | None = None
) -> Case:
    """What a standard judges: the room alone, or with the rooms that are joined to it, the strictest counting."""
    rooms = (room,) if joined is None else joined.rooms
    by_openings = joined is not None and joined.space.joined_by is JoinedBy.OPENINGS
    sides = [side for one in rooms for side in (one.area_m2, one.height_m) if side is not None]
    sized = len(sides) == 2 * len(rooms)
    areas = [one.area_m2 for one in rooms if one.area_m2 is not None]
    vented = [one for one in rooms if one.opening_edge_m is not None]
    unit = lowest_unit(ground, rooms)
    return Case(
        charge_kg=charge_kg,
        releasable_kg=_releasable(ground, rooms, parts),
        area_m2=sum(areas) if len(areas) == len(rooms) else None,
        volume_m3=volume(*sides) if sized else None,
        low_volume_m3=low_volume(*sides) if sized else None,
        own_area_m2=room.area_m2,
        join_m2=joined.space.opening_m2 if joined is not None and by_openings else None,
        mounting=Mounting.FLOOR if unit is None else mounting_of(ground, unit),
        access=_access(design, rooms),
        occupancy=_occupancy(design, rooms),
        restricted=_any([one.restricted for one in rooms]),
        underground=_any([lowest_underground(design, one) for one in rooms]),
        tight=ground.system.tight,
        exhaust_m3_s=_sum(one.exhaust_m3_s for one in rooms),
        circulation_m3_s=_sum(one.circulation_m3_s for one in rooms),
        opening_m2=_sum(one.opening_m2 for one in vented),
        opening_edge_m=max((one.opening_edge_m or 0.0 for one in vented), default=None),
        alarm=all(one.alarm for one in rooms),
    )


def _sum(stated: Iterable[float | None]) -> float:
    return sum(one or 0.0 for one in stated)


def _releasable(ground: Ground, rooms: Sequence[Room], parts: Parts) -> float | None:
    """The most that a leak in any of some rooms can release [kg]; none where one with parts in it has no valves."""
    found = [ground.system.releasable.get(room.id) for room in rooms if room.id in parts.by_room]
    known = [one for one in found if one is not None]
    return max(known, default=None) if len(known) == len(found) else None


def _occupancy(design: Design, rooms: Sequence[Room]) -> Occupancy | None:
    """Institutional where one of some rooms is; none where one of them does not state it."""
    default = design.refrigerant.occupancy if design.refrigerant is not None else None
    found = [room.occupancy or default for room in rooms]
    if Occupancy.INSTITUTIONAL in found:
        return Occupancy.INSTITUTIONAL
    return None if None in found else found[0]


def _access(design: Design, rooms: Sequence[Room]) -> Access | None:
    """The strictest of some rooms; none where one of them does not state it."""
    default = design.refrigerant.access if design.refrigerant is not None else None
    found = [room.access or default for room in rooms]
    stated = [one for one in found if one is not None]
    return min(stated, key=_STRICTEST.index) if len(stated) == len(found) else None


def _any(stated: Sequence[bool | None]) -> bool | None:
    if True in stated:
        return True
    return None if None in stated else False


def lowest_underground(design: Design, room: Room) -> bool | None:
    """Whether a room is on the lowest floor below the ground; none where that is not stated."""
    own = level_of(design, room)
    if own is None or own.underground is None:
        return None
    if not own.underground:
        return False
    lower = [level for level in design.site.levels if level.elevation_m < own.elevation_m]
    if any(level.underground for level in lower):
        return False
    return None if any(level.underground is None for level in lower) else True


def level_of(design: Design, room: Room) -> Level | None:
    """The level of a room."""
    return next((level for level in design.site.levels if level.id == room.level), None)
