"""Systems and what a book offers, line by line, in the words and units that people read."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from linewright.book.compiled import CompiledBook
from linewright.book.schema import Group, IndoorModel
from linewright.draw.verdicts import margins_of, served_rooms
from linewright.draw.wording import check_name, used_of_allowed
from linewright.engine.evaluate import overall
from linewright.engine.proposals import rated
from linewright.engine.records import Check, RoomResult, Standing, SystemResult
from linewright.units import Dimension, UnitSystem, show, show_number, unit_label
from linewright.web.bodies import GroupLine, MarginOut, ModelLine, SystemLine

UNKNOWN = "unknown"
#: So many of the least margins are told of a system.
_MARGINS = 5


def system_line(one: SystemResult, rooms: Sequence[RoomResult], units: UnitSystem) -> SystemLine:
    """Give one system as an overview shows it: by its own checks and by those of the rooms that it serves."""
    served = served_rooms(one, rooms)
    checks = [*one.limits, *one.checks, *(check for room in served for check in room.checks)]
    stands = Counter(check.standing for check in checks)
    total = one.charge.total_kg
    return SystemLine(
        id=one.id,
        name=one.name,
        book=one.book,
        standing=overall({check.standing for check in checks}).value,
        units=len(one.system.units),
        refrigerant=one.state.ground.book.book.refrigerant,
        counts={standing.value: stands[standing] for standing in Standing},
        charge_kg=total,
        charge=UNKNOWN if total is None else show(total, Dimension.MASS, units),
        least_margins=[margin_line(check, units) for check in margins_of(one, served)[:_MARGINS]],
    )


def margin_line(check: Check, units: UnitSystem) -> MarginOut:
    """Give what a check leaves, in the words of the sheet; what is not known is said to be unknown."""
    text = used_of_allowed(check, units)
    if check.value is None:
        text = UNKNOWN if check.bound is None else f"{UNKNOWN} of {show(check.bound, check.dimension, units)}"
    return MarginOut(
        measure=check.measure,
        label=check_name(check),
        text=text,
        standing=check.standing.value,
        value=check.value,
        bound=check.bound,
        margin=check.margin,
        unit=check.dimension.si,
    )


def group_line(book: CompiledBook, group: Group, units: UnitSystem) -> GroupLine:
    """Give an outdoor group of a book."""
    cooling, heating = rated(book, group)
    return GroupLine(
        id=group.id,
        modules=list(group.modules),
        cooling=_power(cooling, units),
        heating=_power(heating, units),
        index=_index(group.index, units),
    )


def model_line(model: IndoorModel, units: UnitSystem) -> ModelLine:
    """Give an indoor model of a book."""
    return ModelLine(
        model=model.model,
        kind=model.kind,
        cooling=_power(model.cooling_w, units),
        heating=_power(model.heating_w, units),
        index=_index(model.index, units),
    )


def _power(watts: float, units: UnitSystem) -> str:
    """A rated capacity as books name it, without idle zeros; a unit that does not heat has none."""
    if not watts:
        return ""
    number = show_number(watts, Dimension.POWER, units)
    plain = number.rstrip("0").rstrip(".") if "." in number else number
    return f"{plain} {unit_label(Dimension.POWER, units)}"


def _index(index: float, units: UnitSystem) -> str:
    return show_number(index, Dimension.NUMBER, units)
