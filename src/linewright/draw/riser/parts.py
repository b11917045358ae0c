"""The parts of a riser diagram before they are placed: their words and the ground that they take about a point."""

from __future__ import annotations

from typing import NamedTuple

from linewright.draw.paper.lettering import BODY, DESCENT, LEAST_MM, LINE, Area, fitted, lines_of, width_of
from linewright.draw.primitives import Anchor, Weight

#: A unit's symbol [mm], the least drop to it, the least way between two horizontal pipes.
UNIT_WIDTH, UNIT_HEIGHT = 9.0, 5.0
DROP, STEP = 8.0, 11.0
RADIUS = 1.5
BAR = 2.8
LANE = LEAST_MM * LINE
_BLOCK, _TAG = 25.0, 16.0
_ROOM_LINES = 2


class Line(NamedTuple):
    """A line of words about an origin [mm]."""

    x: float
    y: float
    text: str
    full: str
    height: float
    weight: Weight
    anchor: Anchor

    def area(self, x: float, y: float) -> Area:
        """Give the ground that it takes with its origin at a point [mm]."""
        width = width_of(self.text, self.height, self.weight)
        left = x + self.x - {Anchor.START: 0.0, Anchor.MIDDLE: width / 2, Anchor.END: width}[self.anchor]
        base = y + self.y
        return Area(left, base - self.height, left + width, base + DESCENT * self.height)


def line(
    x: float,
    y: float,
    text: str,
    full: str = "",
    *,
    height: float = LEAST_MM,
    bold: bool = False,
    anchor: Anchor = Anchor.START,
) -> Line:
    """Give a line of words."""
    return Line(x, y, text, full or text, height, Weight.SEMIBOLD if bold else Weight.REGULAR, anchor)


def unit_lines(tag: str, more: tuple[str, str, str], *, above: bool) -> list[Line]:
    """Give the words of a unit below its symbol, or above it, about the point where its pipe ends.

    more : its model, its room and its level
    """
    model, room, level = more
    rooms = lines_of(room, _BLOCK, most=_ROOM_LINES) if room else []
    rows = [fitted(model, _BLOCK), *rooms, level]
    full = [model, *([room] * len(rooms)), level]
    height = BODY * LINE + len(rows) * LANE
    y = -UNIT_HEIGHT - 1.0 - height if above else UNIT_HEIGHT + 0.6
    y += BODY * LINE - 0.6
    found = [
        line(0.0, y, fitted(tag, _BLOCK, BODY, Weight.SEMIBOLD), tag, height=BODY, bold=True, anchor=Anchor.MIDDLE)
    ]
    for text, whole in zip(rows, full, strict=True):
        y += LANE
        found.append(line(0.0, y, text, whole, anchor=Anchor.MIDDLE))
    return found


def drop_lines(texts: list[str], *, above: bool) -> list[Line]:
    """Give the words of a run that drops to a unit, to the right of it, about the point where it begins."""
    top = -len(texts) * LANE - 1.3 if above else 0.9
    return [line(2.2, top + LANE * (i + 1) - 0.8, text) for i, text in enumerate(texts)]


def run_lines(texts: list[str]) -> list[Line]:
    """Give the words above a horizontal run, about its left end."""
    return [line(0.0, -2.1 - LANE * (len(texts) - 1 - i), text) for i, text in enumerate(texts)]


def riser_lines(texts: list[str]) -> list[Line]:
    """Give the words of an upright run, to the left of it, about its middle."""
    top = -len(texts) * LANE / 2
    return [line(-3.6, top + LANE * (i + 1) - 0.8, text, anchor=Anchor.END) for i, text in enumerate(texts)]


def tag_line(tag: str, aside: float = RADIUS) -> Line:
    """Give the tag of a joint, below its left side, `aside` and more from its middle [mm]."""
    text = fitted(tag, _TAG, LEAST_MM, Weight.SEMIBOLD)
    return line(-aside - 0.4, RADIUS + 2.3, text, tag, bold=True, anchor=Anchor.END)


def bar_line(tag: str, model: str) -> Line:
    """Give the tag and model of a header or a box, above its left end."""
    words = f"{tag}  {model}".strip()
    return line(0.0, -BAR / 2 - 1.3, fitted(words, 2 * _BLOCK, LEAST_MM, Weight.SEMIBOLD), words, bold=True)


def areas(lines: list[Line], x: float, y: float) -> list[Area]:
    """Give the ground that lines take with their origin at a point [mm]."""
    return [item.area(x, y) for item in lines]
