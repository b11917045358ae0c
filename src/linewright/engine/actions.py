"""Size actions: which are due, which runs they touch, and which elective ones are chosen."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import lru_cache
from itertools import combinations
from typing import NamedTuple

from linewright.book.measures import FACTS, Over
from linewright.book.schema import ActionRuns, Book, Limit, MeasureUse, Paths, SizeAction
from linewright.engine.conditions import condition_holds, is_beyond
from linewright.engine.figures import Series
from linewright.engine.frame import MOST_KNOWN
from linewright.engine.ground import Ground
from linewright.engine.judging import breaks, stands
from linewright.engine.limits import bounds_of
from linewright.engine.measures import measure
from linewright.engine.measures.series import first_at
from linewright.engine.records import ActionResult, Sense
from linewright.engine.sizing import Sized, TableSizes, is_up, step_up
from linewright.engine.state import State
from linewright.model.same import Same
from linewright.model.tree import NO_PARENT
from linewright.model.values import Role


class Scope(NamedTuple):
    """An action of the book on this system: due or elective, and the runs that it touches."""

    action: SizeAction
    mandatory: bool
    due: bool
    forbidden: bool
    doubtful: bool
    runs: tuple[int, ...]


def find_scopes(base: State) -> tuple[Scope, ...]:
    """Fix from the base design what each action of the book touches."""
    return tuple(_scope(base, action) for action in base.ground.book.book.sizing.actions)


def subsets(scopes: Sequence[Scope]) -> Iterator[tuple[Scope, ...]]:
    """Give every subset of the elective actions that some unit is far for: fewest first, then book order."""
    elective = [scope for scope in scopes if not scope.mandatory and not scope.forbidden and scope.due]
    for count in range(len(elective) + 1):
        yield from combinations(elective, count)


def asked_steps(active: Iterable[Scope]) -> dict[Role, dict[int, int]]:
    """Steps asked of each tube; of two actions on one tube the greater counts."""
    steps: dict[Role, dict[int, int]] = {}
    for scope in active:
        for role in scope.action.lines:
            by_run = steps.setdefault(role, {})
            for run in scope.runs:
                by_run[run] = max(by_run.get(run, 0), scope.action.steps)
    return steps


def is_carried_out(ground: Ground, table: TableSizes, sized: Sized, scope: Scope) -> bool:
    """Say whether every tube that an action touches is at least as large as it asks."""
    return next(_short(ground, table, sized, scope), None) is None


def _short(ground: Ground, table: TableSizes, sized: Sized, scope: Scope) -> Iterator[tuple[Role, int]]:
    """Tubes smaller than this action asks; another that asks more of a tube may fail where this one does not."""
    for role, run in sized.short:
        if role in scope.action.lines and run in scope.runs:
            due = step_up(ground.book, role, table.by_role[role][run], scope.action.steps)
            size = sized.by_role[role][run]
            if due is None or size is None or is_up(due, size):
                yield role, run


def action_result(state: State, scope: Scope, *, chosen: bool, over_with: Sequence[str] | None = None) -> ActionResult:
    """Say what became of an action; `over_with` names what would be over with one that was not chosen."""
    active = chosen or (scope.mandatory and scope.due and not scope.forbidden)
    ground = state.ground
    done = active and is_carried_out(ground, state.table, state.sized, scope)
    return ActionResult(
        id=scope.action.id,
        mandatory=scope.mandatory,
        due=scope.due,
        chosen=active,
        forbidden=scope.forbidden,
        runs=tuple(sorted(ground.tree.ids[run] for run in scope.runs)),
        carried_out=done,
        why_not=_why_not(state, scope, active=active, done=done) or _rejected(active=active, over_with=over_with),
        page=scope.action.page,
    )


def _rejected(*, active: bool, over_with: Sequence[str] | None) -> str:
    if active or over_with is None:
        return ""
    over = ", ".join(dict.fromkeys(over_with)) or "nothing"
    return f"it leaves no fewer limits over (over with it: {over})"


def _why_not(state: State, scope: Scope, *, active: bool, done: bool) -> str:
    if scope.doubtful:
        site = None if scope.action.when is None else scope.action.when.site
        without = "while lengths are unknown" if site is None else f"without {site} of the site"
        return f"whether it is due cannot be known {without}"
    if done or not active:
        return "forbidden by the designer" if scope.forbidden and (scope.due or not scope.mandatory) else ""
    short = sorted(
        f"{role} of run {state.ground.tree.ids[run]}"
        for role, run in _short(state.ground, state.table, state.sized, scope)
    )
    return f"not as large as asked: {', '.join(short)}"


def _scope(base: State, action: SizeAction) -> Scope:
    forbidden = action.id in base.ground.system.forbidden_actions
    if action.when is not None:
        holds = condition_holds(base, action.when)
        far = _far_by_condition(base, action) if holds else ()
        runs = _touched(base, action, far) if holds else ()
        return Scope(action, mandatory=True, due=bool(holds), forbidden=forbidden, doubtful=holds is None, runs=runs)
    far = _far_by_limits(base, action)
    runs = _touched(base, action, far) if far else ()
    return Scope(action, mandatory=False, due=bool(far), forbidden=forbidden, doubtful=False, runs=runs)


def _far_by_condition(base: State, action: SizeAction) -> tuple[int, ...]:
    condition = action.when
    if condition is None or condition.measure is None:
        return ()
    series = measure(base, condition)
    if not _is_by_unit(condition, series):
        return _units(base, lambda _: True)
    return _units(base, lambda name: name in series.values and is_beyond(condition, series.values[name]))


def _far_by_limits(base: State, action: SizeAction) -> tuple[int, ...]:
    """Units beyond the plain bound of a limit whose relaxed bound needs this action."""
    far: set[int] = set()
    for position, limit in _relaxed_by(Same(base.ground.book.book), action.id):
        for sense, bound, _ in bounds_of(base, limit, position):
            if bound is not None and _needs_action(limit, sense, action.id):
                far.update(_beyond(base, limit, bound, sense))
    return tuple(sorted(far))


@lru_cache(maxsize=MOST_KNOWN)
def _relaxed_by(book: Same[Book], action: str) -> tuple[tuple[int, Limit], ...]:
    """Limits of a book with a relaxed bound that needs an action, with their positions."""
    return tuple(
        [
            (position, limit)
            for position, limit in enumerate(book.value.limits)
            if any(need.action == action for relaxed in limit.relaxed for need in relaxed.needs)
        ]
    )


def _beyond(base: State, limit: Limit, bound: float, sense: Sense) -> tuple[int, ...]:
    series = measure(base, limit, sense)
    if any(condition_holds(base, condition) is False for condition in limit.when) or not series.applicable:
        return ()
    if stands(series, bound, sense) is not False:
        return ()
    if not _is_by_unit(limit, series):
        return _units(base, lambda _: True)
    known = series.values if sense is Sense.MAX else series.values.keys() - series.incomplete
    return _units(base, lambda name: name in known and breaks(series.values[name], bound, sense))


def _is_by_unit(use: MeasureUse, series: Series) -> bool:
    """Say whether a measure has an item of its own for each unit; where it has none, all units are far or none is."""
    return FACTS[use.measure].over is Over.UNITS and bool(series.values) and not series.spread


def _needs_action(limit: Limit, sense: Sense, action: str) -> bool:
    return any(
        need.action == action
        for relaxed in limit.relaxed
        if (relaxed.max if sense is Sense.MAX else relaxed.min) is not None
        for need in relaxed.needs
    )


def _units(base: State, keeps: Callable[[str], bool]) -> tuple[int, ...]:
    return tuple(i for i, unit in enumerate(base.ground.system.units) if keeps(unit.id))


def _touched(base: State, action: SizeAction, far: tuple[int, ...]) -> tuple[int, ...]:
    ground = base.ground
    if action.runs is ActionRuns.MAIN:
        return ground.tree.main
    units: Sequence[int] = _of_paths(base, action.paths, far)
    touched: set[int] = set()
    for unit in units:
        touched.update(_runs_to(ground, ground.tree.unit_runs[unit], action))
    return tuple(sorted(touched))


def _of_paths(base: State, paths: Paths, far: tuple[int, ...]) -> tuple[int, ...]:
    ground = base.ground
    if paths is Paths.ALL:
        return tuple(range(len(ground.system.units)))
    if paths is Paths.LONGEST and far:
        reach = base.lengths.actual.reach_m
        by_name = {ground.system.units[unit].id: reach[ground.tree.unit_runs[unit]] for unit in far}
        longest = first_at(by_name, max(by_name.values()))
        return tuple(unit for unit in far if ground.system.units[unit].id == longest)
    return far


def _runs_to(ground: Ground, run: int, action: SizeAction) -> Iterator[int]:
    """Runs on the way to one unit that an action touches."""
    with_own = action.unit_run or action.runs in (ActionRuns.UNIT_RUN, ActionRuns.PATH)
    while run != NO_PARENT:
        if ground.is_own[run]:
            if with_own:
                yield run
        elif ground.is_main[run]:
            if action.runs is ActionRuns.PATH:
                yield run
        elif action.runs is not ActionRuns.UNIT_RUN:
            yield run
        run = ground.tree.parent[run]
