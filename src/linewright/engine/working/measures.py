"""Working of a measure: the items of its series, then its aggregate."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from linewright.book.measures import FACTS, MeasureName
from linewright.book.schema import AllowanceAt, CountBy, InOut, Lengths, MeasureUse, Origin
from linewright.engine.figures import Series
from linewright.engine.lengths import main_factors
from linewright.engine.measures import PLAIN_USES, measure, variant_words
from linewright.engine.measures.reach import run_is_up
from linewright.engine.measures.registry import SMALLEST
from linewright.engine.records import Sense
from linewright.engine.working.places import Places
from linewright.engine.working.steps import Input, Step
from linewright.model.values import NodeKind, Role
from linewright.units import Dimension

M = MeasureName
Explain = Callable[[Places, MeasureUse, Series, Sense], tuple[Step, ...]]


def measure_steps(at: Places, use: MeasureUse, sense: Sense | None = None) -> tuple[Step, ...]:
    """Steps that give a measure in the variant of `use`."""
    series = measure(at.result.state, use, sense)
    if sense is None:
        sense = Sense.MIN if use.measure in SMALLEST else Sense.MAX
    if not series.applicable:
        return (Step(use.measure.value, "count", (), Dimension.NUMBER, None, note="not applicable to this system"),)
    if series.value is None:
        missing = ", ".join((*series.missing, *sorted(series.incomplete)))
        return (Step(use.measure.value, "count", (), Dimension.NUMBER, None, note=f"unknown without {missing}"),)
    return EXPLAIN[use.measure](at, use, series, sense)


def use_key(use: MeasureUse) -> str:
    """Name of a measure with its variant, as subjects write it."""
    words = variant_words(use)
    return f"{use.measure}[{words}]" if words else use.measure.value


def uses_of(at: Places) -> dict[str, MeasureUse]:
    """Every measure that the book's limits, conditions and needs name, and every plain one."""
    book = at.result.state.ground.book.book
    found: dict[str, MeasureUse] = {}
    for limit in book.limits:
        needs = [need for relaxed in limit.relaxed for need in relaxed.needs if need.measure is not None]
        for use in (limit, *limit.when, *needs):
            found.setdefault(use_key(use), use)
    for action in book.sizing.actions:
        if action.when is not None:
            found.setdefault(use_key(action.when), action.when)
    for name, use in PLAIN_USES.items():
        found.setdefault(name.value, use)
    return found


def item_steps(at: Places, use: MeasureUse, name: str) -> tuple[Step, ...] | None:
    """Steps of one item of a series, or none where the series has no such item."""
    series = measure(at.result.state, use)
    if name not in series.values:
        return None
    return (_item(at, use, name, series.values[name]),)


def _along(at: Places, use: MeasureUse, series: Series, sense: Sense) -> tuple[Step, ...]:
    """Reaches: the way to what governs, then the largest (or smallest) of the series."""
    steps = [_way(at, use, name, series.values[name]) for name in _shown(series)]
    return (*steps, _aggregate(at, use, series, sense))


def _spread(at: Places, use: MeasureUse, series: Series, sense: Sense) -> tuple[Step, ...]:  # noqa: ARG001 - one signature
    high = min(name for name, item in series.values.items() if item == max(series.values.values()))
    low = min(name for name, item in series.values.items() if item == min(series.values.values()))
    steps = [_item(at, use, name, series.values[name]) for name in dict.fromkeys((high, low))]
    inputs = tuple(Input(f"{use.measure} of {name}", series.values[name], Dimension.LENGTH, _item_from(at, use, name)) for name in (high, low))
    return (*steps, Step(use.measure.value, "difference", inputs, Dimension.LENGTH, series.value))


def _items(at: Places, use: MeasureUse, series: Series, sense: Sense) -> tuple[Step, ...]:
    return (*(_item(at, use, name, series.values[name]) for name in _shown(series)), _aggregate(at, use, series, sense))


