"""Places a riser diagram from left to right: words and symbols never share ground, pipes cross only where they must.

Heights are given; what is looked for is how far to the right each node stands. What hangs on one node is placed with
it; then what leaves it, the lowest first, since words and units stand below their pipe.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import NamedTuple

from linewright.draw.paper.lettering import Area
from linewright.draw.riser import parts
from linewright.draw.riser.ground import Ground, detour
from linewright.draw.riser.parts import BAR, RADIUS, Line, areas
from linewright.draw.riser.pieces import (
    Lettered,
    Piece,
    Point,
    Source,
    along,
    joint_piece,
    unit_piece,
    upright,
    words_piece,
)
from linewright.draw.riser.slots import Side, Slot, bar_slots, is_bar

_STUB, _TRUNK = 6.0, 5.0
_COLUMN = 6.0
_PUSH, _MOST_PUSHES, _BAR_TRIES = 3.0, 14, 4
_FAR = 1e6


class Spot(NamedTuple):
    """A node on the drawing: where its pipe ends [mm], whether at its own height, whether above its pipe.

    right : the far end of a bar [mm]
    """

    x: float
    y: float
    true: bool
    above: bool = False
    right: float = 0.0


class Arranged(NamedTuple):
    """A placed diagram: spots of nodes and routes of runs by position, words, the ground that is taken.

    clean : no pipe passes behind words or a symbol
    """

    spots: Mapping[int, Spot]
    routes: Mapping[int, tuple[Point, ...]]
    words: tuple[Lettered, ...]
    taken: tuple[Area, ...]
    clean: bool = True


class _Run(NamedTuple):
    """A way to draw a run to a fitting: its height, where it turns, where its words begin, where it ends [mm].

    around : corners that lead it around what stands in its way; `None` where it would run through that
    """

    slot: Slot
    trunk: float
    left: float
    x: float
    label: list[Line]
    around: tuple[Point, ...] | None
    push: int = 0


class _State(NamedTuple):
    """How far an arrangement had come, to go back to."""

    spots: dict[int, Spot]
    routes: dict[int, tuple[Point, ...]]
    words: int
    solid: int
    pipe: int
    behind: int

    @classmethod
    def of(cls, arranger: _Arranger) -> _State:
        ground = arranger.ground
        sizes = (len(arranger.words), len(ground.solid), len(ground.pipe))
        return cls(dict(arranger.spots), dict(arranger.routes), *sizes, arranger.behind)

    def restore(self, arranger: _Arranger) -> None:
        arranger.spots, arranger.routes = dict(self.spots), dict(self.routes)
        arranger.behind = self.behind
        del arranger.words[self.words :]
        arranger.ground.give_back(self.solid, self.pipe)


def arrange(source: Source, root: Point, taken: Sequence[Area], *, gutters: Sequence[float] = ()) -> Arranged:
    """Place all nodes.

    root : where the pipe leaves the outdoor group [mm]
    taken : ground that the outdoor group takes
    gutters : where one sheet ends and the next begins [mm]
    """
    arranger = _Arranger(source)
    arranger.ground.gutters = [Area(x - 0.1, -_FAR, x + 0.1, _FAR) for x in gutters]
    arranger.ground.take(taken)
    arranger.first(root)
    return Arranged(
        arranger.spots, arranger.routes, tuple(arranger.words), tuple(arranger.ground.solid), arranger.behind == 0
    )


class _Arranger:
    """The state of one arrangement."""

    def __init__(self, source: Source) -> None:
        self.source = source
        self.ground = Ground()
        self.spots: dict[int, Spot] = {}
        self.routes: dict[int, tuple[Point, ...]] = {}
        self.words: list[Lettered] = []
        self.behind = 0

    def first(self, root: Point) -> None:
        """Place the run that leaves the outdoor group, and all beyond it."""
        y = self.source.aims[0]
        low = max(y, root.y + parts.DROP) if self.source.is_unit(0) else y
        self._leave(Slot(0, Side.ON, low, true=low == y), root, start=root.x)

    def _leave(self, slot: Slot, near: Point, *, start: float) -> None:
        """Place the far node of a run that goes straight on, up or down, then what leaves that node."""
        if self.source.is_unit(slot.child):
            self._unit_aside(slot, near, start)
            return
        run = self._way(slot, near, start, push=0)
        if is_bar(self.source.tree, slot.child):
            self._place_bar(run, near, start)
        else:
            self._place(run, near)
        self.behind += run.around is None
        self._beyond(slot.child)

    def _place_bar(self, run: _Run, near: Point, start: float) -> None:
        """Place a bar, lower where it would stand on what was there before: how long it gets is only known then."""
        before, first = _State.of(self), run
        for _ in range(_BAR_TRIES):
            self._place(run, near)
            spot = self.spots[run.slot.child]
            bar = Area(spot.x, spot.y - BAR / 2, spot.right, spot.y + BAR / 2)
            if not any(bar.meets(one) for one in self.ground.solid[: before.solid]):
                return
            before.restore(self)
            run = self._way(first.slot, near, start, push=run.push + 1)
        self._place(first, near)
        self.behind += 1

    def _way(self, slot: Slot, near: Point, start: float, *, push: int) -> _Run:
        """Give the way of a run, moved on by so many steps, or by more where it is not free."""
        run = self._run(slot, near, start)
        for step in range(push, _MOST_PUSHES):
            by = -step * _PUSH if slot.side is Side.UP else step * _PUSH
            moved = slot if step == 0 else slot._replace(y=slot.y + by, true=False)
            run = self._run(moved, near, start)._replace(push=step)
            if run.around is not None:
                break
        return run

    def _place(self, run: _Run, near: Point) -> None:
        """Place a run and its far node."""
        slot, y = run.slot, run.slot.y
        self._take(words_piece(f"run:{slot.child}", Point(run.left, y), run.label))
        self._node(run.slot, run.x)
        end = self.spots[slot.child]
        turns = (Point(run.trunk, near.y), Point(run.trunk, y))
        self._route(slot.child, (near, *turns, *(run.around or ()), Point(end.x, y)))

    def _run(self, slot: Slot, near: Point, start: float) -> _Run:
        """Give the way of a run to its far node at the height of its slot."""
        turned = slot.side is Side.ON and abs(slot.y - near.y) > 1e-9
        trunk = near.x if slot.side is not Side.ON else start + _TRUNK if turned else start
        if turned:
            trunk += self.ground.clear([upright(trunk, near.y, slot.y, self.source.half(slot.child))])
        upward = turned or slot.side is not Side.ON
        left = trunk + (self.source.half(slot.child) + 0.5 if upward else RADIUS + 0.5)
        label = parts.run_lines(list(self.source.runs[slot.child]))
        left += self.ground.clear(areas(label, left, slot.y))
        width = max(area.width for area in areas(label, 0, 0))
        x = max(left + width + RADIUS + 1.0, trunk + _STUB)
        own = [*areas(label, left, slot.y), upright(trunk, near.y, slot.y, self.source.half(slot.child))]
        x += self.ground.clear(self._ground_of(slot, x), own if upward else own[:-1])
        end = Point(x if is_bar(self.source.tree, slot.child) else x - RADIUS, slot.y)
        off = near.y + (RADIUS + 0.6) * (1 if slot.y > near.y else -1)
        falls = slot.side is not Side.ON and self.ground.barred(upright(near.x, off, slot.y, 0.6))
        around = None if falls else detour(self.ground, trunk, end, areas(label, left, slot.y))
        return _Run(slot, trunk, left, x, label, around)

    def _ground_of(self, slot: Slot, x: float) -> list[Area]:
        """Give the ground that a fitting takes at once: of a bar its head, else all that stands in line with it."""
        if is_bar(self.source.tree, slot.child):
            tag = parts.bar_line(*self.source.words[slot.child])
            return [tag.area(x, slot.y), Area(x, slot.y - BAR / 2, x + 2 * _COLUMN, slot.y + BAR / 2)]
        return [area for one in self.source.chain(slot) for area in joint_piece(self.source, one, x).all]

    def _unit_aside(self, slot: Slot, near: Point, start: float) -> None:
        """Place a unit to which a run goes straight on, then drops."""
        x = start + _COLUMN
        x += self.ground.clear(unit_piece(self.source, slot, Point(x, near.y)).all)
        at = Point(x, near.y)
        around = detour(self.ground, near.x, at)
        self.behind += around is None
        self._take(unit_piece(self.source, slot, at))
        self.spots[slot.child] = Spot(x, slot.y, slot.true, above=slot.y < near.y)
        self._route(slot.child, (near, *(around or ()), at, Point(x, slot.y)))

    def _node(self, slot: Slot, x: float) -> None:
        """Take the ground of a fitting and of what stands in line with it."""
        if is_bar(self.source.tree, slot.child):
            self.spots[slot.child] = self._bar(slot, x)
            return
        chain = self.source.chain(slot)
        for n, one in enumerate(chain):
            self._take(joint_piece(self.source, one, x))
            self.spots[one.child] = Spot(x, one.y, one.true)
            for hung in (leaf for leaf in self.source.leaving(one) if self.source.is_hung(leaf)):
                self.spots[hung.child] = Spot(x, hung.y, hung.true, above=hung.y < one.y)
                self.routes[hung.child] = (Point(x, one.y), Point(x, hung.y))
            if n:
                self.routes[one.child] = (Point(x, chain[n - 1].y), Point(x, one.y))

    def _bar(self, slot: Slot, x: float) -> Spot:
        """Place a header or a mode box: a bar that is as long as what hangs on it needs."""
        i, y = slot.child, slot.y
        self._take(words_piece(f"node:{i}", Point(x, y), [parts.bar_line(*self.source.words[i])]))
        column = x + 3.0
        for leaving in bar_slots(self.source.tree, i, y, self.source.aims):
            edge = y - BAR / 2 if leaving.y < y else y + BAR / 2
            column += self._hang(leaving, Point(column, edge))
        right = max(column, x + 2 * _COLUMN)
        self.ground.take([Area(x, y - BAR / 2, right, y + BAR / 2)])
        return Spot(x, y, slot.true, right=right)

    def _hang(self, slot: Slot, near: Point) -> float:
        """Hang one run on a bar; gives how far to the right the next may begin [mm]."""
        if not self.source.is_unit(slot.child):
            way = self.ground.clear([upright(near.x, near.y, slot.y, self.source.half(slot.child))])
            at = Point(near.x + way, near.y)
            self._leave(slot, at, start=at.x)
            return way + 3.0
        way = self.ground.clear(unit_piece(self.source, slot, near).all)
        at = Point(near.x + way, near.y)
        self._take(unit_piece(self.source, slot, at))
        self.spots[slot.child] = Spot(at.x, slot.y, slot.true, above=slot.y < near.y)
        self.routes[slot.child] = (at, Point(at.x, slot.y))
        return way + 3.0

    def _beyond(self, i: int) -> None:
        """Place what leaves a joint and does not hang on it, the lowest first."""
        if is_bar(self.source.tree, i):
            return
        spot = self.spots[i]
        order = {Side.DOWN: 0, Side.ON: 1, Side.UP: 2, Side.HUNG: 3}
        leaving = self.source.leaving(Slot(i, Side.ON, spot.y, spot.true))
        for slot in sorted(leaving, key=lambda one: (order[one.side], -one.y)):
            if slot.child in self.spots and not self.source.is_hung(slot):
                self._beyond(slot.child)
            elif not self.source.is_hung(slot):
                self._leave(slot, Point(spot.x, spot.y), start=spot.x)

    def _route(self, i: int, points: tuple[Point, ...]) -> None:
        """Keep the way of a run, without points that stand on one another, and take its ground."""
        kept = [points[0]]
        for point in points[1:]:
            if abs(point.x - kept[-1].x) + abs(point.y - kept[-1].y) > 1e-9:
                kept.append(point)
        self.routes[i] = tuple(kept)
        self.ground.take([], [along(a, b) for a, b in pairwise(kept)])

    def _take(self, piece: Piece) -> None:
        self.ground.take(piece.solid, piece.pipe)
        self.words.extend(piece.words)
