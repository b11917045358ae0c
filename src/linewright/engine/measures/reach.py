"""Measures along the pipe: reach, after the first branch, last joint, spacing, totals."""

from __future__ import annotations

from linewright.book.measures import MeasureName
from linewright.book.schema import AllowanceAt, InOut, Lengths, MeasureUse, Origin
from linewright.engine.lengths import Line, main_factors
from linewright.engine.measures.series import NOT_APPLICABLE, plain, spread, worst
from linewright.engine.figures import Series
from linewright.engine.records import Sense
from linewright.engine.sizing import is_up
from linewright.engine.state import State
from linewright.model.tree import NO_PARENT
from linewright.model.values import Role

Items = dict[str, tuple[float, bool]]


def farthest_actual(state: State, use: MeasureUse, sense: Sense) -> Series:
    """Actual reach of each unit from the origin."""
    return _worst(_reaches(state, use, equivalent=False), sense)


def farthest_equivalent(state: State, use: MeasureUse, sense: Sense) -> Series:
    """Equivalent reach of each unit from the origin, an upsized main counted by its factor."""
    return _worst(_reaches(state, use, equivalent=True), sense)


def nearest_farthest_difference(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Farthest reach less nearest reach."""
    items = _reaches(state, use, equivalent=_equivalent(use))
    if len(items) < 2:  # noqa: PLR2004 - a difference needs two
        return NOT_APPLICABLE
    return spread({name: item[0] for name, item in items.items()}, _flagged(items))


def after_first_branch(state: State, use: MeasureUse, sense: Sense) -> Series:
    """Length from the first branch to each unit."""
    first = state.ground.tree.first_branch
    if first is None:
        return NOT_APPLICABLE
    items: Items = {}
    for position, (line, role) in enumerate(state.lines(equivalent=_equivalent(use))):
        for unit in state.ground.units_where(use.where):
            run = state.ground.tree.unit_runs[unit]
            length = line.reach_m[run] - line.reach_m[first]
            missing = _missing_between(state, line, run, first)
            if role is not None:
                own = _first_allowance(state, position, run, use.first_branch_allowance)
                length, missing = length + (own or 0.0), missing or own is None
            _keep_longer(items, state.ground.tree.ids[run], length, missing=missing)
    return _worst(items, sense)


def last_joint_to_unit(state: State, use: MeasureUse, sense: Sense) -> Series:
    """Length from each unit back to the branch fitting nearest to it."""
    items: Items = {}
    for line, _ in state.lines(equivalent=_equivalent(use)):
        for unit in state.ground.units_where(use.where):
            run = state.ground.tree.unit_runs[unit]
            joint = state.ground.tree.last_fitting[run]
            if joint == NO_PARENT:
                return NOT_APPLICABLE
            length, missing = _between(state, line, run, joint)
            _keep_longer(items, state.ground.tree.ids[run], length, missing=missing)
    return _worst(items, sense)


def main_length(state: State, use: MeasureUse, sense: Sense) -> Series:
    """Length of the main."""
    tree = state.ground.tree
    items: Items = {}
    for line, _ in state.lines(equivalent=_equivalent(use)):
        end = tree.main[-1]
        _keep_longer(items, tree.ids[end], line.reach_m[end], missing=line.reach_missing[end])
    return _worst(items, sense)


def joint_spacing(state: State, use: MeasureUse, sense: Sense) -> Series:
    """Length from each branch fitting to the next one outward."""
    tree = state.ground.tree
    items: Items = {}
    for line, _ in state.lines(equivalent=_equivalent(use)):
        for i in state.ground.branches:
            if tree.last_fitting[i] != NO_PARENT:
                length, missing = _between(state, line, i, tree.last_fitting[i])
                _keep_longer(items, tree.ids[i], length, missing=missing)
    return _worst(items, sense)


def total_length(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """All runs beyond the origin, each once."""
    tree, after_main = state.ground.tree, state.origin(use) is Origin.FIRST_BRANCH
    sums: list[tuple[float, bool]] = []
    for line, role in state.lines(equivalent=_equivalent(use)):
        length, missing = 0.0, False
        for i in range(len(tree.ids)):
            if after_main and state.ground.is_main[i]:
                continue
            twice = 2.0 if use.upsized_twice and run_is_up(state, i) else 1.0
            length += line.run_m[i] * twice
            missing = missing or line.run_missing[i]
        if use.module_pipes is InOut.IN:
            pipes = state.ground.pipes.length_m[role]
            length += sum(pipe[0] for pipe in pipes)
            missing = missing or any(pipe[1] for pipe in pipes) or not state.ground.pipes.stated
        sums.append((length, missing))
    length, missing = max(sums)[0], any(item[1] for item in sums)
    tubes = len(state.sized.by_role) if use.each_tube else 1
    series = plain(length * tubes)
    return series._replace(missing=_unknown_runs(state)) if missing else series


def _reaches(state: State, use: MeasureUse, *, equivalent: bool) -> Items:
    tree, origin = state.ground.tree, state.origin(use)
    first = tree.first_branch
    items: Items = {}
    for line, role in state.lines(equivalent=equivalent):
        before, before_missing = state.before_root(origin, role)
        factors = main_factors(state.ground, state.table, state.sized, use.upsized_main if equivalent else None)
        saved = sum(line.run_m[i] * (1.0 - factor) for i, factor in factors)
        for unit in state.ground.units_where(use.where):
            run = tree.unit_runs[unit]
            if origin is Origin.FIRST_BRANCH and first is not None:
                length, missing = _between(state, line, run, first)
            else:
                length = line.reach_m[run] + before - saved
                missing = line.reach_missing[run] or before_missing
            _keep_longer(items, tree.ids[run], length, missing=missing)
    return items


def _first_allowance(state: State, position: int, run: int, counted: InOut) -> float | None:
    """What to add to the runs after the first branch so that its own allowance is in or out [m]."""
    tree, parts = state.ground.tree, state.lengths.parts[position]
    first = tree.first_branch
    if first is None:
        return 0.0
    if counted is InOut.IN:
        return parts[first].far_m
    if state.ground.book.book.fittings.allowance_at is AllowanceAt.ENTERS:
        return 0.0
    child = run
    while tree.parent[child] != first:
        child = tree.parent[child]
    near = parts[child].near_m
    return None if near is None else -near


def _between(state: State, line: Line, run: int, back_to: int) -> tuple[float, bool]:
    return line.reach_m[run] - line.reach_m[back_to], _missing_between(state, line, run, back_to)


def _missing_between(state: State, line: Line, run: int, back_to: int) -> bool:
    if not line.reach_missing[run]:
        return False
    while run not in (back_to, NO_PARENT):
        if line.run_missing[run]:
            return True
        run = state.ground.tree.parent[run]
    return False


def run_is_up(state: State, i: int) -> bool:
    return any(is_up(sizes[i], state.table.by_role[role][i]) for role, sizes in state.sized.by_role.items())


def _unknown_runs(state: State) -> tuple[str, ...]:
    ground = state.ground
    lines: list[tuple[Line, Role | None]] = [*state.lines(equivalent=False), *state.lines(equivalent=True)]
    names = {ground.tree.ids[i] for line, _ in lines for i, missing in enumerate(line.run_missing) if missing}
    return tuple(sorted(f"length of run {name}" for name in names)) or ("lengths of module pipes",)


def _equivalent(use: MeasureUse) -> bool:
    return use.lengths is Lengths.EQUIVALENT


def _keep_longer(items: Items, name: str, length: float, *, missing: bool) -> None:
    kept = items.get(name)
    if kept is None:
        items[name] = (length, missing)
    else:
        items[name] = (max(kept[0], length), kept[1] or missing)


def _worst(items: Items, sense: Sense) -> Series:
    return worst({name: item[0] for name, item in items.items()}, _flagged(items), sense)


def _flagged(items: Items) -> list[str]:
    return [name for name, item in items.items() if item[1]]


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
