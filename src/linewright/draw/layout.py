"""From the records of a system to the sheet in true coordinates."""

from __future__ import annotations

from collections.abc import Sequence

from linewright.book.schema import Book
from linewright.draw.bands import make_bands
from linewright.draw.flow import lane_flows
from linewright.draw.limits import Marks, length_limits, metres_left
from linewright.draw.modules import module_pipes, root_node
from linewright.draw.plan import Axis, Band, LengthLimit, Node, Pipe, SheetLayout
from linewright.draw.reach import Reach, Reaches, find_reaches, run_length, runs_by_id
from linewright.draw.slots import Along, node_lanes
from linewright.draw.verdicts import served_rooms
from linewright.engine.records import Evaluation, SystemResult
from linewright.model.kept import Kept, KeptEach
from linewright.model.tree import NO_PARENT
from linewright.model.values import NodeKind

#: What was laid out before, by system.
_NODES: KeptEach[Node] = KeptEach(Node)
_PIPES: KeptEach[Pipe] = KeptEach(Pipe)


def layout(
    evaluation: Evaluation,
    system_result: SystemResult,
    *,
    axis: Axis = Axis.ACTUAL,
    book: Book | None = None,
    with_flow: bool = False,
) -> SheetLayout:
    """Lay one system out in metres of reach and lane numbers.

    axis : whether reach is actual or equivalent length
    book : the system's book, whose title, edition, status and notes the sheet prints
    with_flow : whether the lanes also carry what flows, from first principles
    """
    reaches = find_reaches(system_result, axis)
    modules = {name: reach.m for name, reach in reaches.modules.items()}
    bands = make_bands(evaluation, system_result, module_reach=modules)
    unit_reaches = _unit_reaches(system_result, reaches)
    limits, elsewhere = length_limits(system_result, axis, unit_reaches, root=reaches.root)
    root = root_node(system_result, bands, reaches)
    nodes = _nodes(system_result, bands, reaches, axis)
    first = system_result.tree.first_branch
    return SheetLayout(
        evaluation=evaluation,
        result=system_result,
        book=book,
        axis=axis,
        root=root,
        rooms=tuple(served_rooms(system_result, evaluation.rooms)),
        bands=tuple(bands),
        pipes=_pipes(system_result, root, nodes, limits=limits, units=unit_reaches, axis=axis),
        module_pipes=module_pipes(system_result, root, bands, reaches=reaches),
        first_branch=None if first is None else nodes[first],
        limits=tuple(limits),
        limits_elsewhere=tuple(elsewhere),
        with_flow=with_flow,
        flow=lane_flows(system_result) if with_flow else {},
    )


def _unit_reaches(result: SystemResult, reaches: Reaches) -> dict[str, Reach]:
    return {unit.id: reaches.nodes[result.tree.at[unit.id]] for unit in result.units}


def _nodes(result: SystemResult, bands: list[Band], reaches: Reaches, axis: Axis) -> list[Node]:
    tree = result.tree
    unit_lanes = {lane.unit.id: lane.number for band in bands for lane in band.lanes}
    runs = runs_by_id(result)
    unknown = [run_length(runs[name], axis) is None for name in tree.ids]
    lanes = node_lanes(tree, unit_lanes, Along([reach.m for reach in reaches.nodes], reaches.root.m, unknown))
    assumed = {fitting.id for fitting in result.fittings if fitting.assumed_elevation}
    rows = [
        (name, kind, reach_m, certain, lane, name in assumed)
        for name, kind, (reach_m, certain), lane in zip(tree.ids, tree.kind, reaches.nodes, lanes, strict=True)
    ]
    return _NODES(result.id, rows)


def _pipes(
    result: SystemResult,
    root: Node,
    nodes: list[Node],
    *,
    limits: list[LengthLimit],
    units: dict[str, Reach],
    axis: Axis,
) -> tuple[Pipe, ...]:
    tree, runs = result.tree, runs_by_id(result)
    downstream = _DOWNSTREAM(result.id, tree.ids, tree.parent, tree.unit_at)
    own = _OWN_UNITS(result.id, tree.ids, tree.kind, tree.children, tree.unit_at)
    marks = Marks.of(limits)
    rows = []
    for i, name in enumerate(tree.ids):
        run, far, parent = runs[name], nodes[i], tree.parent[i]
        near = root if parent == NO_PARENT else nodes[parent]
        length = run_length(run, axis)
        left = metres_left(limits, units, downstream[i]) if length is None else None
        beyond_m = marks.beyond(near_m=near.reach_m, far_m=far.reach_m, own_unit=own[i])
        rows.append((name, near, far, length, run, beyond_m, left, own[i]))
    return tuple(_PIPES(result.id, rows))


def _downstream(ids: Sequence[str], parent: Sequence[int], unit_at: Sequence[int]) -> list[list[str]]:
    """Give for each run of a tree the units behind it."""
    found: list[list[str]] = [[] for _ in ids]
    for i in range(len(ids) - 1, -1, -1):
        if unit_at[i] >= 0:
            found[i].append(ids[i])
        if parent[i] != NO_PARENT:
            found[parent[i]] += found[i]
    return found


def _own_units(
    ids: Sequence[str], kind: Sequence[NodeKind], children: Sequence[Sequence[int]], unit_at: Sequence[int]
) -> list[str]:
    """Give for each run of a tree the unit that it alone leads to past the last branch fitting, else nothing."""
    own = [""] * len(ids)
    for i in range(len(ids) - 1, -1, -1):
        if unit_at[i] >= 0:
            own[i] = ids[i]
        elif kind[i] is NodeKind.COUPLING and len(children[i]) == 1:
            own[i] = own[children[i][0]]
    return own


#: What hangs on each run of the trees before, by system.
_DOWNSTREAM: Kept[list[list[str]]] = Kept(_downstream)
_OWN_UNITS: Kept[list[str]] = Kept(_own_units)
