"""Core holes and sleeves: where tube passes a floor or a wall, and how wide the hole is."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import NamedTuple

from linewright.engine.records import Evaluation, SystemResult
from linewright.model.design import Location, Run
from linewright.model.tree import NO_PARENT
from linewright.model.values import Role
from linewright.report.checklist.asked import DONE, SYSTEM
from linewright.report.schedules.tables import Cell, Column, Table
from linewright.takeoff.tubes import at_size
from linewright.units import Dimension, UnitSystem, over, same_tube, show

#: Room around the insulation in all, and the step that holes are cut in. Common practice, no source [m].
CLEAR_M = {UnitSystem.SI: 0.020, UnitSystem.IP: 0.01905}
STEP_M = {UnitSystem.SI: 0.010, UnitSystem.IP: 0.0127}
_SLACK = 1e-9


class Place(NamedTuple):
    """What a run passes, and how it is known."""

    what: str
    known_from: str


def cores(evaluation: Evaluation, units: UnitSystem) -> Table:
    """A row for each tube at each place."""
    columns = (
        SYSTEM,
        Column("run", "run"),
        Column("place", "passes"),
        Column("from", "known from"),
        Column("line", "line"),
        Column("od", "tube", Dimension.TUBE),
        Column("insulation", "insulation", Dimension.TUBE),
        Column("hole", "hole or sleeve, inside", Dimension.TUBE),
        DONE,
    )
    rows = tuple(row for result in evaluation.systems for row in _of_system(evaluation, result, units))
    return Table("cores", "Core holes and sleeves", columns, rows, tuple(_notes(evaluation, units)))


def hole(od_m: float, insulation_m: float, units: UnitSystem) -> float:
    """Inside diameter of a hole: tube, insulation on both sides, room around it, up to the next step [m]."""
    needed = od_m + 2.0 * insulation_m + CLEAR_M[units]
    return math.ceil(needed / STEP_M[units] - _SLACK) * STEP_M[units]


def _notes(evaluation: Evaluation, units: UnitSystem) -> Iterator[str]:
    clear, step = (show(size, Dimension.TUBE, units) for size in (CLEAR_M[units], STEP_M[units]))
    yield (
        f"Hole: tube + twice the insulation + {clear}, up to the next {step} (common practice, no source). "
        "Ask for the structural engineer's consent before a hole is cut, and for fire stopping where it is wanted."
    )
    if not evaluation.design.site.levels:
        yield "The design states no levels: which floors are passed is not known."
    for result in evaluation.systems:
        unknown = [name for name, low, high in _ends(result) if low is None or high is None]
        if unknown:
            yield f"{result.id}: not known which floors are passed, for want of an elevation: {', '.join(unknown)}"
        if any(run.location is None for run in result.system.runs):
            yield f"{result.id}: walls are listed only where runs state their location; some do not"


def _of_system(evaluation: Evaluation, result: SystemResult, units: UnitSystem) -> Iterator[tuple[Cell, ...]]:
    tubes = {run.id: {role: size.od_m for role, size in run.tubes.items()} for run in result.runs}
    tubes |= {pipe.id: dict(pipe.tubes) for pipe in result.outdoor.pipes}
    for name, place in _places(evaluation, result):
        for role, od_m in sorted(tubes[name].items()):
            thick = None if od_m is None else _insulation(result, name, role, od_m)
            wide = None if od_m is None or thick is None else hole(od_m, thick, units)
            yield (result.id, name, place.what, place.known_from, role.word, od_m, thick, wide, "")


def _insulation(result: SystemResult, run: str, role: Role, od_m: float) -> float | None:
    """Thickness that pipework chose for a tube, else that of the book [m]."""
    for item in result.pipework.insulation if result.pipework is not None else ():
        if item.role is role and same_tube(item.od_m, od_m) and run in item.runs and item.order_m is not None:
            return item.order_m
    pressures = result.state.ground.book.book.pressures
    return None if pressures is None else at_size(pressures.insulation_m, od_m)


def _places(evaluation: Evaluation, result: SystemResult) -> Iterator[tuple[str, Place]]:
    for run in (*result.system.outdoor.pipes, *result.tree.runs):
        yield from ((run.to, Place("as on site", "sleeve on the run")) for _ in range(_sleeves(run)))
    for name, one, other in _ends(result):
        if one is None or other is None:
            continue
        low, high = min(one, other), max(one, other)
        for level in evaluation.design.site.levels:
            if over(level.elevation_m, low) and over(high, level.elevation_m):
                yield name, Place(f"level {level.name or level.id}", "levels of its ends")
    yield from _walls(result)


def _sleeves(run: Run) -> int:
    return sum(item.count for item in run.items if "sleeve" in item.kind)


def _ends(result: SystemResult) -> Iterator[tuple[str, float | None, float | None]]:
    """Every run with the elevations of its ends [m]."""
    levels, tree = result.state.ground.levels, result.tree
    for i, name in enumerate(tree.ids):
        before = levels.root_m if tree.parent[i] == NO_PARENT else levels.node_m[tree.parent[i]]
        yield name, before, levels.node_m[i]


def _walls(result: SystemResult) -> Iterator[tuple[str, Place]]:
    """Runs that begin where another location ends, one of the two outdoors."""
    tree = result.tree
    for i, run in enumerate(tree.runs):
        near = Location.OUTDOORS if tree.parent[i] == NO_PARENT else tree.runs[tree.parent[i]].location
        if None in (near, run.location) or near is run.location or Location.OUTDOORS not in (near, run.location):
            continue
        yield run.to, Place("outer wall or roof", "locations of the runs that meet")
