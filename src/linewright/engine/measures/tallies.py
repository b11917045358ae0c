"""Measures that count or divide: fittings, headers, indices, ratios, charge."""

from __future__ import annotations

from linewright.book.measures import MeasureName
from linewright.book.schema import CountBy, MeasureUse
from linewright.engine.figures import Series
from linewright.engine.formulas import ratio
from linewright.engine.measures.series import NOT_APPLICABLE, NOTHING, plain, unknown, worst
from linewright.engine.records import Sense
from linewright.engine.state import State
from linewright.model.values import NodeKind


def fitting_index(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Index through each branch fitting."""
    ground = state.ground
    return worst({ground.tree.ids[i]: ground.downstream[i] for i in ground.branches}, NOTHING, sense)


def header_port_index(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Index in each run that leaves a header."""
    ground = state.ground
    headers = [i for i in ground.branches if ground.tree.kind[i] is NodeKind.HEADER]
    return worst(
        {ground.tree.ids[j]: ground.downstream[j] for i in headers for j in ground.tree.children[i]},
        NOTHING,
        sense,
    )


def arm_index_share(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Index of each arm over the index through its joint."""
    tree, index = state.ground.tree, state.ground.downstream
    ids, children = tree.ids, tree.children
    joints = [i for i in tree.branches if tree.kind[i] is NodeKind.JOINT and index[i] > 0]
    return worst({ids[j]: ratio(index[j], index[i]) for i in joints for j in children[i]}, NOTHING, sense)


def fitting_count(state: State, use: MeasureUse, sense: Sense) -> Series:
    """Branch fittings on the way to each unit, or in all."""
    ground = state.ground
    if use.in_all:
        return plain(float(len(ground.branches)))
    ids, runs, counts = ground.tree.ids, ground.tree.unit_runs, ground.tree.branches_to
    units = [runs[unit] for unit in ground.units_where(use.where)]
    return worst({ids[i]: float(counts[i]) for i in units}, NOTHING, sense)


def header_depth(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Branch fittings downstream of a header."""
    ground = state.ground
    under = sorted(ground.tree.ids[i] for i in ground.branches if ground.under_header[i])
    return plain(float(len(under)), tuple(under))


def straight_before(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Straight length before each branch fitting, as stated."""
    return _straight(state, "straight_before_m", "straight length before")


def straight_after(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Straight length after each branch fitting, as stated."""
    return _straight(state, "straight_after_m", "straight length after")


def indoor_count(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Indoor units."""
    kept = state.ground.units_where(use.where)
    return plain(float(len(kept))) if kept else NOT_APPLICABLE


def connection_ratio(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Indoor indices (or rated capacities) over the outdoor group's."""
    ground = state.ground
    kept = ground.units_where(use.where)
    models = ground.models
    units = [models[i] for i in kept]
    if not units:
        return NOT_APPLICABLE
    if use.count_by is CountBy.SIMULTANEOUS:
        return _simultaneous(state)
    if use.count_by is CountBy.COOLING:
        return plain(ratio(sum(model.cooling_w for model in units), ground.rated_cooling_w))
    if use.count_by is CountBy.HEATING:
        heating_w = ground.heating_w
        return plain(ratio(sum(heating_w[i] for i in kept), ground.rated_heating_w))
    return plain(ratio(sum(model.index for model in units), ground.group.index))


def _simultaneous(state: State) -> Series:
    """Coincident cooling load over the rated cooling of the outdoor group."""
    demand = state.ground.surroundings.demand_w
    if demand is None:
        return unknown("a block load, or for every unit a room of known cooling load")
    return plain(ratio(demand, state.ground.rated_cooling_w))


def index_share(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Indices of the units that a filter keeps over the sum of all."""
    ground = state.ground
    kept = [ground.models[i].index for i in ground.units_where(use.where)]
    return plain(ratio(sum(kept), ground.index_sum)) if ground.models else NOT_APPLICABLE


def smallest_index(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - always the smallest
    """Index of each unit; smallest."""
    return worst(_unit_indices(state, use, 1.0), NOTHING, Sense.MIN)


def largest_index_share(state: State, use: MeasureUse, sense: Sense) -> Series:
    """Index of each unit over the outdoor index; largest."""
    return worst(_unit_indices(state, use, state.ground.group.index), NOTHING, sense)


def additional_charge(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Rounded additional charge."""
    return _charge(state, state.charge.rounded_kg)


def total_charge(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Factory plus additional charge."""
    return _charge(state, state.charge.total_kg)


def charge_per_length(state: State, use: MeasureUse, sense: Sense) -> Series:  # noqa: ARG001 - one signature
    """Additional charge over the length of the liquid line."""
    ground = state.ground
    length, charge = sum(ground.length_m), state.charge.rounded_kg
    lengths = [f"length of run {name}" for name, flag in zip(ground.tree.ids, ground.unknown, strict=True) if flag]
    if charge is None or lengths:
        return unknown(*dict.fromkeys((*state.charge.missing, *lengths)))
    return plain(ratio(charge, length)) if length else NOT_APPLICABLE


def _straight(state: State, field: str, words: str) -> Series:
    ground = state.ground
    stated = {fitting.id: getattr(fitting, field) for fitting in ground.system.fittings}
    names = [ground.tree.ids[i] for i in ground.branches]
    if not names:
        return NOT_APPLICABLE
    known = {name: stated[name] for name in names if stated.get(name) is not None}
    missing = tuple(f"{words} {name}" for name in sorted(names) if name not in known)
    return worst(known, NOTHING, Sense.MIN)._replace(missing=missing) if known else unknown(*missing)


def _unit_indices(state: State, use: MeasureUse, over_index: float) -> dict[str, float]:
    ground = state.ground
    return {ground.system.units[i].id: ground.models[i].index / over_index for i in ground.units_where(use.where)}


def _charge(state: State, kg: float | None) -> Series:
    return unknown(*state.charge.missing) if kg is None else plain(kg)


TALLIES = {
    MeasureName.FITTING_INDEX: fitting_index,
    MeasureName.HEADER_PORT_INDEX: header_port_index,
    MeasureName.ARM_INDEX_SHARE: arm_index_share,
    MeasureName.FITTING_COUNT: fitting_count,
    MeasureName.HEADER_DEPTH: header_depth,
    MeasureName.STRAIGHT_BEFORE: straight_before,
    MeasureName.STRAIGHT_AFTER: straight_after,
    MeasureName.INDOOR_COUNT: indoor_count,
    MeasureName.CONNECTION_RATIO: connection_ratio,
    MeasureName.INDEX_SHARE: index_share,
    MeasureName.SMALLEST_INDEX: smallest_index,
    MeasureName.LARGEST_INDEX_SHARE: largest_index_share,
    MeasureName.ADDITIONAL_CHARGE: additional_charge,
    MeasureName.TOTAL_CHARGE: total_charge,
    MeasureName.CHARGE_PER_LENGTH: charge_per_length,
}
