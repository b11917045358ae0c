"""Working of lengths along the pipe: the runs that a reach or a total counts."""

from __future__ import annotations

from linewright.book.measures import MeasureName
from linewright.book.schema import AllowanceAt, InOut, Lengths, MeasureUse, Origin
from linewright.engine.figures import Series
from linewright.engine.lengths import main_factors
from linewright.engine.measures.reach import tubes_of
from linewright.engine.records import Sense
from linewright.engine.sizing import runs_up
from linewright.engine.working.places import Places
from linewright.engine.working.steps import Input, Step
from linewright.model.tree import NO_PARENT
from linewright.model.values import Role
from linewright.units import Dimension

M = MeasureName

ALONG = {
    M.FARTHEST_ACTUAL,
    M.FARTHEST_EQUIVALENT,
    M.NEAREST_FARTHEST_DIFFERENCE,
    M.AFTER_FIRST_BRANCH,
    M.LAST_JOINT_TO_UNIT,
    M.MAIN_LENGTH,
    M.JOINT_SPACING,
    M.JOINT_TO_BOX,
    M.BOX_TO_UNIT,
}


def way_step(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    """Sum of the runs that a reach counts."""
    if use.measure in (M.FARTHEST_ACTUAL, M.FARTHEST_EQUIVALENT, M.NEAREST_FARTHEST_DIFFERENCE):
        inputs = _reach_inputs(at, use, name, value)
    elif use.measure is M.AFTER_FIRST_BRANCH:
        inputs = _after_inputs(at, use, name, value)
    elif use.measure is M.MAIN_LENGTH:
        inputs = _best(at, use, at.way_to(name), value)
    else:
        inputs = _best(at, use, at.way_to(name, after=_nearest_before(at, use, name)), value)
    return Step(f"{use.measure} of {name}", "total", inputs, Dimension.LENGTH, value)


def _nearest_before(at: Places, use: MeasureUse, name: str) -> str | None:
    """Node from which the way to an item is counted: its box, or the fitting before it; none for the root."""
    tree = at.result.tree
    before = tree.last_fitting if use.measure is not M.BOX_TO_UNIT else at.result.state.ground.box_before
    node = before[tree.at[name]]
    return None if node == NO_PARENT else tree.ids[node]


def _best(at: Places, use: MeasureUse, way: tuple[str, ...], value: float) -> tuple[Input, ...]:
    """Inputs of the line whose sum is the value (with two judged lines the longer counts)."""
    options = [
        tuple(at.run_length(run, equivalent=role is not None, role=role) for run in way) for role in _roles(at, use)
    ]
    return min(options, key=lambda inputs: abs(sum(float(item.value) for item in inputs) - value))


def _roles(at: Places, use: MeasureUse) -> tuple[Role | None, ...]:
    equivalent = use.measure is M.FARTHEST_EQUIVALENT or use.lengths is Lengths.EQUIVALENT
    return at.result.state.lengths.roles if equivalent else (None,)


def _reach_inputs(at: Places, use: MeasureUse, name: str, value: float) -> tuple[Input, ...]:
    state, tree = at.result.state, at.result.tree
    origin = state.origin(use)
    first = tree.ids[tree.first_branch] if tree.first_branch is not None and origin is Origin.FIRST_BRANCH else None
    options = []
    for role in _roles(at, use):
        inputs = [at.run_length(run, equivalent=role is not None, role=role) for run in at.way_to(name, after=first)]
        before, _ = state.before_root(origin, role)
        if before:
            inputs.insert(
                0,
                Input(
                    "module pipes to the farthest module",
                    before,
                    Dimension.LENGTH,
                    f"design:{at.system_path}.outdoor.pipes",
                ),
            )
        if role is not None and first is None:
            inputs += _savings(at, use, role)
        options.append(tuple(inputs))
    return min(options, key=lambda inputs: abs(sum(float(item.value) for item in inputs) - value))


def _savings(at: Places, use: MeasureUse, role: Role) -> list[Input]:
    """What an upsized main is not counted for, as negative lengths."""
    state = at.result.state
    line = state.lengths.equivalent[state.lengths.roles.index(role)]
    return [
        Input(
            f"main run {at.result.tree.ids[i]} counted {factor:g} times",
            -line.run_m[i] * (1.0 - factor),
            Dimension.LENGTH,
            at.subject(f"run:{at.result.tree.ids[i]}.equivalent"),
        )
        for i, factor in main_factors(state.ground, state.table, state.sized, use.upsized_main)
    ]


def _after_inputs(at: Places, use: MeasureUse, name: str, value: float) -> tuple[Input, ...]:
    tree = at.result.tree
    first = tree.first_branch
    if first is None:
        return ()
    options = []
    for role in _roles(at, use):
        way = at.way_to(name, after=tree.ids[first])
        inputs = [at.run_length(run, equivalent=role is not None, role=role) for run in way]
        if role is not None and (own := _first_allowance(at, use, role, first=first, child=way[0])):
            inputs.append(
                Input(
                    "the first branch's own allowance",
                    own,
                    Dimension.LENGTH,
                    at.in_book("fittings.allowance"),
                )
            )
        options.append(tuple(inputs))
    return min(options, key=lambda inputs: abs(sum(float(item.value) for item in inputs) - value))


def _first_allowance(at: Places, use: MeasureUse, role: Role, *, first: int, child: str) -> float:
    state = at.result.state
    lengths = state.lengths
    parts = lengths.parts[lengths.roles.index(role)]
    if use.first_branch_allowance is InOut.IN:
        return parts[first].far_m or 0.0
    if state.ground.book.book.fittings.allowance_at is AllowanceAt.ENTERS:
        return 0.0
    return -(parts[at.result.tree.at[child]].near_m or 0.0)


def total_steps(at: Places, use: MeasureUse, series: Series, sense: Sense) -> tuple[Step, ...]:  # noqa: ARG001
    """Every run once, an upsized one again where the measure says so, module pipes, and each tube."""
    state, tree = at.result.state, at.result.tree
    after_main = state.origin(use) is Origin.FIRST_BRANCH and tree.first_branch is not None
    up = runs_up(state.table, state.sized) if use.upsized_twice else ()
    options = []
    for role in _roles(at, use):
        inputs = []
        for i, name in enumerate(tree.ids):
            if after_main and state.ground.is_main[i]:
                continue
            item = _of_tubes(at, use, i, at.run_length(name, equivalent=role is not None, role=role))
            inputs.append(item)
            if i in up:
                inputs.append(item._replace(name=f"{item.name}, again: upsized"))
        if use.module_pipes is InOut.IN:
            pipes = sum(pipe[0] for pipe in state.ground.pipes.length_m[role])
            pipes *= len(state.ground.pipes.sizes) if use.each_tube else 1
            inputs.append(Input("module pipes", pipes, Dimension.LENGTH, f"design:{at.system_path}.outdoor.pipes"))
        options.append(tuple(inputs))
    inputs_of = max(options, key=lambda items: sum(float(item.value) for item in items))
    return (Step(use.measure.value, "total", inputs_of, Dimension.LENGTH, series.value, note=_lower(series)),)


def _of_tubes(at: Places, use: MeasureUse, run: int, item: Input) -> Input:
    """The length of a run, counted for each of its tubes where the measure says so."""
    if not use.each_tube:
        return item
    tubes = tubes_of(at.result.state.ground, run)
    return item._replace(name=f"{item.name}, {tubes} tubes", value=float(item.value) * tubes)


def module_pipes_steps(at: Places, use: MeasureUse, series: Series, sense: Sense) -> tuple[Step, ...]:  # noqa: ARG001
    """Every module pipe once."""
    pipes, runs = at.result.state.ground.pipes, at.result.system.outdoor.pipes
    options = [pipes.length_m[role] for role in _roles(at, use)]
    lengths = max(options, key=lambda items: sum(length for length, _ in items))
    inputs = tuple(
        Input(
            f"module pipe to {run.to}", length, Dimension.LENGTH, f"design:{at.system_path}.outdoor.pipes[{i}].length"
        )
        for i, (run, (length, _)) in enumerate(zip(runs, lengths, strict=True))
    )
    return (Step(use.measure.value, "total", inputs, Dimension.LENGTH, series.value, note=_lower(series)),)


def _lower(series: Series) -> str:
    return f"a lower bound without {', '.join(series.missing)}" if series.missing else ""
