"""Whether a design is sound in itself: its names, its values, its pipes; nothing here depends on a book."""

from __future__ import annotations

from linewright.document.names import check_ids, check_known, whole
from linewright.document.source import Source
from linewright.document.systems import check_system
from linewright.document.values import check_not_negative
from linewright.model.design import Design, Room

_SIZES = ("area_m2", "height_m", "cooling_w", "sensible_w", "heating_w")


def check_structure(design: Design, source: Source) -> None:
    """Note every fault of a design that does not depend on a book."""
    levels = [level.id for level in design.site.levels]
    rooms = [room.id for room in design.rooms]
    check_ids(levels, "site.levels", source)
    check_ids(rooms, "rooms", source)
    check_ids([system.id for system in design.systems], "systems", source)
    known_levels = whole(levels, "site.levels", source)
    for i, room in enumerate(design.rooms):
        _check_room(room, f"rooms[{i}]", known_levels, source=source)
    known_rooms = whole(rooms, "rooms", source)
    for i, system in enumerate(design.systems):
        check_system(system, f"systems[{i}]", known_rooms, source=source, units=design.units)


def _check_room(room: Room, path: str, levels: set[str] | None, *, source: Source) -> None:
    if levels is not None:
        check_known(room.level, levels, f"{path}.level", what="level", source=source)
    check_not_negative(room, _SIZES, path, source=source)
