"""Limits: plain and relaxed bounds judged on one variant of a system."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from linewright.book.measures import FACTS
from linewright.book.ratios import range_of
from linewright.book.schema import BoundTable, FromBox, FromGroup, Limit, MeasureUse, Need, Relaxed
from linewright.engine.box_bounds import box_bounds
from linewright.engine.conditions import condition_holds, lacking_of
from linewright.engine.figures import Series
from linewright.engine.judging import stands
from linewright.engine.measures import PLAIN_USES, measure, variant_words
from linewright.engine.missing import missing_of
from linewright.engine.records import Check, CheckKind, NeedResult, RelaxedResult, Sense, Standing
from linewright.engine.state import State
from linewright.units import Amount, Dimension, over


def judge_limits(state: State, *, carried_out: Collection[str]) -> tuple[Check, ...]:
    """Judge every limit of the book; `carried_out` names the chosen actions that the sizes fulfil."""
    return tuple(
        check
        for position, limit in enumerate(state.ground.book.book.limits)
        for check in _judge(state, limit, position, carried_out=carried_out)
    )


def bounds_of(state: State, limit: Limit, position: int) -> Iterator[tuple[Sense, float | None, int | None]]:
    """Give each bound of a limit with its sense and page; `None` where the group or a table has none."""
    for sense, bound in ((Sense.MIN, limit.min), (Sense.MAX, limit.max)):
        if isinstance(bound, Amount):
            yield sense, bound.value, limit.page
        elif isinstance(bound, FromGroup):
            yield sense, _group_bound(state, limit, sense), limit.page
        elif isinstance(bound, FromBox):
            yield sense, _box_bound(state, limit), limit.page
        elif isinstance(bound, BoundTable):
            yield sense, _table_bound(state, position, bound, sense), limit.page


def _left(series: Series, bound: float, sense: Sense) -> float | None:
    """What a largest bound leaves for the lengths that are missing: the bound less the largest of the lower bounds."""
    if sense is Sense.MIN or series.value is None or series.spread or (series.values and series.missing):
        return None
    lower = [series.values[name] for name in series.incomplete]
    return bound - (max(lower) if lower else series.value)


def _judge(state: State, limit: Limit, position: int, *, carried_out: Collection[str]) -> Iterator[Check]:
    held = [condition_holds(state, condition) for condition in limit.when]
    for sense, bound, page in bounds_of(state, limit, position):
        if False in held or not measure(state, limit, sense).applicable:
            yield _check(state, limit, position, sense, standing=Standing.NOT_APPLICABLE, bound=bound, page=page)
        elif None in held and bound is not None:
            check = _check(state, limit, position, sense, standing=Standing.UNJUDGED, bound=bound, page=page)
            yield check._replace(missing=_missing_conditions(state, limit))
        elif sense is Sense.MAX and isinstance(limit.max, FromBox):
            yield _by_box(state, limit, position)
        elif bound is None:
            group = isinstance(limit.max if sense is Sense.MAX else limit.min, FromGroup)
            standing, missing = (
                (Standing.UNSTATED, ()) if group else (Standing.UNJUDGED, ("a row of the bound's table",))
            )
            yield _check(state, limit, position, sense, standing=standing, bound=None, page=page)._replace(
                missing=missing
            )
        else:
            yield _against(state, limit, position, sense, bound=bound, page=page, carried_out=carried_out)


def _by_box(state: State, limit: Limit, position: int) -> Check:
    """Judge every item by what its own box states; the one with the least margin governs."""
    bounds, series = box_bounds(state.ground, limit.measure), measure(state, limit)
    items = {
        name: (bound - series.values[name], bound) for name, bound in bounds.by_item.items() if name in series.values
    }
    check = _check(state, limit, position, Sense.MAX, standing=Standing.UNSTATED, bound=None, page=limit.page)
    if items:
        name = min(items, key=lambda item: (items[item][0], item))
        value, bound = series.values[name], items[name][1]
        standing = Standing.OVER if over(value, bound) else Standing.WITHIN
        check = check._replace(
            standing=standing, value=value, bound=bound, margin=_margin(value, bound, Sense.MAX), governs=(name,)
        )
    if bounds.unknown and check.standing is not Standing.OVER:
        return check._replace(standing=Standing.UNJUDGED, missing=bounds.unknown)
    return check


def _missing_conditions(state: State, limit: Limit) -> tuple[str, ...]:
    return tuple(
        name
        for condition in limit.when
        if condition_holds(state, condition) is None
        for name in lacking_of(state, condition)
    )


def _check(
    state: State,
    limit: Limit,
    position: int,
    sense: Sense,
    *,
    standing: Standing,
    bound: float | None,
    page: int | None,
    series: Series | None = None,
) -> Check:
    value = series.value if series is not None else None
    margin = _margin(value, bound, sense) if bound is not None else None
    return Check(
        f"{state.ground.system.id}/limit:{limit.measure}",
        CheckKind.LIMIT,
        limit.measure.value,
        FACTS[limit.measure].dimension,
        sense,
        standing,
        value,
        bound,
        margin,
        series.governs if series is not None else (),
        page,
        note=variant_words(limit),
        path=f"limits[{position}]",
    )


def _against(
    state: State,
    limit: Limit,
    position: int,
    sense: Sense,
    *,
    bound: float,
    page: int | None,
    carried_out: Collection[str],
) -> Check:
    series = measure(state, limit, sense)
    kept = stands(series, bound, sense)
    standing = Standing.WITHIN if kept else Standing.UNJUDGED if kept is None else Standing.OVER
    check = _check(state, limit, position, sense, standing=standing, bound=bound, page=page, series=series)
    if kept is None:
        margin = check.margin if sense is Sense.MAX else None
        return check._replace(margin=margin, missing=missing_of(state, limit, series), left=_left(series, bound, sense))
    return check if kept else _relax(state, limit, check, series=series, carried_out=carried_out)


def _relax(state: State, limit: Limit, check: Check, *, series: Series, carried_out: Collection[str]) -> Check:
    """Try the relaxed bounds in book order; keep what each of their conditions said."""
    tried: list[RelaxedResult] = []
    doubtful = False
    last_held: RelaxedResult | None = None
    for relaxed in limit.relaxed:
        amount = relaxed.max if check.sense is Sense.MAX else relaxed.min
        if amount is None:
            continue
        result = _try(state, relaxed, amount.value, carried_out=carried_out)
        tried.append(result)
        kept = stands(series, amount.value, check.sense)
        if result.holds and kept:
            return _shown(check, result, Standing.ON_CONDITIONS)._replace(relaxed=tuple(tried))
        if result.holds:
            last_held = result
        doubtful = doubtful or (kept is not False and result.holds is not False)
    check = check._replace(relaxed=tuple(tried))
    if doubtful:
        missing = {name for result in tried for need in result.needs for name in need.missing}
        check = _shown(check, last_held, Standing.UNJUDGED) if last_held else check
        return check._replace(
            standing=Standing.UNJUDGED, missing=tuple(sorted(missing | set(missing_of(state, limit, series))))
        )
    return _shown(check, last_held, Standing.OVER) if last_held else check._replace(standing=Standing.OVER)


def _shown(check: Check, result: RelaxedResult, standing: Standing) -> Check:
    return check._replace(
        standing=standing,
        bound=result.bound,
        plain_bound=check.bound,
        page=result.page if result.page is not None else check.page,
        margin=_margin(check.value, result.bound, check.sense),
    )


def _try(state: State, relaxed: Relaxed, bound: float, *, carried_out: Collection[str]) -> RelaxedResult:
    needs = tuple(need for stated in relaxed.needs for need in _needs(state, stated, carried_out))
    held = [need.holds for need in needs]
    holds = False if False in held else None if None in held else True
    return RelaxedResult(bound, relaxed.page, needs, holds)


def _needs(state: State, need: Need, carried_out: Collection[str]) -> Iterator[NeedResult]:
    if need.action:
        yield NeedResult(f"action {need.action} carried out", None, None, Dimension.NUMBER, need.action in carried_out)
    elif need.declared:
        made = need.declared in state.ground.system.declared
        yield NeedResult(f"declared: {need.declared}", None, None, Dimension.NUMBER, made)
    elif need.option:
        on = need.option in state.ground.system.options
        yield NeedResult(f"option {need.option} is on", None, None, Dimension.NUMBER, on)
    if need.measure is None:
        return
    for sense, amount in ((Sense.MIN, need.min), (Sense.MAX, need.max)):
        if amount is None:
            continue
        series = measure(state, need, sense)
        holds = True if not series.applicable else stands(series, amount.value, sense)
        missing = missing_of(state, need, series) if holds is None else ()
        yield NeedResult(
            _need_words(need, sense),
            series.value,
            amount.value,
            FACTS[need.measure].dimension,
            holds,
            missing,
        )


def _need_words(need: MeasureUse, sense: Sense) -> str:
    variant = variant_words(need)
    return f"{need.measure}{f' ({variant})' if variant else ''} {'at most' if sense is Sense.MAX else 'at least'}"


def _margin(value: float | None, bound: float, sense: Sense) -> float | None:
    if value is None:
        return None
    return bound - value if sense is Sense.MAX else value - bound


def _group_bound(state: State, limit: Limit, sense: Sense) -> float | None:
    stated, _ = range_of(state.ground.group, limit)
    amount = stated.min if sense is Sense.MIN else stated.max
    return None if amount is None else amount.value


def _box_bound(state: State, limit: Limit) -> float | None:
    """Bound of the item with the least margin, for what looks for one bound of a limit."""
    series, bounds = measure(state, limit), box_bounds(state.ground, limit.measure).by_item
    names = [name for name in bounds if name in series.values]
    return bounds[min(names, key=lambda name: (bounds[name] - series.values[name], name))] if names else None


def _table_bound(state: State, position: int, table: BoundTable, sense: Sense) -> float | None:
    series = measure(state, PLAIN_USES[table.by])
    if series.value is None or not series.complete:
        return None
    found = state.ground.book.bounds[position, sense.value].find(series.value)
    return None if found is None else found.row.bound.value
