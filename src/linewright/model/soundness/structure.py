"""Whether a design is sound in itself: its names, its values, its pipes; nothing here depends on a book."""

from __future__ import annotations

from linewright.model.design import Design, Room
from linewright.model.soundness.last import LastSound
from linewright.model.soundness.names import check_ids, check_known, whole
from linewright.model.soundness.notes import Notes
from linewright.model.soundness.numbers import check_not_negative
from linewright.model.soundness.pipework import check_pipework
from linewright.model.soundness.safety import check_safety
from linewright.model.soundness.systems import check_system

_SIZES = ("area_m2", "height_m", "cooling_w", "sensible_w", "heating_w")


def check_structure(design: Design, notes: Notes) -> None:
    """Note every fault of a design that does not depend on a book."""
    if not _SOUND(design):
        _check_all(design, notes)


def _check_all(design: Design, notes: Notes) -> None:
    levels = [level.id for level in design.site.levels]
    rooms = [room.id for room in design.rooms]
    check_ids(levels, "site.levels", notes)
    check_ids(rooms, "rooms", notes)
    check_ids([system.id for system in design.systems], "systems", notes)
    known_levels = whole(levels, "site.levels", notes)
    for i, room in enumerate(design.rooms):
        _check_room(room, f"rooms[{i}]", known_levels, notes=notes)
    known_rooms = whole(rooms, "rooms", notes)
    check_safety(design, known_rooms, notes)
    check_pipework(design.pipework, notes)
    for i, system in enumerate(design.systems):
        check_system(system, f"systems[{i}]", known_rooms, notes=notes, units=design.units)


def _check_room(room: Room, path: str, levels: set[str] | None, *, notes: Notes) -> None:
    if levels is not None:
        check_known(room.level, levels, f"{path}.level", what="level", notes=notes)
    check_not_negative(room, _SIZES, path, notes=notes)


_SOUND = LastSound(_check_all)
