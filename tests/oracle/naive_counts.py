"""Measures of fittings, indices, counts, shares and charge."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

from linewright.book.measures import MeasureName
from linewright.book.schema import CountBy, MeasureUse
from linewright.model.values import NodeKind
from tests.oracle.naive_charge import charge_of
from tests.oracle.naive_lengths import actual
from tests.oracle.naive_levels import kept_units
from tests.oracle.naive_numbers import NOTHING, ZERO, Known, exact, total
from tests.oracle.naive_series import NOT_APPLICABLE, Measured, Sense, by_sense, single, smallest
from tests.oracle.naive_sizes import Sizes
from tests.oracle.naive_tree import Facts

M = MeasureName


def _straight(facts: Facts, _sizes: Sizes, use: MeasureUse, _sense: Sense) -> Measured:
    stated = {fitting.id: fitting for fitting in facts.system.fittings}
    items: dict[str, Known | None] = {}
    for branch in facts.branches():
        fitting = stated.get(branch)
        before = use.measure is M.STRAIGHT_BEFORE
        length = None if fitting is None else fitting.straight_before_m if before else fitting.straight_after_m
        items[branch] = None if length is None else Known(exact(length))
    return smallest(items)


def _fitting_index(facts: Facts, _sizes: Sizes, _use: MeasureUse, sense: Sense) -> Measured:
    return by_sense({branch: Known(facts.index(branch)) for branch in facts.branches()}, sense)


def _leaving(facts: Facts, kind: NodeKind) -> list[str]:
    return [run for run in sorted(facts.run) if facts.kind.get(facts.run[run].from_) is kind]


def _port_index(facts: Facts, _sizes: Sizes, _use: MeasureUse, sense: Sense) -> Measured:
    return by_sense({run: Known(facts.index(run)) for run in _leaving(facts, NodeKind.HEADER)}, sense)


def _arm_share(facts: Facts, _sizes: Sizes, _use: MeasureUse, sense: Sense) -> Measured:
    items = {
        run: Known(facts.index(run) / facts.index(facts.run[run].from_)) for run in _leaving(facts, NodeKind.JOINT)
    }
    return by_sense(items, sense)


def _fitting_count(facts: Facts, _sizes: Sizes, use: MeasureUse, sense: Sense) -> Measured:
    if use.in_all:
        return single(Decimal(len(facts.branches())))
    return by_sense({u: Known(Decimal(len(facts.branches_on(u)))) for u in kept_units(facts, use)}, sense)


def _header_depth(facts: Facts, _sizes: Sizes, _use: MeasureUse, _sense: Sense) -> Measured:
    """Branch fittings anywhere downstream of a header."""

    def after_header(branch: str) -> bool:
        return any(facts.kind[node] is NodeKind.HEADER for node in facts.way(branch)[:-1])

    counted = [branch for branch in facts.branches() if after_header(branch)]
    return single(Decimal(len(counted)), governs=tuple(sorted(counted)))


def _indoor_count(facts: Facts, _sizes: Sizes, use: MeasureUse, _sense: Sense) -> Measured:
    kept = kept_units(facts, use)
    return single(Decimal(len(kept))) if kept else NOT_APPLICABLE


def _ratio(facts: Facts, _sizes: Sizes, use: MeasureUse, _sense: Sense) -> Measured:
    kept = kept_units(facts, use)
    if not kept:
        return NOT_APPLICABLE
    models = [facts.model(unit) for unit in kept]
    if use.count_by is CountBy.COOLING:
        return single(sum((exact(m.cooling_w) for m in models), ZERO) / rated(facts, "cooling"))
    if use.count_by is CountBy.HEATING:
        return single(sum((exact(m.heating_w) for m in models), ZERO) / rated(facts, "heating"))
    return single(sum((exact(m.index) for m in models), ZERO) / exact(facts.group.index))


def rated(facts: Facts, mode: str) -> Decimal:
    """Rated capacity of the group, else the sum of its modules [W]."""
    stated = facts.group.cooling_w if mode == "cooling" else facts.group.heating_w
    if stated is not None:
        return exact(stated)
    modules = facts.modules()
    return sum((exact(m.cooling_w if mode == "cooling" else m.heating_w) for m in modules), ZERO)


def _index_share(facts: Facts, _sizes: Sizes, use: MeasureUse, _sense: Sense) -> Measured:
    kept = sum((exact(facts.model(unit).index) for unit in kept_units(facts, use)), ZERO)
    return single(kept / facts.indoor_index())


def _smallest_index(facts: Facts, _sizes: Sizes, use: MeasureUse, _sense: Sense) -> Measured:
    return smallest({unit: Known(exact(facts.model(unit).index)) for unit in kept_units(facts, use)})


def _largest_share(facts: Facts, _sizes: Sizes, use: MeasureUse, sense: Sense) -> Measured:
    outdoor = exact(facts.group.index)
    return by_sense({u: Known(exact(facts.model(u).index) / outdoor) for u in kept_units(facts, use)}, sense)


def _additional(facts: Facts, sizes: Sizes, _use: MeasureUse, _sense: Sense) -> Measured:
    return single(charge_of(facts, sizes).additional)


def _total(facts: Facts, sizes: Sizes, _use: MeasureUse, _sense: Sense) -> Measured:
    return single(charge_of(facts, sizes).total)


def _per_length(facts: Facts, sizes: Sizes, _use: MeasureUse, _sense: Sense) -> Measured:
    charge = charge_of(facts, sizes).additional
    length = total([NOTHING, *(actual(run) for run in facts.run.values())])
    if charge is None or not length.whole:
        return single(None)
    return single(charge / length.value) if length.value else NOT_APPLICABLE


COUNTS: dict[MeasureName, Callable[[Facts, Sizes, MeasureUse, Sense], Measured]] = {
    M.STRAIGHT_BEFORE: _straight,
    M.STRAIGHT_AFTER: _straight,
    M.FITTING_INDEX: _fitting_index,
    M.HEADER_PORT_INDEX: _port_index,
    M.ARM_INDEX_SHARE: _arm_share,
    M.FITTING_COUNT: _fitting_count,
    M.HEADER_DEPTH: _header_depth,
    M.INDOOR_COUNT: _indoor_count,
    M.CONNECTION_RATIO: _ratio,
    M.INDEX_SHARE: _index_share,
    M.SMALLEST_INDEX: _smallest_index,
    M.LARGEST_INDEX_SHARE: _largest_share,
    M.ADDITIONAL_CHARGE: _additional,
    M.TOTAL_CHARGE: _total,
    M.CHARGE_PER_LENGTH: _per_length,
}
