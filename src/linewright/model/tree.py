"""The pipe tree of one system as flat arrays in walking order: a parent always stands before its children."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from operator import attrgetter
from types import MappingProxyType
from typing import NamedTuple

from linewright.model.design import ROOT, Run, System, Unit
from linewright.model.values import NodeKind

NO_PARENT = -1
#: Shapes of trees that are kept at hand.
MOST_KNOWN = 200


class Tree(NamedTuple):
    """Runs in walking order; position i stands for run i and for the node at its far end.

    `parent[i]` is the run that enters the near node of run i (or NO_PARENT at the root). `unit_at[i]` is the
    position of the unit in the system's list, or -1. `main` are the runs from the root to the first branch, flagged in
    `is_main`; `is_own` flags the runs from the last branch fitting to a unit, through couplings, `under_header` what
    comes after a header. `branches` are the branch fittings, `branches_to[i]` how many lead to run i's far node, itself
    among them.
    """

    ids: tuple[str, ...]
    runs: tuple[Run, ...]
    parent: tuple[int, ...]
    children: tuple[tuple[int, ...], ...]
    kind: tuple[NodeKind, ...]
    unit_at: tuple[int, ...]
    unit_runs: tuple[int, ...]
    main: tuple[int, ...]
    is_main: tuple[bool, ...]
    is_own: tuple[bool, ...]
    under_header: tuple[bool, ...]
    first_branch: int | None
    last_fitting: tuple[int, ...]
    branches: tuple[int, ...]
    branches_to: tuple[int, ...]
    at: Mapping[str, int]

    def path_to(self, run: int) -> tuple[int, ...]:
        """Give the runs from the root to (and with) `run`."""
        path = []
        while run != NO_PARENT:
            path.append(run)
            run = self.parent[run]
        return tuple(reversed(path))


def build_tree(system: System) -> Tree:
    """Walk the runs of a sound system outward from the outdoor group.

    `last_fitting[i]` is the nearest branch fitting before run i's far node (or NO_PARENT).
    """
    return shape_of(system).with_runs(system)


class Shape(NamedTuple):
    """The order in which runs are walked, as positions in the system's list, and the tree still without its runs."""

    order: tuple[int, ...]
    tree: Tree

    def with_runs(self, system: System) -> Tree:
        """Give the tree of a system of this shape."""
        return self.tree._replace(runs=tuple([system.runs[i] for i in self.order]))


def shape_of(system: System) -> Shape:
    """Give the shape of a sound system: the very same one as long as its runs join the same nodes."""
    return _shape(
        tuple(map(_ENDS, system.runs)),
        tuple(map(_ID, system.units)),
        tuple(map(_DECLARED, system.fittings)),
    )


_ID, _ENDS, _DECLARED = attrgetter("id"), attrgetter("from_", "to"), attrgetter("id", "kind")


@lru_cache(maxsize=MOST_KNOWN)
def _shape(
    ends: tuple[tuple[str, str], ...], units: tuple[str, ...], fittings: tuple[tuple[str, NodeKind | None], ...]
) -> Shape:
    """Walk the runs, given by their ends; most changes of a design leave these as they are."""
    order, parent = _walk(ends)
    ids = tuple(ends[i][1] for i in order)
    children = _children(parent)
    positions = {unit: position for position, unit in enumerate(units)}
    declared = dict(fittings)
    kind = tuple(_kind(name, len(children[i]), positions, declared) for i, name in enumerate(ids))
    main, first_branch = _main(children, kind)
    at = {name: i for i, name in enumerate(ids)}
    tree = Tree(
        ids=ids,
        runs=(),
        parent=parent,
        children=children,
        kind=kind,
        unit_at=tuple(positions.get(name, -1) for name in ids),
        unit_runs=tuple(at[unit] for unit in units),
        main=main,
        is_main=tuple(i in main for i in range(len(ids))),
        is_own=_own(children, kind, main),
        under_header=_under_header(parent, kind),
        first_branch=first_branch,
        last_fitting=_last_fitting(parent, kind),
        branches=tuple(i for i, of_node in enumerate(kind) if is_branch(of_node)),
        branches_to=_branches_to(parent, kind),
        at=MappingProxyType(at),
    )
    return Shape(order, tree)


def is_branch(kind: NodeKind) -> bool:
    """Say whether a node splits the pipe."""
    return kind is NodeKind.JOINT or kind is NodeKind.HEADER or kind is NodeKind.BOX


def units_of(tree: Tree, system: System) -> list[tuple[Unit, int]]:
    """Give every unit with the position of its own run."""
    return list(zip(system.units, tree.unit_runs, strict=True))


def _walk(ends: Sequence[tuple[str, str]]) -> tuple[tuple[int, ...], tuple[int, ...]]:
    leaving: dict[str, list[int]] = {}
    for position, (from_, _) in enumerate(ends):
        leaving.setdefault(from_, []).append(position)
    ordered: list[int] = []
    parent: list[int] = []
    stack = [(run, NO_PARENT) for run in reversed(leaving.get(ROOT, []))]
    while stack:
        run, before = stack.pop()
        position = len(ordered)
        ordered.append(run)
        parent.append(before)
        stack.extend((child, position) for child in reversed(leaving.get(ends[run][1], [])))
    return tuple(ordered), tuple(parent)


def _children(parent: Sequence[int]) -> tuple[tuple[int, ...], ...]:
    children: list[list[int]] = [[] for _ in parent]
    for position, before in enumerate(parent):
        if before != NO_PARENT:
            children[before].append(position)
    return tuple(tuple(items) for items in children)


def _kind(name: str, arms: int, units: Mapping[str, int], declared: Mapping[str, NodeKind | None]) -> NodeKind:
    if name in units:
        return NodeKind.UNIT
    stated = declared.get(name)
    if stated is not None:
        return stated
    return NodeKind.JOINT if arms > 1 else NodeKind.COUPLING


def _main(children: Sequence[Sequence[int]], kind: Sequence[NodeKind]) -> tuple[tuple[int, ...], int | None]:
    main = []
    at = 0
    while True:
        main.append(at)
        if is_branch(kind[at]):
            return tuple(main), at
        if len(children[at]) != 1:
            return tuple(main), None
        at = children[at][0]


def _last_fitting(parent: Sequence[int], kind: Sequence[NodeKind]) -> tuple[int, ...]:
    last: list[int] = []
    for before in parent:
        if before == NO_PARENT:
            last.append(NO_PARENT)
        else:
            last.append(before if is_branch(kind[before]) else last[before])
    return tuple(last)


def _own(children: Sequence[Sequence[int]], kind: Sequence[NodeKind], main: Sequence[int]) -> tuple[bool, ...]:
    """Runs from the last branch fitting to a unit, through couplings."""
    own = [False] * len(kind)
    for i in range(len(own) - 1, -1, -1):
        if i not in main:
            through = kind[i] is NodeKind.COUPLING and len(children[i]) == 1 and own[children[i][0]]
            own[i] = kind[i] is NodeKind.UNIT or through
    return tuple(own)


def _under_header(parent: Sequence[int], kind: Sequence[NodeKind]) -> tuple[bool, ...]:
    under: list[bool] = []
    for before in parent:
        under.append(before != NO_PARENT and (under[before] or kind[before] is NodeKind.HEADER))
    return tuple(under)


def _branches_to(parent: Sequence[int], kind: Sequence[NodeKind]) -> tuple[int, ...]:
    counts: list[int] = []
    for i, before in enumerate(parent):
        counts.append((counts[before] if before != NO_PARENT else 0) + int(is_branch(kind[i])))
    return tuple(counts)
