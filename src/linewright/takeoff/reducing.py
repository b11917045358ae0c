"""Reducers and where they sit: where the size changes without a branch, at a unit, at an outdoor module."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from linewright.engine.records import SystemResult
from linewright.model.tree import NO_PARENT
from linewright.model.values import NodeKind, Role
from linewright.takeoff.records import Gap
from linewright.units import same_tube

Sizes = Mapping[Role, float | None] | Mapping[Role, float]
_BRANCHES = (NodeKind.JOINT, NodeKind.HEADER, NodeKind.BOX)
_NO_PORTS = "the book states no connection sizes: no reducer is counted there"


class Reducer(NamedTuple):
    """One reducer: between which diameters [m], of which line, at which coupling, unit or module."""

    where: str
    role: Role
    od_m: float
    to_od_m: float


def reducers(result: SystemResult) -> tuple[tuple[Reducer, ...], tuple[Gap, ...]]:
    """Give the reducers of a system, and what is not known of them."""
    found = (*_indoors(result), *_outdoors(result))
    return (
        tuple(one for one in found if isinstance(one, Reducer)),
        (*(one for one in found if isinstance(one, Gap)), *_at_branches(result)),
    )


def _indoors(result: SystemResult) -> Iterator[Reducer | Gap]:
    ground, tree = result.state.ground, result.state.ground.tree
    for i, name in enumerate(tree.ids):
        above, mine = _above(result, i), _sizes(result, name)
        if above and tree.kind[tree.parent[i]] not in _BRANCHES:
            yield from _between(f"{result.id}/coupling:{tree.ids[tree.parent[i]]}", above, mine)
        if tree.unit_at[i] >= 0:
            unit = ground.system.units[tree.unit_at[i]]
            yield from _at_ports(f"{result.id}/unit:{unit.id}", mine, ground.models[tree.unit_at[i]].ports)


def _at_branches(result: SystemResult) -> Iterator[Gap]:
    """How many tubes leave a branch in another size: whether reducers come with it the book does not say."""
    tree, changes = result.state.ground.tree, 0
    for i, name in enumerate(tree.ids):
        above, mine = _above(result, i), _sizes(result, name)
        if above and tree.kind[tree.parent[i]] in _BRANCHES:
            changes += sum(_differ(above.get(role), mine[role]) for role in mine)
    if changes:
        yield Gap(
            result.id,
            f"at branches {changes} tubes leave in another size than they came: "
            "the book does not say which reducers come with its joints; none is counted there",
        )


def _above(result: SystemResult, i: int) -> dict[Role, float | None]:
    """Sizes of the run before a run; none at the root."""
    tree = result.state.ground.tree
    return {} if tree.parent[i] == NO_PARENT else _sizes(result, tree.ids[tree.parent[i]])


def _sizes(result: SystemResult, name: str) -> dict[Role, float | None]:
    run = next(run for run in result.runs if run.id == name)
    return {role: tube.od_m for role, tube in run.tubes.items()}


def _outdoors(result: SystemResult) -> Iterator[Reducer | Gap]:
    ground, pipes = result.state.ground, {pipe.id: pipe for pipe in result.outdoor.pipes}
    if not ground.pipes.stated:
        said = "the pipes between the modules are not stated: not counted"
        yield Gap(f"{result.id}/outdoor", said, left_out=True)
        return
    roots = [run for i, run in enumerate(ground.tree.ids) if ground.tree.parent[i] == NO_PARENT]
    for module in ground.modules:
        if module.id in pipes:
            tubes: Sizes = dict(pipes[module.id].tubes)
        else:
            tubes = {r: t.od_m for run in result.runs if run.id in roots for r, t in run.tubes.items()}
        yield from _at_ports(f"{result.id}/module:{module.id}", tubes, module.data.ports)


def _at_ports(where: str, tubes: Sizes, ports: Sizes) -> Iterator[Reducer | Gap]:
    if not ports:
        yield Gap(where, _NO_PORTS)
        return
    yield from _between(where, tubes, ports)


def _between(where: str, first: Sizes, second: Sizes) -> Iterator[Reducer]:
    for role, size in second.items():
        other = first.get(role)
        if size is not None and other is not None and not same_tube(size, other):
            yield Reducer(where, role, max(size, other), min(size, other))


def _differ(first: float | None, second: float | None) -> bool:
    return first is not None and second is not None and not same_tube(first, second)
