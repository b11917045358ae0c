"""The words on the lanes and how wide they are, before anything is placed."""

from __future__ import annotations

from operator import attrgetter, itemgetter
from typing import NamedTuple

from linewright.draw.flow import flow_cells, flow_heads
from linewright.draw.leaks import leak_head, leak_of, leak_words, with_leak_of
from linewright.draw.plan import Axis, SheetLayout
from linewright.draw.primitives import Weight
from linewright.draw.style import BODY, SMALL
from linewright.draw.typeface import text_width
from linewright.draw.verdicts import MODES, LengthStanding, lane_verdict, length_standings, unit_limits
from linewright.draw.wording import NONE, SIGNS, UNKNOWN
from linewright.engine.records import Check, ModeFigures, RoomResult, Standing, UnitResult
from linewright.model.kept import KeptEach
from linewright.units import Dimension, UnitSystem, show_number, unit_label

Heads = dict[str, str]
# The spare bar shows from this share short to this share to spare; what is more is cut off at the edge.
MOST_SHORT, MOST_SPARE = 0.25, 0.5


class Bar(NamedTuple):
    """What a room has to spare in one mode as a share of its need, less than nothing where it is short."""

    mode: str
    place: int
    share: float
    short: bool


class LaneRow(NamedTuple):
    """One lane as it is shown: words by column, where figures that are over start with the sign of it, and bars.

    css : class of the words on how it stands
    widths : how wide its words are, by column [px]
    """

    number: int
    unit: str
    model: str
    in_room: bool
    cells: tuple[tuple[str, str], ...]
    over: frozenset[str]
    css: str
    bars: tuple[Bar, ...]
    widths: tuple[tuple[str, float], ...]


def lane_rows(sheet: SheetLayout, system: UnitSystem) -> list[LaneRow]:
    """Give the words of every lane from the top."""
    rooms = {room.id: room for room in sheet.evaluation.rooms}
    limits = unit_limits(sheet)
    with_leak = sheet.result.safety is not None
    rows = [
        (
            lane.unit,
            lane.number,
            rooms.get(lane.unit.room),
            system,
            reach_m,
            tuple(length_standings(limits, lane.unit.id)) if limits else (),
            tuple(flow_cells(sheet, lane.unit.id, system).items()) if sheet.with_flow else (),
            leak_of(sheet.result, lane.unit.room) if with_leak else None,
            with_leak,
        )
        for lane, reach_m in zip(sheet.lanes, _reaches(sheet), strict=True)
    ]
    return _ROWS(sheet.result.id, rows)


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
    for of_column in zip(*[row.widths for row in rows], strict=True):
        name, _ = of_column[0]
        found[name] = max(found[name], max(of_column, key=_WIDTH)[1])
    return found


_WIDTH = itemgetter(1)


def _row(  # noqa: PLR0917 - kept by these
    unit: UnitResult,
    number: int,
    room: RoomResult | None,
    system: UnitSystem,
    reach: tuple[float, bool],
    lengths: tuple[LengthStanding, ...],
    flow: tuple[tuple[str, str], ...],
    leak: Check | None,
    with_leak: bool,  # noqa: FBT001 - as all of them
) -> LaneRow:
    verdict = lane_verdict(lengths, with_leak_of(room, leak), system)
    standings = {"reach": verdict.reach, **verdict.modes}
    figures = {"reach": reach_words(*reach, system)}
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
    css = "warning" if verdict.standing is Standing.OVER else "text" if verdict.words else "quiet"
    bold = over | {"room"} if room is not None else over
    widths = _widths(cells, bold)
    return LaneRow(number, unit.id, unit.model, room is not None, tuple(cells.items()), over, css, _bars(room), widths)


#: The lanes of the sheet before, by system.
_ROWS: KeptEach[LaneRow] = KeptEach(_row)


def _widths(cells: Heads, bold: frozenset[str]) -> tuple[tuple[str, float], ...]:
    return tuple(
        [
            (name, text_width(words, BODY, Weight.SEMIBOLD if name in bold else Weight.REGULAR))
            for name, words in cells.items()
        ]
    )


def _bars(room: RoomResult | None) -> tuple[Bar, ...]:
    checks = {check.measure: check for check in room.checks} if room else {}
    known = [(place, mode, checks[mode]) for place, mode in enumerate(MODES) if mode in checks]
    return tuple(
        [
            Bar(
                mode,
                place,
                min(max(check.margin / check.bound, -MOST_SHORT), MOST_SPARE),
                check.standing is Standing.OVER,
            )
            for place, mode, check in known
            if check.margin is not None and check.bound
        ]
    )


def _reaches(sheet: SheetLayout) -> list[tuple[float, bool]]:
    """Give the reach of the unit of every lane [m], and whether it is known: else what is known of it."""
    reach_m = attrgetter("unit.reach_m" if sheet.axis is Axis.ACTUAL else "unit.equivalent_reach_m")
    stated = list(map(reach_m, sheet.lanes))
    if None not in stated:
        return [(reach, True) for reach in stated]
    drawn = {pipe.far.id: pipe.far.reach_m for pipe in sheet.pipes}
    pairs = zip(sheet.lanes, stated, strict=True)
    return [(drawn[lane.unit.id], False) if reach is None else (reach, True) for lane, reach in pairs]


def reach_words(reach_m: float, is_known: bool, system: UnitSystem) -> str:  # noqa: FBT001 - a pair with the reach
    """Give a unit's reach; where a run before it is unknown, what is known of it."""
    words = show_number(reach_m, Dimension.LENGTH, system)
    return words if is_known else f"≥ {words}"


def figures_words(figures: ModeFigures, *, in_room: bool, system: UnitSystem) -> str:
    """Give delivered against needed; a unit in no room needs nothing, an unknown is a question mark."""
    delivered, needed = (
        UNKNOWN if value is None else show_number(value, Dimension.POWER, system)
        for value in (figures.delivered_w, figures.needed_w)
    )
    return f"{delivered} / {needed if in_room else NONE}"
