"""What each unit is asked for: the load of its room in proportion to the ratings of the units that serve it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from linewright.engine.formulas import need_share
from linewright.model.design import Design, Room


class Needs(NamedTuple):
    """Needs of the units of one system [W]; `None` where the load is unknown or the unit has no room."""

    cooling_w: tuple[float | None, ...]
    sensible_w: tuple[float | None, ...]
    heating_w: tuple[float | None, ...]


class Rating(NamedTuple):
    """Ratings of one unit [W] by which the load of a room is shared."""

    room: str
    cooling_w: float
    sensible_w: float
    heating_w: float


def find_needs(design: Design, ratings: Mapping[str, Sequence[Rating]]) -> dict[str, Needs]:
    """Share the loads of the rooms among the units of all systems."""
    rooms = {room.id: room for room in design.rooms}
    sums: dict[str, list[float]] = {}
    for units in ratings.values():
        for unit in units:
            room = sums.setdefault(unit.room, [0.0, 0.0, 0.0])
            room[0] += unit.cooling_w
            room[1] += unit.sensible_w
            room[2] += unit.heating_w
    return {
        system: Needs(
            tuple(_part(rooms.get(unit.room), "cooling_w", unit.cooling_w, sums[unit.room][0]) for unit in units),
            tuple(_part(rooms.get(unit.room), "sensible_w", unit.sensible_w, sums[unit.room][1]) for unit in units),
            tuple(_part(rooms.get(unit.room), "heating_w", unit.heating_w, sums[unit.room][2]) for unit in units),
        )
        for system, units in ratings.items()
    }


def _part(room: Room | None, load: str, rating_w: float, ratings_w: float) -> float | None:
    need: float | None = None if room is None else getattr(room, load)
    return None if need is None or not ratings_w else need_share(need, rating_w, ratings_w)
