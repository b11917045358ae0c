"""Whether what a design states of refrigerant in rooms can be: edition, date, spaces, rooms that are named."""

from __future__ import annotations

from datetime import date

from linewright.errors import listed, quoted
from linewright.model.design import Design, Room, System
from linewright.model.safety import EDITIONS
from linewright.model.soundness.names import check_id, check_known
from linewright.model.soundness.notes import Notes
from linewright.model.soundness.numbers import check_not_negative

ROOM_SIZES = ("exhaust_m3_s", "circulation_m3_s", "opening_m2", "opening_edge_m")


def check_safety(design: Design, rooms: set[str] | None, notes: Notes) -> None:
    """Note every fault of what is stated of refrigerant in rooms; without `rooms` nobody knows which rooms exist."""
    _check_chosen(design, notes)
    _check_spaces(design, rooms, notes)
    for i, room in enumerate(design.rooms):
        _check_room(room, f"rooms[{i}]", notes)
    for i, system in enumerate(design.systems):
        _check_system(system, rooms, f"systems[{i}]", notes=notes)


def _check_chosen(design: Design, notes: Notes) -> None:
    chosen = design.refrigerant
    if chosen is None:
        return
    editions = EDITIONS[chosen.profile]
    if chosen.edition and chosen.edition not in editions and notes.sound("refrigerant.profile"):
        message = f"{chosen.profile} has no edition {quoted(chosen.edition)} here"
        notes.derive("refrigerant.edition", message, listed(sorted(editions)))
    if chosen.installed and not _is_date(chosen.installed):
        notes.derive("refrigerant.installed", f"{quoted(chosen.installed)} is no date", "a date such as 2027-05-01")


def _is_date(text: str) -> bool:
    try:
        date.fromisoformat(text)
    except ValueError:
        return False
    return True


def _check_spaces(design: Design, rooms: set[str] | None, notes: Notes) -> None:
    first: dict[str, str] = {}
    ids: dict[str, str] = {}
    for i, space in enumerate(design.spaces):
        path = f"spaces[{i}]"
        check_id(space.id, f"{path}.id", notes.derive)
        if space.id and space.id in ids:
            message = f"the name {quoted(space.id)} is used twice, first {notes.place(ids[space.id])}"
            notes.derive(f"{path}.id", message, "each name once")
        ids.setdefault(space.id, f"{path}.id")
        if len(set(space.rooms)) < 2:
            notes.derive(f"{path}.rooms", "one room alone is not joined to anything", "two rooms or more")
        for j, name in enumerate(space.rooms):
            where = f"{path}.rooms[{j}]"
            if rooms is not None:
                check_known(name, rooms, where, what="room", notes=notes)
            if name in first:
                message = f"the room {quoted(name)} is joined twice, first {notes.place(first[name])}"
                notes.derive(where, message, "each room in one space")
            first.setdefault(name, where)
        check_not_negative(space, ("opening_m2", "least_airflow"), path, notes=notes)


def _check_room(room: Room, path: str, notes: Notes) -> None:
    check_not_negative(room, ROOM_SIZES, path, notes=notes)


def _check_system(system: System, rooms: set[str] | None, path: str, *, notes: Notes) -> None:
    for i, run in enumerate(system.runs):
        for j, name in enumerate(run.crosses if rooms is not None else ()):
            check_known(name, rooms or set(), f"{path}.runs[{i}].crosses[{j}]", what="room", notes=notes)
    for i, fitting in enumerate(system.fittings):
        if rooms is not None:
            check_known(fitting.room, rooms, f"{path}.fittings[{i}].room", what="room", notes=notes)
    for name, charge_kg in system.releasable.items():
        where = f"{path}.releasable.{name}"
        if rooms is not None:
            check_known(name, rooms, where, what="room", notes=notes)
        if charge_kg < 0:
            notes.derive(where, f"no room gets {notes.written(where)}", "zero or more")
