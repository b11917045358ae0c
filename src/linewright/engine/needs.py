"""What each unit is asked for: the load of its room in proportion to the ratings of the units that serve it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from functools import lru_cache
from itertools import chain
from operator import attrgetter
from types import MappingProxyType
from typing import NamedTuple

from linewright.engine.formulas import need_share
from linewright.engine.frame import MOST_KNOWN
from linewright.model.design import Design, Room
from linewright.model.same import Same

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


def find_needs(design: Design, systems: Mapping[str, Served]) -> Mapping[str, Needs]:
    """Share the loads of the rooms among the units of all systems."""
    return _needs(Same(design.rooms), tuple([(name, Same(served)) for name, served in systems.items()]))


@lru_cache(maxsize=MOST_KNOWN)
def _needs(of: Same[tuple[Room, ...]], served: tuple[tuple[str, Same[Served]], ...]) -> Mapping[str, Needs]:
    rooms, systems = of.value, {name: one.value for name, one in served}
    units = Counter(chain.from_iterable(served.rooms for served in systems.values()))
    shared = [room for room, count in units.items() if count > 1]
    cooling = _shares({room.id: room.cooling_w for room in rooms}, systems, attrgetter("cooling_w"), shared)
    sensible = _shares({room.id: room.sensible_w for room in rooms}, systems, attrgetter("sensible_w"), shared)
    heating = _shares({room.id: room.heating_w for room in rooms}, systems, attrgetter("heating_w"), shared)
    return MappingProxyType({name: Needs(cooling[name], sensible[name], heating[name]) for name in systems})


def _shares(
    loads: Mapping[str, float | None],
    systems: Mapping[str, Served],
    ratings_of: Callable[[Served], Watts],
    shared: Sequence[str],
) -> dict[str, Watts]:
    """Share the loads of one mode: the whole load where a unit is alone in its room."""
    if not shared:
        return {name: tuple(map(loads.get, served.rooms)) for name, served in systems.items()}
    by_room: dict[str, list[float | None]] = {room: [] for room in shared}
    for served in systems.values():
        for room, rating in zip(served.rooms, ratings_of(served), strict=True):
            if room in by_room:
                by_room[room].append(rating)
    return {
        name: tuple(
            [
                _share(loads.get(room), rating, by_room[room]) if room in by_room else loads.get(room)
                for room, rating in zip(served.rooms, ratings_of(served), strict=True)
            ]
        )
        for name, served in systems.items()
    }


def _share(load: float | None, rating: float | None, of_room: Sequence[float | None]) -> float | None:
    """A unit's part of the load of a room that several serve; unknown where a rating that shares it is."""
    if load is None or rating is None or None in of_room:
        return None
    total = sum(item for item in of_room if item is not None)
    if not total:
        return None if load else 0.0
    return need_share(load, rating, total)
