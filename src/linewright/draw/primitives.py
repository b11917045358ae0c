"""What a scene is made of: flat primitives in pixels, each with a stable id, a role and a class.

Painters only paint; they compute, format and measure nothing. All primitives have:

id : str — stable and used once per scene: a subject such as `run:J2`, or `run:J2/size` for a part of it
role : str — what it stands for, one of a closed list (docs/reference/scene.md)
css : str — classes, which decide colour; never the only sign of a fault
group : str — id of the group it belongs to
title : str — the full text behind it
x0_m, x1_m : float | None — what it spans along the axis [m]; set on pipe and limits only
"""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple, TypeAlias

from linewright.model.values import value


class Anchor(StrEnum):
    """Which point of a text its x is."""

    START = "start"
    MIDDLE = "middle"
    END = "end"


class Weight(StrEnum):
    """The two weights of the committed face."""

    REGULAR = "regular"
    SEMIBOLD = "semibold"


class Line(NamedTuple):
    """A straight line [px]; `stroke` is its weight [px]."""

    id: str
    role: str
    css: str
    group: str
    x1: float
    y1: float
    x2: float
    y2: float
    stroke: float = 1.0
    title: str = ""
    x0_m: float | None = None
    x1_m: float | None = None


class Rect(NamedTuple):
    """A rectangle [px]; `radius` rounds its corners."""

    id: str
    role: str
    css: str
    group: str
    x: float
    y: float
    width: float
    height: float
    radius: float = 0.0
    title: str = ""
    x0_m: float | None = None
    x1_m: float | None = None


class Hatch(NamedTuple):
    """A rectangle filled with slanted lines [px]."""

    id: str
    role: str
    css: str
    group: str
    x: float
    y: float
    width: float
    height: float
    title: str = ""
    x0_m: float | None = None
    x1_m: float | None = None


class Circle(NamedTuple):
    """A circle [px]."""

    id: str
    role: str
    css: str
    group: str
    x: float
    y: float
    radius: float
    title: str = ""
    x0_m: float | None = None
    x1_m: float | None = None


class Text(NamedTuple):
    """One line of text, formatted and fitted; `y` is its baseline, `size` its em [px]."""

    id: str
    role: str
    css: str
    group: str
    x: float
    y: float
    text: str
    size: float
    weight: Weight = Weight.REGULAR
    anchor: Anchor = Anchor.START
    title: str = ""
    x0_m: float | None = None
    x1_m: float | None = None


AnyPrimitive: TypeAlias = Line | Rect | Hatch | Circle | Text


class Group(NamedTuple):
    """What belongs together; `aria` is its role for a screen reader, `label` its name."""

    id: str
    label: str
    aria: str = "group"
    parent: str = ""


@value
class AxisScale:
    """How metres along the axis stand on the picture: x_px = origin_px + px_per_m * reach [m]."""

    name: str
    origin_px: float
    px_per_m: float
    from_m: float
    to_m: float

    def x(self, reach_m: float) -> float:
        """Give the x of a reach [px]."""
        return self.origin_px + self.px_per_m * reach_m


@value
class Scene:
    """A picture: primitives in paint order, the groups they belong to, and the scale of the axis."""

    title: str
    description: str
    width: float
    height: float
    units: str
    axis: AxisScale
    groups: tuple[Group, ...]
    primitives: tuple[AnyPrimitive, ...]
