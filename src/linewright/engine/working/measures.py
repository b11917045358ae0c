"""Working of a measure: the items of its series, then its aggregate."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from linewright.book.measures import FACTS, MeasureName
from linewright.book.schema import CountBy, MeasureUse
from linewright.engine.figures import Series
from linewright.engine.formulas import need_share
from linewright.engine.measures import PLAIN_USES, measure, variant_words
from linewright.engine.measures.registry import SMALLEST
from linewright.engine.measures.series import first_at
from linewright.engine.records import Sense
from linewright.engine.working.along import ALONG, module_pipes_steps, total_steps, way_step
from linewright.engine.working.items import ITEMS
from linewright.engine.working.places import Places
from linewright.engine.working.steps import Input, Step
from linewright.model.values import NodeKind
from linewright.units import Dimension

M = MeasureName
Explain = Callable[[Places, MeasureUse, Series, Sense], tuple[Step, ...]]


def measure_steps(at: Places, use: MeasureUse, sense: Sense | None = None) -> tuple[Step, ...]:
    """Steps that give a measure in the variant of `use`."""
    series = measure(at.result.state, use, sense)
    if sense is None or use.measure in SMALLEST:
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
        for use in (limit, *(one for one in limit.when if one.measure is not None), *needs):
            found.setdefault(use_key(use), use)
    for action in book.sizing.actions:
        if action.when is not None and action.when.measure is not None:
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
    steps = [way_step(at, use, name, series.values[name]) for name in _shown(series)]
    return (*steps, _aggregate(at, use, series, sense))


def _spread(at: Places, use: MeasureUse, series: Series, sense: Sense) -> tuple[Step, ...]:  # noqa: ARG001
    values = series.values
    ends = (first_at(values, max(values.values())), first_at(values, min(values.values())))
    steps = [_item(at, use, name, values[name]) for name in dict.fromkeys(ends)]
    inputs = tuple(
        Input(f"{use.measure} of {name}", values[name], Dimension.LENGTH, _item_from(at, use, name)) for name in ends
    )
    return (*steps, Step(use.measure.value, "difference", inputs, Dimension.LENGTH, series.value))


def _items(at: Places, use: MeasureUse, series: Series, sense: Sense) -> tuple[Step, ...]:
    return (
        *(_item(at, use, name, series.values[name]) for name in _shown(series)),
        _aggregate(at, use, series, sense),
    )


def _shown(series: Series) -> tuple[str, ...]:
    return series.governs or tuple(sorted(series.values))[:1]


def _aggregate(at: Places, use: MeasureUse, series: Series, sense: Sense) -> Step:
    formula = "largest" if sense is Sense.MAX else "smallest"
    inputs = tuple(
        Input(name, series.values[name], _dimension(use), _item_from(at, use, name)) for name in sorted(series.values)
    )
    note = f"lower bounds: {', '.join(sorted(series.incomplete))}" if series.incomplete else ""
    return Step(use.measure.value, formula, inputs, _dimension(use), series.value, note=note)


def _dimension(use: MeasureUse) -> Dimension:
    return FACTS[use.measure].dimension


def _item_from(at: Places, use: MeasureUse, name: str) -> str:
    return at.subject(f"measure:{use_key(use)}@{name}")


def _item(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    """One item of a series of levels, indices or reaches."""
    if use.measure in ALONG:
        return way_step(at, use, name, value)
    return ITEMS[use.measure](at, use, name, value)


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
    if use.count_by is CountBy.SIMULTANEOUS:
        return _simultaneous(at, use, series)
    ground = at.result.state.ground
    power = use.count_by is not CountBy.INDEX
    dimension = Dimension.POWER if power else Dimension.NUMBER
    inputs = []
    for i in ground.units_where(use.where):
        model, unit = ground.models[i], ground.system.units[i]
        value = {CountBy.COOLING: model.cooling_w, CountBy.HEATING: ground.heating_w[i]}.get(use.count_by, model.index)
        inputs.append(Input(f"{use.count_by} of {unit.id}", value, dimension, at.model_path(unit.model)))
    outdoor = {CountBy.COOLING: ground.rated_cooling_w, CountBy.HEATING: ground.rated_heating_w}.get(
        use.count_by, ground.group.index
    )
    total = sum(float(item.value) for item in inputs)
    whole = Input("sum over the units", total, dimension, at.subject(f"measure:{use_key(use)}"))
    group = Input("outdoor group", outdoor, dimension, at.group_path())
    return (
        Step("sum over the units", "total", tuple(inputs), dimension, total),
        Step(use.measure.value, "ratio", (whole, group), Dimension.RATIO, series.value),
    )


def _simultaneous(at: Places, use: MeasureUse, series: Series) -> tuple[Step, ...]:
    """Coincident load over the rated cooling; the load is the block load, or the system's part of its rooms' loads."""
    ground = at.result.state.ground
    demand = ground.surroundings.demand_w or 0.0
    block = at.result.system.block
    rated = Input("rated cooling of the group", ground.rated_cooling_w, Dimension.POWER, at.group_path())
    if block is not None and block.cooling_w is not None:
        load = Input("block load", demand, Dimension.POWER, f"design:{at.system_path}.block.cooling")
        return (Step(use.measure.value, "ratio", (load, rated), Dimension.RATIO, series.value),)
    parts = tuple(_parts(at))
    whole = Input("loads at one time", demand, Dimension.POWER, at.subject(f"measure:{use_key(use)}"))
    loads = tuple(
        Input(f"part of {step.name}", float(step.result or 0.0), Dimension.POWER, whole.from_) for step in parts
    )
    return (
        *parts,
        Step("loads at one time", "total", loads, Dimension.POWER, demand),
        Step(use.measure.value, "ratio", (whole, rated), Dimension.RATIO, series.value),
    )


def _parts(at: Places) -> Iterator[Step]:
    """Each unit's part of the load of its room, by rated cooling."""
    evaluation, ground = at.evaluation, at.result.state.ground
    rated: dict[str, list[float]] = {}
    for system in evaluation.systems:
        for unit, model in zip(system.system.units, system.state.ground.models, strict=True):
            rated.setdefault(unit.room, []).append(model.cooling_w)
    for unit, model in zip(ground.system.units, ground.models, strict=True):
        found = at.room(unit.room)
        if found is None or found[1].cooling_w is None:
            continue
        inputs = (
            Input(f"load of {unit.room}", found[1].cooling_w, Dimension.POWER, f"design:rooms[{found[0]}].cooling"),
            Input(f"rated cooling of {unit.id}", model.cooling_w, Dimension.POWER, at.model_path(unit.model)),
            Input("rated cooling in the room", sum(rated[unit.room]), Dimension.POWER, at.model_path(unit.model)),
        )
        yield Step(f"load of {unit.id}", "need_share", inputs, Dimension.POWER, need_share(*(i.value for i in inputs)))  # type: ignore[arg-type]