def _shown(series: Series) -> tuple[str, ...]:
    return series.governs or tuple(sorted(series.values))[:1]


def _aggregate(at: Places, use: MeasureUse, series: Series, sense: Sense) -> Step:
    formula = "largest" if sense is Sense.MAX else "smallest"
    inputs = tuple(Input(name, series.values[name], _dimension(use), _item_from(at, use, name)) for name in sorted(series.values))
    note = f"lower bounds: {', '.join(sorted(series.incomplete))}" if series.incomplete else ""
    return Step(use.measure.value, formula, inputs, _dimension(use), series.value, note=note)


def _dimension(use: MeasureUse) -> Dimension:
    return FACTS[use.measure].dimension


def _item_from(at: Places, use: MeasureUse, name: str) -> str:
    return at.subject(f"measure:{use_key(use)}@{name}")


def _item(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    """One item of a series of levels, indices or reaches."""
    if use.measure in ALONG:
        return _way(at, use, name, value)
    return ITEMS[use.measure](at, use, name, value)


def _way(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    """Sum of the runs that a reach counts."""
    if use.measure in (M.FARTHEST_ACTUAL, M.FARTHEST_EQUIVALENT, M.NEAREST_FARTHEST_DIFFERENCE):
        inputs = _reach_inputs(at, use, name, value)
    elif use.measure is M.AFTER_FIRST_BRANCH:
        inputs = _after_inputs(at, use, name, value)
    elif use.measure is M.MAIN_LENGTH:
        inputs = _best(at, use, lambda role: at.way_to(name), value)
    else:
        tree = at.result.tree
        joint = tree.last_fitting[tree.at[name]]
        inputs = _best(at, use, lambda role: at.way_to(name, after=tree.ids[joint]), value)
    return Step(f"{use.measure} of {name}", "total", inputs, Dimension.LENGTH, value)


def _best(at: Places, use: MeasureUse, way: Callable[[Role | None], tuple[str, ...]], value: float) -> tuple[Input, ...]:
    """Inputs of the line whose sum is the value (with two judged lines the longer counts)."""
    options = [
        tuple(at.run_length(run, equivalent=role is not None, role=role) for run in way(role)) for role in _roles(at, use)
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
            inputs.insert(0, Input("module pipes to the farthest module", before, Dimension.LENGTH, f"design:{at.system_path}.outdoor.pipes"))
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
    state, tree = at.result.state, at.result.tree
    first = tree.first_branch
    if first is None:
        return ()
    options = []
    for role in _roles(at, use):
        way = at.way_to(name, after=tree.ids[first])
        inputs = [at.run_length(run, equivalent=role is not None, role=role) for run in way]
        if role is not None and (own := _first_allowance(at, use, role, first, way[0])):
            inputs.append(Input("the first branch's own allowance", own, Dimension.LENGTH, at.in_book("fittings.allowance")))
        options.append(tuple(inputs))
    return min(options, key=lambda inputs: abs(sum(float(item.value) for item in inputs) - value))


def _first_allowance(at: Places, use: MeasureUse, role: Role, first: int, child: str) -> float:
    lengths, state = at.result.state.lengths, at.result.state
    parts = lengths.parts[lengths.roles.index(role)]
    if use.first_branch_allowance is InOut.IN:
        return parts[first].far_m or 0.0
    if state.ground.book.book.fittings.allowance_at is AllowanceAt.ENTERS:
        return 0.0
    return -(parts[at.result.tree.at[child]].near_m or 0.0)


def _total(at: Places, use: MeasureUse, series: Series, sense: Sense) -> tuple[Step, ...]:  # noqa: ARG001 - one signature
    state, tree = at.result.state, at.result.tree
    after_main = state.origin(use) is Origin.FIRST_BRANCH
    options = []
    for role in _roles(at, use):
        inputs = []
        for i, name in enumerate(tree.ids):
            if after_main and state.ground.is_main[i]:
                continue
            item = at.run_length(name, equivalent=role is not None, role=role)
            inputs.append(item)
            if use.upsized_twice and run_is_up(state, i):
                inputs.append(item._replace(name=f"{item.name}, again: upsized"))
        if use.module_pipes is InOut.IN:
            pipes = sum(pipe[0] for pipe in state.ground.pipes.length_m[role])
            inputs.append(Input("module pipes", pipes, Dimension.LENGTH, f"design:{at.system_path}.outdoor.pipes"))
        options.append(tuple(inputs))
    inputs_of = max(options, key=lambda items: sum(float(item.value) for item in items))
    length = sum(float(item.value) for item in inputs_of)
    steps = [Step(use.measure.value, "total", inputs_of, Dimension.LENGTH, length, note=_lower(series))]
    if use.each_tube:
        tubes = Input("tubes of a run", float(len(state.sized.by_role)), Dimension.NUMBER, at.in_book("tubes"))
        whole = Input("length of all runs", length, Dimension.LENGTH, at.subject("measure:total_length"))
        steps.append(Step(f"{use.measure}, each tube", "product", (whole, tubes), Dimension.LENGTH, series.value))
    return tuple(steps)


def _lower(series: Series) -> str:
    return f"a lower bound without {', '.join(series.missing)}" if series.missing else ""


def _level_item(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    levels = at.result.state.ground.levels
    above = use.measure is M.LEVEL_OUTDOOR_ABOVE
    outdoor = (levels.highest_outdoor_m if above else levels.lowest_outdoor_m) or 0.0
    pair = (
        Input("outdoor level", outdoor, Dimension.LENGTH, f"design:{at.system_path}.outdoor.elevation"),
        Input(f"level of {name}", levels.node_m[at.result.tree.at[name]] or 0.0, Dimension.LENGTH, at.subject(f"run:{name}.level")),
    )
    return Step(f"{use.measure} of {name}", "excess", pair if above else pair[::-1], Dimension.LENGTH, value)


def _unit_level_item(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    item = Input(f"level of {name}", value, Dimension.LENGTH, at.subject(f"run:{name}.level"))
    return Step(f"level of {name}", "stated", (item,), _dimension(use), value)


def _joint_level_item(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    tree, levels = at.result.tree, at.result.state.ground.levels
    joint = tree.ids[tree.last_fitting[tree.at[name]]]
    inputs = tuple(
        Input(f"level of {node}", levels.node_m[tree.at[node]] or 0.0, Dimension.LENGTH, at.subject(f"run:{node}.level"))
        for node in (name, joint)
    )
    return Step(f"{use.measure} of {name}", "distance", inputs, Dimension.LENGTH, value)


def _module_item(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    ground = at.result.state.ground
    module = next(module for module in ground.modules if module.id == name)
    if use.measure in (M.MODULE_PIPE, M.MODULE_PIPE_DIFFERENCE):
        roles = at.result.state.lengths.roles if use.lengths is Lengths.EQUIVALENT else (None,)
        options = [
            tuple(
                Input(f"module pipe to {ground.system.outdoor.pipes[i].to}", ground.pipes.length_m[role][i][0], Dimension.LENGTH, f"design:{at.system_path}.outdoor.pipes[{i}].length")
                for i in module.path
            )
            for role in roles
        ]
        inputs = min(options, key=lambda items: abs(sum(float(item.value) for item in items) - value))
        return Step(f"{use.measure} of {name}", "total", inputs, Dimension.LENGTH, value)
    item = Input(f"level of {name}", value, Dimension.LENGTH, f"design:{at.system_path}.outdoor.modules")
    return Step(f"{use.measure} of {name}", "stated", (item,), Dimension.LENGTH, value)


def _rise_item(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    item = Input(f"rise up to {name} since the last trap", value, Dimension.LENGTH, at.subject(f"run:{name}.rise"))
    return Step(f"{use.measure} of {name}", "stated", (item,), Dimension.LENGTH, value)


def _index_item(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    if use.measure in (M.SMALLEST_INDEX, M.LARGEST_INDEX_SHARE):
        unit = at.units[name]
        index = Input(f"index of {name}", unit.index, Dimension.NUMBER, at.model_path(unit.model))
        if use.measure is M.SMALLEST_INDEX:
            return Step(f"index of {name}", "stated", (index,), Dimension.NUMBER, value)
        outdoor = Input("outdoor index", at.result.outdoor_index, Dimension.NUMBER, at.group_path())
        return Step(f"share of {name}", "ratio", (index, outdoor), Dimension.RATIO, value)
    through = Input(f"index through {name}", at.runs[name].downstream_index, Dimension.NUMBER, at.subject(f"run:{name}.index"))
    if use.measure is M.ARM_INDEX_SHARE:
        joint = at.runs[name].from_
        whole = Input(f"index through {joint}", at.runs[joint].downstream_index, Dimension.NUMBER, at.subject(f"run:{joint}.index"))
        return Step(f"share of {name}", "ratio", (through, whole), Dimension.RATIO, value)
    return Step(f"{use.measure} of {name}", "stated", (through,), Dimension.NUMBER, value)


def _fitting_count_item(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    kinds = {fitting.id: fitting.kind for fitting in at.result.fittings}
    passed = [run for run in at.way_to(name) if kinds.get(run) in (NodeKind.JOINT, NodeKind.HEADER)]
    inputs = tuple(Input(run, 1.0, Dimension.NUMBER, at.run_path(run)) for run in passed)
    return Step(f"{use.measure} of {name}", "count", inputs, Dimension.NUMBER, value)


def _straight_item(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    fittings = at.result.system.fittings
    position = next(i for i, fitting in enumerate(fittings) if fitting.id == name)
    item = Input(f"{use.measure} {name}", value, Dimension.LENGTH, f"design:{at.system_path}.fittings[{position}].{use.measure}")
    return Step(f"{use.measure} of {name}", "stated", (item,), Dimension.LENGTH, value)


def _counted(at: Places, use: MeasureUse, series: Series, sense: Sense) -> tuple[Step, ...]:  # noqa: ARG001 - one signature
    names: tuple[str, ...] = series.governs
    if use.measure is M.INDOOR_COUNT:
        ground = at.result.state.ground
        names = tuple(ground.system.units[i].id for i in ground.units_where(use.where))
    elif use.measure is M.FITTING_COUNT:
        names = tuple(fitting.id for fitting in at.result.fittings if fitting.kind is not NodeKind.COUPLING)
    inputs = tuple(Input(name, 1.0, Dimension.NUMBER, _counted_from(at, name)) for name in names)
    return (Step(use.measure.value, "count", inputs, Dimension.NUMBER, series.value),)


def _counted_from(at: Places, name: str) -> str:
    if name in at.units:
        return at.unit_path(name)
    return at.run_path(name) if name in at.runs else f"design:{at.system_path}.outdoor.modules"


def _fittings_on_way(at: Places, use: MeasureUse, series: Series, sense: Sense) -> tuple[Step, ...]:
    return _counted(at, use, series, sense) if use.in_all else _items(at, use, series, sense)


def _connection_ratio(at: Places, use: MeasureUse, series: Series, sense: Sense) -> tuple[Step, ...]:  # noqa: ARG001
    ground = at.result.state.ground
    power = use.count_by is not CountBy.INDEX
    dimension = Dimension.POWER if power else Dimension.NUMBER
    inputs = []
    for i in ground.units_where(use.where):
        model, unit = ground.models[i], ground.system.units[i]
        value = {CountBy.COOLING: model.cooling_w, CountBy.HEATING: model.heating_w}.get(use.count_by, model.index)
        inputs.append(Input(f"{use.count_by} of {unit.id}", value, dimension, at.model_path(unit.model)))
    outdoor = {CountBy.COOLING: ground.rated_cooling_w, CountBy.HEATING: ground.rated_heating_w}.get(use.count_by, ground.group.index)
    total = sum(float(item.value) for item in inputs)
    whole = Input("sum over the units", total, dimension, at.subject("indoor_index"))
    group = Input("outdoor group", outdoor, dimension, at.group_path())
    return (
        Step("sum over the units", "total", tuple(inputs), dimension, total),
        Step(use.measure.value, "ratio", (whole, group), Dimension.RATIO, series.value),
    )


def _charge(at: Places, use: MeasureUse, series: Series, sense: Sense) -> tuple[Step, ...]:  # noqa: ARG001
    charge = at.result.charge
    kg = Input("additional charge", charge.rounded_kg or 0.0, Dimension.MASS, at.subject("charge"))
    if use.measure is M.ADDITIONAL_CHARGE:
        return (Step(use.measure.value, "stated", (kg,), Dimension.MASS, series.value),)
    if use.measure is M.TOTAL_CHARGE:
        factory = Input("factory charge", charge.factory_kg, Dimension.MASS, at.group_path())
        return (Step(use.measure.value, "total", (factory, kg), Dimension.MASS, series.value),)
    lengths = tuple(at.run_length(name, equivalent=False) for name in at.result.tree.ids)
    total = sum(float(item.value) for item in lengths)
    length = Input("length of the runs", total, Dimension.LENGTH, at.subject("measure:total_length"))
    return (
        Step("length of the runs", "total", lengths, Dimension.LENGTH, total),
        Step(use.measure.value, "ratio", (kg, length), Dimension.LINEAR_MASS, series.value),
    )


ALONG = {
    M.FARTHEST_ACTUAL,
    M.FARTHEST_EQUIVALENT,
    M.NEAREST_FARTHEST_DIFFERENCE,
    M.AFTER_FIRST_BRANCH,
    M.LAST_JOINT_TO_UNIT,
    M.MAIN_LENGTH,
    M.JOINT_SPACING,
}

ITEMS: Mapping[MeasureName, Callable[[Places, MeasureUse, str, float], Step]] = {
    M.LEVEL_OUTDOOR_ABOVE: _level_item,
    M.LEVEL_OUTDOOR_BELOW: _level_item,
    M.LEVEL_BETWEEN_INDOOR: _unit_level_item,
    M.LEVEL_BETWEEN_MODULES: _module_item,
    M.LEVEL_UNIT_TO_JOINT: _joint_level_item,
    M.RISE_WITHOUT_TRAP: _rise_item,
    M.MODULE_PIPE: _module_item,
    M.MODULE_PIPE_DIFFERENCE: _module_item,
    M.MODULE_PIPE_RISE: _module_item,
    M.FITTING_INDEX: _index_item,
    M.HEADER_PORT_INDEX: _index_item,
    M.ARM_INDEX_SHARE: _index_item,
    M.SMALLEST_INDEX: _index_item,
    M.LARGEST_INDEX_SHARE: _index_item,
    M.FITTING_COUNT: _fitting_count_item,
    M.STRAIGHT_BEFORE: _straight_item,
    M.STRAIGHT_AFTER: _straight_item,
}

EXPLAIN: Mapping[MeasureName, Explain] = {
    **dict.fromkeys(ITEMS, _items),
    **dict.fromkeys(ALONG, _along),
    M.NEAREST_FARTHEST_DIFFERENCE: _spread,
    M.LEVEL_BETWEEN_INDOOR: _spread,
    M.LEVEL_BETWEEN_MODULES: _spread,
    M.MODULE_PIPE_DIFFERENCE: _spread,
    M.FITTING_COUNT: _fittings_on_way,
    M.TOTAL_LENGTH: _total,
    M.HEADER_DEPTH: _counted,
    M.INDOOR_COUNT: _counted,
    M.MODULE_ORDER: _counted,
    M.CONNECTION_RATIO: _connection_ratio,
    M.ADDITIONAL_CHARGE: _charge,
    M.TOTAL_CHARGE: _charge,
    M.CHARGE_PER_LENGTH: _charge,
}
