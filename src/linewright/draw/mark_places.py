"""Where a part stands on a sheet: the lines to draw around it, and where its tag begins."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from linewright.draw.labels import Box, Edges
from linewright.draw.primitives import AnyPrimitive, Circle, Line, Text
from linewright.draw.typeface import text_width

#: How far lines stand off what they mark [px].
APART = 4.5
#: How far before its row the tag of an indoor unit begins, and what a line keeps from text that it meets [px].
UNIT_TAG, CLEAR = 30.0, 2.0


class Place(NamedTuple):
    """Lines around a part, what it fills, and where its tag begins [px]."""

    lines: tuple[Edges, ...]
    box: Edges
    x: float
    y: float


def place_of(painted: Sequence[AnyPrimitive], part: str) -> Place | None:
    """Find a part of a sheet by its kind and id, such as `run:J2`; none where it has no place."""
    kind, _, name = part.partition(":")
    if kind in ("run", "pipe"):
        return _along(painted, f"run:{name}" if kind == "run" else f"module-pipe:{name}")
    ids = {"fitting": f"node:{name}", "module": f"module:{name}"}
    if kind in ids:
        return _around([item for item in painted if item.id == ids[kind]])
    if kind == "unit":
        row = _around([item for item in painted if item.group == part and isinstance(item, Text)])
        return None if row is None else row._replace(x=row.box[0] - UNIT_TAG)
    if kind == "outdoor":
        return _around([item for item in painted if item.role == "module"])
    return None


def _along(painted: Sequence[AnyPrimitive], name: str) -> Place | None:
    """A rail on either side of the pipe; the leg that leads to it has none."""
    pipe = next((item for item in painted if item.id == name and isinstance(item, Line)), None)
    if pipe is None:
        return None
    left, right = sorted((pipe.x1, pipe.x2))
    off = pipe.stroke / 2 + APART
    rails = tuple((left, pipe.y1 + side * off, right, pipe.y1 + side * off) for side in (-1.0, 1.0))
    box = (left, pipe.y1 - off, right, pipe.y1 + off)
    return Place(rails, box, (left + right) / 2, pipe.y1 - off - 1)


def _around(items: Sequence[AnyPrimitive]) -> Place | None:
    """A frame around all that is drawn of a part."""
    boxes = [edges(item) for item in items]
    if not boxes:
        return None
    left, top = min(box[0] for box in boxes) - APART, min(box[1] for box in boxes) - APART
    right, bottom = max(box[2] for box in boxes) + APART, max(box[3] for box in boxes) + APART
    lines = (
        (left, top, right, top),
        (left, bottom, right, bottom),
        (left, top, left, bottom),
        (right, top, right, bottom),
    )
    return Place(lines, (left, top, right, bottom), right + 2, top + 6)


def around(line: Edges, texts: Sequence[Box]) -> list[Edges]:
    """The pieces of a level line that cross no text; any other line as it is."""
    x1, y, x2, other = line
    if y != other:
        return [line]
    pieces = [(x1, x2)]
    for text in texts:
        if not text.top < y < text.bottom:
            continue
        left, right = text.left - CLEAR, text.right + CLEAR
        cut = [((a, min(b, left)), (max(a, right), b)) for a, b in pieces]
        pieces = [(a, b) for pair in cut for a, b in pair if b - a > 0.5]
    return [(a, y, b, y) for a, b in pieces]


def edges(item: AnyPrimitive) -> Edges:
    """Left, top, right and bottom of what is drawn."""
    if isinstance(item, Text):
        width = text_width(item.text, item.size, item.weight)
        left = item.x - {"start": 0.0, "middle": 0.5, "end": 1.0}[item.anchor.value] * width
        return left, item.y - 0.78 * item.size, left + width, item.y + 0.22 * item.size
    if isinstance(item, Circle):
        return item.x - item.radius, item.y - item.radius, item.x + item.radius, item.y + item.radius
    if isinstance(item, Line):
        left, right = sorted((item.x1, item.x2))
        top, bottom = sorted((item.y1, item.y2))
        return left, top, right, bottom
    return item.x, item.y, item.x + item.width, item.y + item.height
