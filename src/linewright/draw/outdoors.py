"""The outdoor group: its modules as boxes on their own lanes, the pipes between them and the root."""

from __future__ import annotations

from linewright.draw.frame import Frame
from linewright.draw.plan import ModuleRow, Node, SheetLayout
from linewright.draw.primitives import AnyPrimitive, Circle, Line, Rect, Text, Weight
from linewright.draw.run_words import module_pipe_title
from linewright.draw.spots import LEAST_RUN_PX
from linewright.draw.style import BODY, SMALL, TINY
from linewright.draw.typeface import fit
from linewright.draw.wording import UNKNOWN, quantity
from linewright.model.design import ROOT
from linewright.units import Dimension, UnitSystem

BOX_WIDTH, BOX_HEIGHT = 22.0, 26.0
PIPE_STROKE, LEG_STROKE = 2.4, 1.4


def outdoor_group(sheet: SheetLayout, frame: Frame, system: UnitSystem) -> list[AnyPrimitive]:
    """Paint the outdoor unit at the root, or the modules of a group behind it."""
    rows = sheet.module_rows
    x = frame.x(sheet.root.reach_m)
    if len(rows) == 1:
        return [
            *_module(rows[0], x - BOX_WIDTH / 2, frame),
            _label(rows[0], x + BOX_WIDTH / 2 + 8, frame, rows[0].model),
        ]
    found, left = _pipes(sheet, frame, system)
    for row in rows:
        found += _module(row, left.get(row.id, x - 2 * LEAST_RUN_PX) - BOX_WIDTH, frame)
        found.append(_label(row, x + 9, frame, f"{row.id}  {row.model}"))
        found += _pipe_length(sheet, row, x + 9, frame=frame, system=system)
    joint = Circle(
        id=f"node:{ROOT}",
        role="outdoor-joint",
        css="node",
        group="outdoor",
        title="outdoor joint",
        x=x,
        y=frame.y(sheet.root.lane),
        radius=4.6,
    )
    return [*found, joint]


def _module(row: ModuleRow, left: float, frame: Frame) -> list[AnyPrimitive]:
    y, name = frame.y(row.number), f"module:{row.id}"
    title = f"{row.id}: {row.model}"
    box = Rect(
        id=name,
        role="module",
        css="outdoor",
        group="outdoor",
        title=title,
        x=left,
        y=y - BOX_HEIGHT / 2,
        width=BOX_WIDTH,
        height=BOX_HEIGHT,
        radius=1.5,
    )
    middle = left + BOX_WIDTH / 2
    fan = Circle(id=f"{name}/fan", role="module-mark", css="outdoor", group="outdoor", x=middle, y=y - 3, radius=6.5)
    blades: list[AnyPrimitive] = [
        Line(
            id=f"{name}/blade{i}",
            role="module-mark",
            css="outdoor-mark",
            group="outdoor",
            x1=middle - dx,
            y1=y - 3 - dy,
            x2=middle + dx,
            y2=y - 3 + dy,
            stroke=1.2,
        )
        for i, (dx, dy) in enumerate(((4.0, 2.0), (-2.0, 4.0)))
    ]
    return [box, fan, *blades]


def _label(row: ModuleRow, x: float, frame: Frame, words: str) -> Text:
    text = fit(words, frame.tree_right - x, BODY, weight=Weight.SEMIBOLD)
    return Text(
        id=f"module:{row.id}/name",
        role="module-name",
        css="on-pipe",
        group="outdoor",
        title=words,
        x=x,
        y=frame.y(row.number) - 4,
        text=text,
        size=BODY,
        weight=Weight.SEMIBOLD,
    )


def _pipe_length(
    sheet: SheetLayout, row: ModuleRow, x: float, *, frame: Frame, system: UnitSystem
) -> list[AnyPrimitive]:
    pipes = [pipe for pipe in sheet.module_pipes if pipe.far.id == row.id]
    return [
        Text(
            id=f"module:{row.id}/length",
            role="run-label",
            css="on-pipe-quiet",
            group="outdoor",
            x=x,
            y=frame.y(row.number) + 10,
            text=f"module pipe {quantity(pipe.length_m, Dimension.LENGTH, system)}",
            size=TINY,
        )
        for pipe in pipes
    ]


def _pipes(sheet: SheetLayout, frame: Frame, system: UnitSystem) -> tuple[list[AnyPrimitive], dict[str, float]]:
    """Paint the module pipes to the left of the root; give the x at which each module's pipe ends."""
    at = {ROOT: frame.x(sheet.root.reach_m)}
    found: list[AnyPrimitive] = []
    for pipe in sheet.module_pipes:
        x0 = at.get(pipe.near.id, at[ROOT])
        x1 = min(frame.x(pipe.far.reach_m), x0 - LEAST_RUN_PX)
        at[pipe.far.id] = x1
        title = module_pipe_title(pipe, system)
        found += _pipe(pipe.near, pipe.far, x0, x1, frame=frame, known=pipe.known, title=title)
    stated = {pipe.far.id for pipe in sheet.module_pipes}
    for row in sheet.module_rows:
        if row.id not in stated:
            x1 = at[ROOT] - 2 * LEAST_RUN_PX
            far = Node(
                id=row.id, kind=sheet.root.kind, reach_m=sheet.root.reach_m, certain=False, lane=float(row.number)
            )
            found += _pipe(
                sheet.root, far, at[ROOT], x1, frame=frame, known=False, title=f"{row.id}: module pipe not stated"
            )
            found.append(_unknown_mark(row, x1, frame))
    return found, at


def _unknown_mark(row: ModuleRow, x: float, frame: Frame) -> Text:
    return Text(
        id=f"module:{row.id}/unknown",
        role="unknown",
        css="text",
        group="outdoor",
        x=x + 6,
        y=frame.y(row.number) - 5,
        text=UNKNOWN,
        size=SMALL,
        weight=Weight.SEMIBOLD,
    )


def _pipe(near: Node, far: Node, x0: float, x1: float, *, frame: Frame, known: bool, title: str) -> list[AnyPrimitive]:
    y0, y1, name = frame.y(near.lane), frame.y(far.lane), f"module-pipe:{far.id}"
    css = "pipe" if known else "pipe-unknown"
    along = Line(
        id=name,
        role="module-pipe",
        css=css,
        group="outdoor",
        title=title,
        x0_m=near.reach_m,
        x1_m=far.reach_m,
        x1=x0,
        y1=y1,
        x2=x1,
        y2=y1,
        stroke=PIPE_STROKE,
    )
    leg = Line(id=f"{name}/leg", role="leg", css="leg", group="outdoor", x1=x0, y1=y0, x2=x0, y2=y1, stroke=LEG_STROKE)
    return [along, leg] if abs(y1 - y0) > 0.05 else [along]
