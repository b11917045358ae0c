"""Every measure, one function each, taken afresh each time."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

from linewright.book.measures import MeasureName
from linewright.book.schema import InOut, Lengths, MeasureUse, Origin
from linewright.model.values import Role
from tests.oracle.naive_counts import COUNTS
from tests.oracle.naive_lengths import (
    actual,
    at_far_end,
    equivalent,
    length_of,
    lines_judged,
    module_pipe_length,
    origin_of,
    reach,
)
from tests.oracle.naive_levels import LEVELS, is_doubtful, kept_units
from tests.oracle.naive_modules import MODULES, pipes_to_modules
from tests.oracle.naive_numbers import Known, total
from tests.oracle.naive_series import (
    NOT_APPLICABLE,
    Items,
    Measured,
    Sense,
    by_sense,
    longer,
    longer_items,
    single,
    spread,
    summed,
)
from tests.oracle.naive_sizes import ROLES, Sizes, is_up
from tests.oracle.naive_tree import Facts

M = MeasureName
#: Of mode boxes, which a heat pump has not.
BOXES = (
    M.JOINT_TO_BOX,
    M.BOX_TO_UNIT,
    M.LEVEL_BETWEEN_BOXES,
    M.LEVEL_WITHIN_BOX,
    M.BOX_INDEX,
    M.THROUGH_INDEX,
    M.PORT_INDEX,
    M.UNITS_PER_PORT,
    M.BOXES_IN_SERIES,
    M.BOX_COUNT,
)
#: Made of a whole series, not one item of it.
WHOLE = (M.NEAREST_FARTHEST_DIFFERENCE, M.MODULE_PIPE_DIFFERENCE, M.MAIN_LENGTH, M.TOTAL_LENGTH, M.MODULE_PIPE_TOTAL)
By = Callable[[Facts, Sizes, MeasureUse, Role], Items | None]


def measure(facts: Facts, sizes: Sizes, use: MeasureUse, *, sense: Sense = Sense.MAX) -> Measured:
    """A measure for a largest bound, or for a least one."""
    if any(is_doubtful(facts, use, unit) for unit in kept_units(facts, use)):
        return single(None)
    return _measure(facts, sizes, use, sense)


def _measure(facts: Facts, sizes: Sizes, use: MeasureUse, sense: Sense) -> Measured:
    if use.measure in BOXES:
        return NOT_APPLICABLE
    if use.measure in LENGTHS:
        return _of_lines(facts, sizes, use, sense=sense)
    if use.measure in LEVELS:
        return LEVELS[use.measure](facts, use, sense)
    if use.measure in MODULES:
        return MODULES[use.measure](facts, sense)
    return COUNTS[use.measure](facts, sizes, use, sense)


def _of_lines(facts: Facts, sizes: Sizes, use: MeasureUse, *, sense: Sense) -> Measured:
    """Lengths: with both lines judged, the one on which the measure is longer counts; of items, item by item."""
    series = [LENGTHS[use.measure](facts, sizes, use, line) for line in lines_judged(facts)]
    of_lines = [items for items in series if items is not None]
    if len(of_lines) < len(series):
        return NOT_APPLICABLE
    if use.measure not in WHOLE:
        spacing = use.measure is M.JOINT_SPACING
        return by_sense(longer_items(of_lines), Sense.MIN if spacing else sense)
    results = [_aggregate(use.measure, items) for items in of_lines]
    return results[0] if len(results) == 1 else longer(results[0], results[1])


def _aggregate(name: MeasureName, items: Items) -> Measured:
    if name is M.NEAREST_FARTHEST_DIFFERENCE:
        return spread(items) if len(items) > 1 else NOT_APPLICABLE
    return spread(items) if name is M.MODULE_PIPE_DIFFERENCE else summed(items)


def _lengths(use: MeasureUse) -> Lengths:
    if use.measure is M.FARTHEST_EQUIVALENT:
        return Lengths.EQUIVALENT
    if use.measure is M.FARTHEST_ACTUAL:
        return Lengths.ACTUAL
    return use.lengths or Lengths.ACTUAL


def _reaches(facts: Facts, sizes: Sizes, use: MeasureUse, line: Role) -> Items | None:
    origin = origin_of(facts, use)
    rule = use.upsized_main if _lengths(use) is Lengths.EQUIVALENT else None
    return {
        unit: reach(facts, sizes, unit, lengths=_lengths(use), line=line, origin=origin, rule=rule)
        for unit in kept_units(facts, use)
    }


def _after_first(facts: Facts, sizes: Sizes, use: MeasureUse, line: Role) -> Items | None:
    first = facts.first_branch()
    if first is None:
        return None
    lengths = _lengths(use)
    items: dict[str, Known | None] = {}
    for unit in kept_units(facts, use):
        leaving, *beyond = facts.after_first(unit)
        parts = [length_of(facts, sizes, run, lengths=lengths, line=line) for run in beyond]
        if lengths is Lengths.ACTUAL:
            parts.append(actual(facts.run[leaving]))
        else:
            parts += _leaving_first_branch(facts, sizes, use, line=line, leaving=leaving)
        items[unit] = total(parts)
    return items


def _leaving_first_branch(facts: Facts, sizes: Sizes, use: MeasureUse, *, line: Role, leaving: str) -> list[Known]:
    """A run that leaves the first branch, without that fitting's own allowance or with the whole of it."""
    if use.first_branch_allowance is InOut.OUT:
        return [equivalent(facts, sizes, leaving, line=line, near_end=False)]
    entering = facts.main()[-1]
    return [
        equivalent(facts, sizes, leaving, line=line),
        at_far_end(facts, entering, sizes.od(entering, line)),
    ]


