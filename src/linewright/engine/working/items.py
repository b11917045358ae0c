"""Working of one item of a series: a level, an index, a count, a module pipe."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from linewright.book.measures import FACTS, MeasureName
from linewright.book.schema import Lengths, MeasureUse
from linewright.engine.working.boxes import BOX_ITEMS
from linewright.engine.working.places import Places
from linewright.engine.working.steps import Input, Step
from linewright.model.tree import NO_PARENT, is_branch
from linewright.units import Dimension

M = MeasureName


def _level_item(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    levels = at.result.state.ground.levels
    above = use.measure is M.LEVEL_OUTDOOR_ABOVE
    outdoor = (levels.highest_outdoor_m if above else levels.lowest_outdoor_m) or 0.0
    pair = (
        Input("outdoor level", outdoor, Dimension.LENGTH, f"design:{at.system_path}.outdoor.elevation"),
        Input(
            f"level of {name}",
            levels.node_m[at.result.tree.at[name]] or 0.0,
            Dimension.LENGTH,
            at.subject(f"run:{name}.level"),
        ),
    )
    return Step(f"{use.measure} of {name}", "excess", pair if above else pair[::-1], Dimension.LENGTH, value)


def _unit_level_item(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    item = Input(f"level of {name}", value, Dimension.LENGTH, at.subject(f"run:{name}.level"))
    return Step(f"level of {name}", "stated", (item,), FACTS[use.measure].dimension, value)


def _joint_level_item(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    tree, levels = at.result.tree, at.result.state.ground.levels
    joint = tree.ids[tree.last_fitting[tree.at[name]]]
    inputs = tuple(
        Input(
            f"level of {node}",
            levels.node_m[tree.at[node]] or 0.0,
            Dimension.LENGTH,
            at.subject(f"run:{node}.level"),
        )
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
                Input(
                    f"module pipe to {ground.system.outdoor.pipes[i].to}",
                    ground.pipes.length_m[role][i][0],
                    Dimension.LENGTH,
                    f"design:{at.system_path}.outdoor.pipes[{i}].length",
                )
                for i in module.path
            )
            for role in roles
        ]
        inputs = min(options, key=lambda items: abs(sum(float(item.value) for item in items) - value))
        return Step(f"{use.measure} of {name}", "total", inputs, Dimension.LENGTH, value)
    item = Input(f"level of {name}", value, Dimension.LENGTH, f"design:{at.system_path}.outdoor.modules")
    return Step(f"{use.measure} of {name}", "stated", (item,), Dimension.LENGTH, value)


def _rise_item(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    """Rise of a run on top of what was carried from before; a trap begins anew."""
    tree, levels = at.result.tree, at.result.state.ground.levels
    run = tree.at[name]
    near = tree.parent[run]
    inputs = [
        Input(f"rise of {name}", levels.rise_m[run] or 0.0, Dimension.LENGTH, at.subject(f"run:{name}.rise")),
        Input(f"traps on {name}", float(_traps(at, run)), Dimension.NUMBER, f"{at.run_path(name)}.items"),
    ]
    carried = Input("carried at the root", 0.0, Dimension.LENGTH, f"design:{at.system_path}")
    if near != NO_PARENT:
        before, rise = tree.ids[near], levels.rise_m[near] or 0.0
        if _traps(at, near):
            after = max(rise / (_traps(at, near) + 1), 0.0)
            where = at.subject(f"run:{before}.rise")
            carried = Input(f"rise of {before} after its last trap", after, Dimension.LENGTH, where)
        else:
            climbed = at.measured(use).values.get(before, 0.0)
            where = at.subject(f"measure:{use.measure}@{before}")
            carried = Input(f"rise up to {before}", climbed, Dimension.LENGTH, where)
    return Step(f"{use.measure} of {name}", "climb", (carried, *inputs), Dimension.LENGTH, value)


def _traps(at: Places, run: int) -> int:
    return sum(item.count for item in at.result.tree.runs[run].items if item.kind == "trap")


def _index_item(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    if use.measure in (M.SMALLEST_INDEX, M.LARGEST_INDEX_SHARE):
        unit = at.units[name]
        index = Input(f"index of {name}", unit.index, Dimension.NUMBER, at.model_path(unit.model))
        if use.measure is M.SMALLEST_INDEX:
            return Step(f"index of {name}", "stated", (index,), Dimension.NUMBER, value)
        outdoor = Input("outdoor index", at.result.outdoor_index, Dimension.NUMBER, at.group_path())
        return Step(f"share of {name}", "ratio", (index, outdoor), Dimension.RATIO, value)
    through = Input(
        f"index through {name}",
        at.runs[name].downstream_index,
        Dimension.NUMBER,
        at.subject(f"run:{name}.index"),
    )
    if use.measure is M.ARM_INDEX_SHARE:
        joint = at.runs[name].from_
        whole = Input(
            f"index through {joint}",
            at.runs[joint].downstream_index,
            Dimension.NUMBER,
            at.subject(f"run:{joint}.index"),
        )
        return Step(f"share of {name}", "ratio", (through, whole), Dimension.RATIO, value)
    return Step(f"{use.measure} of {name}", "stated", (through,), Dimension.NUMBER, value)


def _fitting_count_item(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    kinds = {fitting.id: fitting.kind for fitting in at.result.fittings}
    passed = [run for run in at.way_to(name) if (kind := kinds.get(run)) is not None and is_branch(kind)]
    inputs = tuple(Input(run, 1.0, Dimension.NUMBER, at.run_path(run)) for run in passed)
    return Step(f"{use.measure} of {name}", "count", inputs, Dimension.NUMBER, value)


def _straight_item(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    fittings = at.result.system.fittings
    position = next(i for i, fitting in enumerate(fittings) if fitting.id == name)
    item = Input(
        f"{use.measure} {name}",
        value,
        Dimension.LENGTH,
        f"design:{at.system_path}.fittings[{position}].{use.measure}",
    )
    return Step(f"{use.measure} of {name}", "stated", (item,), Dimension.LENGTH, value)


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
    **BOX_ITEMS,
}
