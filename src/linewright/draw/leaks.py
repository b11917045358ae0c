"""Refrigerant in rooms on the sheet: which checks there are, and the words of their column."""

from __future__ import annotations

from linewright.draw.wording import NONE, UNKNOWN
from linewright.engine.records import Check, CheckKind, RoomResult, SystemResult
from linewright.units import Dimension, UnitSystem, at_most, show_number, unit_label


def leaks(result: SystemResult) -> list[Check]:
    """Give the checks of refrigerant in rooms; none where no standard is chosen."""
    return [check for check in result.checks if check.kind is CheckKind.REFRIGERANT]


def leak_of(result: SystemResult, room: str) -> Check | None:
    """Give the one that is about a room."""
    safety = result.safety
    found = () if safety is None else safety.spaces
    return next((space.check for space in found if space.room.id == room), None)


def with_leak_of(room: RoomResult | None, leak: Check | None) -> tuple[Check, ...]:
    """Give all checks that a lane says of its room."""
    checks = () if room is None else room.checks
    return checks if leak is None else (*checks, leak)


def leak_head(result: SystemResult, system: UnitSystem) -> dict[str, str]:
    """Give the head of the column; none where no standard is chosen."""
    return {} if result.safety is None else {"leak": f"charge / most, {unit_label(Dimension.MASS, system)}"}


def leak_words(check: Check | None, system: UnitSystem) -> str:
    """Give the charge that is judged in the unit's room, and the most that the room takes, rounded down."""
    if check is None:
        return NONE
    charge = UNKNOWN if check.value is None else show_number(check.value, Dimension.MASS, system, places=1)
    most = UNKNOWN if check.bound is None else at_most(check.bound, Dimension.MASS, system, places=1)
    return f"{charge} / {most}"
