"""The words on the lanes and how wide they are, before anything is placed."""

from __future__ import annotations

from typing import NamedTuple

from linewright.draw.flow import flow_cells, flow_heads
from linewright.draw.leaks import leak_head, leak_of, leak_words
from linewright.draw.plan import Axis, Lane, SheetLayout
from linewright.draw.primitives import Weight
from linewright.draw.style import BODY, SMALL
from linewright.draw.typeface import text_width
from linewright.draw.verdicts import MODES, Judged, LaneVerdict, judged_by, lane_verdict
from linewright.draw.wording import NONE, SIGNS, UNKNOWN
from linewright.engine.records import ModeFigures, RoomResult, Standing, UnitResult
from linewright.units import Dimension, UnitSystem, show_number, unit_label

Heads = dict[str, str]


class LaneRow(NamedTuple):
    """One lane in words, by column; figures that are over start with the sign of it."""

    lane: Lane
    room: RoomResult | None
    cells: dict[str, str]
    over: frozenset[str]
    verdict: LaneVerdict


def lane_rows(sheet: SheetLayout, system: UnitSystem) -> list[LaneRow]:
    """Give the words of every lane from the top."""
    rooms = {room.id: room for room in sheet.evaluation.rooms}
    by = judged_by(sheet)
    return [_row(sheet, lane, rooms.get(lane.unit.room), system, by=by) for lane in sheet.lanes]


def column_heads(sheet: SheetLayout, system: UnitSystem) -> Heads:
    """Give the heads of the columns with their units."""
    power, length = unit_label(Dimension.POWER, system), unit_label(Dimension.LENGTH, system)
    reach = "reach" if sheet.axis is Axis.ACTUAL else "eq. reach"
    heads = {"room": "room", "unit": "unit", "reach": f"{reach}, {length}"}
    flow = flow_heads(system) if sheet.with_flow else {}
    flow = leak_head(sheet.result, system) | flow
    return heads | {mode: f"{mode}, {power}" for mode in MODES} | flow | {"spare": "spare", "verdict": "stands"}


def column_needs(rows: list[LaneRow], heads: Heads) -> dict[str, float]:
    """Give how wide each column would have to be to show all of it [px]."""
    found = {name: text_width(words, SMALL) for name, words in heads.items()}
    for row in rows:
        for name, words in row.cells.items():
            bold = name in row.over or (name == "room" and row.room is not None)
            width = text_width(words, BODY, Weight.SEMIBOLD if bold else Weight.REGULAR)
            found[name] = max(found[name], width)
    return found


def _row(sheet: SheetLayout, lane: Lane, room: RoomResult | None, system: UnitSystem, *, by: Judged) -> LaneRow:
    unit, verdict = lane.unit, lane_verdict(by, lane.unit, system)
    standings = {"reach": verdict.reach, **verdict.modes}
    figures = {"reach": reach_words(sheet, unit, system)}
    for mode, of_mode in zip(MODES, (unit.cooling, unit.sensible, unit.heating), strict=True):
        figures[mode] = figures_words(of_mode, in_room=room is not None, system=system)
    if sheet.result.safety is not None:
        figures["leak"] = leak_words(leak_of(sheet.result, unit.room), system)
        standings["leak"] = standings.get("refrigerant", Standing.NOT_APPLICABLE)
    over = frozenset(name for name, standing in standings.items() if name in figures and standing is Standing.OVER)
    signed = {name: f"{SIGNS[Standing.OVER]} {words}" if name in over else words for name, words in figures.items()}
    name = NONE if room is None else room.name or room.id
    sign = SIGNS.get(verdict.standing, "")
    flow = flow_cells(sheet, unit.id, system) if sheet.with_flow else {}
    plain = "within" if room is not None else "lengths within"
    words = f"{sign} {'; '.join(verdict.words) or plain}".strip()
    cells = {"room": name, "unit": f"{unit.id}  {unit.model}", **signed, **flow, "verdict": words}
    return LaneRow(lane, room, cells, over, verdict)


def reach_words(sheet: SheetLayout, unit: UnitResult, system: UnitSystem) -> str:
    """Give a unit's reach; where a run before it is unknown, what is known of it."""
    reach = unit.reach_m if sheet.axis is Axis.ACTUAL else unit.equivalent_reach_m
    if reach is not None:
        return show_number(reach, Dimension.LENGTH, system)
    drawn = next(pipe.far.reach_m for pipe in sheet.pipes if pipe.far.id == unit.id)
    return f"≥ {show_number(drawn, Dimension.LENGTH, system)}"


def figures_words(figures: ModeFigures, *, in_room: bool, system: UnitSystem) -> str:
    """Give delivered against needed; a unit in no room needs nothing, an unknown is a question mark."""
    delivered, needed = (
        UNKNOWN if value is None else show_number(value, Dimension.POWER, system)
        for value in (figures.delivered_w, figures.needed_w)
    )
    return f"{delivered} / {needed if in_room else NONE}"
