"""The table on the lanes: room, unit, reach, delivered against needed, spare, and how each unit stands in words."""

from __future__ import annotations

from linewright.draw.frame import Frame
from linewright.draw.plan import Axis, Lane, SheetLayout
from linewright.draw.primitives import Anchor, AnyPrimitive, Line, Rect, Text, Weight
from linewright.draw.style import BODY, SMALL
from linewright.draw.typeface import fit
from linewright.draw.verdicts import MODES, LaneVerdict, lane_verdict
from linewright.draw.wording import NONE, SIGNS, UNKNOWN
from linewright.engine.records import Check, ModeFigures, RoomResult, Standing, UnitResult
from linewright.units import Dimension, UnitSystem, show_number, unit_label

Span = tuple[float, float]

# The spare bar shows from this share short to this share to spare; what is more is cut off at the edge.
MOST_SHORT, MOST_SPARE = 0.25, 0.5
BAR_HEIGHT, BAR_STEP = 4.0, 6.0


def table_head(sheet: SheetLayout, frame: Frame, system: UnitSystem) -> list[AnyPrimitive]:
    """Paint the heads of the columns."""
    power, length = unit_label(Dimension.POWER, system), unit_label(Dimension.LENGTH, system)
    reach = "reach" if sheet.axis is Axis.ACTUAL else "equivalent"
    columns = frame.columns
    heads = [
        ("room", columns.room, "", "room", Anchor.START),
        ("unit", columns.unit, "", "unit", Anchor.START),
        ("reach", columns.reach, reach, length, Anchor.END),
        ("cooling", columns.cooling, "delivered / needed", f"cooling, {power}", Anchor.END),
        ("sensible", columns.sensible, "", f"sensible, {power}", Anchor.END),
        ("heating", columns.heating, "", f"heating, {power}", Anchor.END),
        ("spare", columns.spare, "spare: cooling,", "sensible, heating", Anchor.START),
        ("verdict", columns.verdict, "", "stands", Anchor.START),
    ]
    found: list[AnyPrimitive] = []
    for name, span, upper, lower, anchor in heads:
        for part, words, up in (("upper", upper, 34.0), ("", lower, 15.0)):
            if words:
                found.append(_head(name, part, words, span, y=frame.top - up, anchor=anchor))
    return found


def _head(name: str, part: str, words: str, span: Span, *, y: float, anchor: Anchor) -> Text:
    return Text(
        id=f"lanes/{name}" + (f"/{part}" if part else ""),
        role="column-head",
        css="quiet",
        group="lanes",
        x=span[0] if anchor is Anchor.START else span[1],
        y=y,
        text=words,
        size=SMALL,
        anchor=anchor,
    )


def lanes(sheet: SheetLayout, frame: Frame, system: UnitSystem) -> list[AnyPrimitive]:
    """Paint one row for each indoor unit."""
    rooms = {room.id: room for room in sheet.evaluation.rooms}
    found: list[AnyPrimitive] = []
    for lane in sheet.lanes:
        found += _lane(sheet, lane, rooms.get(lane.unit.room), frame=frame, system=system)
    return found


