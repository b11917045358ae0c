"""More indoor units of a model that a system has: joints on the way to the farthest of them, or ports of its header."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import NamedTuple

from linewright.model.design import ROOT, Run, System, Unit
from linewright.model.edits import AddSubtree, Batch, Edit, SplitRun
from linewright.model.tree import Tree, build_tree
from linewright.model.values import NodeKind


class More(NamedTuple):
    """The unit beside which others are added, and the edit that adds so many."""

    unit: str
    edit: Callable[[int], Edit]


def more_units(system: System, model: str) -> More | str:
    """Say how more units of a model would hang: like the farthest one that there is, in its room, as far away.

    On a header they take its next ports. Else joints stand evenly along the run to the unit, and from each a pipe
    leads as far as the rest of that run. Gives why not, where that cannot be said.
    """
    tree = build_tree(system)
    found = _farthest(system, tree, model)
    if isinstance(found, str):
        return found
    unit, run = found
    if _kind_before(tree, run) is NodeKind.HEADER:
        return More(unit.id, lambda count: _on_header(system, unit, run, count))
    if run.ports or _below_box(tree, run):
        return "units below a mode box are not added"
    if run.from_ == ROOT:
        return "the system has one unit and no branch to hang another on"
    return More(unit.id, lambda count: _on_run(system, unit, run, count))


def _farthest(system: System, tree: Tree, model: str) -> tuple[Unit, Run] | str:
    reach: list[tuple[float, Unit, Run]] = []
    for i, unit in enumerate(system.units):
        if unit.model == model:
            lengths = [tree.runs[at].length_m for at in tree.path_to(tree.unit_runs[i])]
            known = [length for length in lengths if length is not None]
            if len(known) < len(lengths):
                return f"a length on the way to {unit.id} is unknown"
            reach.append((sum(known), unit, tree.runs[tree.unit_runs[i]]))
    _, unit, run = max(reach, key=lambda item: item[0])
    return unit, run


def _kind_before(tree: Tree, run: Run) -> NodeKind | None:
    return None if run.from_ == ROOT else tree.kind[tree.at[run.from_]]


def _below_box(tree: Tree, run: Run) -> bool:
    return any(tree.kind[at] is NodeKind.BOX for at in tree.path_to(tree.at[run.to]))


def _on_header(system: System, unit: Unit, run: Run, count: int) -> Edit:
    taken = _taken(system)
    names = [_free(f"{unit.id} more {i}", taken) for i in range(1, count + 1)]
    runs = tuple(replace(run, to=name, as_built_m=None) for name in names)
    return AddSubtree(system=system.id, runs=runs, units=tuple(replace(unit, id=name, label="") for name in names))


def _on_run(system: System, unit: Unit, run: Run, count: int) -> Edit:
    taken, length_m = _taken(system), run.length_m or 0.0
    before, edits, at_m = 0.0, list[Edit](), 0.0
    for i in range(1, count + 1):
        joint, name = _free(f"joint more {i} {unit.id}", taken), _free(f"{unit.id} more {i}", taken)
        at_m = length_m * i / (count + 1)
        edits.append(SplitRun(system=system.id, run=run.to, node=joint, at_m=at_m - before))
        added = replace(_rest(run, at_m, length_m), from_=joint, to=name)
        edits.append(AddSubtree(system=system.id, runs=(added,), units=(replace(unit, id=name, label=""),)))
        before = at_m
    return Batch(edits=tuple(edits))


def _rest(run: Run, at_m: float, length_m: float) -> Run:
    """The part of a run beyond a point, straight and bare."""
    left = 1.0 - at_m / length_m if length_m else 1.0
    rise_m = None if run.rise_m is None else run.rise_m * left
    return Run(
        from_=run.from_,
        to=run.to,
        length_m=length_m - at_m,
        rise_m=rise_m,
        override=run.override,
        location=run.location,
    )


def _taken(system: System) -> set[str]:
    return {ROOT, *(run.to for run in system.runs), *(pipe.to for pipe in system.outdoor.pipes)}


def _free(name: str, taken: set[str]) -> str:
    while name in taken:
        name += "'"
    taken.add(name)
    return name
