"""The words on the lanes and how wide they are, before anything is placed."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import NamedTuple

from linewright.draw.flow import flow_cells, flow_heads
from linewright.draw.leaks import leak_head, leak_of, leak_words, with_leak_of
from linewright.draw.plan import Axis, Lane, SheetLayout
from linewright.draw.primitives import Weight
from linewright.draw.style import BODY, SMALL
from linewright.draw.typeface import text_width
from linewright.draw.verdicts import MODES, LaneVerdict, LengthStanding, lane_verdict, length_standings, unit_limits
from linewright.draw.wording import NONE, SIGNS, UNKNOWN
from linewright.engine.records import Check, ModeFigures, RoomResult, Standing, UnitResult
from linewright.model.same import Same
from linewright.units import Dimension, UnitSystem, show_number, unit_label

Heads = dict[str, str]
#: Lanes that are kept at hand: most of a sheet are those of the revision before.
MOST_KNOWN = 2_000


class LaneRow(NamedTuple):
    """One lane in words, by column; figures that are over start with the sign of it."""

    lane: Lane
    room: RoomResult | None
    cells: Mapping[str, str]
    over: frozenset[str]
    verdict: LaneVerdict


def lane_rows(sheet: SheetLayout, system: UnitSystem) -> list[LaneRow]:
    """Give the words of every lane from the top."""
    rooms = {room.id: room for room in sheet.evaluation.rooms}
    limits = unit_limits(sheet)
    return [
        _row(
            lane,
            rooms.get(lane.unit.room),
            system,
            reach=reach_words(sheet, lane.unit, system),
            lengths=tuple(length_standings(limits, lane.unit.id)),
            flow=tuple(flow_cells(sheet, lane.unit.id, system).items()) if sheet.with_flow else (),
            leak=leak_of(sheet.result, lane.unit.room),
            with_leak=sheet.result.safety is not None,
        )
        for lane in sheet.lanes
    ]


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
        for name, width in _widths(Same(row)):
            found[name] = max(found[name], width)
    return found


@lru_cache(maxsize=MOST_KNOWN)
def _widths(same: Same[LaneRow]) -> tuple[tuple[str, float], ...]:
    """How wide the words of a lane are, by column [px]."""
    row = same.value
    bold = row.over if row.room is None else {*row.over, "room"}
    return tuple(
        (name, text_width(words, BODY, Weight.SEMIBOLD if name in bold else Weight.REGULAR))
        for name, words in row.cells.items()
    )


@lru_cache(maxsize=MOST_KNOWN)
def _row(
    lane: Lane,
    room: RoomResult | None,
    system: UnitSystem,
    *,
    reach: str,
    lengths: tuple[LengthStanding, ...],
    flow: tuple[tuple[str, str], ...],
    leak: Check | None,
    with_leak: bool,
) -> LaneRow:
    unit, verdict = lane.unit, lane_verdict(lengths, with_leak_of(room, leak), system)
    standings = {"reach": verdict.reach, **verdict.modes}
    figures = {"reach": reach}
    for mode, of_mode in zip(MODES, (unit.cooling, unit.sensible, unit.heating), strict=True):
        figures[mode] = figures_words(of_mode, in_room=room is not None, system=system)
    if with_leak:
        figures["leak"] = leak_words(leak, system)
        standings["leak"] = standings.get("refrigerant", Standing.NOT_APPLICABLE)
    over = frozenset(name for name, standing in standings.items() if name in figures and standing is Standing.OVER)
    signed = {name: f"{SIGNS[Standing.OVER]} {words}" if name in over else words for name, words in figures.items()}
    name = NONE if room is None else room.name or room.id
    sign = SIGNS.get(verdict.standing, "")
    plain = "within" if room is not None else "lengths within"
    words = f"{sign} {'; '.join(verdict.words) or plain}".strip()
    cells = {"room": name, "unit": f"{unit.id}  {unit.model}", **signed, **dict(flow), "verdict": words}
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
