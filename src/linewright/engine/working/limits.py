"""Working of a limit: the measure, the bound, what is left, and the conditions of a wider bound."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.book.ratios import range_of
from linewright.book.schema import FromBox, Limit, Need
from linewright.engine.records import Check, NeedResult, Sense
from linewright.engine.variants import limit_position
from linewright.engine.working.measures import item_steps, measure_steps, use_key
from linewright.engine.working.places import Places
from linewright.engine.working.steps import Input, Step
from linewright.units import Dimension


def limit_steps(at: Places, check: Check) -> tuple[Step, ...]:
    """Steps behind one limit."""
    limit = at.result.state.ground.book.book.limits[limit_position(check)]
    of_box = isinstance(limit.max, FromBox) and check.sense is Sense.MAX and bool(check.governs)
    item = item_steps(at, limit, check.governs[0]) if of_box else None
    steps = [*(item or measure_steps(at, limit, check.sense))]
    plain = check.plain_bound if check.plain_bound is not None else check.bound
    if plain is not None:
        steps.append(_margin(at, check, plain, _bound_path(at, check, limit), words=_plain_words(check)))
    for tried, stated in zip(check.relaxed, _relaxed(limit, check.sense), strict=False):
        where, needs = stated
        for result, need in zip(tried.needs, _flat(needs), strict=False):
            steps.extend(_need(_tried(at, check), result, need))
        verdict = (
            "its conditions hold"
            if tried.holds
            else "its conditions do not hold"
            if tried.holds is False
            else "its conditions cannot be judged"
        )
        steps.append(
            _margin(
                at,
                check._replace(page=tried.page),
                tried.bound,
                f"{check.path}.{where}",
                words=f"wider bound: {verdict}",
            )
        )
    return tuple(steps)


def _tried(at: Places, check: Check) -> Places:
    """Places in the state in which the wider bound was judged: a rejected one where its action was not chosen."""
    state = at.result.rejected.get(check.path)
    return at if state is None else at._replace(result=at.result._replace(state=state))


def _plain_words(check: Check) -> str:
    return check.standing.value if check.plain_bound is None else "beyond the plain bound"


def _margin(at: Places, check: Check, bound: float, path: str, *, words: str) -> Step:
    limit = Input("bound", bound, check.dimension, at.in_book(path) if not path.startswith("book:") else path)
    if check.value is None:
        return Step(
            f"left of {check.measure}",
            "difference",
            (limit,),
            check.dimension,
            None,
            "limits",
            page=check.page,
            note=words,
        )
    value = Input(check.measure, check.value, check.dimension, at.subject(_measured(at, check)))
    pair = (limit, value) if check.sense is Sense.MAX else (value, limit)
    left = bound - check.value if check.sense is Sense.MAX else check.value - bound
    return Step(
        f"left of {check.measure}",
        "difference",
        pair,
        check.dimension,
        left,
        "limits",
        page=check.page,
        note=words,
    )


def _measured(at: Places, check: Check) -> str:
    """Subject of what the bound was held against: of a box's own bound the one item that it holds for."""
    limit = at.result.state.ground.book.book.limits[limit_position(check)]
    whole = f"measure:{_key(at, check)}"
    return f"{whole}@{check.governs[0]}" if isinstance(limit.max, FromBox) and check.governs else whole


def _key(at: Places, check: Check) -> str:
    return use_key(at.result.state.ground.book.book.limits[limit_position(check)])


def _bound_path(at: Places, check: Check, limit: Limit) -> str:
    stated = limit.max if check.sense is Sense.MAX else limit.min
    if stated is not None and not hasattr(stated, "value"):
        return f"{check.path}.{check.sense}.rows"
    if isinstance(stated, FromBox):
        return f"boxes.models[{_box_position(at, check)}]" if check.governs else f"{check.path}.max"
    if str(getattr(stated, "value", "")) == "group":
        _, key = range_of(at.result.state.ground.group, limit)
        return f"{at.group_path()}.{key}.{check.sense}"
    return f"{check.path}.{check.sense}"


def _box_position(at: Places, check: Check) -> int:
    """Position of the model of the box that states the bound."""
    ids = at.result.tree.ids
    name = check.governs[0]
    boxes = at.result.state.ground.boxes
    return next(box.position or 0 for box in boxes if name == box.id or name in [ids[o.run] for o in box.outlets])


def _relaxed(limit: Limit, sense: Sense) -> list[tuple[str, tuple[Need, ...]]]:
    return [
        (f"relaxed[{i}]", relaxed.needs)
        for i, relaxed in enumerate(limit.relaxed)
        if (relaxed.max if sense is Sense.MAX else relaxed.min) is not None
    ]


def _flat(needs: tuple[Need, ...]) -> Iterator[tuple[Need, Sense]]:
    """Needs as the engine judged them: one entry for each bound of a need."""
    for need in needs:
        if need.measure is None:
            yield need, Sense.MAX
            continue
        for sense, amount in ((Sense.MIN, need.min), (Sense.MAX, need.max)):
            if amount is not None:
                yield need, sense


def _need(at: Places, result: NeedResult, stated: tuple[Need, Sense]) -> Iterator[Step]:
    need, sense = stated
    held = "holds" if result.holds else "does not hold" if result.holds is False else "cannot be judged"
    if need.measure is None:
        where = at.subject(f"action:{need.action}") if need.action else f"design:{at.system_path}.declared"
        met = Input(result.text, 1.0 if result.holds else 0.0, Dimension.NUMBER, where)
        yield Step(f"condition: {result.text}", "stated", (met,), Dimension.NUMBER, met.value, note=held)
        return
    yield from measure_steps(at, need, sense)
    if result.value is None or result.bound is None:
        yield Step(f"condition: {result.text}", "difference", (), result.dimension, None, note=held)
        return
    bound = Input("bound", result.bound, result.dimension, at.in_book("limits"))
    value = Input(f"{use_key(need)}, above", result.value, result.dimension, at.subject(f"measure:{use_key(need)}"))
    pair = (bound, value) if sense is Sense.MAX else (value, bound)
    left = result.bound - result.value if sense is Sense.MAX else result.value - result.bound
    yield Step(f"left on the condition {result.text}", "difference", pair, result.dimension, left, note=held)
