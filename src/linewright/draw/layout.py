"""From the records of a system to the sheet in true coordinates."""

from __future__ import annotations

from collections.abc import Sequence

from linewright.book.schema import Book
from linewright.draw.bands import make_bands
from linewright.draw.flow import lane_flows
from linewright.draw.limits import Marks, beyond, length_limits, marks_ahead, metres_left
from linewright.draw.modules import module_pipes, root_node
from linewright.draw.plan import Axis, Band, LengthLimit, Node, Pipe, SheetLayout
from linewright.draw.reach import Along, Reaches, find_reaches, runs_along
from linewright.draw.slots import Horizontal, node_lanes
from linewright.draw.verdicts import served_rooms
from linewright.engine.records import Evaluation, RunResult, SystemResult
from linewright.model.kept import Kept, KeptEach
from linewright.model.tree import NO_PARENT
from linewright.model.values import NodeKind


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
    along = runs_along(system_result, axis)
    reaches = find_reaches(system_result, axis, along)
    modules = {name: reach.m for name, reach in reaches.modules.items()}
    bands = make_bands(evaluation, system_result, module_reach=modules)
    unit_reaches = _unit_reaches(system_result, reaches)
    limits, elsewhere = length_limits(system_result, axis, unit_reaches, root=reaches.root)
    root = root_node(system_result, bands, reaches)
    nodes = _nodes(system_result, bands, reaches, along)
    first = system_result.tree.first_branch
    return SheetLayout(
        evaluation=evaluation,
        result=system_result,
        book=book,
        axis=axis,
        root=root,
        rooms=tuple(served_rooms(system_result, evaluation.rooms)),
        bands=tuple(bands),
        pipes=_pipes(system_result, root, nodes, limits=limits, units=unit_reaches, along=along),
        module_pipes=module_pipes(system_result, root, bands, reaches=reaches),
        first_branch=None if first is None else nodes[first],
        limits=tuple(limits),
        limits_elsewhere=tuple(elsewhere),
        with_flow=with_flow,
        flow=lane_flows(system_result) if with_flow else {},
    )


def _unit_reaches(result: SystemResult, reaches: Reaches) -> dict[str, float]:
    return {unit.id: reaches.nodes_m[result.tree.at[unit.id]] for unit in result.units}


def _nodes(result: SystemResult, bands: list[Band], reaches: Reaches, along: Along) -> list[Node]:
    tree = result.tree
    unit_lanes = {lane.unit.id: lane.number for band in bands for lane in band.lanes}
    reach_m = reaches.nodes_m
    unknown = [length_m is None for length_m in along.lengths_m]
    lanes = node_lanes(tree, unit_lanes, Horizontal(reach_m, reaches.root.m, unknown))
    assumed = {fitting.id for fitting in result.fittings if fitting.assumed_elevation}
    is_assumed = map(assumed.__contains__, tree.ids)
    return _NODES(result.id, list(zip(tree.ids, tree.kind, reach_m, reaches.certain, lanes, is_assumed, strict=True)))


def _pipes(
    result: SystemResult,
    root: Node,
    nodes: list[Node],
    *,
    limits: list[LengthLimit],
    units: dict[str, float],
    along: Along,
) -> tuple[Pipe, ...]:
    tree = result.tree
    downstream = _DOWNSTREAM(result.id, tree.ids, tree.parent, tree.unit_at)
    own = _OWN_UNITS(result.id, tree.ids, tree.kind, tree.children, tree.unit_at)
    ahead = marks_ahead(limits, own)
    ends = [*nodes, root]  # `NO_PARENT` stands for the last
    near = [ends[before] for before in tree.parent]
    left_m = [
        metres_left(limits, units, behind) if length_m is None else None
        for length_m, behind in zip(along.lengths_m, downstream, strict=True)
    ]
    rows = zip(nodes, near, along.lengths_m, along.runs, left_m, own, ahead, strict=True)
    return tuple(_PIPES(result.id, list(rows)))


def _pipe(  # noqa: PLR0917 - kept by these
    far: Node,
    near: Node,
    length_m: float | None,
    run: RunResult,
    left_m: float | None,
    own_unit: str,
    ahead: Marks,
) -> Pipe:
    beyond_m = beyond(ahead, near_m=near.reach_m, far_m=far.reach_m)
    return Pipe(far.id, near, far, length_m, run, beyond_m, left_m, own_unit)


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
#: What was laid out before, by system.
_NODES: KeptEach[Node] = KeptEach(Node)
_PIPES: KeptEach[Pipe] = KeptEach(_pipe)
