"""Rooms over all systems that serve them: what they need and what they get."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from operator import attrgetter
from typing import NamedTuple

from linewright.engine.frame import MOST_KNOWN, Frame
from linewright.engine.records import (
    Check,
    CheckKind,
    ModeFigures,
    RoomResult,
    Sense,
    Standing,
    SystemResult,
    UnitFigures,
    UnitResult,
)
from linewright.model.design import Design, Room
from linewright.model.kept import KeptEach
from linewright.model.same import Same
from linewright.units import Dimension, over

MODES = ("cooling", "sensible", "heating")


def room_standings(design: Design, systems: Sequence[SystemResult]) -> frozenset[Standing]:
    """Give the standings that any room has in any mode."""
    served = [_Served(Same(system.state.ground.frame), *map(Same, system.figures)) for system in systems]
    return _standings(Same(design.rooms), tuple(served))


class _Served(NamedTuple):
    """A system, and what its units get."""

    frame: Same[Frame]
    cooling: Same[UnitFigures]
    sensible: Same[UnitFigures]
    heating: Same[UnitFigures]


@lru_cache(maxsize=MOST_KNOWN)
def _standings(of: Same[tuple[Room, ...]], served: tuple[_Served, ...]) -> frozenset[Standing]:
    found: set[tuple[float | None, float | None, bool]] = set()
    rooms = [[unit.room for unit in one.frame.value.units] for one in served]
    for mode in MODES:
        load = f"{mode}_w"
        delivered: dict[str, float | None] = {}
        for one, of_units in zip(served, rooms, strict=True):
            for room_id, watts in zip(of_units, getattr(one, mode).value.delivered_w, strict=True):
                before = delivered.get(room_id, 0.0)
                delivered[room_id] = None if watts is None or before is None else before + watts
        found.update([(getattr(room, load), delivered.get(room.id), room.id in delivered) for room in of.value])
    return frozenset([_standing(needed, watts, served=is_served) for needed, watts, is_served in found])


def room_results(design: Design, systems: Sequence[SystemResult]) -> tuple[RoomResult, ...]:
    """Judge every room at full demand on cooling, sensible cooling and heating; sorted by id."""
    serving: dict[str, list[tuple[str, UnitResult]]] = {}
    for system in systems:
        for unit in system.units:
            serving.setdefault(unit.room, []).append((system.id, unit))
    stated = _Stated(design.site.cooling is not None, design.site.heating is not None)
    rows = [(room, tuple(serving.get(room.id, ())), stated) for room in sorted(design.rooms, key=attrgetter("id"))]
    return tuple(_ROOMS(design.project, rows))


class _Stated(NamedTuple):
    """Whether the site states its conditions in a mode."""

    cooling: bool
    heating: bool


def _room(room: Room, units: tuple[tuple[str, UnitResult], ...], stated: _Stated) -> RoomResult:
    modes = (
        _sum(room.cooling_w, [unit.cooling for _, unit in units]),
        _sum(room.sensible_w, [unit.sensible for _, unit in units]),
        _sum(room.heating_w, [unit.heating for _, unit in units]),
    )
    return RoomResult(
        room.id,
        room.name,
        room.level,
        tuple(sorted([f"{system}/{unit.id}" for system, unit in units])),
        *modes,
        _checks(stated, room.id, modes, served=bool(units)),
    )


#: The rooms of the evaluation before.
_ROOMS: KeptEach[RoomResult] = KeptEach(_room)


def _standing(needed: float | None, delivered: float | None, *, served: bool) -> Standing:
    if needed is None:
        return Standing.UNJUDGED
    if needed == 0:
        return Standing.NOT_APPLICABLE
    if not served:
        return Standing.OVER
    if delivered is None:
        return Standing.UNJUDGED
    return Standing.OVER if over(needed, delivered) else Standing.WITHIN


def _checks(stated: _Stated, room: str, modes: Sequence[ModeFigures], *, served: bool) -> tuple[Check, ...]:
    conditions = (stated.cooling, stated.cooling, stated.heating)
    return tuple(
        [
            _check(room, mode, figures, served=served, conditions=known)
            for mode, figures, known in zip(MODES, modes, conditions, strict=True)
        ]
    )


def _check(room: str, mode: str, figures: ModeFigures, *, served: bool, conditions: bool) -> Check:
    standing = _standing(figures.needed_w, figures.delivered_w, served=served)
    value = figures.delivered_w if served or figures.needed_w is None else 0.0
    bound = figures.needed_w
    judged = standing is not Standing.NOT_APPLICABLE and value is not None and bound is not None
    return Check(
        f"room:{room}.{mode}",
        CheckKind.ROOM,
        mode,
        Dimension.POWER,
        Sense.MIN,
        standing,
        value,
        bound,
        value - bound if judged and value is not None and bound is not None else None,
        (room,),
        missing=_missing(mode, figures, conditions=conditions) if standing is Standing.UNJUDGED else (),
        note="no unit serves it" if not served and standing is Standing.OVER else "",
    )


def _missing(mode: str, figures: ModeFigures, *, conditions: bool) -> tuple[str, ...]:
    names = []
    if figures.needed_w is None:
        names.append(f"{mode} load of the room")
    if not conditions:
        names.append("design conditions of the site in this mode")
    elif figures.delivered_w is None:
        names.append("the capacity of a system that serves it")
    return tuple(names)


def _sum(need: float | None, figures: Sequence[ModeFigures]) -> ModeFigures:
    if len(figures) == 1 and figures[0].needed_w == need:
        return figures[0]
    return ModeFigures(
        need,
        _total([item.rating_w for item in figures]),
        _total([item.delivered_w for item in figures]),
        _total([item.coincident_w for item in figures]),
    )


def _total(values: Sequence[float | None]) -> float | None:
    if not values or None in values:
        return None
    return sum(value for value in values if value is not None)
