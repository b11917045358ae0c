"""On which side of a fitting each run leaves it: straight on, up, down, or hung from it."""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum
from typing import NamedTuple

from linewright.draw.riser.parts import BAR, DROP, STEP
from linewright.model.tree import Tree
from linewright.model.values import NodeKind

#: Nodes with more runs than this, headers and mode boxes are drawn as a bar.
MOST_ARMS = 2
_LEVEL = 0.05


class Side(Enum):
    """Where a run leaves a node."""

    ON = "on"
    UP = "up"
    DOWN = "down"
    HUNG = "hung"


class Slot(NamedTuple):
    """A run that leaves a node: on which side, at which height its far end is drawn [mm], whether that is its own."""

    child: int
    side: Side
    y: float
    true: bool


def is_bar(tree: Tree, i: int) -> bool:
    """Say whether a node is drawn as a bar."""
    return tree.kind[i] in (NodeKind.HEADER, NodeKind.BOX) or len(tree.children[i]) > MOST_ARMS


def slots(tree: Tree, i: int, y: float, aims: Sequence[float]) -> list[Slot]:
    """Give the runs that leave a joint or a coupling that is drawn at `y`.

    aims : heights at which nodes are to be drawn [mm]
    """
    children = tree.children[i]
    if not children:
        return []
    node = _Node(
        tree, y, [_near(aims, i, child, y) for child in children], {child: k for k, child in enumerate(children)}
    )
    if len(children) == 1:
        return [_on(node, children[0])]
    one, other = sorted(children, key=lambda child: (_rank(node, child), child))
    first = _aside(node, one)
    if first.side is Side.UP and node.is_unit(other):
        second = _hung(node, other)
        return [first, second if second.side is Side.HUNG else _on(node, other)]
    return [first, _on(node, other)]


def bar_slots(tree: Tree, i: int, y: float, aims: Sequence[float]) -> list[Slot]:
    """Give the runs that leave a bar: units first, all of them hung but what stands above."""
    children = tree.children[i]
    targets = [_near(aims, i, child, y) for child in children]
    node = _Node(tree, y + BAR / 2, targets, {child: k for k, child in enumerate(children)})
    units = [child for child in children if node.is_unit(child)]
    others = [child for child in children if not node.is_unit(child)]
    return [*(_hung(node, child) for child in units), *(_below(node, child) for child in others)]


class _Target(NamedTuple):
    """The height that a far node is drawn at if there is room [mm], and whether it is the node's own."""

    y: float
    true: bool


class _Node(NamedTuple):
    """A node that runs leave: its height [mm], and the targets of their far nodes."""

    tree: Tree
    y: float
    targets: list[_Target]
    at: dict[int, int]

    def is_unit(self, child: int) -> bool:
        return self.tree.kind[child] is NodeKind.UNIT

    def target(self, child: int) -> _Target:
        return self.targets[self.at[child]]

    def delta(self, child: int) -> float:
        return self.target(child).y - self.y


def _near(aims: Sequence[float], i: int, child: int, y: float) -> _Target:
    """Give the target of a far node: what is about level with a node that had to move moves with it."""
    moved = y - aims[i]
    if abs(moved) < _LEVEL or abs(aims[child] - aims[i]) >= STEP:
        return _Target(aims[child], true=True)
    return _Target(aims[child] + moved, true=False)


def _rank(node: _Node, child: int) -> tuple[int, float]:
    """Rank a run by how much it wants to leave aside: what climbs, what falls, units, then the smaller part."""
    delta = node.delta(child)
    if not node.is_unit(child) and delta < -STEP:
        return 0, delta
    if not node.is_unit(child) and delta > STEP:
        return 1, -delta
    if node.is_unit(child):
        return 2, delta
    return 3, _size(node.tree, child)


def _aside(node: _Node, child: int) -> Slot:
    target = node.target(child)
    if node.is_unit(child):
        return _hung(node, child)
    if node.delta(child) < -STEP:
        return Slot(child, Side.UP, target.y, target.true)
    return _below(node, child)


def _hung(node: _Node, child: int) -> Slot:
    target, delta = node.target(child), node.delta(child)
    if delta < -2 * DROP:
        return Slot(child, Side.UP, target.y, target.true)
    if delta < DROP:
        return Slot(child, Side.HUNG, node.y + DROP, true=False)
    return Slot(child, Side.HUNG, target.y, target.true)


def _below(node: _Node, child: int) -> Slot:
    if node.is_unit(child):
        return _hung(node, child)
    target, falls = node.target(child), node.delta(child) >= STEP
    return Slot(child, Side.DOWN, target.y if falls else node.y + STEP, falls and target.true)


def _on(node: _Node, child: int) -> Slot:
    target = node.target(child)
    if node.is_unit(child):
        return _hung(node, child)._replace(side=Side.ON)
    level = abs(node.delta(child)) <= _LEVEL
    return Slot(child, Side.ON, node.y if level else target.y, target.true)


def _size(tree: Tree, i: int) -> int:
    return 1 + sum(_size(tree, child) for child in tree.children[i])
