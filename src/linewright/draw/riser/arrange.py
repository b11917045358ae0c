"""Places a riser diagram from left to right, so that no words or symbols share ground and pipes cross only where they must.

Heights are given; what is looked for is how far to the right each node stands. What hangs on one node is placed with
it; then what leaves it, the lowest first, since words and units stand below their pipe.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from linewright.draw.paper.lettering import Area
from linewright.draw.riser import parts
from linewright.draw.riser.ground import Ground
from linewright.draw.riser.parts import BAR, RADIUS, UNIT_HEIGHT, UNIT_WIDTH, Line, areas
from linewright.draw.riser.slots import Side, Slot, bar_slots, is_bar, slots
from linewright.model.tree import Tree
from linewright.model.values import NodeKind

_STUB, _TRUNK, _HALF = 6.0, 5.0, 1.0
_COLUMN = 6.0
_PUSH, _MOST_PUSHES = 3.0, 12
_FAR = 1e6
_JOG = 1.5
#: A riser at least so long is drawn straight through the joints on it [mm].
_STRAIGHT = 18.0


class Source(NamedTuple):
    """What is to be placed: the tree, the height of each node [mm], the words of each node and of its run."""

    tree: Tree
    aims: tuple[float, ...]
    words: tuple[tuple[str, ...], ...]
    runs: tuple[tuple[str, ...], ...]


class Point(NamedTuple):
    """A place on the drawing [mm]."""

    x: float
    y: float


class Spot(NamedTuple):
    """A node on the drawing: where its pipe ends [mm], whether that is its own height, whether it stands above its pipe.

    right : the far end of a bar [mm]
    """

    x: float
    y: float
    true: bool
    above: bool = False
    right: float = 0.0


class Lettered(NamedTuple):
    """A line of words with its origin on the drawing [mm], and what it belongs to."""

    name: str
    at: Point
    line: Line


class Arranged(NamedTuple):
    """A placed diagram: spots of nodes and routes of runs by position, words, the ground that is taken."""

    spots: Mapping[int, Spot]
    routes: Mapping[int, tuple[Point, ...]]
    words: tuple[Lettered, ...]
    taken: tuple[Area, ...]


class _Piece(NamedTuple):
    """What hangs together at one x: ground of words and symbols, ground of pipe, words."""

    solid: list[Area]
    pipe: list[Area]
    words: list[Lettered]

    @property
    def all(self) -> list[Area]:
        return [*self.solid, *self.pipe]


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
    return Arranged(arranger.spots, arranger.routes, tuple(arranger.words), tuple(arranger.ground.solid))


class _Arranger:
    """The state of one arrangement."""

    def __init__(self, source: Source) -> None:
        self.source = source
        self.ground = Ground()
        self.spots: dict[int, Spot] = {}
        self.routes: dict[int, tuple[Point, ...]] = {}
        self.words: list[Lettered] = []

    def first(self, root: Point) -> None:
        """Place the run that leaves the outdoor group, and all beyond it."""
        tree, y = self.source.tree, self.source.aims[0]
        if tree.kind[0] is NodeKind.UNIT:
            low = max(y, root.y + parts.DROP)
            slot = Slot(0, Side.ON, low, true=low == y)
        else:
            slot = Slot(0, Side.ON, y, true=True)
        self._leave(slot, root, start=root.x)

    def _leave(self, slot: Slot, near: Point, *, start: float) -> None:
        """Place the far node of a run that goes straight on, up or down, then what leaves that node."""
        if self.source.tree.kind[slot.child] is NodeKind.UNIT:
            self._unit_aside(slot, near, start)
            return
        slot = self._free_height(slot, near, start)
        turned = slot.side is Side.ON and abs(slot.y - near.y) > 1e-9
        trunk = near.x if slot.side is not Side.ON else start + _TRUNK if turned else start
        if turned:
            trunk += self.ground.clear([_upright(trunk, near.y, slot.y, _HALF)])
        left = trunk + (1.5 if turned or slot.side is not Side.ON else RADIUS + 0.5)
        label = parts.run_lines(list(self.source.runs[slot.child]))
        left += self.ground.clear(areas(label, left, slot.y)) if label else 0.0
        width = max((area.width for area in areas(label, 0, 0)), default=0.0)
        self._take_words(f"run:{slot.child}", Point(left, slot.y), label)
        x = max(left + width + RADIUS + 1.0, trunk + _STUB)
        self._node(slot, x)
        spot = self.spots[slot.child]
        end = Point(spot.x - (0.0 if spot.right else RADIUS), slot.y)
        route = (near, Point(trunk, near.y), Point(trunk, slot.y), *self._detour(trunk, end), Point(spot.x, slot.y))
        self._route(slot.child, route)
        self._beyond(slot.child)

    def _detour(self, start: float, end: Point) -> tuple[Point, ...]:
        """Lead a level pipe around words and symbols in its way, above or below them."""
        left, right = start + 2.0, end.x - 2.0
        if not self.ground.barred(Area(left, end.y - 0.6, right, end.y + 0.6)):
            return ()
        for step in range(1, 2 * _MOST_PUSHES):
            for y in (end.y - step * _PUSH, end.y + step * _PUSH):
                low, high = min(y, end.y), max(y, end.y)
                ways = (
                    Area(left + _JOG, y - 0.6, right - _JOG, y + 0.6),
                    Area(left + _JOG - 0.6, low, left + _JOG + 0.6, high),
                    Area(right - _JOG - 0.6, low, right - _JOG + 0.6, high),
                )
                if right - left > 2 * _JOG and not any(self.ground.barred(way) for way in ways):
                    first, last = left + _JOG, right - _JOG
                    return Point(first, end.y), Point(first, y), Point(last, y), Point(last, end.y)
        return ()

    def _free_height(self, slot: Slot, near: Point, start: float) -> Slot:
        """Draw a run that turns lower while words or a symbol stand where it begins."""
        if slot.side is Side.ON:
            return slot
        for step in range(_MOST_PUSHES):
            y = slot.y + step * _PUSH
            if not self.ground.barred(Area(near.x + 1.0, y - 0.6, start + _STUB, y + 0.6)):
                return slot if step == 0 else slot._replace(y=y, true=False)
        return slot

    def _unit_aside(self, slot: Slot, near: Point, start: float) -> None:
        x = start + _COLUMN
        piece = self._unit(slot, Point(x, near.y))
        x += self.ground.clear(piece.all)
        piece = self._unit(slot, Point(x, near.y))
        self._take(piece)
        self.spots[slot.child] = Spot(x, slot.y, slot.true, above=slot.y < near.y)
        self._route(slot.child, (near, *self._detour(near.x, Point(x, near.y)), Point(x, near.y), Point(x, slot.y)))

    def _node(self, slot: Slot, x: float) -> None:
        """Find the place of a fitting and take the ground of it and of what hangs on it."""
        i = slot.child
        if is_bar(self.source.tree, i):
            self.spots[i] = self._bar(slot, x)
            return
        chain = self._chain(slot)
        x += self.ground.clear([area for one in chain for area in self._joint(one, Point(x, one.y)).all])
        for n, one in enumerate(chain):
            self._take(self._joint(one, Point(x, one.y)))
            self.spots[one.child] = Spot(x, one.y, one.true)
            for hung in (leaf for leaf in self._leaving(one) if self._is_hung(leaf)):
                self.spots[hung.child] = Spot(x, hung.y, hung.true, above=hung.y < one.y)
                self.routes[hung.child] = (Point(x, one.y), Point(x, hung.y))
            if n:
                self.routes[one.child] = (Point(x, chain[n - 1].y), Point(x, one.y))

    def _leaving(self, slot: Slot) -> list[Slot]:
        return slots(self.source.tree, slot.child, slot.y, self.source.aims)

    def _chain(self, slot: Slot) -> list[Slot]:
        """Give a node and the nodes that a riser reaches straight above or below it, in the order of the pipe."""
        chain = [slot]
        while True:
            straight = [one for one in self._leaving(chain[-1]) if self._is_straight(one, chain[-1])]
            if len(straight) != 1:
                return chain
            chain.append(straight[0])

    def _is_straight(self, slot: Slot, before: Slot) -> bool:
        """Say whether the far node of a riser can stand in line with it: nothing else of that node is on that side."""
        if slot.side not in (Side.UP, Side.DOWN) or self._is_hung(slot) or is_bar(self.source.tree, slot.child):
            return False
        if abs(slot.y - before.y) < _STRAIGHT:
            return False
        beyond = [one for one in self._leaving(slot) if one.side is not Side.ON]
        return all((one.y < slot.y) == (slot.y < before.y) for one in beyond)

    def _is_hung(self, slot: Slot) -> bool:
        return self.source.tree.kind[slot.child] is NodeKind.UNIT and slot.side is not Side.ON

    def _joint(self, joint: Slot, at: Point) -> _Piece:
        """The ground of a joint: its circle, its tag, the riser that leaves it, the unit that hangs on it."""
        i, leaving = joint.child, self._leaving(joint)
        tag = parts.tag_line(self.source.words[i][0])
        piece = _Piece(
            [Area(at.x - RADIUS, at.y - RADIUS, at.x + RADIUS, at.y + RADIUS), tag.area(at.x, at.y)],
            [],
            [Lettered(f"node:{i}", at, tag)],
        )
        for slot in leaving:
            if self._is_hung(slot):
                unit = self._unit(slot, at)
                piece = _Piece(piece.solid + unit.solid, piece.pipe + unit.pipe, piece.words + unit.words)
            elif slot.side is not Side.ON:
                piece.pipe.append(_upright(at.x, at.y, slot.y, _HALF))
                if self._is_straight(slot, joint):
                    self._beside(piece, slot, at)
        return piece

    def _beside(self, piece: _Piece, slot: Slot, at: Point) -> None:
        """Add the words of a straight riser, left of its middle."""
        middle = Point(at.x, (at.y + slot.y) / 2)
        for item in parts.riser_lines(list(self.source.runs[slot.child])):
            piece.solid.append(item.area(*middle))
            piece.words.append(Lettered(f"run:{slot.child}", middle, item))

    def _unit(self, slot: Slot, near: Point) -> _Piece:
        """The ground of a unit that hangs on a pipe at `near`, or stands above it: drop, symbol, words."""
        above = slot.y < near.y
        at = Point(near.x, slot.y)
        words = parts.unit_lines(*self.source.words[slot.child], above=above)  # type: ignore[misc]
        drop = parts.drop_lines(list(self.source.runs[slot.child]), above=above)
        top = slot.y - UNIT_HEIGHT if above else slot.y
        symbol = Area(at.x - UNIT_WIDTH / 2, top, at.x + UNIT_WIDTH / 2, top + UNIT_HEIGHT)
        return _Piece(
            [symbol, *areas(words, at.x, at.y), *areas(drop, near.x, near.y)],
            [_upright(near.x, near.y, slot.y, _HALF)],
            [
                *(Lettered(f"unit:{slot.child}", at, item) for item in words),
                *(Lettered(f"run:{slot.child}", near, item) for item in drop),
            ],
        )

    def _bar(self, slot: Slot, x: float) -> Spot:
        """Place a header or a mode box: a bar that is as long as what hangs on it needs."""
        i, y = slot.child, slot.y
        tag = parts.bar_line(*self.source.words[i])
        head = [tag.area(x, y), Area(x, y - BAR / 2, x + 2 * _COLUMN, y + BAR / 2)]
        x += self.ground.clear(head)
        tag_at = Point(x, y)
        self._take(_Piece([tag.area(x, y)], [], [Lettered(f"node:{i}", tag_at, tag)]))
        column = x + 3.0
        for leaving in bar_slots(self.source.tree, i, y, self.source.aims):
            edge = y - BAR / 2 if leaving.y < y else y + BAR / 2
            column += self._hang(leaving, Point(column, edge))
        right = max(column, x + 2 * _COLUMN)
        self.ground.take([Area(x, y - BAR / 2, right, y + BAR / 2)])
        return Spot(x, y, slot.true, right=right)

    def _hang(self, slot: Slot, near: Point) -> float:
        """Hang one run on a bar; gives how far to the right the next may begin [mm]."""
        tree = self.source.tree
        if tree.kind[slot.child] is not NodeKind.UNIT:
            way = self.ground.clear([_upright(near.x, near.y, slot.y, _HALF)])
            at = Point(near.x + way, near.y)
            self.ground.take([], [_upright(at.x, at.y, slot.y, _HALF)])
            self._leave(slot, at, start=at.x)
            return way + 3.0
        way = self.ground.clear(self._unit(slot, near).all)
        at = Point(near.x + way, near.y)
        self._take(self._unit(slot, at))
        self.spots[slot.child] = Spot(at.x, slot.y, slot.true, above=slot.y < near.y)
        self.routes[slot.child] = (at, Point(at.x, slot.y))
        return way + 3.0

    def _beyond(self, i: int) -> None:
        """Place what leaves a joint and does not hang on it, the lowest first."""
        if is_bar(self.source.tree, i):
            return
        spot = self.spots[i]
        order = {Side.DOWN: 0, Side.ON: 1, Side.UP: 2, Side.HUNG: 3}
        leaving = self._leaving(Slot(i, Side.ON, spot.y, spot.true))
        for slot in sorted(leaving, key=lambda one: (order[one.side], -one.y)):
            if slot.child in self.spots and not self._is_hung(slot):
                self._beyond(slot.child)
            elif not self._is_hung(slot):
                self._leave(slot, Point(spot.x, spot.y), start=spot.x)

    def _route(self, i: int, points: tuple[Point, ...]) -> None:
        """Keep the way of a run, without points that stand on one another, and take its ground."""
        kept = [points[0]]
        for point in points[1:]:
            if abs(point.x - kept[-1].x) + abs(point.y - kept[-1].y) > 1e-9:
                kept.append(point)
        self.routes[i] = tuple(kept)
        self.ground.take([], [_along(a, b) for a, b in zip(kept, kept[1:], strict=False)])

    def _take(self, piece: _Piece) -> None:
        self.ground.take(piece.solid, piece.pipe)
        self.words.extend(piece.words)

    def _take_words(self, name: str, at: Point, lines: Sequence[Line]) -> None:
        self._take(_Piece(areas(list(lines), at.x, at.y), [], [Lettered(name, at, item) for item in lines]))


def _upright(x: float, y1: float, y2: float, half: float) -> Area:
    return Area(x - half, min(y1, y2) + 0.5, x + half, max(y1, y2) - 0.5)


def _along(a: Point, b: Point) -> Area:
    return Area(min(a.x, b.x) - _HALF, min(a.y, b.y) - _HALF, max(a.x, b.x) + _HALF, max(a.y, b.y) + _HALF)
