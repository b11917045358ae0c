"""Where every node of a system lies along the axis: sums of run lengths from the origin of lengths."""

from __future__ import annotations

from collections.abc import Mapping
from operator import attrgetter
from typing import NamedTuple

from linewright.book.measures import MeasureName
from linewright.draw.plan import Axis
from linewright.engine.records import RunResult, SystemResult
from linewright.model.design import ROOT, Run
from linewright.model.tree import NO_PARENT


class Reach(NamedTuple):
    """Reach of a node [m]; not `certain` where an unknown run lies before it and only the known part is summed."""

    m: float
    certain: bool


class Reaches(NamedTuple):
    """Reach of the root, of each node (position of its run) and of each outdoor module or joint by id."""

    root: Reach
    nodes_m: list[float]
    certain: list[bool]
    modules: Mapping[str, Reach]


def find_reaches(result: SystemResult, axis: Axis, along: Along) -> Reaches:
    """Give the reach of every node along an axis; the zero is where the book measures the reach of units from."""
    from_root = _from_root(result, along)
    modules = _module_distances(result)
    start = _root_offset(result, axis, from_root, modules=modules)
    share = _module_share(start.m, modules) if axis is Axis.EQUIVALENT else 1.0
    return Reaches(
        root=start,
        nodes_m=[start.m + away_m for away_m in from_root.nodes_m],
        certain=[certain and start.certain for certain in from_root.certain],
        modules={
            name: Reach(_tidy(start.m - share * away.m), away.certain and start.certain)
            for name, away in modules.items()
        },
    )


class Along(NamedTuple):
    """The runs of a tree, in its order, and the length of each along an axis [m]."""

    runs: list[RunResult]
    lengths_m: list[float | None]


def runs_along(result: SystemResult, axis: Axis) -> Along:
    """Give the runs of a system with their lengths along an axis."""
    by_id = {run.id: run for run in result.runs}
    runs = [by_id[name] for name in result.tree.ids]
    return Along(runs, list(map(_ACTUAL if axis is Axis.ACTUAL else _EQUIVALENT, runs)))


_ACTUAL, _EQUIVALENT = attrgetter("length_m"), attrgetter("equivalent_m")


class _FromRoot(NamedTuple):
    """How far each node lies from the root [m], and whether that is certain."""

    nodes_m: list[float]
    certain: list[bool]


def _from_root(result: SystemResult, along: Along) -> _FromRoot:
    nodes_m: list[float] = []
    certain: list[bool] = []
    for run, length, parent in zip(along.runs, along.lengths_m, result.tree.parent, strict=True):
        before_m, is_certain = (nodes_m[parent], certain[parent]) if parent != NO_PARENT else (0.0, True)
        nodes_m.append(before_m + (length if length is not None else run.length_m or 0.0))
        certain.append(is_certain and length is not None)
    return _FromRoot(nodes_m, certain)


def _root_offset(result: SystemResult, axis: Axis, from_root: _FromRoot, *, modules: Mapping[str, Reach]) -> Reach:
    """Give the reach of the root, which the reach of any unit tells: the book's origin may lie before or after it."""
    at = result.tree.at
    for unit in result.units:
        stated = unit.reach_m if axis is Axis.ACTUAL else unit.equivalent_reach_m
        if stated is not None and from_root.certain[at[unit.id]]:
            return Reach(_tidy(stated - from_root.nodes_m[at[unit.id]]), certain=True)
    name = MeasureName.FARTHEST_ACTUAL if axis is Axis.ACTUAL else MeasureName.FARTHEST_EQUIVALENT
    plain = next((measure for measure in result.measures if measure.key == name), None)
    certain = all(away.certain for away in modules.values())
    for unit_id, known in plain.series.values.items() if plain else ():
        return Reach(_tidy(known - from_root.nodes_m[at[unit_id]]), certain=certain)
    return Reach(0.0, certain=certain)


def _module_share(root_m: float, modules: Mapping[str, Reach]) -> float:
    """Give by what the lengths of module pipes are stretched, so that the farthest module lies at zero.

    Only the equivalent length of the whole way to it is in the records, so its pipes share that by their lengths.
    """
    farthest = max((away.m for away in modules.values()), default=0.0)
    return root_m / farthest if root_m > 0 and farthest > 0 else 1.0


def _tidy(offset_m: float) -> float:
    """Give an offset without the dust that sums of floats leave."""
    return 0.0 if abs(offset_m) < 1e-9 else offset_m


def _module_distances(result: SystemResult) -> dict[str, Reach]:
    """Give how far each outdoor module and joint lies from the root along the module pipes, where these are stated."""
    leaving: dict[str, list[Run]] = {}
    for run in result.system.outdoor.pipes:
        leaving.setdefault(run.from_, []).append(run)
    found: dict[str, Reach] = {}
    stack = [(ROOT, Reach(0.0, certain=True))]
    while stack:
        name, away = stack.pop()
        for run in leaving.get(name, ()):
            length = run.length_m
            found[run.to] = Reach(away.m + (length or 0.0), away.certain and length is not None)
            stack.append((run.to, found[run.to]))
    return found
