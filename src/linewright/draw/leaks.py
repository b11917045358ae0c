"""Refrigerant in rooms on the sheet: which checks there are, and the words of their column."""

from __future__ import annotations

from collections.abc import Mapping

from linewright.draw.plan import SheetLayout
from linewright.draw.wording import NONE, UNKNOWN
from linewright.engine.records import Check, CheckKind
from linewright.units import Dimension, UnitSystem, at_most, show_number, unit_label


def leaks(sheet: SheetLayout) -> list[Check]:
    """Give the checks of refrigerant in rooms; none where no standard is chosen."""
    return [check for check in sheet.result.checks if check.kind is CheckKind.REFRIGERANT]


def leaks_by_room(sheet: SheetLayout) -> Mapping[str, Check]:
    """Give those that are about one room, by its id."""
    return {room: check for check in leaks(sheet) if (room := check.subject.partition("/refrigerant:")[2])}


def leak_head(sheet: SheetLayout, system: UnitSystem) -> dict[str, str]:
    """Give the head of the column; none where no standard is chosen."""
    return {} if sheet.result.safety is None else {"leak": f"charge / most, {unit_label(Dimension.MASS, system)}"}


def leak_words(check: Check | None, system: UnitSystem) -> str:
    """Give the charge that is judged in the unit's room, and the most that the room takes, rounded down."""
    if check is None:
        return NONE
    charge = UNKNOWN if check.value is None else show_number(check.value, Dimension.MASS, system, places=1)
    most = UNKNOWN if check.bound is None else at_most(check.bound, Dimension.MASS, system, places=1)
    return f"{charge} / {most}"