def _index_share(at: Places, use: MeasureUse, series: Series, sense: Sense) -> tuple[Step, ...]:  # noqa: ARG001
    ground = at.result.state.ground
    inputs = tuple(
        Input(
            f"index of {ground.system.units[i].id}",
            ground.models[i].index,
            Dimension.NUMBER,
            at.model_path(ground.system.units[i].model),
        )
        for i in ground.units_where(use.where)
    )
    kept = sum((float(item.value) for item in inputs), 0.0)
    some = Input("sum of those that are kept", kept, Dimension.NUMBER, at.subject(f"measure:{use_key(use)}"))
    whole = Input("indoor index", ground.index_sum, Dimension.NUMBER, at.subject("indoor_index"))
    return (
        Step("sum of those that are kept", "total", inputs, Dimension.NUMBER, kept),
        Step(use.measure.value, "ratio", (some, whole), Dimension.RATIO, series.value),
    )


def _charge(at: Places, use: MeasureUse, series: Series, sense: Sense) -> tuple[Step, ...]:  # noqa: ARG001
    charge = at.result.state.charge
    kg = Input("additional charge", charge.rounded_kg or 0.0, Dimension.MASS, at.subject("charge"))
    if use.measure is M.ADDITIONAL_CHARGE:
        return (Step(use.measure.value, "stated", (kg,), Dimension.MASS, series.value),)
    if use.measure is M.TOTAL_CHARGE:
        factory = Input("factory charge", charge.factory_kg, Dimension.MASS, at.group_path())
        return (Step(use.measure.value, "total", (factory, kg), Dimension.MASS, series.value),)
    lengths = tuple(at.run_length(name, equivalent=False) for name in at.result.tree.ids)
    total = sum(float(item.value) for item in lengths)
    length = Input("length of the runs", total, Dimension.LENGTH, at.subject(f"measure:{use_key(use)}"))
    return (
        Step("length of the runs", "total", lengths, Dimension.LENGTH, total),
        Step(use.measure.value, "ratio", (kg, length), Dimension.LINEAR_MASS, series.value),
    )


EXPLAIN: Mapping[MeasureName, Explain] = {
    **dict.fromkeys(ITEMS, _items),
    **dict.fromkeys(ALONG, _along),
    M.NEAREST_FARTHEST_DIFFERENCE: _spread,
    M.LEVEL_BETWEEN_INDOOR: _spread,
    M.LEVEL_BETWEEN_MODULES: _spread,
    M.LEVEL_BETWEEN_BOXES: _spread,
    M.MODULE_PIPE_DIFFERENCE: _spread,
    M.MODULE_PIPE_TOTAL: module_pipes_steps,
    M.FITTING_COUNT: _fittings_on_way,
    M.TOTAL_LENGTH: total_steps,
    M.HEADER_DEPTH: _counted,
    M.INDOOR_COUNT: _counted,
    M.MODULE_ORDER: _counted,
    M.BOX_COUNT: _counted,
    M.CONNECTION_RATIO: _connection_ratio,
    M.INDEX_SHARE: _index_share,
    M.ADDITIONAL_CHARGE: _charge,
    M.TOTAL_CHARGE: _charge,
    M.CHARGE_PER_LENGTH: _charge,
}
