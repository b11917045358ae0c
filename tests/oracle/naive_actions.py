"""Which size actions are due, which runs they touch, and which of the elective ones are chosen."""

from __future__ import annotations

from decimal import Decimal
from itertools import combinations

from linewright.book.measures import FACTS, Over
from linewright.book.schema import ActionRuns, Limit, Paths, SizeAction
from linewright.model.values import NodeKind
from tests.oracle.naive_charge import charge_of, is_over_cap
from tests.oracle.naive_lengths import actual
from tests.oracle.naive_limits import (
    CHARGES,
    Verdict,
    exceeds,
    holds,
    judge_all,
    plain_bound,
    relaxed_bound,
    satisfies,
)
from tests.oracle.naive_measures import measure
from tests.oracle.naive_numbers import total
from tests.oracle.naive_series import Sense, largest
from tests.oracle.naive_sizes import Sizes, act, base_sizes
from tests.oracle.naive_tree import Facts


def choose(facts: Facts) -> tuple[tuple[str, ...], Sizes, list[Verdict]]:
    """Try every subset of the elective actions; give the chosen one with its sizes and verdicts."""
    base = base_sizes(facts)
    actions = facts.book.sizing.actions
    due = {a.id: touched(facts, base, a) for a in actions if a.when is not None and is_due(facts, base, a)}
    elective = {
        position: action
        for position, action in enumerate(actions)
        if action.when is None and action.id not in facts.system.forbidden_actions and is_asked(facts, base, action)
    }
    runs = {action.id: touched(facts, base, action) for action in elective.values()}
    best: tuple[tuple[int, int, int, tuple[int, ...]], Sizes, list[Verdict]] | None = None
    for size in range(len(elective) + 1):
        for positions in combinations(elective, size):
            chosen = [elective[position].id for position in positions]
            sizes = act(facts, {**due, **{action: runs[action] for action in chosen}})
            verdicts = judge_all(facts, sizes, chosen)
            merit = (*overs(facts, sizes, verdicts), size, positions)
            if best is None or merit < best[0]:
                best = (merit, sizes, verdicts)
    assert best is not None
    return tuple(elective[p].id for p in best[0][3]), best[1], best[2]


def overs(facts: Facts, sizes: Sizes, verdicts: list[Verdict]) -> tuple[int, int]:
    """How many charge limits are over, the cap on the charge with them, and how many limits."""
    over = [verdict.measure for verdict in verdicts if verdict.standing == "over"]
    cap = is_over_cap(facts, charge_of(facts, sizes))
    return cap + sum(name in CHARGES for name in over), cap + len(over)


def is_due(facts: Facts, base: Sizes, action: SizeAction) -> bool:
    assert action.when is not None
    assert action.when.measure is not None
    return holds(facts, base, action.when) is True


def is_asked(facts: Facts, base: Sizes, action: SizeAction) -> bool:
    """Whether the base design is beyond the plain bound of a limit whose relaxed bound needs the action."""
    for limit, sense in _asking(facts, base, action):
        bound, measured = plain_bound(facts, base, limit, sense=sense), measure(facts, base, limit, sense=sense)
        if bound is not None and exceeds(measured, bound, sense) is True:
            return True
    return False


def _asking(facts: Facts, base: Sizes, action: SizeAction) -> list[tuple[Limit, Sense]]:
    """Limits that the action can relax, but for those that are known not to apply in the base design."""
    return [
        (limit, sense)
        for limit in facts.book.limits
        for sense in (Sense.MIN, Sense.MAX)
        if _is_needed(limit, sense, action)
        and all(holds(facts, base, condition) is not False for condition in limit.when)
    ]


def touched(facts: Facts, base: Sizes, action: SizeAction) -> list[str]:
    """The runs that an action touches, fixed from the base design."""
    if action.runs is ActionRuns.MAIN:
        return facts.main()
    runs = {run for unit in units_led_to(facts, base, action) for run in _runs_to(facts, unit, action)}
    return sorted(runs)


def _runs_to(facts: Facts, unit: str, action: SizeAction) -> list[str]:
    if action.runs is ActionRuns.PATH:
        return facts.way(unit)
    if facts.first_branch() is None:
        return []
    own = facts.own_run(unit)
    if action.runs is ActionRuns.UNIT_RUN:
        return own
    between = [run for run in facts.after_first(unit) if run not in own]
    assert all(facts.kind[run] is not NodeKind.UNIT for run in between)
    return [*between, *own] if action.unit_run else between


def units_led_to(facts: Facts, base: Sizes, action: SizeAction) -> list[str]:
    if action.paths is Paths.ALL:
        return sorted(facts.unit)
    far = _far_by_condition(facts, base, action) if action.when is not None else _far_by_limits(facts, base, action)
    if action.paths is Paths.LONGEST and far:
        return [min(far, key=lambda unit: (-_reach(facts, unit), unit))]
    return sorted(far)


def _reach(facts: Facts, unit: str) -> Decimal:
    return total([actual(facts.run[run]) for run in facts.way(unit)]).value


def _far_by_condition(facts: Facts, base: Sizes, action: SizeAction) -> set[str]:
    assert action.when is not None
    assert action.when.measure is not None
    if FACTS[action.when.measure].over is not Over.UNITS:
        return set()
    items = measure(facts, base, action.when).items
    return {unit for unit in facts.unit if unit in items and satisfies(items[unit], action.when) is True}


def _far_by_limits(facts: Facts, base: Sizes, action: SizeAction) -> set[str]:
    """Units beyond the plain bound of a limit whose relaxed bound needs the action."""
    far: set[str] = set()
    for limit, sense in _asking(facts, base, action):
        far |= _beyond(facts, base, limit, sense=sense)
    return far


def _is_needed(limit: Limit, sense: Sense, action: SizeAction) -> bool:
    return any(
        relaxed_bound(relaxed, sense) is not None and any(need.action == action.id for need in relaxed.needs)
        for relaxed in limit.relaxed
    )


def _beyond(facts: Facts, base: Sizes, limit: Limit, *, sense: Sense) -> set[str]:
    if FACTS[limit.measure].over is not Over.UNITS:
        return set()
    bound = plain_bound(facts, base, limit, sense=sense)
    items = measure(facts, base, limit, sense=sense).items
    if bound is None:
        return set()
    return {
        unit
        for unit in facts.unit
        if (item := items.get(unit)) is not None and exceeds(largest({unit: item}), bound, sense) is True
    }
