"""The sheet of a system on paper: the same scene, at a size at which its smallest letters are 2 mm high."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from linewright.draw import style
from linewright.draw.paper.lettering import CAPITALS, LEAST_MM, em
from linewright.draw.paper.marks import Box, Dash, Disc, Hatching, Ink, Layer, Mark, Pen, Stroke, Words
from linewright.draw.primitives import AnyPrimitive, Circle, Hatch, Line, Rect, Scene, Text

#: Millimetres of paper for a pixel of the scene.
MM_PER_PX = em(LEAST_MM) / style.TINY
_INKS = {
    style.PAPER: Ink.PAPER,
    style.BAND: Ink.WASH,
    style.INK: Ink.DARK,
    style.QUIET: Ink.QUIET,
    style.FAINT: Ink.FAINT,
    style.ACCENT: Ink.ACCENT,
    style.WARNING: Ink.WARNING,
    style.LIMIT: Ink.QUIET,
}
_DASHES = {"5 4": Dash.DASHED, "7 4": Dash.DASHED, "3 2.5": Dash.DASHED, "1.5 3.5": Dash.DOTTED}
_LAYERS = {
    "run": Layer.RUN,
    "leg": Layer.RUN,
    "run-beyond": Layer.RUN,
    "module-pipe": Layer.RUN,
    "third-tube": Layer.RUN,
    "break": Layer.RUN,
    "crossing": Layer.RUN,
    "joint": Layer.FITTING,
    "outdoor-joint": Layer.FITTING,
    "header": Layer.FITTING,
    "coupling": Layer.FITTING,
    "box": Layer.FITTING,
    "unit-end": Layer.UNIT,
    "module": Layer.OUTDOOR,
    "module-mark": Layer.OUTDOOR,
    "limit": Layer.LIMIT,
    "limit-plain": Layer.LIMIT,
    "limit-tick": Layer.LIMIT,
    "first-branch": Layer.LIMIT,
    "ground-beyond": Layer.LIMIT,
}
_TEXT = Layer.TEXT


class _Look(NamedTuple):
    """What a class of the scene looks like: fill and outline by colour, its weight [px], its dash, its rim."""

    fill: Ink | None
    stroke: Ink | None
    weight: float | None
    dash: Dash


def scene_marks(scene: Scene, skip: Sequence[str] = ("paper",)) -> list[Mark]:
    """Give the marks of a scene [mm], without the primitives of some roles."""
    return [mark for item in scene.primitives if item.role not in skip for mark in _mark(item)]


def _mark(item: AnyPrimitive) -> Iterator[Mark]:
    look, layer, k = _look(item.css), _LAYERS.get(item.role, Layer.PICTURE), MM_PER_PX
    match item:
        case Line():
            pen = Pen((look.weight or item.stroke) * k, look.stroke or Ink.DARK, look.dash)
            yield Stroke(item.id, layer, item.x1 * k, item.y1 * k, item.x2 * k, item.y2 * k, pen)
        case Rect():
            pen_or_none = None if look.stroke is None else Pen((look.weight or 1.0) * k, look.stroke, look.dash)
            yield Box(item.id, layer, item.x * k, item.y * k, item.width * k, item.height * k, pen_or_none, look.fill)
        case Hatch():
            ink = Ink.WARNING if "over" in item.css else Ink.QUIET
            yield Hatching(item.id, Layer.LIMIT, item.x * k, item.y * k, item.width * k, item.height * k, ink)
        case Circle():
            pen_or_none = None if look.stroke is None else Pen((look.weight or 1.0) * k, look.stroke)
            yield Disc(item.id, layer, item.x * k, item.y * k, item.radius * k, pen_or_none, look.fill)
        case Text():
            yield _words(item, look)


def _words(item: Text, look: _Look) -> Words:
    height = item.size * MM_PER_PX * CAPITALS
    rim = Ink.WASH if look.stroke is not None else None
    x, y = item.x * MM_PER_PX, item.y * MM_PER_PX
    full = item.title or item.text
    return Words(item.id, _TEXT, x, y, item.text, height, item.weight, item.anchor, look.fill or Ink.DARK, full, rim)


def _look(css: str) -> _Look:
    said = dict(part.split(":", 1) for part in style.CLASSES.get(css, "").split(";") if part)
    weight = said.get("stroke-width", "").removesuffix("px")
    fill = _INKS.get(said.get("fill", ""))
    if said.get("fill-opacity"):
        fill = Ink.FAINT
    return _Look(
        fill,
        _INKS.get(said.get("stroke", "")),
        float(weight) if weight else None,
        _DASHES.get(said.get("stroke-dasharray", ""), Dash.SOLID),
    )
