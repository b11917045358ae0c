"""The symbols of a riser diagram, generic and our own: each about the point where its pipe ends."""

from __future__ import annotations

import itertools

from linewright.draw.paper.marks import BOLD, FINE, MEDIUM, Box, Disc, Ink, Layer, Pen, Plain, Stroke
from linewright.draw.riser.parts import RADIUS, UNIT_HEIGHT, UNIT_WIDTH

OUTDOOR_WIDTH, OUTDOOR_HEIGHT = 15.0, 9.0
_LINE = Pen(BOLD)


def unit_marks(*, above: bool) -> tuple[Plain, ...]:
    """Draw an indoor unit: a case with a coil and the slot of its air."""
    top = -UNIT_HEIGHT if above else 0.0
    half, layer = UNIT_WIDTH / 2, Layer.UNIT
    coil = [(-2.4, 3.2), (-1.2, 1.4), (0.0, 3.2), (1.2, 1.4), (2.4, 3.2)]
    return (
        Box("", layer, -half, top, UNIT_WIDTH, UNIT_HEIGHT, _LINE, Ink.PAPER),
        *(
            Stroke("", layer, x1, top + y1, x2, top + y2, Pen(MEDIUM))
            for (x1, y1), (x2, y2) in itertools.pairwise(coil)
        ),
        Stroke("", layer, -half + 1.2, top + UNIT_HEIGHT - 0.8, half - 1.2, top + UNIT_HEIGHT - 0.8, Pen(MEDIUM)),
    )


def outdoor_marks(x: float, y: float) -> tuple[Plain, ...]:
    """Draw an outdoor module whose lower left corner is at a point: a case with its fan."""
    layer, middle, high = Layer.OUTDOOR, x + OUTDOOR_WIDTH / 2, y - OUTDOOR_HEIGHT / 2
    spread = 1.9
    return (
        Box("", layer, x, y - OUTDOOR_HEIGHT, OUTDOOR_WIDTH, OUTDOOR_HEIGHT, Pen(0.5), Ink.PAPER),
        Disc("", layer, middle, high, 2.9, Pen(MEDIUM)),
        Stroke("", layer, middle - spread, high - spread, middle + spread, high + spread, Pen(MEDIUM)),
        Stroke("", layer, middle - spread, high + spread, middle + spread, high - spread, Pen(MEDIUM)),
        Stroke("", layer, x + 1.2, y - 0.9, x + OUTDOOR_WIDTH - 1.2, y - 0.9, Pen(FINE)),
    )


def joint_marks() -> tuple[Plain, ...]:
    """Draw a joint: an open circle."""
    return (Disc("", Layer.FITTING, 0.0, 0.0, RADIUS, Pen(BOLD), Ink.PAPER),)


def coupling_marks() -> tuple[Plain, ...]:
    """Draw a coupling, which joins two runs end to end: a short bar across the pipe."""
    return (Box("", Layer.FITTING, -0.55, -RADIUS, 1.1, 2 * RADIUS, Pen(MEDIUM), Ink.PAPER),)


def bar_marks(length: float, height: float, *, box: bool) -> tuple[Plain, ...]:
    """Draw a header, a bar from which runs hang; a mode box has a second line along it."""
    found: tuple[Plain, ...] = (Box("", Layer.FITTING, 0.0, -height / 2, length, height, Pen(BOLD), Ink.PAPER),)
    if box:
        found = (*found, Stroke("", Layer.FITTING, 0.0, 0.0, length, 0.0, Pen(FINE)))
    return found


def break_marks() -> tuple[Stroke, ...]:
    """Draw the sign of what is not drawn to its true height: two slanted lines across the pipe."""
    return tuple(Stroke("", Layer.DIMENSION, -1.5, y + 0.55, 1.5, y - 0.55, Pen(FINE, Ink.DARK)) for y in (-0.45, 0.45))
