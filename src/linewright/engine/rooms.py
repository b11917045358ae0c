"""Rooms over all systems that serve them: what they need and what they get."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from linewright.engine.checks import at_least
from linewright.engine.records import Check, CheckKind, ModeFigures, RoomResult, Standing, SystemResult, UnitResult
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
    cooling = _sum(room.cooling_w, [unit.cooling for _, unit in units])
    sensible = _sum(room.sensible_w, [unit.sensible for _, unit in units])
    heating = _sum(room.heating_w, [unit.heating for _, unit in units])
    modes = (("cooling", cooling, design.site.cooling), ("sensible", sensible, design.site.cooling))
    modes += (("heating", heating, design.site.heating),)  # type: ignore[assignment]
    return RoomResult(
        id=room.id,
        name=room.name,
        level=room.level,
        units=tuple(sorted(f"{system}/{unit.id}" for system, unit in units)),
        cooling=cooling,
        sensible=sensible,
        heating=heating,
        checks=tuple(_checks(room, modes, served=bool(units))),
    )


def _checks(
    room: Room, modes: Sequence[tuple[str, ModeFigures, object]], *, served: bool
) -> Iterator[Check]:
    for mode, figures, conditions in modes:
        check = at_least(
            f"room:{room.id}.{mode}", CheckKind.ROOM, mode, value=figures.delivered_w, bound=figures.needed_w
        )._replace(governs=(room.id,))
        if figures.needed_w == 0:
            yield check._replace(standing=Standing.NOT_APPLICABLE, margin=None)
        elif not served and figures.needed_w is not None:
            yield check._replace(standing=Standing.OVER, value=0.0, margin=-figures.needed_w, note="no unit serves it")
        elif check.standing is Standing.UNJUDGED:
            yield check._replace(missing=_missing(mode, figures, conditions))
        else:
            yield check


def _missing(mode: str, figures: ModeFigures, conditions: object) -> tuple[str, ...]:
    names = []
    if figures.needed_w is None:
        names.append(f"{mode} load of the room")
    if conditions is None:
        names.append("design conditions of the site in this mode")
    elif figures.delivered_w is None:
        names.append("the capacity of a system that serves it")
    return tuple(names)


def _sum(need: float | None, figures: Sequence[ModeFigures]) -> ModeFigures:
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
