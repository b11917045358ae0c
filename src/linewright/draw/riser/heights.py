"""The levels of a riser diagram: a line at each, true to height, its name and elevation, the heights between."""

from __future__ import annotations

import itertools
from collections.abc import Iterator, Sequence
from typing import NamedTuple

from linewright.draw.paper.dimension import painted
from linewright.draw.paper.extent import area_of
from linewright.draw.paper.lettering import BODY, LEAST_MM, Area, fitted, width_of
from linewright.draw.paper.marks import FINE, MEDIUM, Dash, Height, Ink, Layer, Mark, Pen, Stroke, Words
from linewright.draw.primitives import Weight
from linewright.draw.riser.aims import Aims
from linewright.draw.riser.scales import Scale, height_places
from linewright.draw.riser.wording import level_words
from linewright.units import Dimension, UnitSystem, show

#: Width of the levels at the left of a diagram [mm]: names, then the chain of dimensions.
SIDE = 50.0
_NAME, _CHAIN = 31.0, 45.0
_LEAST_PITCH, _TEXT_PITCH = 8.0, 3.4
_SAME = 1e-6
_EDGE, _GROUP_EDGE = 16.0, 37.0
APART = "LEVEL NOT STATED: drawn apart, at no height"


class Levels(NamedTuple):
    """The levels to be drawn: where they stand, and where what has no level is drawn apart [mm]."""

    aims: Aims
    scale: Scale
    system: UnitSystem
    strip: float

    @property
    def apart(self) -> bool:
        """Say whether something has no level."""
        return any(aim.elevation_m is None for aim in (self.aims.root, *self.aims.nodes))

    def lines(self) -> list[tuple[str, str, float, float]]:
        """Give id, name, elevation [m] and height on paper [mm] of each level, from the top."""
        return [
            (level.id, level.name or level.id, level.elevation_m, -self.scale.mm(level.elevation_m))
            for level in reversed(self.aims.levels)
        ]

    def around(self, area: Area) -> Area:
        """Give the ground of a diagram with that of its levels [mm]."""
        heights = [y for _, _, _, y in self.lines()]
        if not heights:
            return area
        return Area(area.left, min(area.top, min(heights) - 5.0), area.right, max(area.bottom, max(heights) + 4.0))


def level_marks(levels: Levels, area: Area, taken: Sequence[Area], pipes: Sequence[Area]) -> Iterator[Mark]:
    """Draw a line at each level, left open where words stand, and the edge of what has no level."""
    pen = Pen(FINE, Ink.FAINT)
    for name, _, _, y in levels.lines():
        spans = [(a.left - 0.8, a.right + 0.8) for a in taken if a.top - 0.6 < y < a.bottom + 0.6]
        for n, (start, end) in enumerate(_open(area.left, area.right, spans)):
            yield Stroke(f"level:{name}/line/{n}", Layer.LEVEL, start, y, end, y, pen)
    if levels.apart:
        yield from _edge(levels, area, [*taken, *pipes])


def _edge(levels: Levels, area: Area, taken: Sequence[Area]) -> Iterator[Mark]:
    """Draw the edge of what has no level, its words where nothing else stands."""
    y = levels.strip - (_GROUP_EDGE if levels.aims.root.elevation_m is None else _EDGE)
    width = width_of(APART, LEAST_MM, Weight.SEMIBOLD)
    first = Area(area.left + 2.0, y + 1.0, area.left + 2.0 + width, y + 4.6)
    places = [first.moved(4.0 * n) for n in range(int(max(area.right - first.right, 0.0) / 4.0) + 1)]
    ground = next((place for place in places if not any(place.meets(one, 1.0) for one in taken)), first)
    yield Stroke("apart/edge", Layer.LEVEL, area.left, y, area.right, y, Pen(MEDIUM, Ink.WARNING, Dash.CHAIN))
    yield Words("apart/words", Layer.LEVEL, ground.left, y + 3.8, APART, LEAST_MM, Weight.SEMIBOLD, ink=Ink.WARNING)


def _open(left: float, right: float, spans: Sequence[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    at = left
    for start, end in sorted(spans):
        if start > at:
            yield at, start
        at = max(at, end)
    if right > at:
        yield at, right


def side_marks(levels: Levels, area: Area) -> Iterator[Mark]:
    """Draw the names and elevations of the levels and the heights from one to the next, left of the diagram."""
    left = area.left - SIDE
    chain = _chain(levels, left + _CHAIN)
    said = [area_of(part) for one in chain for part in painted(one) if isinstance(part, Words)]
    places = _spread([y for _, _, _, y in levels.lines()], _LEAST_PITCH)
    for (name, title, elevation_m, y), at in zip(levels.lines(), places, strict=True):
        pen = Pen(FINE, Ink.QUIET)
        spans = [(one.left - 0.8, one.right + 0.8) for one in said if one.top - 0.3 < y < one.bottom + 0.3]
        for n, (start, end) in enumerate(_open(left + _NAME, area.left, spans)):
            yield Stroke(f"level:{name}/side/{n}", Layer.LEVEL, start, y, end, y, pen)
        yield Stroke(f"level:{name}/under", Layer.LEVEL, left, at, left + _NAME - 3, at, pen)
        yield Stroke(f"level:{name}/lead", Layer.LEVEL, left + _NAME - 3, at, left + _NAME, y, pen)
        shown = fitted(title, _NAME - 3, BODY, Weight.SEMIBOLD)
        yield Words(f"level:{name}/name", Layer.LEVEL, left, at - 1.0, shown, BODY, Weight.SEMIBOLD, full=title)
        words = level_words(elevation_m, levels.system)
        yield Words(f"level:{name}/elevation", Layer.LEVEL, left, at + 2.9, words, LEAST_MM, ink=Ink.QUIET)
    yield from chain


def _chain(levels: Levels, x: float) -> list[Height]:
    """Give the heights between levels as a chain of dimensions; levels at the same height have none between them."""
    pairs = [pair for pair in itertools.pairwise(levels.lines()) if pair[1][3] - pair[0][3] > _SAME]
    bases = _spread([(upper[3] + lower[3]) / 2 + LEAST_MM / 2 for upper, lower in pairs], _TEXT_PITCH)
    return [
        Height(
            f"level:{upper[0]}/height", Layer.HEIGHT, x, upper[3], lower[3], _height(upper[2] - lower[2], levels), base
        )
        for (upper, lower), base in zip(pairs, bases, strict=True)
    ]


def _height(metres: float, levels: Levels) -> str:
    return show(metres, Dimension.LENGTH, levels.system, places=height_places(levels.system))


def _spread(heights: Sequence[float], pitch: float) -> list[float]:
    """Keep words apart: each as near to its place as the one above it lets it [mm]."""
    found: list[float] = []
    for y in heights:
        found.append(max(y, found[-1] + pitch) if found else y)
    return found
