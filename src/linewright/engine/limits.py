"""Limits: plain and relaxed bounds judged on one variant of a system."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from functools import lru_cache
from typing import NamedTuple, TypeAlias

from linewright.book.measures import FACTS
from linewright.book.ratios import range_of
from linewright.book.schema import BoundTable, FromBox, FromGroup, Limit, MeasureUse, Need, Relaxed
from linewright.engine.box_bounds import box_bounds
from linewright.engine.conditions import condition_holds, lacking_of
from linewright.engine.figures import Series
from linewright.engine.judging import stands
from linewright.engine.measures import PLAIN_USES, measure, variant_words
from linewright.engine.measures.registry import seen_of
from linewright.engine.measures.series import NOT_APPLICABLE
from linewright.engine.missing import missing_of
from linewright.engine.records import Check, CheckKind, NeedResult, RelaxedResult, Sense, Standing
from linewright.engine.state import State
from linewright.model.same import Same
from linewright.units import Amount, Dimension, over

#: Books whose limits are kept ready to be judged.
MOST_BOOKS = 100

Bound: TypeAlias = Amount | FromGroup | FromBox | BoundTable


class _Judged(NamedTuple):
    """One stated bound of a limit, with what of its verdict is the same for every system.

    The verdict on a plain one rests on its own measure alone.
    """

    limit: Limit
    position: int
    sense: Sense
    bound: Bound
    dimension: Dimension
    words: str
    path: str
    subject: str
    measure: str
    plain: bool


def judge_limits(state: State, *, carried_out: Collection[str]) -> tuple[Check, ...]:
    """Judge every limit of the book; `carried_out` names the chosen actions that the sizes fulfil."""
    book = state.ground.book.book
    return tuple([_judge(state, judged, carried_out=carried_out) for judged in _judged_of(Same(book.limits))])


@lru_cache(maxsize=MOST_BOOKS)
def _judged_of(limits: Same[Sequence[Limit]]) -> tuple[_Judged, ...]:
    return tuple(
        _Judged(
            limit,
            position,
            sense,
            bound,
            FACTS[limit.measure].dimension,
            variant_words(limit),
            f"limits[{position}]",
            f"limit:{limit.measure}",
            limit.measure.value,
            plain=not limit.when and not limit.relaxed and not isinstance(bound, BoundTable),
        )
        for position, limit in enumerate(limits.value)
        for sense, bound in ((Sense.MIN, limit.min), (Sense.MAX, limit.max))
        if bound is not None
    )


def bounds_of(state: State, limit: Limit, position: int) -> Iterator[tuple[Sense, float | None, int | None]]:
    """Give each bound of a limit with its sense and page; `None` where the group or a table has none."""
    for sense, bound in ((Sense.MIN, limit.min), (Sense.MAX, limit.max)):
        if bound is not None:
            yield sense, _bound_at(state, limit, position, sense, bound=bound), limit.page


def _bound_at(state: State, limit: Limit, position: int, sense: Sense, *, bound: Bound) -> float | None:
    if isinstance(bound, Amount):
        return bound.value
    if isinstance(bound, FromGroup):
        return _group_bound(state, limit, sense)
    return _box_bound(state, limit) if isinstance(bound, FromBox) else _table_bound(state, position, bound, sense)


def _left(series: Series, bound: float, sense: Sense) -> float | None:
    """What a largest bound leaves for the lengths that are missing: the bound less the largest of the lower bounds."""
    if sense is Sense.MIN or series.value is None or series.spread or (series.values and series.missing):
        return None
    lower = [series.values[name] for name in series.incomplete]
    return bound - (max(lower) if lower else series.value)


def _judge(state: State, judged: _Judged, *, carried_out: Collection[str]) -> Check:
    if not judged.plain:
        return _judge_anew(state, judged, carried_out=carried_out)
    checks = seen_of(state, judged.limit).checks
    known = checks.get(id(judged))
    if known is not None:
        return known[1]
    check = _judge_anew(state, judged, carried_out=carried_out)
    if not check.missing:  # what is missing is named by lengths and sizes
        checks[id(judged)] = judged, check
    return check


def _judge_anew(state: State, judged: _Judged, *, carried_out: Collection[str]) -> Check:
    limit, sense = judged.limit, judged.sense
    held = [condition_holds(state, condition) for condition in limit.when]
    bound = _bound_at(state, limit, judged.position, sense, bound=judged.bound)
    series = NOT_APPLICABLE if False in held else measure(state, limit, sense)
    if not series.applicable:
        return _check(state, judged, standing=Standing.NOT_APPLICABLE, bound=bound)
    if None in held and bound is not None:
        check = _check(state, judged, standing=Standing.UNJUDGED, bound=bound)
        return check._replace(missing=_missing_conditions(state, limit))
    if sense is Sense.MAX and isinstance(judged.bound, FromBox):
        return _by_box(state, judged)
    if bound is not None:
        return _against(state, judged, series, bound=bound, carried_out=carried_out)
    if isinstance(judged.bound, FromGroup):
        return _check(state, judged, standing=Standing.UNSTATED, bound=None)
    check = _check(state, judged, standing=Standing.UNJUDGED, bound=None)
    return check._replace(missing=("a row of the bound's table",))


def _by_box(state: State, judged: _Judged) -> Check:
    """Judge every item by what its own box states; the one with the least margin governs."""
    bounds, series = box_bounds(state.ground, judged.limit.measure), measure(state, judged.limit)
    items = {
        name: (bound - series.values[name], bound) for name, bound in bounds.by_item.items() if name in series.values
    }
    check = _check(state, judged, standing=Standing.UNSTATED, bound=None)
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
    state: State, judged: _Judged, *, standing: Standing, bound: float | None, series: Series | None = None
) -> Check:
    value = series.value if series is not None else None
    return Check(
        f"{state.ground.system.id}/{judged.subject}",
        CheckKind.LIMIT,
        judged.measure,
        judged.dimension,
        judged.sense,
        standing,
        value,
        bound,
        _margin(value, bound, judged.sense) if bound is not None else None,
        series.governs if series is not None else (),
        judged.limit.page,
        note=judged.words,
        path=judged.path,
    )


def _against(state: State, judged: _Judged, series: Series, *, bound: float, carried_out: Collection[str]) -> Check:
    limit, sense = judged.limit, judged.sense
    kept = stands(series, bound, sense)
    standing = Standing.WITHIN if kept else Standing.UNJUDGED if kept is None else Standing.OVER
    check = _check(state, judged, standing=standing, bound=bound, series=series)
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