def _last_joint(facts: Facts, sizes: Sizes, use: MeasureUse, line: Role) -> Items | None:
    if facts.first_branch() is None:
        return None
    return {
        unit: total([length_of(facts, sizes, run, lengths=_lengths(use), line=line) for run in facts.own_run(unit)])
        for unit in kept_units(facts, use)
    }


def _main_length(facts: Facts, sizes: Sizes, use: MeasureUse, line: Role) -> Items | None:
    return {run: length_of(facts, sizes, run, lengths=_lengths(use), line=line) for run in facts.main()}


def _spacing(facts: Facts, sizes: Sizes, use: MeasureUse, line: Role) -> Items | None:
    """From each branch fitting to the next one outward, named by the outer one."""
    items: dict[str, Known | None] = {}
    for branch in facts.branches():
        before = facts.branches_on(branch)[:-1]
        if before:
            beyond = [run for run in facts.way(branch) if run not in facts.way(before[-1])]
            items[branch] = total([length_of(facts, sizes, run, lengths=_lengths(use), line=line) for run in beyond])
    return items


def _to_modules(facts: Facts, _sizes: Sizes, use: MeasureUse, line: Role) -> Items | None:
    return pipes_to_modules(facts, lengths=_lengths(use), line=line)


def _all_module_pipes(facts: Facts, _sizes: Sizes, use: MeasureUse, line: Role) -> Items | None:
    if len(facts.modules()) == 1:
        return None
    pipes = facts.system.outdoor.pipes
    items: dict[str, Known | None] = {
        pipe.to: module_pipe_length(facts, pipe, lengths=_lengths(use), line=line) for pipe in pipes
    }
    return items or {"module pipes": None}


def _total_length(facts: Facts, sizes: Sizes, use: MeasureUse, line: Role) -> Items | None:
    beyond = sorted(facts.run)
    if origin_of(facts, use) is Origin.FIRST_BRANCH and facts.first_branch() is not None:
        beyond = [run for run in beyond if run not in facts.main()]
    tubes = Decimal(len(ROLES)) if use.each_tube else Decimal(1)
    items: dict[str, Known | None] = {}
    for run in beyond:
        times = tubes * (2 if use.upsized_twice and is_up(sizes, run) else 1)
        items[run] = length_of(facts, sizes, run, lengths=_lengths(use), line=line).times(times)
    if use.module_pipes is InOut.IN:
        for pipe in facts.system.outdoor.pipes:
            length = module_pipe_length(facts, pipe, lengths=_lengths(use), line=line)
            items[f"module pipe {pipe.to}"] = length.times(tubes)
        if not facts.system.outdoor.pipes and len(facts.modules()) > 1:
            items["module pipes"] = None
    return items


LENGTHS: dict[MeasureName, By] = {
    M.FARTHEST_ACTUAL: _reaches,
    M.FARTHEST_EQUIVALENT: _reaches,
    M.NEAREST_FARTHEST_DIFFERENCE: _reaches,
    M.AFTER_FIRST_BRANCH: _after_first,
    M.LAST_JOINT_TO_UNIT: _last_joint,
    M.MAIN_LENGTH: _main_length,
    M.JOINT_SPACING: _spacing,
    M.MODULE_PIPE: _to_modules,
    M.MODULE_PIPE_DIFFERENCE: _to_modules,
    M.MODULE_PIPE_TOTAL: _all_module_pipes,
    M.TOTAL_LENGTH: _total_length,
}
