"""Measures of level, and of the pipes to the outdoor modules."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import pairwise

from linewright.book.measures import MeasureName
from linewright.book.schema import Lengths, MeasureUse
from linewright.engine.figures import Series
from linewright.engine.ground import Ground
from linewright.engine.lengths import judged_lines
from linewright.engine.measures.series import NOT_APPLICABLE, plain, spread, unknown, widest, worst
from linewright.engine.records import Sense
from linewright.engine.state import State
from linewright.model.tree import NO_PARENT
from linewright.units import over

#: What floats leave of two equal lengths [m] lies beyond these.
DECIMALS = 9


def level_outdoor_above(state: State, use: MeasureUse, sense: Sense) -> Series:
    """Outdoor level less each unit's level, never below zero."""
    known, missing = _unit_levels(state.ground, use)
    top = state.ground.levels.highest_outdoor_m
    if top is None:
        return _without_outdoor(known, missing)
    return _with_missing({name: max(top - level, 0.0) for name, level in known.items()}, missing, sense)


def level_outdoor_below(state: State, use: MeasureUse, sense: Sense) -> Series:
    """Each unit's level less outdoor level, never below zero."""
    known, missing = _unit_levels(state.ground, use)
    low = state.ground.levels.lowest_outdoor_m
    if low is None:
        return _without_outdoor(known, missing)
    return _with_missing({name: max(level - low, 0.0) for name, level in known.items()}, missing, sense)


