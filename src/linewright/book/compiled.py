"""A book made quick to look up, and everything that can be wrong with one before a design meets it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from difflib import get_close_matches
from typing import NamedTuple

from linewright.book.bands import Bands, Report, check_dimension, compile_bands
from linewright.book.capacity import ModeTables, compile_mode
from linewright.book.measures import FACTS, MeasureName
from linewright.book.schema import (
    Book,
    BoundRow,
    BoundTable,
    ChargeBand,
    Condition,
    FittingRow,
    FittingTable,
    FromGroup,
    Group,
    HeaderRow,
    IndoorModel,
    Lengths,
    Limit,
    MainBy,
    MeasureUse,
    OutdoorModule,
    Range,
    SizeRow,
    SizeTable,
    UnitSizing,
)
from linewright.model.values import Role
from linewright.units import Amount, Dimension, UnitFault, from_unit, same_tube

MOST_ELECTIVE = 6


class Step(NamedTuple):
    """A rounding step in the unit in which the book rounds."""

    number: float
    unit: str


class CompiledBook(NamedTuple):
    """A book and its tables by key."""

    book: Book
    modules: Mapping[str, OutdoorModule]
    groups: Mapping[tuple[str, ...], Group]
    models: Mapping[str, IndoorModel]
    model_at: Mapping[str, int]
    main: Bands[SizeRow] | None
    main_by_group: Mapping[str, SizeRow]
    branch: Bands[SizeRow]
    unit_run: Bands[SizeRow] | None
    module_pipe: Bands[SizeRow] | None
    first: Bands[FittingRow] | None
    joint: Bands[FittingRow] | None
    outdoor_joint: Bands[FittingRow] | None
    header: Bands[HeaderRow] | None
    bounds: Mapping[tuple[int, str], Bands[BoundRow]]
    ratio_charge: Bands[ChargeBand] | None
    round_step: Step | None
    ladders: Mapping[Role, tuple[float, ...]]
    cooling: ModeTables
    heating: ModeTables | None

    def group_of(self, modules: tuple[str, ...]) -> Group | None:
        """Give the group that these modules form, in any order."""
        return self.groups.get(tuple(sorted(modules)))


def group_name(group: Group) -> str:
    """Name of a group: its id, else its modules joined by a plus sign."""
    return group.id or "+".join(group.modules)


def compile_book(book: Book, report: Report) -> CompiledBook:
    """Make a book quick to look up; every fault goes to `report` with its path."""
    _check_outdoor(book, report)
    _check_names(book, report)
    _check_tubes(book, report)
    _check_actions(book, report)
    for i, limit in enumerate(book.limits):
        _check_limit(limit, f"limits[{i}]", book, report=report)
    sizing, fittings = book.sizing, book.fittings
    by_group = sizing.main.by is MainBy.GROUP
    return CompiledBook(
        book=book,
        modules={module.model: module for module in book.outdoor.modules},
        groups={tuple(sorted(group.modules)): group for group in book.outdoor.groups},
        models={model.model: model for model in book.indoor.models},
        model_at={model.model: position for position, model in enumerate(book.indoor.models)},
        main=None if by_group else _sizes(sizing.main, "sizing.main.rows", report),
        main_by_group=_sizes_by_group(book, report) if by_group else {},
        branch=_sizes(sizing.branch, "sizing.branch.rows", report),
        unit_run=None if isinstance(sizing.unit, UnitSizing) else _sizes(sizing.unit, "sizing.unit.rows", report),
        module_pipe=None if sizing.module is None else _sizes(sizing.module, "sizing.module.rows", report),
        first=_fittings(fittings.first, "fittings.first.rows", report),
        joint=_fittings(fittings.joint, "fittings.joint.rows", report),
        outdoor_joint=_fittings(fittings.outdoor_joint, "fittings.outdoor_joint.rows", report),
        header=_headers(book, report),
        bounds=_bound_tables(book, report),
        ratio_charge=_ratio_charge(book, report),
        round_step=_round_step(book, report),
        ladders={role: tuple(sorted(sizes)) for role, sizes in book.tubes.ladders.items()},
        cooling=compile_mode(book.capacity.cooling, "capacity.cooling", report),
        heating=compile_mode(book.capacity.heating, "capacity.heating", report) if book.capacity.heating else None,
    )


def _sizes(table: SizeTable, path: str, report: Report) -> Bands[SizeRow]:
    return compile_bands(table.rows, path, dimension=Dimension.NUMBER, report=report, page=table.page)


def _sizes_by_group(book: Book, report: Report) -> dict[str, SizeRow]:
    rows = {row.group: row for row in book.sizing.main.rows}
    for i, group in enumerate(book.outdoor.groups):
        if group_name(group) not in rows:
            report(
                f"outdoor.groups[{i}]",
                f"no row of sizing.main is for group '{group_name(group)}'",
                "a row for each group",
            )
    return rows


def _fittings(table: FittingTable | None, path: str, report: Report) -> Bands[FittingRow] | None:
    if table is None:
        return None
    return compile_bands(table.rows, path, dimension=Dimension.NUMBER, report=report, page=table.page)


def _headers(book: Book, report: Report) -> Bands[HeaderRow] | None:
    table = book.fittings.header
    if table is None:
        return None
    return compile_bands(
        table.rows,
        "fittings.header.rows",
        dimension=Dimension.NUMBER,
        report=report,
        page=table.page,
        strict=False,
    )


def _bound_tables(book: Book, report: Report) -> dict[tuple[int, str], Bands[BoundRow]]:
    found = {}
    for i, limit in enumerate(book.limits):
        for sense, bound in (("max", limit.max), ("min", limit.min)):
            if isinstance(bound, BoundTable):
                path = f"limits[{i}].{sense}.rows"
                dimension = FACTS[bound.by].dimension
                found[i, sense] = compile_bands(bound.rows, path, dimension=dimension, report=report, page=limit.page)
    return found


def _ratio_charge(book: Book, report: Report) -> Bands[ChargeBand] | None:
    rows = book.charge.connection_ratio
    if not rows:
        return None
    return compile_bands(
        rows, "charge.connection_ratio", dimension=Dimension.RATIO, report=report, page=book.charge.page
    )


def _round_step(book: Book, report: Report) -> Step | None:
    rounding = book.charge.round
    if rounding is None:
        return None
    match = re.fullmatch(r"\s*([0-9.]+)\s*(kg|g|lb|oz)\s*", rounding.step)
    try:
        if match and from_unit(float(match[1]), match[2]) > 0:
            return Step(float(match[1]), match[2])
    except (UnitFault, ValueError):
        pass
    report("charge.round.step", f"'{rounding.step}' is not a step", "a mass above zero such as 0.1 kg or 0.1 lb")
    return None


def _check_outdoor(book: Book, report: Report) -> None:
    known = [module.model for module in book.outdoor.modules]
    for i, group in enumerate(book.outdoor.groups):
        path = f"outdoor.groups[{i}]"
        for j, model in enumerate(group.modules):
            if model not in known:
                report(f"{path}.modules[{j}]", f"no module '{model}' in this book", near(model, known))
        _check_range(group.indoor_count, f"{path}.indoor_count", Dimension.NUMBER, report)
        _check_range(group.connection_ratio, f"{path}.connection_ratio", Dimension.RATIO, report)


def _check_range(limits: Range, path: str, dimension: Dimension, report: Report) -> None:
    for amount in (limits.min, limits.max):
        if amount is not None:
            check_dimension(amount, dimension, path, report=report)
    if limits.min and limits.max and limits.min.value > limits.max.value:
        report(path, "the least value is above the largest", "min below max")


def _check_names(book: Book, report: Report) -> None:
    named = {
        "outdoor.modules": [module.model for module in book.outdoor.modules],
        "outdoor.groups": [group_name(group) for group in book.outdoor.groups],
        "indoor.models": [model.model for model in book.indoor.models],
        "sizing.actions": [action.id for action in book.sizing.actions],
    }
    for path, names in named.items():
        for i, name in enumerate(names):
            if name in names[:i]:
                report(f"{path}[{i}]", f"the name '{name}' is used twice", "each name once")
    groups = {group.id for group in book.outdoor.groups} | {m.model for m in book.outdoor.modules}
    _check_keys(book.charge.group, groups, "charge.group", report)
    _check_keys(book.charge.module, {m.model for m in book.outdoor.modules}, "charge.module", report)
    indoor = {m.model for m in book.indoor.models} | {m.kind for m in book.indoor.models}
    _check_keys(book.charge.indoor, indoor, "charge.indoor", report)


def _check_keys(given: Mapping[str, float], known: set[str], path: str, report: Report) -> None:
    for name in given:
        if name not in known:
            report(f"{path}.{name}", f"'{name}' is no name of this book", near(name, known))


def _check_tubes(book: Book, report: Report) -> None:
    ladders = book.tubes.ladders
    for role in (Role.GAS, Role.LIQUID):
        if not ladders.get(role):
            report("tubes", f"no ladder of {role} tubes", f"{role}: a list of tube sizes")
    for path, row in _size_rows(book):
        for role in (Role.GAS, Role.LIQUID):
            if role not in row:
                report(path, f"no {role} size", f"{role}: a tube size")
        for role, size in row.items():
            if not any(same_tube(size, step) for step in ladders.get(role, ())):
                report(
                    f"{path}.{role}",
                    f"{size * 1000:g} mm is not on the ladder of {role} tubes",
                    "a size of the ladder",
                )


def _size_rows(book: Book) -> list[tuple[str, Mapping[Role, float]]]:
    sizing = book.sizing
    rows = [(f"sizing.main.rows[{i}]", row.sizes) for i, row in enumerate(sizing.main.rows)]
    rows += [(f"sizing.branch.rows[{i}]", row.sizes) for i, row in enumerate(sizing.branch.rows)]
    if isinstance(sizing.unit, UnitSizing):
        rows += [(f"indoor.models[{i}]", model.ports) for i, model in enumerate(book.indoor.models)]
    else:
        rows += [(f"sizing.unit.rows[{i}]", row.sizes) for i, row in enumerate(sizing.unit.rows)]
    if sizing.module is not None:
        rows += [(f"sizing.module.rows[{i}]", row.sizes) for i, row in enumerate(sizing.module.rows)]
    return rows


def _check_actions(book: Book, report: Report) -> None:
    elective = [action for action in book.sizing.actions if action.when is None]
    if len(elective) > MOST_ELECTIVE:
        report("sizing.actions", f"{len(elective)} elective actions", f"at most {MOST_ELECTIVE} without `when`")
    for i, action in enumerate(book.sizing.actions):
        path = f"sizing.actions[{i}]"
        if action.steps < 1:
            report(f"{path}.steps", "an action of no steps", "1 or more")
        if action.when is not None:
            _check_condition(action.when, f"{path}.when", report)


def _check_limit(limit: Limit, path: str, book: Book, *, report: Report) -> None:
    dimension = FACTS[limit.measure].dimension
    if limit.max is None and limit.min is None:
        report(path, "a limit without a bound", "max: or min:")
    for sense, bound in (("max", limit.max), ("min", limit.min)):
        _check_bound(bound, dimension, f"{path}.{sense}", measure=limit.measure, report=report)
    _check_variant(limit, path, report)
    for condition in limit.when:
        _check_condition(condition, f"{path}.when", report)
    actions = {action.id for action in book.sizing.actions if action.when is None}
    for i, relaxed in enumerate(limit.relaxed):
        where = f"{path}.relaxed[{i}]"
        for sense, plain, amount in (("max", limit.max, relaxed.max), ("min", limit.min, relaxed.min)):
            if amount is not None:
                check_dimension(amount, dimension, f"{where}.{sense}", report=report)
                if plain is None:
                    report(
                        f"{where}.{sense}",
                        "relaxes a bound that the limit does not have",
                        f"a limit with {sense}:",
                    )
        if (relaxed.max is None) == (relaxed.min is None):
            report(where, "a relaxed bound needs one bound", "either max: or min:")
        for j, need in enumerate(relaxed.needs):
            _check_need_action(need.action, actions, f"{where}.needs[{j}].action", report)
            if need.measure is not None:
                for amount in (need.max, need.min):
                    if amount is not None:
                        check_dimension(amount, FACTS[need.measure].dimension, f"{where}.needs[{j}]", report=report)
            if sum([need.measure is not None, bool(need.action), bool(need.declared)]) != 1:
                report(f"{where}.needs[{j}]", "a need is one of three", "measure:, action: or declared:")
            elif need.measure is not None and need.max is None and need.min is None:
                report(f"{where}.needs[{j}]", "a need on a measure without a bound", "max: or min:")


def _check_need_action(action: str, known: set[str], path: str, report: Report) -> None:
    if action and action not in known:
        report(path, f"no elective action '{action}' in sizing.actions", near(action, known))


def _check_bound(
    bound: Amount | FromGroup | BoundTable | None,
    dimension: Dimension,
    path: str,
    *,
    measure: MeasureName,
    report: Report,
) -> None:
    if isinstance(bound, Amount):
        check_dimension(bound, dimension, path, report=report)
    elif isinstance(bound, FromGroup):
        if measure not in (MeasureName.INDOOR_COUNT, MeasureName.CONNECTION_RATIO):
            report(
                path,
                f"a group states no bound on {measure}",
                "indoor_count or connection_ratio, or a value here",
            )
    elif isinstance(bound, BoundTable):
        for i, row in enumerate(bound.rows):
            check_dimension(row.bound, dimension, f"{path}.rows[{i}].bound", report=report)


def _check_condition(condition: Condition, path: str, report: Report) -> None:
    bounds = [condition.over, condition.under, condition.at_least, condition.at_most]
    given = [amount for amount in bounds if amount is not None]
    if len(given) != 1:
        report(path, "a condition needs one bound", "one of over:, under:, at_least:, at_most:")
    for amount in given:
        check_dimension(amount, FACTS[condition.measure].dimension, path, report=report)
    _check_variant(condition, path, report)


def _check_variant(use: MeasureUse, path: str, report: Report) -> None:
    actual = use.measure is MeasureName.FARTHEST_ACTUAL or use.lengths is Lengths.ACTUAL
    if use.upsized_main is not None and actual:
        report(f"{path}.upsized_main", "an actual length is never multiplied", "an equivalent length")


def near(name: str, known: object) -> str:
    """Give the known name nearest to `name`, or all of them."""
    names = sorted(str(item) for item in known)  # type: ignore[attr-defined]
    close = get_close_matches(name, names, n=1)
    return f"'{close[0]}'" if close else f"one of {', '.join(names[:12])}"
