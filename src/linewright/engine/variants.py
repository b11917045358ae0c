"""Sizing resolved without a loop: base design, mandatory actions, then the best subset of the elective ones."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from linewright.book.measures import MeasureName
from linewright.book.schema import Limit
from linewright.engine.actions import Scope, asked_steps, find_scopes, is_carried_out, subsets
from linewright.engine.charge import find_charge
from linewright.engine.charge_terms import free_terms
from linewright.engine.checks import charge_check
from linewright.engine.figures import ChargeResult, ChargeTerm
from linewright.engine.ground import Ground
from linewright.engine.lengths import Line, actual_line, find_lengths
from linewright.engine.limits import judge_limits
from linewright.engine.records import Check, Standing
from linewright.engine.sizing import Sized, TableSizes, base_sizes, step_sizes, table_sizes
from linewright.engine.state import State

NO_CHARGE = ChargeResult(0.0, (), None, None, None, None, None, ("the charge",))
CHARGE_MEASURES = {MeasureName.ADDITIONAL_CHARGE, MeasureName.TOTAL_CHARGE, MeasureName.CHARGE_PER_LENGTH}


class Variant(NamedTuple):
    """One choice of elective actions, sized, measured and judged.

    `rejected` holds, by path of a limit, the state in which its wider bound was tried with its actions carried out;
    `over_with` what would be over with an elective action that was not chosen, by its id.
    """

    state: State
    scopes: tuple[Scope, ...]
    chosen: tuple[Scope, ...]
    limits: tuple[Check, ...]
    charge: Check | None
    rejected: Mapping[str, State]
    over_with: Mapping[str, tuple[str, ...]]

    @property
    def chosen_ids(self) -> set[str]:
        """Ids of the elective actions that are chosen."""
        return {scope.action.id for scope in self.chosen}

    @property
    def broken(self) -> tuple[str, ...]:
        """Measures of the limits that are over."""
        found = [check.measure for check in self.limits if check.standing is Standing.OVER]
        if self.charge is not None and self.charge.standing is Standing.OVER:
            found.append(self.charge.measure)
        return tuple(found)

    @property
    def faults(self) -> tuple[int, int]:
        """Charge limits over, and all limits over."""
        return sum(measure in CHARGE_MEASURES for measure in self.broken), len(self.broken)


def resolve(ground: Ground) -> Variant:
    """Size a system: of all subsets of elective actions the one with the fewest faults, then the fewest actions."""
    table, actual = table_sizes(ground), actual_line(ground)
    base = _state(ground, table, base_sizes(ground, table), actual)
    scopes = find_scopes(base)
    mandatory = [scope for scope in scopes if scope.mandatory and scope.due and not scope.forbidden]
    tried: list[Variant] = []
    for chosen in subsets(scopes):
        tried.append(_variant(ground, table, actual, base, scopes=scopes, active=[*mandatory, *chosen], chosen=chosen))
        if tried[-1].faults == (0, 0):
            break
    best = min(tried, key=lambda variant: variant.faults)
    return _with_rejected(best, tried) if best.broken else best


def _with_rejected(best: Variant, tried: Sequence[Variant]) -> Variant:
    """Show, for each limit that is over, its wider bounds as they were judged with their actions carried out."""
    limits, rejected = list(best.limits), dict(best.rejected)
    for n, check in enumerate(best.limits):
        if check.standing is not Standing.OVER or not check.relaxed:
            continue
        needed = _actions_of(best.state.ground.book.book.limits[limit_position(check)])
        other = next((variant for variant in tried if needed and needed <= variant.chosen_ids), None)
        if other is not None and other is not best:
            limits[n] = check._replace(relaxed=other.limits[n].relaxed)
            rejected[check.path] = other.state
    over_with = {
        name: variant.broken for variant in reversed(tried) for name in variant.chosen_ids if len(variant.chosen) == 1
    }
    return best._replace(limits=tuple(limits), rejected=rejected, over_with=over_with)


def _actions_of(limit: Limit) -> set[str]:
    return {need.action for relaxed in limit.relaxed for need in relaxed.needs if need.action}


def limit_position(check: Check) -> int:
    """Position of a limit in its book."""
    return int(check.path.removeprefix("limits[").removesuffix("]"))


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
    state = _state(ground, table, step_sizes(ground, table, asked_steps(active)), actual) if active else base
    done = {scope.action.id for scope in chosen if is_carried_out(ground, table, state.sized, scope)}
    limits = judge_limits(state, carried_out=done)
    return Variant(state, scopes, chosen, limits, charge_check(ground, state.charge), {}, {})


def _state(ground: Ground, table: TableSizes, sized: Sized, actual: Line) -> State:
    lengths = find_lengths(ground, sized, actual)
    free: Iterable[ChargeTerm] = ()
    if ground.book.book.charge.terms or ground.system.options:
        free = free_terms(State(ground=ground, table=table, sized=sized, lengths=lengths, charge=NO_CHARGE))
    charge = find_charge(ground, sized, free)
    return State(ground=ground, table=table, sized=sized, lengths=lengths, charge=charge)
