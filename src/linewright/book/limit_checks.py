"""What can be wrong with the limits and size actions of a book."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields

from linewright.book.measures import FACTS, VARIANTS, MeasureName, Over
from linewright.book.naming import check_known, check_once
from linewright.book.quantities import Report, check_dimension, check_not_negative, fits, said
from linewright.book.roles import UNIT_ROLES, book_roles, direct_roles, is_recovery, outer_roles
from linewright.book.schema import (
    ActionRuns,
    Book,
    BoundTable,
    Condition,
    CountBy,
    FromBox,
    FromGroup,
    Lengths,
    Limit,
    MeasureUse,
    Need,
    Paths,
    Relaxed,
    SiteValue,
    SizeAction,
    UpsizedMain,
    Where,
)
from linewright.errors import one_of, quoted
from linewright.model.values import Role
from linewright.units import Amount, Dimension

MOST_ELECTIVE = 6
MEASURE = "measure"
_OF_GROUP = (MeasureName.INDOOR_COUNT, MeasureName.CONNECTION_RATIO)
_OF_BOX = (MeasureName.BOX_INDEX, MeasureName.THROUGH_INDEX, MeasureName.PORT_INDEX, MeasureName.UNITS_PER_PORT)
Bound = Amount | FromGroup | FromBox | BoundTable | None


def check_limits(book: Book, report: Report) -> None:
    """Note what is wrong with limits and size actions."""
    actions = book.sizing.actions
    check_once([action.id for action in actions], "sizing.actions", "id", report=report)
    elective = {action.id for action in actions if action.when is None}
    if len(elective) > MOST_ELECTIVE:
        message = f"{len(elective)} size actions are elective (without when:)"
        report("sizing.actions", message, f"at most {MOST_ELECTIVE}: every subset of them is tried")
    for i, action in enumerate(actions):
        _check_action(action, f"sizing.actions[{i}]", book, report=report)
    for i, limit in enumerate(book.limits):
        _check_limit(limit, f"limits[{i}]", book, report=report)
        for j, relaxed in enumerate(limit.relaxed):
            where = f"limits[{i}].relaxed[{j}]"
            _check_relaxed(limit, relaxed, where, report=report)
            for k, need in enumerate(relaxed.needs):
                _check_need(need, f"{where}.needs[{k}]", book, elective=elective, report=report)


def check_upsized(upsized: UpsizedMain | None, path: str, report: Report) -> None:
    """Check the factors of an upsized main."""
    if upsized is None:
        return
    for steps, factor in upsized.factors.items():
        if steps < 1:
            report(f"{path}.{steps}", "a main that is no step up has no factor", "a number of steps, 1 or more")
        check_not_negative({str(steps): factor}, path, report)


def _check_action(action: SizeAction, path: str, book: Book, *, report: Report) -> None:
    if not action.lines:
        report(f"{path}.lines", "the size action touches no line", "gas, liquid or both")
    _check_lines(action, path, book, report=report)
    if action.steps < 1:
        report(f"{path}.steps", "the size action goes up no step", "1 or more")
    if action.when is not None:
        check_condition(action.when, f"{path}.when", book, report=report)
        _check_paths(action, path, report)


def _check_paths(action: SizeAction, path: str, report: Report) -> None:
    """An action on the way to far units has to know which units are far."""
    of = action.when.measure if action.when is not None else None
    by_unit = action.when is None or (of is not None and FACTS[of].over is Over.UNITS)
    if by_unit or action.runs is ActionRuns.MAIN or action.paths is Paths.ALL:
        return
    message = f"which units are far does not follow from {of or 'this condition'}"
    report(f"{path}.paths", message, "paths: all, or a when: on a measure that runs over units")


def _check_lines(action: SizeAction, path: str, book: Book, *, report: Report) -> None:
    """Lines that the runs of an action do not have: it would count as carried out without a tube going up."""
    roles: tuple[Role, ...]
    if not is_recovery(book):
        whose, roles = "a heat pump", UNIT_ROLES
    elif action.runs is ActionRuns.MAIN:
        whose, roles = "the main of this book", outer_roles(book)
    elif action.runs is ActionRuns.UNIT_RUN:
        whose, roles = "a unit's own run", (*UNIT_ROLES, *direct_roles(book))
    else:
        whose, roles = "this book", book_roles(book)
    for i, role in enumerate(action.lines):
        if role not in roles:
            report(f"{path}.lines[{i}]", f"{whose} has no {role} line", " or ".join(dict.fromkeys(roles)))


def _check_limit(limit: Limit, path: str, book: Book, *, report: Report) -> None:
    if limit.max is None and limit.min is None:
        report(path, "the limit has no bound", "max: or min:")
    for key, bound in _bounds(limit):
        _check_bound(bound, f"{path}.{key}", limit.measure, report=report)
    low, high = limit.min, limit.max
    if isinstance(low, Amount) and isinstance(high, Amount) and low.value > high.value:
        report(f"{path}.min", "the least value is above the largest", "min below max")
    _check_use(limit, path, book, report=report)
    if isinstance(limit.max, FromBox) and limit.relaxed:
        report(f"{path}.relaxed", "what each mode box states for itself is not relaxed", "no key 'relaxed'")
    for i, condition in enumerate(limit.when):
        check_condition(condition, f"{path}.when[{i}]", book, report=report)


def _bounds(item: Limit | Relaxed | Need) -> Iterator[tuple[str, Bound]]:
    for key, bound in (("max", item.max), ("min", item.min)):
        if bound is not None:
            yield key, bound


def _check_bound(bound: Bound, path: str, measure: MeasureName, *, report: Report) -> None:
    dimension = FACTS[measure].dimension
    if isinstance(bound, Amount):
        _check_amount(bound, path, dimension, report=report)
    elif isinstance(bound, FromGroup) and measure not in _OF_GROUP:
        report(path, f"an outdoor group states no bound on {measure}", f"a value, or one of {', '.join(_OF_GROUP)}")
    elif isinstance(bound, FromBox) and measure not in _OF_BOX:
        report(path, f"a mode box states no bound on {measure}", f"a value, or one of {', '.join(_OF_BOX)}")
    elif isinstance(bound, BoundTable):
        for i, row in enumerate(bound.rows):
            _check_amount(row.bound, f"{path}.rows[{i}].bound", dimension, report=report)


def _check_amount(amount: Amount, path: str, dimension: Dimension, *, report: Report) -> None:
    if check_dimension(amount, dimension, path, report=report) and amount.value < 0:
        report(path, "the bound is negative, which no measure is", "zero or more")


def _check_relaxed(limit: Limit, relaxed: Relaxed, path: str, *, report: Report) -> None:
    dimension = FACTS[limit.measure].dimension
    if (relaxed.max is None) == (relaxed.min is None):
        report(path, "a relaxed limit has one bound", "either max: or min:")
        return
    for key, bound in _bounds(relaxed):
        plain = limit.max if key == "max" else limit.min
        if not isinstance(bound, Amount):
            continue
        _check_amount(bound, f"{path}.{key}", dimension, report=report)
        if plain is None:
            report(f"{path}.{key}", f"the limit has no {key} that could be relaxed", f"a limit with {key}:")
        elif isinstance(plain, Amount) and fits(plain, dimension) and fits(bound, dimension):
            wider = bound.value > plain.value if key == "max" else bound.value < plain.value
            if not wider:
                word = "more" if key == "max" else "less"
                message = "the relaxed bound is not wider than the plain one"
                report(f"{path}.{key}", message, f"{word} than {said(plain.value, dimension)}")


def _check_need(need: Need, path: str, book: Book, *, elective: set[str], report: Report) -> None:
    given = [key for key in ("measure", "action", "declared", "option") if getattr(need, key)]
    if len(given) != 1:
        said_what = " and ".join(given) or "nothing"
        report(path, f"a need is one thing, this is {said_what}", "one of measure:, action:, declared:, option:")
        return
    if need.option:
        _check_option(need.option, f"{path}.option", book, report=report)
    if need.action and need.action not in elective:
        message = f"there is no elective size action {quoted(need.action)} in this book"
        otherwise = "none: the book has no elective size action"
        report(f"{path}.action", message, one_of(need.action, elective, otherwise=otherwise))
    bounds = list(_bounds(need))
    if need.measure is None:
        for key, _ in bounds:
            report(f"{path}.{key}", f"a need of {given[0]} has no bound", "a bound only beside measure:")
        return
    if not bounds:
        report(path, "the measure that is needed has no bound", "max: or min:")
    for key, bound in bounds:
        _check_bound(bound, f"{path}.{key}", need.measure, report=report)
    _check_use(need, path, book, report=report)


def check_condition(condition: Condition, path: str, book: Book, *, report: Report) -> None:
    """Check a condition: one thing, with one bound where it has a measure or a value of the site."""
    given = [key for key in ("measure", "declared", "option", "not_option", "site") if getattr(condition, key)]
    if len(given) != 1:
        message = f"a condition is one thing, this is {' and '.join(given) or 'nothing'}"
        report(path, message, "one of measure:, declared:, option:, not_option:, site:")
        return
    for key in ("option", "not_option"):
        name = getattr(condition, key)
        if name:
            _check_option(name, f"{path}.{key}", book, report=report)
    bounds = {
        "over": condition.over,
        "under": condition.under,
        "at_least": condition.at_least,
        "at_most": condition.at_most,
    }
    amounts = {key: amount for key, amount in bounds.items() if amount is not None}
    if condition.measure is None and condition.site is None:
        for key in amounts:
            report(f"{path}.{key}", f"a condition of {given[0]} has no bound", "a bound only beside measure: or site:")
        return
    if len(amounts) != 1:
        message = f"the condition has {'no bound' if not amounts else 'the bounds ' + ' and '.join(amounts)}"
        report(path, message, "one of over:, under:, at_least:, at_most:")
    for key, amount in amounts.items():
        if condition.measure is not None:
            _check_amount(amount, f"{path}.{key}", FACTS[condition.measure].dimension, report=report)
        else:
            of_site = Dimension.LENGTH if condition.site is SiteValue.ALTITUDE else Dimension.TEMPERATURE
            check_dimension(amount, of_site, f"{path}.{key}", report=report)
    if condition.measure is not None:
        _check_use(condition, path, book, report=report)


def _check_option(name: str, path: str, book: Book, *, report: Report) -> None:
    known = [option.id for option in book.options]
    if name not in known:
        message = f"there is no option {quoted(name)} in this book"
        report(path, message, one_of(name, known, otherwise="no option: the book has none"))


def _check_use(use: MeasureUse, path: str, book: Book, *, report: Report) -> None:
    _check_variant(use, path, report)
    if use.upsized_main is not None and use.lengths is Lengths.ACTUAL:
        report(f"{path}.upsized_main", "an actual length is never multiplied", "an equivalent length")
    check_upsized(use.upsized_main, f"{path}.upsized_main", report)
    if use.where is not None:
        check_where(use.where, f"{path}.where", book, report=report)


def _check_variant(use: MeasureUse, path: str, report: Report) -> None:
    """Note each key that changes other measures and says nothing of this one."""
    taken = VARIANTS.get(use.measure, ())
    for item in fields(MeasureUse):
        stated = getattr(use, item.name)
        if item.name in (MEASURE, *taken) or stated == item.default or use.measure is None:
            continue
        message = f"the measure {use.measure} takes no {item.name}"
        report(f"{path}.{item.name}", message, f"it takes {', '.join(taken)}" if taken else "it takes no variant")
    if use.count_by is CountBy.SIMULTANEOUS and use.where is not None:
        report(f"{path}.where", "the load of the rooms is that of all units", "no where")
    if use.in_all and use.where is not None:
        report(f"{path}.where", "with in_all the fittings of the whole system count, whatever the units", "no where")


def check_where(where: Where, path: str, book: Book, *, report: Report) -> None:
    """Check the names in a filter."""
    kinds = {model.kind for model in book.indoor.models}
    models = {model.model for model in book.indoor.models}
    for key, names, known, what in (
        ("kind", where.kind, kinds, "kind of indoor unit"),
        ("exclude_kind", where.exclude_kind, kinds, "kind of indoor unit"),
        ("model", where.model, models, "indoor model"),
    ):
        for i, name in enumerate(names):
            check_known(name, known, f"{path}.{key}[{i}]", what=what, report=report)
