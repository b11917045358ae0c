"""The pieces of a riser diagram: what hangs together at one x, with the ground that it takes and its words."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from linewright.draw.paper.lettering import Area
from linewright.draw.riser import parts
from linewright.draw.riser.parts import RADIUS, UNIT_HEIGHT, UNIT_WIDTH, Line, areas
from linewright.draw.riser.slots import Side, Slot, is_bar, slots
from linewright.model.tree import Tree
from linewright.model.values import NodeKind

#: Half of what a run takes across [mm].
HALF = 1.0
#: From a riser to the walls of its shaft [mm].
SHAFT = 2.6
#: A riser at least so long is drawn straight through the joints on it [mm].
_STRAIGHT = 18.0


class Point(NamedTuple):
    """A place on the drawing [mm]."""

    x: float
    y: float


class Lettered(NamedTuple):
    """A line of words with its origin on the drawing [mm], and what it belongs to."""

    name: str
    at: Point
    line: Line


class Piece(NamedTuple):
    """Ground of words and symbols, ground of pipe, words."""

    solid: list[Area]
    pipe: list[Area]
    words: list[Lettered]

    @property
    def all(self) -> list[Area]:
        """Give all the ground."""
        return [*self.solid, *self.pipe]


class Source(NamedTuple):
    """What is to be placed: the tree, the height of each node [mm], the words of each node and of its run.

    shafts : the nodes whose runs lie in a shaft
    """

    tree: Tree
    aims: tuple[float, ...]
    words: tuple[tuple[str, ...], ...]
    runs: tuple[tuple[str, ...], ...]
    shafts: frozenset[int] = frozenset()

    def half(self, i: int) -> float:
        """Give half of what the upright part of a run takes across, with the walls of its shaft [mm]."""
        return SHAFT + 0.4 if i in self.shafts else HALF

    def is_unit(self, i: int) -> bool:
        """Say whether a unit stands at a node."""
        return self.tree.kind[i] is NodeKind.UNIT

    def is_hung(self, slot: Slot) -> bool:
        """Say whether a run hangs a unit on the node that it leaves."""
        return self.is_unit(slot.child) and slot.side is not Side.ON

    def leaving(self, slot: Slot) -> list[Slot]:
        """Give the runs that leave a joint that is drawn at the height of its slot."""
        return slots(self.tree, slot.child, slot.y, self.aims)

    def chain(self, slot: Slot) -> list[Slot]:
        """Give a node and the nodes that a riser reaches straight above or below it, in the order of the pipe."""
        chain = [slot]
        while True:
            straight = [one for one in self.leaving(chain[-1]) if self.is_straight(one, chain[-1])]
            if len(straight) != 1:
                return chain
            chain.append(straight[0])

    def is_straight(self, slot: Slot, before: Slot) -> bool:
        """Say whether the far node of a riser can stand in line with it: nothing else of that node is on that side."""
        if slot.side not in {Side.UP, Side.DOWN} or self.is_hung(slot) or is_bar(self.tree, slot.child):
            return False
        if abs(slot.y - before.y) < _STRAIGHT:
            return False
        beyond = [one for one in self.leaving(slot) if one.side is not Side.ON]
        return all((one.y < slot.y) == (slot.y < before.y) for one in beyond)


def joint_piece(source: Source, joint: Slot, x: float) -> Piece:
    """Give a joint: its circle, its tag, the riser that leaves it, the unit that hangs on it."""
    at = Point(x, joint.y)
    leaving = source.leaving(joint)
    below = [joint.child, *(slot.child for slot in leaving if slot.side is Side.DOWN)]
    aside = max([RADIUS, *(source.half(one) for one in below)])
    tag = parts.tag_line(source.words[joint.child][0], aside)
    circle = Area(at.x - RADIUS, at.y - RADIUS, at.x + RADIUS, at.y + RADIUS)
    piece = Piece([circle, tag.area(at.x, at.y)], [], [Lettered(f"node:{joint.child}", at, tag)])
    for slot in leaving:
        if source.is_hung(slot):
            unit = unit_piece(source, slot, at)
            piece = Piece(piece.solid + unit.solid, piece.pipe + unit.pipe, piece.words + unit.words)
        elif slot.side is not Side.ON:
            piece.pipe.append(upright(at.x, at.y, slot.y, source.half(slot.child)))
            if source.is_straight(slot, joint):
                _add_riser_words(source, piece, slot, at)
    return piece


def _add_riser_words(source: Source, piece: Piece, slot: Slot, at: Point) -> None:
    """Add the words of a straight riser, left of its middle."""
    middle = Point(at.x, (at.y + slot.y) / 2)
    for item in parts.riser_lines(list(source.runs[slot.child])):
        piece.solid.append(item.area(middle.x, middle.y))
        piece.words.append(Lettered(f"run:{slot.child}", middle, item))


def unit_piece(source: Source, slot: Slot, near: Point) -> Piece:
    """Give a unit that hangs on a pipe at `near`, or stands above it: drop, symbol, words."""
    above = slot.y < near.y
    at = Point(near.x, slot.y)
    tag, model, room, level = source.words[slot.child]
    words = parts.unit_lines(tag, (model, room, level), above=above)
    drop = parts.drop_lines(list(source.runs[slot.child]), above=above)
    top = slot.y - UNIT_HEIGHT if above else slot.y
    symbol = Area(at.x - UNIT_WIDTH / 2, top, at.x + UNIT_WIDTH / 2, top + UNIT_HEIGHT)
    return Piece(
        [symbol, *areas(words, at.x, at.y), *areas(drop, near.x, near.y)],
        [upright(near.x, near.y, slot.y)],
        [
            *(Lettered(f"unit:{slot.child}", at, item) for item in words),
            *(Lettered(f"run:{slot.child}", near, item) for item in drop),
        ],
    )


def words_piece(name: str, at: Point, lines: Sequence[Line]) -> Piece:
    """Give words alone."""
    return Piece(areas(list(lines), at.x, at.y), [], [Lettered(name, at, item) for item in lines])


def upright(x: float, y1: float, y2: float, half: float = HALF) -> Area:
    """Give the ground of an upright pipe, a little short of its ends."""
    return Area(x - half, min(y1, y2) + 0.5, x + half, max(y1, y2) - 0.5)


def along(a: Point, b: Point) -> Area:
    """Give the ground of a piece of pipe."""
    return Area(min(a.x, b.x) - HALF, min(a.y, b.y) - HALF, max(a.x, b.x) + HALF, max(a.y, b.y) + HALF)
