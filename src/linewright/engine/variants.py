"""Sizing resolved without a loop: base design, mandatory actions, then the best subset of the elective ones."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from linewright.book.measures import MeasureName
from linewright.engine.actions import Scope, asked_steps, find_scopes, is_carried_out, subsets
from linewright.engine.charge import find_charge
from linewright.engine.checks import charge_check
from linewright.engine.ground import Ground
from linewright.engine.lengths import Line, actual_line, find_lengths
from linewright.engine.limits import judge_limits
from linewright.engine.records import Check, Standing
from linewright.engine.sizing import Sized, TableSizes, base_sizes, step_sizes, table_sizes
from linewright.engine.state import State

CHARGE_MEASURES = {MeasureName.ADDITIONAL_CHARGE, MeasureName.TOTAL_CHARGE, MeasureName.CHARGE_PER_LENGTH}


class Variant(NamedTuple):
    """One choice of elective actions, sized, measured and judged."""

    state: State
    scopes: tuple[Scope, ...]
    chosen: tuple[Scope, ...]
    limits: tuple[Check, ...]
    charge: Check | None

    @property
    def faults(self) -> tuple[int, int]:
        """Charge limits over, and all limits over."""
        broken = [check.measure for check in self.limits if check.standing is Standing.OVER]
        cap = int(self.charge is not None and self.charge.standing is Standing.OVER)
        return cap + sum(measure in CHARGE_MEASURES for measure in broken), cap + len(broken)


def resolve(ground: Ground) -> Variant:
    """Size a system: of all subsets of elective actions the one with the fewest faults, then the fewest actions."""
    table, actual = table_sizes(ground), actual_line(ground)
    base = _state(ground, table, base_sizes(ground, table), actual)
    scopes = find_scopes(base)
    mandatory = [scope for scope in scopes if scope.mandatory and scope.due and not scope.forbidden]
    best: Variant | None = None
    for chosen in subsets(scopes):
        variant = _variant(ground, table, actual, base, scopes=scopes, active=[*mandatory, *chosen], chosen=chosen)
        if best is None or variant.faults < best.faults:
            best = variant
        if best.faults == (0, 0):
            break
    if best is None:
        raise AssertionError("the empty subset always exists")
    return best


def _variant(
    ground: Ground,
    table: TableSizes,
    actual: Line,
    base: State,
    *,
    scopes: tuple[Scope, ...],
    active: Sequence[Scope],
    chosen: tuple[Scope, ...],
) -> Variant:
    sized = step_sizes(ground, table, asked_steps(active))
    state = _state(ground, table, sized, actual) if active else base
    done = {scope.action.id for scope in chosen if is_carried_out(scope, sized)}
    limits = judge_limits(state, carried_out=done)
    return Variant(state, scopes, chosen, limits, charge_check(ground, state.charge))


def _state(ground: Ground, table: TableSizes, sized: Sized, actual: Line) -> State:
    return State(
        ground=ground,
        table=table,
        sized=sized,
        lengths=find_lengths(ground, sized, actual),
        charge=find_charge(ground, sized),
    )
