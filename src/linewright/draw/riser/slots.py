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
    if len(children) == 1:
        return [_on(tree, children[0], y, aims)]
    one, other = sorted(children, key=lambda child: (_rank(tree, child, aims[child] - y), child))
    first = _aside(tree, one, y, aims)
    if first.side is Side.UP and _is_unit(tree, other):
        second = _hung(other, y, aims)
        return [first, second if second.side is Side.HUNG else _on(tree, other, y, aims)]
    return [first, _on(tree, other, y, aims)]


def bar_slots(tree: Tree, i: int, y: float, aims: Sequence[float]) -> list[Slot]:
    """Give the runs that leave a bar: units first, all of them hung but what stands above."""
    units = [child for child in tree.children[i] if _is_unit(tree, child)]
    others = [child for child in tree.children[i] if not _is_unit(tree, child)]
    foot = y + BAR / 2
    found = [_hung(child, foot, aims) for child in units]
    return [*found, *(_below(tree, child, foot, aims) for child in others)]


def _rank(tree: Tree, child: int, delta: float) -> tuple[int, float]:
    """Rank a run by how much it wants to leave aside: what climbs, what falls, units, then the smaller part."""
    if not _is_unit(tree, child) and delta < -STEP:
        return 0, delta
    if not _is_unit(tree, child) and delta > STEP:
        return 1, -delta
    if _is_unit(tree, child):
        return 2, delta
    return 3, _size(tree, child)


def _aside(tree: Tree, child: int, y: float, aims: Sequence[float]) -> Slot:
    delta = aims[child] - y
    if _is_unit(tree, child):
        return _hung(child, y, aims)
    if delta < -STEP:
        return Slot(child, Side.UP, aims[child], true=True)
    return _below(tree, child, y, aims)


def _hung(child: int, y: float, aims: Sequence[float]) -> Slot:
    delta = aims[child] - y
    if delta < -2 * DROP:
        return Slot(child, Side.UP, aims[child], true=True)
    if delta < DROP:
        return Slot(child, Side.HUNG, y + DROP, true=False)
    return Slot(child, Side.HUNG, aims[child], true=True)


def _below(tree: Tree, child: int, y: float, aims: Sequence[float]) -> Slot:
    if _is_unit(tree, child):
        return _hung(child, y, aims)
    delta = aims[child] - y
    return Slot(child, Side.DOWN, aims[child] if delta >= STEP else y + STEP, true=delta >= STEP)


def _on(tree: Tree, child: int, y: float, aims: Sequence[float]) -> Slot:
    delta = aims[child] - y
    if _is_unit(tree, child):
        return _hung(child, y, aims)._replace(side=Side.ON)
    if abs(delta) <= _LEVEL:
        return Slot(child, Side.ON, y, true=True)
    return Slot(child, Side.ON, aims[child], true=True)


def _is_unit(tree: Tree, child: int) -> bool:
    return tree.kind[child] is NodeKind.UNIT


def _size(tree: Tree, i: int) -> int:
    return 1 + sum(_size(tree, child) for child in tree.children[i])
