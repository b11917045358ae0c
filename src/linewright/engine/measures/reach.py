"""Measures along the pipe: reach, after the first branch, last joint, spacing, totals."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from linewright.book.measures import MeasureName
from linewright.book.schema import AllowanceAt, InOut, Lengths, MeasureUse, Origin
from linewright.engine.figures import Series
from linewright.engine.ground import Ground
from linewright.engine.lengths import Line, main_factors
from linewright.engine.measures.series import NOT_APPLICABLE, plain, spread, widest, worst
from linewright.engine.records import Sense
from linewright.engine.sizing import runs_up
from linewright.engine.state import State
from linewright.model.tree import NO_PARENT

Nodes = Sequence[int]


class Items(NamedTuple):
    """Lengths [m] of the items of a series along one line, and which of them are only lower bounds."""

    lengths_m: list[float]
    missing: list[bool]


def farthest_actual(state: State, use: MeasureUse, sense: Sense) -> Series:
    """Actual reach of each unit from the origin."""
    return named_worst(state, _units(state, use), _reaches(state, use, equivalent=False), sense)


def farthest_equivalent(state: State, use: MeasureUse, sense: Sense) -> Series:
    """Equivalent reach of each unit from the origin, an upsized main counted by its factor."""
    return named_worst(state, _units(state, use), _reaches(state, use, equivalent=True), sense)


def nearest_farthest_difference(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Farthest reach less nearest reach."""
    nodes = _units(state, use)
    if len(nodes) < 2:
        return NOT_APPLICABLE
    lines = _reaches_by_line(state, use, equivalent=_equivalent(use))
    return widest([spread(_named(state, nodes, items), _flagged(state, nodes, items)) for items in lines])


def after_first_branch(state: State, use: MeasureUse, sense: Sense) -> Series:
    """Length from the first branch to each unit."""
    first, nodes = state.ground.tree.first_branch, _units(state, use)
    if first is None:
        return NOT_APPLICABLE
    found = []
    for position, (line, role) in enumerate(state.lines(equivalent=_equivalent(use))):
        items = between(state, line, nodes, [first] * len(nodes))
        if role is not None:
            shifts = [_first_allowance(state, position, node, use.first_branch_allowance) for node in nodes]
            pairs = list(zip(items.lengths_m, items.missing, shifts, strict=True))
            items = Items(
                [length + (shift.length_m or 0.0) for length, _, shift in pairs],
                [missing if shift.missing is None else shift.missing for _, missing, shift in pairs],
            )
        found.append(items)
    return named_worst(state, nodes, longer(found), sense)


def last_joint_to_unit(state: State, use: MeasureUse, sense: Sense) -> Series:
    """Length from each unit back to the branch fitting nearest to it."""
    nodes = _units(state, use)
    if state.ground.tree.first_branch is None:
        return NOT_APPLICABLE
    back_to = [state.ground.tree.last_fitting[node] for node in nodes]
    lines = state.lines(equivalent=_equivalent(use))
    return named_worst(state, nodes, longer([between(state, line, nodes, back_to) for line, _ in lines]), sense)


def main_length(state: State, use: MeasureUse, sense: Sense) -> Series:
    """Length of the main."""
    end = state.ground.tree.main[-1]
    lines = state.lines(equivalent=_equivalent(use))
    found = [Items([line.reach_m[end]], [line.reach_missing[end]]) for line, _ in lines]
    items = longer(found)
    return worst(_named(state, [end], items), _flagged(state, [end], items), sense, named=False)


def joint_spacing(state: State, use: MeasureUse, sense: Sense) -> Series:
    """Length from each branch fitting to the next one outward."""
    last = state.ground.tree.last_fitting
    nodes = [i for i in state.ground.branches if last[i] != NO_PARENT]
    lines = state.lines(equivalent=_equivalent(use))
    found = [between(state, line, nodes, [last[node] for node in nodes]) for line, _ in lines]
    return named_worst(state, nodes, longer(found), sense)


