"""Draws an arranged riser diagram: levels, pipes, symbols, words."""

from __future__ import annotations

import math
from typing import NamedTuple

from linewright.draw.paper.division import Frame
from linewright.draw.paper.extent import area_of
from linewright.draw.paper.lettering import Area
from linewright.draw.paper.marks import Ink, Layer, Mark, Stroke, Words
from linewright.draw.riser.aims import Aims, Sure, find_aims
from linewright.draw.riser.arrange import Arranged, arrange
from linewright.draw.riser.heights import SIDE, Levels, level_marks, side_marks
from linewright.draw.riser.outdoor import outside
from linewright.draw.riser.pieces import Lettered, Point, Source
from linewright.draw.riser.pipes import break_signs, pipe_marks, shaft_runs, tube_pen
from linewright.draw.riser.scales import Scale
from linewright.draw.riser.things import things
from linewright.draw.riser.wording import node_words, run_words
from linewright.engine.records import Evaluation, SystemResult
from linewright.model.values import NodeKind, Role
from linewright.units import UnitSystem

__all__ = ["Picture", "compose", "tube_pen"]

#: Below the lowest pipe, so far down stands what has no level [mm].
_APART = 46.0
#: More where the outdoor group stands there too, which stands above its pipe.
_GROUP = 24.0
_AIR = 2.0
_MOST_SHEETS = 60
_FAR = 1e3


class Picture(NamedTuple):
    """A riser diagram without its sheet: marks, ground, and what its signs and its title have to tell."""

    marks: tuple[Mark, ...]
    frame: Frame
    roles: frozenset[Role]
    said: tuple[tuple[str, ...], ...]
    breaks: bool
    bars: bool
    couplings: bool
    units: int
    clean: bool

    @property
    def area(self) -> Area:
        """Give the ground that it takes, with the levels at its left [mm]."""
        return self.frame.area._replace(left=self.frame.area.left - self.side)

    @property
    def side(self) -> float:
        """Give the width of the levels at its left [mm]."""
        return self.frame.side


def compose(evaluation: Evaluation, result: SystemResult, scale: Scale, system: UnitSystem, *, width: float) -> Picture:
    """Draw the riser diagram of a system to a scale of heights.

    width : of one sheet without the levels [mm], at which it is arranged to be cut; infinite where it is not to be
    """
    aims = find_aims(evaluation, result)
    heights = _heights(aims, scale)
    words, runs = node_words(evaluation, result, aims, system), run_words(result, system)
    root = Point(0.0, heights[0])
    group = outside(result, root, system)
    source, left = _source(result, heights, words, runs), group.left - _AIR
    gutters = [left + width * n for n in range(1, _MOST_SHEETS)] if math.isfinite(width) else []
    arranged = _honest(arrange(source, root, group.taken, gutters=gutters), aims)
    drawn = [
        *pipe_marks(result, arranged, group),
        *break_signs(result, arranged, group),
        *things(evaluation, result, arranged, group),
        *(_words(item, n) for n, item in enumerate((*group.words, *arranged.words))),
    ]
    area = _area(drawn)._replace(left=left)
    levels = Levels(aims, scale, system, _strip(aims, scale))
    taken = [area_of(mark) for mark in drawn if isinstance(mark, Words)]
    pipes = [area_of(mark) for mark in drawn if isinstance(mark, Stroke)]
    edges = [Area(x, area.top - _FAR, x, area.bottom + _FAR) for x in gutters]
    area = levels.around(area)
    frame = Frame(area, SIDE, tuple(side_marks(levels, area)), tuple(x for x in gutters if x < area.right))
    roles = frozenset(role for run in result.runs for role in run.tubes)
    return Picture(
        (*level_marks(levels, area, taken, [*pipes, *edges]), *drawn),
        frame,
        roles,
        (*runs, *words),
        breaks=any(not spot.true for spot in arranged.spots.values()) or len(group.modules) > 1,
        bars=any(spot.right > 0 for spot in arranged.spots.values()),
        couplings=NodeKind.COUPLING in result.tree.kind,
        units=len(result.units),
        clean=arranged.clean,
    )


def _source(
    result: SystemResult, heights: list[float], words: tuple[tuple[str, ...], ...], runs: tuple[tuple[str, ...], ...]
) -> Source:
    return Source(result.tree, tuple(heights[1:]), words, runs, shaft_runs(result))


def _heights(aims: Aims, scale: Scale) -> list[float]:
    """Give the height of the root and of every node on paper, downward [mm]."""
    strip = _strip(aims, scale)
    return [strip if aim.elevation_m is None else -scale.mm(aim.elevation_m) for aim in (aims.root, *aims.nodes)]


def _strip(aims: Aims, scale: Scale) -> float:
    known = [aim.elevation_m for aim in (aims.root, *aims.nodes) if aim.elevation_m is not None]
    more = _GROUP if aims.root.elevation_m is None else 0.0
    return -scale.mm(min(known)) + _APART + more if known else 0.0


def _honest(arranged: Arranged, aims: Aims) -> Arranged:
    """Take what has no stated level as not true, wherever it stands."""
    spots = {
        i: spot._replace(true=spot.true and aims.nodes[i].sure is Sure.STATED) for i, spot in arranged.spots.items()
    }
    return arranged._replace(spots=spots)


def _area(marks: list[Mark]) -> Area:
    grounds = [area_of(mark) for mark in marks]
    return Area(
        min(one.left for one in grounds) - _AIR,
        min(one.top for one in grounds) - _AIR,
        max(one.right for one in grounds) + _AIR,
        max(one.bottom for one in grounds) + _AIR,
    )


def _words(item: Lettered, number: int) -> Words:
    line = item.line
    ink = Ink.DARK
    return Words(
        f"{item.name}/words/{number}",
        Layer.TEXT,
        item.at.x + line.x,
        item.at.y + line.y,
        line.text,
        line.height,
        line.weight,
        line.anchor,
        ink,
        line.full,
    )
