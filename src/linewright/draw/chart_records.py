"""What a chart shows: points with their marks, the lines through them, the axes."""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple

from linewright.units import Dimension


class Mark(StrEnum):
    """What stands at a point."""

    HOLDS = "holds"
    OVER = "over"
    OPEN = "open"
    NO_DESIGN = "no design"


class Point(NamedTuple):
    """One point: where it stands across, its figure (SI) or `None` where it is not known, its mark, what it is."""

    x: float
    y: float | None
    mark: Mark
    title: str


class Curve(NamedTuple):
    """The points of one line, from left to right."""

    name: str
    points: tuple[Point, ...]


class Across(NamedTuple):
    """The axis across: quantities of one dimension, or, without one, words at 0, 1, 2 and so on."""

    name: str
    dimension: Dimension | None
    words: tuple[str, ...]


class Chart(NamedTuple):
    """What is drawn; `lines` says what the names of the curves are values of, if they have names."""

    title: str
    subtitle: str
    across: Across
    up: str
    dimension: Dimension
    lines: str
    curves: tuple[Curve, ...]
    notes: tuple[str, ...]