def total_length(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """All runs beyond the origin, each once."""
    ground = state.ground
    after_main = state.origin(use) is Origin.FIRST_BRANCH and ground.tree.first_branch is not None
    counted = [i for i in range(len(ground.tree.ids)) if not (after_main and ground.is_main[i])]
    up = runs_up(state.table, state.sized) if use.upsized_twice else ()
    again = [i for i in counted if i in up] if up else []
    lines = state.lines(equivalent=_equivalent(use))
    sums: list[float] = []
    missing = {name for line, _ in lines if not line.complete for name in _lacking(state, counted, line)}
    for line, role in lines:
        length = _sum(ground, line, counted, use) + _sum(ground, line, again, use)
        if use.module_pipes is InOut.IN:
            pipes = ground.pipes.length_m[role]
            length += sum([pipe[0] for pipe in pipes]) * (len(ground.pipes.sizes) if use.each_tube else 1)
            if any(pipe[1] for pipe in pipes) or not ground.pipes.stated:
                missing.add("lengths of module pipes")
        sums.append(length)
    return plain(max(sums), missing=tuple(sorted(missing)))


def tubes_of(ground: Ground, run: int) -> int:
    """How many tubes a run has."""
    return len(ground.carried[run]) if ground.carried else len(ground.book.ladders)


def _sum(ground: Ground, line: Line, runs: Nodes, use: MeasureUse) -> float:
    """Length of these runs, where the measure says so of each of their tubes [m]."""
    if not use.each_tube:
        return sum([line.run_m[i] for i in runs])
    return sum([line.run_m[i] * tubes_of(ground, i) for i in runs])


def _units(state: State, use: MeasureUse) -> Nodes:
    runs = state.ground.tree.unit_runs
    return runs if use.where is None else [runs[unit] for unit in state.ground.units_where(use.where)]


def _reaches(state: State, use: MeasureUse, *, equivalent: bool) -> Items:
    return longer(_reaches_by_line(state, use, equivalent=equivalent))


def _reaches_by_line(state: State, use: MeasureUse, *, equivalent: bool) -> list[Items]:
    first, nodes, origin = state.ground.tree.first_branch, _units(state, use), state.origin(use)
    found = []
    for line, role in state.lines(equivalent=equivalent):
        if origin is Origin.FIRST_BRANCH and first is not None:
            found.append(between(state, line, nodes, [first] * len(nodes)))
            continue
        before, before_missing = state.before_root(origin, role)
        factors = main_factors(state.ground, state.table, state.sized, use.upsized_main if equivalent else None)
        offset = before - sum([line.run_m[i] * (1.0 - factor) for i, factor in factors])
        missing = [True] * len(nodes) if before_missing else [line.reach_missing[node] for node in nodes]
        found.append(Items([line.reach_m[node] + offset for node in nodes], missing))
    return found


class Shift(NamedTuple):
    """What to add to the runs after the first branch [m], and what then is missing (`None`: as before)."""

    length_m: float | None
    missing: bool | None = None


def _first_allowance(state: State, position: int, run: int, counted: InOut) -> Shift:
    """Bring the first branch's own allowance in, or take the part that a leaving run carries out."""
    ground, parts = state.ground, state.lengths.parts[position]
    tree, first = ground.tree, ground.tree.first_branch
    if first is None:
        return Shift(0.0)
    if counted is InOut.IN:
        own = parts[first].far_m
        return Shift(own, missing=True if own is None else None)
    if ground.book.book.fittings.allowance_at is AllowanceAt.ENTERS:
        return Shift(0.0)
    missing, line = False, state.lengths.equivalent[position]
    child = run
    while tree.parent[child] != first:
        missing = missing or line.run_missing[child]
        child = tree.parent[child]
    bends, items, far, near = parts[child]
    missing = missing or ground.unknown[child] or None in (bends, items, far)
    return Shift(-(near or 0.0), missing)


def between(state: State, line: Line, nodes: Nodes, back_to: Nodes) -> Items:
    """Lengths from one node outward to another [m]."""
    reach = line.reach_m
    lengths = [reach[node] - reach[start] for node, start in zip(nodes, back_to, strict=True)]
    if line.complete:
        return Items(lengths, [False] * len(lengths))
    pairs = zip(nodes, back_to, strict=True)
    return Items(lengths, [_missing_between(state, line, node, start) for node, start in pairs])


def _missing_between(state: State, line: Line, run: int, back_to: int) -> bool:
    while run not in (back_to, NO_PARENT):
        if line.run_missing[run]:
            return True
        run = state.ground.tree.parent[run]
    return False


def _lacking(state: State, counted: Nodes, line: Line) -> Iterator[str]:
    """Name the lengths and allowances that runs lack along a line."""
    for i in counted:
        if line.run_missing[i]:
            yield f"{'length' if state.ground.unknown[i] else 'allowances'} of run {state.ground.tree.ids[i]}"


def _equivalent(use: MeasureUse) -> bool:
    return use.lengths is Lengths.EQUIVALENT


def longer(found: Sequence[Items]) -> Items:
    """Of two judged lines the longer counts, item by item."""
    if len(found) == 1:
        return found[0]
    lengths = [max(pair) for pair in zip(*(items.lengths_m for items in found), strict=True)]
    return Items(lengths, [any(pair) for pair in zip(*(items.missing for items in found), strict=True)])


def named_worst(state: State, nodes: Nodes, items: Items, sense: Sense) -> Series:
    """Series over nodes, with its largest (or smallest) length."""
    return worst(_named(state, nodes, items), _flagged(state, nodes, items), sense)


def _named(state: State, nodes: Nodes, items: Items) -> dict[str, float]:
    ids = state.ground.tree.ids
    return {ids[node]: length for node, length in zip(nodes, items.lengths_m, strict=True)}


def _flagged(state: State, nodes: Nodes, items: Items) -> list[str]:
    if True not in items.missing:
        return []
    return [state.ground.tree.ids[node] for node, missing in zip(nodes, items.missing, strict=True) if missing]


REACH = {
    MeasureName.FARTHEST_ACTUAL: farthest_actual,
    MeasureName.FARTHEST_EQUIVALENT: farthest_equivalent,
    MeasureName.NEAREST_FARTHEST_DIFFERENCE: nearest_farthest_difference,
    MeasureName.AFTER_FIRST_BRANCH: after_first_branch,
    MeasureName.LAST_JOINT_TO_UNIT: last_joint_to_unit,
    MeasureName.MAIN_LENGTH: main_length,
    MeasureName.JOINT_SPACING: joint_spacing,
    MeasureName.TOTAL_LENGTH: total_length,
}
