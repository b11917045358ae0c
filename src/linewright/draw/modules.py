"""The outdoor side: the root, the module pipes behind it, and the lanes of the outdoor modules."""

from __future__ import annotations

from linewright.draw.plan import Band, Node, Pipe
from linewright.draw.reach import Reaches
from linewright.engine.records import SystemResult
from linewright.model.design import ROOT, Run
from linewright.model.values import NodeKind


def root_node(result: SystemResult, bands: list[Band], reaches: Reaches) -> Node:
    """Give the root: the outdoor unit, or the outdoor joint nearest the indoor units."""
    rows = [row.number for band in bands for row in band.modules]
    several = len(result.system.outdoor.modules) > 1
    return Node(
        id=ROOT,
        kind=NodeKind.JOINT if several else NodeKind.MODULE,
        reach_m=reaches.root.m,
        certain=reaches.root.certain,
        lane=(min(rows) + max(rows)) / 2,
    )


def module_pipes(result: SystemResult, root: Node, bands: list[Band], *, reaches: Reaches) -> tuple[Pipe, ...]:
    """Give the pipes from the root to the modules, as far as the design states them."""
    nodes = _nodes(result, root, bands, reaches)
    return tuple(
        Pipe(
            id=run.to,
            near=nodes[run.from_],
            far=nodes[run.to],
            length_m=run.length_m,
            result=None,
            beyond_m=None,
            metres_left=None,
        )
        for run in result.system.outdoor.pipes
        if run.from_ in nodes and run.to in nodes
    )


def _nodes(result: SystemResult, root: Node, bands: list[Band], reaches: Reaches) -> dict[str, Node]:
    rows = {row.id: row.number for band in bands for row in band.modules}
    leaving: dict[str, list[Run]] = {}
    for run in result.system.outdoor.pipes:
        leaving.setdefault(run.from_, []).append(run)
    nodes = {ROOT: root}
    for name in reversed(list(reaches.modules)):
        arms = [nodes[run.to].lane for run in leaving.get(name, ()) if run.to in nodes]
        lane = float(rows[name]) if name in rows else (min(arms) + max(arms)) / 2 if arms else root.lane
        nodes[name] = Node(
            id=name,
            kind=NodeKind.MODULE if name in rows else NodeKind.JOINT,
            reach_m=reaches.modules[name].m,
            certain=reaches.modules[name].certain,
            lane=lane,
        )
    return nodes
