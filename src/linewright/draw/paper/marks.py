"""What a drawing on paper is made of: flat marks in millimetres, x to the right and y down, each on a layer.

Painters only paint; they compute, format and measure nothing. A mark has a stable `id`, used once in a drawing.
"""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple, TypeAlias

from linewright.draw.primitives import Anchor, Weight
from linewright.model.values import Role


class Layer(StrEnum):
    """Layers of a drawing, named as they stand in a file for other programs."""

    GAS = "LW-TUBE-GAS"
    LIQUID = "LW-TUBE-LIQUID"
    SUCTION = "LW-TUBE-SUCTION"
    HIGH_LOW = "LW-TUBE-HIGH-LOW"
    HIGH = "LW-TUBE-HIGH"
    LOW = "LW-TUBE-LOW"
    RUN = "LW-RUN"
    UNIT = "LW-UNIT"
    FITTING = "LW-FITTING"
    OUTDOOR = "LW-OUTDOOR"
    LEVEL = "LW-LEVEL"
    LIMIT = "LW-LIMIT"
    HEIGHT = "LW-HEIGHT"
    DIMENSION = "LW-DIMENSION"
    TEXT = "LW-TEXT"
    PICTURE = "LW-PICTURE"
    NOTE = "LW-NOTE"
    TITLE = "LW-TITLE"
    BORDER = "LW-BORDER"
    MATCH = "LW-MATCH"


TUBE_LAYERS = {
    Role.GAS: Layer.GAS,
    Role.LIQUID: Layer.LIQUID,
    Role.SUCTION: Layer.SUCTION,
    Role.HIGH_LOW: Layer.HIGH_LOW,
    Role.HIGH: Layer.HIGH,
    Role.LOW: Layer.LOW,
}


class Ink(StrEnum):
    """Colours, each legible in print; never the only sign of anything."""

    DARK = "#17212b"
    QUIET = "#5c6670"
    FAINT = "#b9b6ad"
    ACCENT = "#0b6b74"
    WARNING = "#b3340d"
    WASH = "#f2f0e9"
    PAPER = "#ffffff"


class Dash(StrEnum):
    """Kinds of line, by the lengths of dash and gap [mm]."""

    SOLID = ""
    DASHED = "3 1.5"
    DOTTED = "0.5 1.2"
    CHAIN = "8 1.5 1 1.5"


class Pen(NamedTuple):
    """How a line is drawn: its weight [mm], its ink, its kind."""

    width: float
    ink: Ink = Ink.DARK
    dash: Dash = Dash.SOLID


HAIR, FINE, MEDIUM, BOLD, HEAVY = 0.13, 0.18, 0.25, 0.35, 0.5
"""Line weights [mm], after the steps of ISO 128-2 (from memory); `HAIR` only where nothing has to be read."""


class Stroke(NamedTuple):
    """A straight line [mm]."""

    id: str
    layer: Layer
    x1: float
    y1: float
    x2: float
    y2: float
    pen: Pen


class Box(NamedTuple):
    """A rectangle [mm], with an outline, a fill or both."""

    id: str
    layer: Layer
    x: float
    y: float
    width: float
    height: float
    pen: Pen | None = None
    fill: Ink | None = None


class Hatching(NamedTuple):
    """A rectangle of slanted lines [mm]."""

    id: str
    layer: Layer
    x: float
    y: float
    width: float
    height: float
    ink: Ink


class Disc(NamedTuple):
    """A circle [mm], with an outline, a fill or both."""

    id: str
    layer: Layer
    x: float
    y: float
    radius: float
    pen: Pen | None = None
    fill: Ink | None = None


class Words(NamedTuple):
    """One line of text: `x`, `y` its base, `height` that of its capitals [mm], `full` all of it where it is cut."""

    id: str
    layer: Layer
    x: float
    y: float
    text: str
    height: float
    weight: Weight = Weight.REGULAR
    anchor: Anchor = Anchor.START
    ink: Ink = Ink.DARK
    full: str = ""
    rim: Ink | None = None


class Symbol(NamedTuple):
    """A thing that is counted: its marks stand about its own origin, `facts` say what it is, by name and text."""

    id: str
    layer: Layer
    x: float
    y: float
    name: str
    marks: tuple[Plain, ...]
    facts: tuple[tuple[str, str], ...]


class Height(NamedTuple):
    """A dimension of a height: upright at `x` from `upper` down to `lower` [mm], its text left of it on `base`.

    text : as it is printed; empty where a piece is too short for it
    cut : whether it goes on above, and below, on another part, so that it is drawn shorter than it is
    """

    id: str
    layer: Layer
    x: float
    upper: float
    lower: float
    text: str
    base: float
    cut: tuple[bool, bool] = (False, False)


Plain: TypeAlias = Stroke | Box | Hatching | Disc
Mark: TypeAlias = Plain | Words | Symbol | Height


class Measure(NamedTuple):
    """What is read off a drawing: what a millimetre of it upward stands for, in which unit, with how many decimals."""

    factor: float = 1.0
    unit: str = ""
    places: int = 2


class Drawing(NamedTuple):
    """One sheet of paper: its size [mm], what it is, its marks in paint order.

    measure : how heights are read off it; millimetres of paper where it has no scale
    """

    name: str
    title: str
    description: str
    paper: str
    width: float
    height: float
    marks: tuple[Mark, ...]
    measure: Measure = Measure()