def level_between_indoor(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Highest unit less lowest unit."""
    known, missing = _unit_levels(state.ground, use)
    if missing:
        return unknown(*missing)
    return spread(known, ()) if known else NOT_APPLICABLE


def level_unit_to_joint(state: State, use: MeasureUse, sense: Sense) -> Series:
    """Difference of level between each unit and the branch fitting nearest to it."""
    ground = state.ground
    if ground.tree.first_branch is None:
        return NOT_APPLICABLE
    known, missing = _unit_levels(ground, use)
    values: dict[str, float] = {}
    for name, level in known.items():
        joint = ground.tree.last_fitting[ground.tree.at[name]]
        at = ground.levels.node_m[joint]
        if at is None:
            missing.append(f"elevation of {ground.tree.ids[joint]}")
        else:
            values[name] = abs(level - at)
    return _with_missing(values, missing, sense)


def rise_without_trap(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Upward rise on the way outward since the last oil trap; what lies beyond an unknown rise is a lower bound."""
    ground = state.ground
    since: list[tuple[float, bool]] = []
    values: dict[str, float] = {}
    missing, beyond = [], []
    for i, (name, before) in enumerate(zip(ground.tree.ids, ground.tree.parent, strict=True)):
        rise = ground.levels.rise_m[i]
        if rise is None:
            missing.append(f"rise of run {name}")
            since.append((0.0, True))
            continue
        carried, doubtful = since[before] if before != NO_PARENT else (0.0, False)
        traps = sum([item.count for item in ground.tree.runs[i].items if item.kind == "trap"])
        part = rise / (traps + 1)
        values[name] = max(carried + part, part if traps else 0.0, 0.0)
        if doubtful:
            beyond.append(name)
        since.append((max(part, 0.0), False) if traps else (max(carried + rise, 0.0), doubtful))
    return _with_missing(values, missing, sense)._replace(incomplete=frozenset(beyond))


def level_between_modules(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Highest module less lowest."""
    modules = state.ground.modules
    if len(modules) == 1:
        return NOT_APPLICABLE
    known = {module.id: module.elevation_m for module in modules if module.elevation_m is not None}
    if len(known) < len(modules):
        return unknown(*(f"elevation of {module.id}" for module in modules if module.id not in known))
    return spread(known, ())


def module_pipe(state: State, use: MeasureUse, sense: Sense) -> Series:
    """Length from the root to each module, by the longer of the judged lines."""
    without = _without_pipes(state.ground)
    if without is not None:
        return without
    lines = _modules(state, use)
    longest = {name: max(lengths[name] for lengths, _ in lines) for name in lines[0][0]}
    return worst(longest, [name for _, flagged in lines for name in flagged], sense)


def module_pipe_difference(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Longest less shortest length to a module, along the line on which it is larger."""
    without = _without_pipes(state.ground)
    return widest([spread(*line) for line in _modules(state, use)]) if without is None else without


def module_pipe_total(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """All module pipes, each once; of two judged lines the longer."""
    ground = state.ground
    if len(ground.modules) == 1:
        return NOT_APPLICABLE
    roles = judged_lines(state.ground) if use.lengths is Lengths.EQUIVALENT else (None,)
    pipes = [ground.pipes.length_m[role] for role in roles]
    open_ = not ground.pipes.stated or any(missing for of_role in pipes for _, missing in of_role)
    length = max(sum((length for length, _ in of_role), 0.0) for of_role in pipes)
    return plain(length, missing=("lengths of module pipes",) if open_ else ())


def module_pipe_rise(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Level of each module above the root."""
    ground = state.ground
    if len(ground.modules) == 1:
        return NOT_APPLICABLE
    values: dict[str, float] = {}
    missing: list[str] = []
    for module in ground.modules:
        if module.rise_m is None:
            missing.append(f"level of {module.id} above the first outdoor joint")
        else:
            values[module.id] = max(module.rise_m, 0.0)
    return _with_missing(values, missing, sense)


def module_order(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Modules larger than the one before them, seen outward."""
    ground = state.ground
    if len(ground.modules) == 1:
        return NOT_APPLICABLE
    pipes = ground.pipes.length_m[None]
    if not ground.pipes.stated or any(pipe[1] for pipe in pipes):
        return unknown("lengths of module pipes")
    outward = sorted(ground.modules, key=lambda module: round(sum(pipes[i][0] for i in module.path), DECIMALS))
    wrong = sorted(after.id for before, after in pairwise(outward) if over(after.data.index, before.data.index))
    return plain(float(len(wrong)), tuple(wrong))


def _without_outdoor(known: Mapping[str, float], missing: list[str]) -> Series:
    """What is measured against an outdoor group whose level is unknown."""
    return unknown("elevation of the outdoor group") if known or missing else NOT_APPLICABLE


def _unit_levels(ground: Ground, use: MeasureUse) -> tuple[Mapping[str, float], list[str]]:
    """Known levels [m] by unit, and what is missing."""
    known, unknown_units = ground.levels.of_units_m, ground.levels.unknown_units
    if use.where is not None:
        kept = {ground.system.units[unit].id for unit in ground.units_where(use.where)}
        known = {name: level for name, level in known.items() if name in kept}
        unknown_units = tuple([name for name in unknown_units if name in kept])
    return known, [f"elevation of {name}" for name in unknown_units]


def _with_missing(values: dict[str, float], missing: list[str], sense: Sense) -> Series:
    if not values:
        return unknown(*missing) if missing else NOT_APPLICABLE
    return worst(values, (), sense)._replace(missing=tuple(missing))


def _modules(state: State, use: MeasureUse) -> list[tuple[dict[str, float], list[str]]]:
    """Length to each module along each judged line, and which of them are only lower bounds."""
    ground, found = state.ground, []
    roles = judged_lines(state.ground) if use.lengths is Lengths.EQUIVALENT else (None,)
    for role in roles:
        pipes = ground.pipes.length_m[role]
        lengths = {module.id: sum([pipes[i][0] for i in module.path]) for module in ground.modules}
        found.append((lengths, [module.id for module in ground.modules if any(pipes[i][1] for i in module.path)]))
    return found


def _without_pipes(ground: Ground) -> Series | None:
    """What is measured of module pipes where there are none."""
    if len(ground.modules) == 1:
        return NOT_APPLICABLE
    return None if ground.pipes.stated else unknown("lengths of module pipes")


HEIGHTS = {
    MeasureName.LEVEL_OUTDOOR_ABOVE: level_outdoor_above,
    MeasureName.LEVEL_OUTDOOR_BELOW: level_outdoor_below,
    MeasureName.LEVEL_BETWEEN_INDOOR: level_between_indoor,
    MeasureName.LEVEL_UNIT_TO_JOINT: level_unit_to_joint,
    MeasureName.RISE_WITHOUT_TRAP: rise_without_trap,
    MeasureName.LEVEL_BETWEEN_MODULES: level_between_modules,
    MeasureName.MODULE_PIPE: module_pipe,
    MeasureName.MODULE_PIPE_TOTAL: module_pipe_total,
    MeasureName.MODULE_PIPE_DIFFERENCE: module_pipe_difference,
    MeasureName.MODULE_PIPE_RISE: module_pipe_rise,
    MeasureName.MODULE_ORDER: module_order,
}
