"""Measures of mode boxes: where they stand, what hangs on them, how they follow one another."""

from __future__ import annotations

from linewright.book.measures import MeasureName
from linewright.book.schema import Lengths, MeasureUse
from linewright.engine.figures import Series
from linewright.engine.lengths import Line
from linewright.engine.measures.reach import Items, between, longer, named_worst
from linewright.engine.measures.series import NOT_APPLICABLE, NOTHING, plain, spread, unknown, worst
from linewright.engine.records import Sense
from linewright.engine.state import State
from linewright.model.tree import NO_PARENT


def joint_to_box(state: State, use: MeasureUse, sense: Sense) -> Series:
    """Length from each box back to the branch fitting nearest before it, or to the root."""
    nodes = [box.run for box in state.ground.boxes]
    lines = state.lines(equivalent=use.lengths is Lengths.EQUIVALENT)
    return named_worst(state, nodes, longer([_back_to_branch(state, line, nodes) for line, _ in lines]), sense)


def _back_to_branch(state: State, line: Line, nodes: list[int]) -> Items:
    """Lengths from nodes back to the branch fitting before each; before the first there is the root."""
    before = state.ground.tree.last_fitting
    first = [node for node in nodes if before[node] == NO_PARENT]
    others = [node for node in nodes if before[node] != NO_PARENT]
    found = between(state, line, others, [before[node] for node in others])
    of_node = dict(zip(others, zip(*found, strict=True), strict=True))
    of_node |= {node: (line.reach_m[node], line.reach_missing[node]) for node in first}
    return Items([of_node[node][0] for node in nodes], [of_node[node][1] for node in nodes])


def box_to_unit(state: State, use: MeasureUse, sense: Sense) -> Series:
    """Length from its box to each unit behind one."""
    ground = state.ground
    if not ground.boxes:
        return NOT_APPLICABLE
    runs = [ground.tree.unit_runs[unit] for unit in ground.units_where(use.where)]
    nodes = [run for run in runs if ground.box_before[run] != NO_PARENT]
    back_to = [ground.box_before[node] for node in nodes]
    lines = state.lines(equivalent=use.lengths is Lengths.EQUIVALENT)
    return named_worst(state, nodes, longer([between(state, line, nodes, back_to) for line, _ in lines]), sense)


def level_between_boxes(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Highest less lowest box."""
    ground = state.ground
    if len(ground.boxes) < 2:
        return NOT_APPLICABLE
    levels = {box.id: ground.levels.node_m[box.run] for box in ground.boxes}
    known = {name: level for name, level in levels.items() if level is not None}
    if len(known) < len(levels):
        return unknown(*(f"elevation of {name}" for name in sorted(levels) if name not in known))
    return spread(known, ())


def level_within_box(state: State, use: MeasureUse, sense: Sense) -> Series:
    """Highest less lowest of the units behind each box."""
    ground = state.ground
    by_box = unit_levels(state, use)
    missing = [name for levels in by_box.values() for name, level in levels.items() if level is None]
    values = {
        ground.tree.ids[box]: max(known) - min(known)
        for box, levels in by_box.items()
        if (known := [level for level in levels.values() if level is not None])
    }
    lacking = tuple(f"elevation of {name}" for name in sorted(missing))
    if not values:
        return unknown(*lacking) if lacking else NOT_APPLICABLE
    return worst(values, NOTHING, sense)._replace(missing=lacking)


def box_index(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Index on the own ports of each box."""
    return worst({box.id: box.own_index for box in state.ground.boxes}, NOTHING, sense)


def through_index(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Index that each box carries on to boxes behind it."""
    return worst({box.id: box.through_index for box in state.ground.boxes if box.through}, NOTHING, sense)


def port_index(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Index on each port, joined ports counting as one."""
    ids = state.ground.tree.ids
    outlets = [outlet for box in state.ground.boxes for outlet in box.outlets]
    return worst({ids[outlet.run]: outlet.index for outlet in outlets}, NOTHING, sense)


def units_per_port(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Units on each port, joined ports counting as one."""
    ids = state.ground.tree.ids
    outlets = [outlet for box in state.ground.boxes for outlet in box.outlets]
    return worst({ids[outlet.run]: float(outlet.units) for outlet in outlets}, NOTHING, sense)


def boxes_in_series(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Boxes on the way to each box, with itself."""
    return worst({box.id: float(box.depth) for box in state.ground.boxes}, NOTHING, sense)


def box_count(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Boxes of the system."""
    names = tuple(sorted(box.id for box in state.ground.boxes))
    return plain(float(len(names)), names) if state.ground.zones else NOT_APPLICABLE


def unit_levels(state: State, use: MeasureUse) -> dict[int, dict[str, float | None]]:
    """Levels of the units behind each box (by the position of its run) that a measure counts [m]."""
    ground = state.ground
    found: dict[int, dict[str, float | None]] = {}
    for unit in ground.units_where(use.where) if ground.boxes else ():
        run = ground.tree.unit_runs[unit]
        box = ground.box_before[run]
        if box != NO_PARENT:
            found.setdefault(box, {})[ground.tree.ids[run]] = ground.levels.node_m[run]
    return found


BOXES = {
    MeasureName.JOINT_TO_BOX: joint_to_box,
    MeasureName.BOX_TO_UNIT: box_to_unit,
    MeasureName.LEVEL_BETWEEN_BOXES: level_between_boxes,
    MeasureName.LEVEL_WITHIN_BOX: level_within_box,
    MeasureName.BOX_INDEX: box_index,
    MeasureName.THROUGH_INDEX: through_index,
    MeasureName.PORT_INDEX: port_index,
    MeasureName.UNITS_PER_PORT: units_per_port,
    MeasureName.BOXES_IN_SERIES: boxes_in_series,
    MeasureName.BOX_COUNT: box_count,
}
