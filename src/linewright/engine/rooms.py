"""Rooms over all systems that serve them: what they need and what they get."""

from __future__ import annotations

from collections.abc import Sequence

from linewright.engine.checks import at_least
from linewright.engine.records import (
    Check,
    CheckKind,
    ModeFigures,
    RoomResult,
    Standing,
    SystemResult,
    UnitResult,
)
from linewright.model.design import Design, Room


def room_results(design: Design, systems: Sequence[SystemResult]) -> tuple[RoomResult, ...]:
    """Judge every room at full demand on cooling, sensible cooling and heating; sorted by id."""
    serving: dict[str, list[tuple[str, UnitResult]]] = {}
    for system in systems:
        for unit in system.units:
            serving.setdefault(unit.room, []).append((system.id, unit))
    return tuple(
        _room(design, room, serving.get(room.id, [])) for room in sorted(design.rooms, key=lambda room: room.id)
    )


def _room(design: Design, room: Room, units: list[tuple[str, UnitResult]]) -> RoomResult:
    served, site = bool(units), design.site
    cooling = _sum(room.cooling_w, [unit.cooling for _, unit in units])
    sensible = _sum(room.sensible_w, [unit.sensible for _, unit in units])
    heating = _sum(room.heating_w, [unit.heating for _, unit in units])
    return RoomResult(
        room.id,
        room.name,
        room.level,
        tuple(sorted([f"{system}/{unit.id}" for system, unit in units])),
        cooling,
        sensible,
        heating,
        (
            _check(room.id, "cooling", cooling, served=served, conditions=site.cooling is not None),
            _check(room.id, "sensible", sensible, served=served, conditions=site.cooling is not None),
            _check(room.id, "heating", heating, served=served, conditions=site.heating is not None),
        ),
    )


def _check(room: str, mode: str, figures: ModeFigures, *, served: bool, conditions: bool) -> Check:
    subject, governs = f"room:{room}.{mode}", (room,)
    needed, delivered = figures.needed_w, figures.delivered_w
    if needed == 0:
        return at_least(subject, CheckKind.ROOM, mode, value=None, bound=needed, governs=governs)._replace(
            standing=Standing.NOT_APPLICABLE, value=delivered
        )
    if not served and needed is not None:
        return at_least(subject, CheckKind.ROOM, mode, value=0.0, bound=needed, governs=governs)._replace(
            note="no unit serves it"
        )
    check = at_least(subject, CheckKind.ROOM, mode, value=delivered, bound=needed, governs=governs)
    if check.standing is not Standing.UNJUDGED:
        return check
    return check._replace(missing=_missing(mode, figures, conditions=conditions))


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