def _lane(
    sheet: SheetLayout, lane: Lane, room: RoomResult | None, *, frame: Frame, system: UnitSystem
) -> list[AnyPrimitive]:
    unit, columns = lane.unit, frame.columns
    y, group = frame.y(lane.number), f"unit:{lane.unit.id}"
    verdict = lane_verdict(sheet, unit, system)
    rule = Line(
        id=group,
        role="lane",
        css="rule",
        group=group,
        x1=frame.table_left,
        y1=y + frame.pitch / 2,
        x2=frame.width - 20,
        y2=y + frame.pitch / 2,
    )
    name = NONE if room is None else room.name or room.id
    model = f"{unit.id}  {unit.model}"
    reach_sign = SIGNS[Standing.OVER] if verdict.reach is Standing.OVER else ""
    cells = [
        rule,
        _cell(group, "room", name, columns.room, y, weight=Weight.SEMIBOLD if room else Weight.REGULAR),
        _cell(group, "unit", model, columns.unit, y),
        _figure(group, "reach", reach_words(sheet, unit, system), columns.reach, y, sign=reach_sign),
    ]
    for mode, span in zip(MODES, (columns.cooling, columns.sensible, columns.heating), strict=True):
        sign = SIGNS[Standing.OVER] if verdict.modes[mode] is Standing.OVER else ""
        words = figures_words(getattr(unit, mode), in_room=room is not None, system=system)
        cells.append(_figure(group, mode, words, span, y, sign=sign))
    cells += _spare(group, room, columns.spare, y)
    cells.append(_verdict(group, verdict, columns.verdict, y))
    return cells


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


def _cell(
    group: str, name: str, words: str, span: Span, y: float, *, css: str = "text", weight: Weight = Weight.REGULAR
) -> Text:
    text = fit(words, span[1] - span[0], BODY, weight=weight)
    return Text(
        id=f"{group}/{name}",
        role="cell",
        css=css,
        group=group,
        title=words,
        x=span[0],
        y=y + 4,
        text=text,
        size=BODY,
        weight=weight,
    )


def _figure(group: str, name: str, words: str, span: Span, y: float, *, sign: str) -> Text:
    weight = Weight.SEMIBOLD if sign else Weight.REGULAR
    return Text(
        id=f"{group}/{name}",
        role="cell",
        css="warning" if sign else "text",
        group=group,
        title=words,
        x=span[1],
        y=y + 4,
        text=fit(f"{sign} {words}".strip(), span[1] - span[0], BODY, weight=weight),
        size=BODY,
        weight=weight,
        anchor=Anchor.END,
    )


def _verdict(group: str, verdict: LaneVerdict, span: Span, y: float) -> Text:
    sign = SIGNS.get(verdict.standing, "")
    words = "; ".join(verdict.words) or "within"
    css = "warning" if verdict.standing is Standing.OVER else "text" if verdict.words else "quiet"
    weight = Weight.SEMIBOLD if verdict.standing is Standing.OVER else Weight.REGULAR
    return _cell(group, "verdict", f"{sign} {words}".strip(), span, y, css=css, weight=weight)


def _spare(group: str, room: RoomResult | None, span: Span, y: float) -> list[AnyPrimitive]:
    """Paint what the room has to spare in each mode as bars around a zero line."""
    zero = span[0] + (span[1] - span[0]) * MOST_SHORT / (MOST_SHORT + MOST_SPARE)
    line = Line(
        id=f"{group}/zero", role="zero", css="zero", group=group, x1=zero, y1=y - 11, x2=zero, y2=y + 11, stroke=1.0
    )
    checks = {check.measure: check for check in room.checks} if room else {}
    bars: list[AnyPrimitive] = [
        _spare_bar(group, mode, checks[mode], span=span, zero=zero, y=y + (i - 1) * BAR_STEP)
        for i, mode in enumerate(MODES)
        if mode in checks and checks[mode].margin is not None and checks[mode].bound
    ]
    return [line, *bars]


def _spare_bar(group: str, mode: str, check: Check, *, span: Span, zero: float, y: float) -> Rect:
    share = min(max((check.margin or 0.0) / (check.bound or 1.0), -MOST_SHORT), MOST_SPARE)
    length = share * (span[1] - span[0]) / (MOST_SHORT + MOST_SPARE)
    short = check.standing is Standing.OVER
    return Rect(
        id=f"{group}/spare/{mode}",
        role="spare",
        css="bar-over" if short else "bar-used",
        group=group,
        title=f"{mode}: {'short' if short else 'spare'}",
        x=min(zero, zero + length),
        y=y - BAR_HEIGHT / 2,
        width=max(abs(length), 1.0),
        height=BAR_HEIGHT,
    )
