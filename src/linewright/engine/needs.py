"""What each unit is asked for: the load of its room in proportion to the ratings of the units that serve it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from linewright.engine.formulas import need_share
from linewright.model.design import Design, Room

Watts = tuple[float | None, ...]


class Needs(NamedTuple):
    """Needs of the units of one system [W]; `None` where the load is unknown or the unit has no room."""

    cooling_w: Watts
    sensible_w: Watts
    heating_w: Watts


class Served(NamedTuple):
    """The rooms of the units of one system, and the ratings by which loads are shared [W]; `None`: unknown."""

    rooms: tuple[str, ...]
    cooling_w: Watts
    sensible_w: Watts
    heating_w: Watts


def find_needs(design: Design, systems: Mapping[str, Served]) -> dict[str, Needs]:
    """Share the loads of the rooms among the units of all systems."""
    rooms = {room.id: room for room in design.rooms}
    cooling = _sums((served.rooms, served.cooling_w) for served in systems.values())
    sensible = _sums((served.rooms, served.sensible_w) for served in systems.values())
    heating = _sums((served.rooms, served.heating_w) for served in systems.values())
    return {
        name: Needs(
            _shares(
                [_load(rooms.get(room), "cooling_w") for room in served.rooms], served.rooms, served.cooling_w, cooling
            ),
            _shares(
                [_load(rooms.get(room), "sensible_w") for room in served.rooms],
                served.rooms,
                served.sensible_w,
                sensible,
            ),
            _shares(
                [_load(rooms.get(room), "heating_w") for room in served.rooms], served.rooms, served.heating_w, heating
            ),
        )
        for name, served in systems.items()
    }


def _sums(systems: Iterable[tuple[Sequence[str], Watts]]) -> dict[str, list[float | None]]:
    by_room: dict[str, list[float | None]] = {}
    for rooms, ratings in systems:
        for room, rating in zip(rooms, ratings, strict=True):
            by_room.setdefault(room, []).append(rating)
    return by_room


def _load(room: Room | None, load: str) -> float | None:
    return None if room is None else getattr(room, load)


def _shares(
    loads: Sequence[float | None], rooms: Sequence[str], ratings: Watts, by_room: Mapping[str, Sequence[float | None]]
) -> Watts:
    return tuple(
        [
            None if load is None else _share(load, rating, by_room[room])
            for load, room, rating in zip(loads, rooms, ratings, strict=True)
        ]
    )


def _share(load: float, rating: float | None, of_room: Sequence[float | None]) -> float | None:
    """The whole load where a unit is alone in its room; unknown where a rating that shares it is."""
    if len(of_room) == 1:
        return load
    if rating is None or None in of_room:
        return None
    total = sum(item for item in of_room if item is not None)
    if not total:
        return None if load else 0.0
    return need_share(load, rating, total)
