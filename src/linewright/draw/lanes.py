"""The table on the lanes: room, unit, reach, delivered against needed, spare, and how each unit stands in words."""

from __future__ import annotations

from typing import NamedTuple

from linewright.draw.columns import FIGURES, Column
from linewright.draw.frame import EDGE, Frame
from linewright.draw.lane_words import MOST_SHORT, MOST_SPARE, Bar, Heads, LaneRow
from linewright.draw.primitives import Anchor, AnyPrimitive, Line, Rect, Text, Weight
from linewright.draw.style import BODY, SMALL
from linewright.draw.typeface import fit, text_width, wrap
from linewright.model.kept import KeptEach

BAR_HEIGHT, BAR_STEP = 4.0, 6.0
VERDICT_LINES, VERDICT_STEP = 2, 13.0
MOST_MODEL = 0.7


def table_head(heads: Heads, frame: Frame) -> list[AnyPrimitive]:
    """Paint the heads of the columns."""
    y, columns = frame.top - 15, frame.columns
    over = _Span("figures", "delivered / needed", columns["cooling"].left, columns["heating"].right)
    found: list[AnyPrimitive] = _span(over, frame.top)
    if "loss" in columns:
        found += _span(_Span("flow", "first principles", columns["loss"].left, columns["oil"].right), frame.top)
    for name, words in heads.items():
        at_end = name in FIGURES
        text = Text(
            id=f"lanes/{name}",
            role="column-head",
            css="quiet",
            group="lanes",
            x=columns[name].right if at_end else columns[name].left,
            y=y,
            text=words,
            size=SMALL,
            anchor=Anchor.END if at_end else Anchor.START,
        )
        found.append(text)
    return found


class _Span(NamedTuple):
    """What is said over several columns, and from where to where [px]."""

    name: str
    words: str
    left: float
    right: float


def _span(span: _Span, top: float) -> list[AnyPrimitive]:
    """Say once over three columns what their figures are."""
    own = f"lanes/{span.name}"
    rule = Line(
        id=own, role="rule", css="rule", group="lanes-span", x1=span.left, y1=top - 29, x2=span.right, y2=top - 29
    )
    words = Text(
        id=f"{own}/words",
        role="column-span",
        css="quiet",
        group="lanes-span",
        x=(span.left + span.right) / 2,
        y=top - 34,
        text=span.words,
        size=SMALL,
        anchor=Anchor.MIDDLE,
    )
    return [rule, words]


def lanes(name: str, rows: list[LaneRow], frame: Frame) -> list[AnyPrimitive]:
    """Paint one row for each indoor unit of the system of a name."""
    table = _Table(tuple(frame.columns.items()), frame.table_left, frame.width - EDGE, frame.pitch)
    painted = _LANES(name, [(row, table, frame.y(row.number)) for row in rows])
    return [item for lane in painted for item in lane]


class _Table(NamedTuple):
    """The table on the lanes: its columns, its edges, the step from lane to lane [px]."""

    columns: tuple[tuple[str, Column], ...]
    left: float
    right: float
    pitch: float


def _lane(row: LaneRow, table: _Table, y: float) -> tuple[AnyPrimitive, ...]:
    """Paint a lane."""
    columns, cells = dict(table.columns), dict(row.cells)
    group, below = f"unit:{row.unit}", y + table.pitch / 2
    found: list[AnyPrimitive] = [
        Line(
            id=group,
            role="lane",
            css="rule",
            group=group,
            x1=table.left,
            y1=below,
            x2=table.right,
            y2=below,
        )
    ]
    weight = Weight.SEMIBOLD if row.in_room else Weight.REGULAR
    found.append(_name(group, "room", cells["room"], column=columns["room"], y=y, weight=weight))
    found.append(_unit(row, cells["unit"], columns["unit"], y))
    found += [
        _figure(group, name, cells[name], over=name in row.over, column=columns[name], y=y)
        for name in FIGURES
        if name in cells
    ]
    found += _spare(group, row.bars, columns["spare"], y)
    return (*found, *_verdict(row, cells["verdict"], columns["verdict"], y))


#: The lanes of the sheet before, by system.
_LANES: KeptEach[tuple[AnyPrimitive, ...]] = KeptEach(_lane)


def _name(group: str, name: str, words: str, *, column: Column, y: float, weight: Weight) -> Text:
    return Text(
        id=f"{group}/{name}",
        role="cell",
        css="text",
        group=group,
        title=words,
        x=column.left,
        y=y + 4,
        text=fit(words, column.width, BODY, weight=weight),
        size=BODY,
        weight=weight,
    )


def _unit(row: LaneRow, words: str, column: Column, y: float) -> Text:
    """Give tag and model; of a tag too long the end is cut, so that the model is read."""
    room = max(column.width * MOST_MODEL, column.width - text_width(row.unit, BODY))
    model = fit(f"  {row.model}", room, BODY)
    text = fit(row.unit, column.width - text_width(model, BODY), BODY) + model
    cell = _name(f"unit:{row.unit}", "unit", words, column=column, y=y, weight=Weight.REGULAR)
    return cell._replace(text=text)


def _figure(group: str, name: str, words: str, *, over: bool, column: Column, y: float) -> Text:
    weight = Weight.SEMIBOLD if over else Weight.REGULAR
    return Text(
        id=f"{group}/{name}",
        role="cell",
        css="warning" if over else "text",
        group=group,
        title=words,
        x=column.right,
        y=y + 4,
        text=words,
        size=BODY,
        weight=weight,
        anchor=Anchor.END,
    )


def _verdict(row: LaneRow, words: str, column: Column, y: float) -> list[AnyPrimitive]:
    """Say how the lane stands, on two lines at most; all of it stands in the title."""
    group = f"unit:{row.unit}"
    lines = wrap(words, column.width, SMALL)
    if len(lines) > VERDICT_LINES:
        rest = " ".join(lines[VERDICT_LINES - 1 :])
        lines = [*lines[: VERDICT_LINES - 1], fit(rest, column.width, SMALL)]
    first = y + 4 - (len(lines) - 1) * VERDICT_STEP / 2
    return [
        Text(
            id=f"{group}/verdict" + (f"/{i}" if i else ""),
            role="cell" if not i else "cell-more",
            css=row.css,
            group=group,
            title=words,
            x=column.left,
            y=first + i * VERDICT_STEP,
            text=line,
            size=SMALL,
        )
        for i, line in enumerate(lines)
    ]


def _spare(group: str, bars: tuple[Bar, ...], column: Column, y: float) -> list[AnyPrimitive]:
    """Paint what the room has to spare in each mode as bars around a zero line."""
    zero = column.left + column.width * MOST_SHORT / (MOST_SHORT + MOST_SPARE)
    line = Line(
        id=f"{group}/zero", role="zero", css="zero", group=group, x1=zero, y1=y - 11, x2=zero, y2=y + 11, stroke=1.0
    )
    return [line, *(_spare_bar(group, bar, column=column, zero=zero, y=y + (bar.place - 1) * BAR_STEP) for bar in bars)]


def _spare_bar(group: str, bar: Bar, *, column: Column, zero: float, y: float) -> Rect:
    length = bar.share * column.width / (MOST_SHORT + MOST_SPARE)
    return Rect(
        id=f"{group}/spare/{bar.mode}",
        role="spare",
        css="bar-over" if bar.short else "bar-used",
        group=group,
        title=f"{bar.mode}: {'short' if bar.short else 'spare'}",
        x=min(zero, zero + length),
        y=y - BAR_HEIGHT / 2,
        width=max(abs(length), 1.0),
        height=BAR_HEIGHT,
    )
