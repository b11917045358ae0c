"""What can be wrong with the outdoor groups, indoor models and tubes of a book."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from linewright.book.naming import check_known, check_once, group_name
from linewright.book.quantities import Report, check_dimension, check_not_negative, check_positive
from linewright.book.roles import UNIT_ROLES, book_roles, is_recovery, outer_roles
from linewright.book.schema import (
    Book,
    Group,
    IndoorModel,
    OutdoorModule,
    Range,
    SizeTable,
    UnitSizing,
)
from linewright.errors import listed
from linewright.model.values import Role
from linewright.units import Dimension, same_tube


def check_family(book: Book, report: Report) -> None:
    """Note what is wrong with modules, groups, indoor models, tubes and their names."""
    _check_modules(book, report)
    for i, group in enumerate(book.outdoor.groups):
        _check_group(group, f"outdoor.groups[{i}]", book, report=report)
    _check_same_modules(book, report)
    for i, model in enumerate(book.indoor.models):
        _check_indoor(model, f"indoor.models[{i}]", report)
    if not book.indoor.models:
        report("indoor.models", "the book has no indoor model", "at least one")
    check_once([model.model for model in book.indoor.models], "indoor.models", "model", report=report)
    _check_ladders(book, report)
    for path, row, roles in _size_rows(book):
        _check_sizes(row, path, roles, book=book, report=report)


def _check_modules(book: Book, report: Report) -> None:
    modules = book.outdoor.modules
    if not modules:
        report("outdoor.modules", "the book has no outdoor module", "at least one")
    if not book.outdoor.groups:
        report("outdoor.groups", "the book has no outdoor group", "at least one; a single module is one as well")
    check_once([module.model for module in modules], "outdoor.modules", "model", report=report)
    for i, module in enumerate(modules):
        path = f"outdoor.modules[{i}]"
        positive = {"index": module.index, "cooling": module.cooling_w, "heating": module.heating_w}
        check_positive(positive | _inputs(module), path, report)
        check_not_negative({"factory_charge": module.factory_charge_kg}, path, report)
        check_positive({role.value: size for role, size in module.ports.items()}, path, report)


def _inputs(of: OutdoorModule | Group) -> dict[str, float | None]:
    return {"cooling_input": of.cooling_input_w, "heating_input": of.heating_input_w}


def _check_group(group: Group, path: str, book: Book, *, report: Report) -> None:
    known = [module.model for module in book.outdoor.modules]
    if not group.modules:
        report(f"{path}.modules", "the group has no module", "at least one")
    for j, model in enumerate(group.modules):
        check_known(model, known, f"{path}.modules[{j}]", what="outdoor module", report=report)
    positive = {"index": group.index, "cooling": group.cooling_w, "heating": group.heating_w}
    check_positive(positive | _inputs(group), path, report)
    check_not_negative({"factory_charge": group.factory_charge_kg}, path, report)
    _check_range(group.indoor_count, f"{path}.indoor_count", Dimension.NUMBER, report)
    _check_range(group.connection_ratio, f"{path}.connection_ratio", Dimension.RATIO, report)
    for j, ratio in enumerate(group.ratios):
        _check_range(ratio, f"{path}.ratios[{j}]", Dimension.RATIO, report)


def _check_range(limits: Range, path: str, dimension: Dimension, report: Report) -> None:
    good = True
    for key, amount in (("min", limits.min), ("max", limits.max)):
        if amount is not None:
            good = check_dimension(amount, dimension, f"{path}.{key}", report=report) and good
            check_not_negative({key: amount.value}, path, report)
    if good and limits.min and limits.max and limits.min.value > limits.max.value:
        report(f"{path}.min", "the least value is above the largest", "min below max")


def _check_same_modules(book: Book, report: Report) -> None:
    """Two groups of the same modules: which of them a design means, nobody could say."""
    first: dict[tuple[str, ...], int] = {}
    for i, group in enumerate(book.outdoor.groups):
        key = tuple(sorted(group.modules))
        if key and key in first:
            message = f"the modules {' + '.join(group.modules)} form a group already, outdoor.groups[{first[key]}]"
            report(f"outdoor.groups[{i}].modules", message, "each combination of modules once")
        first.setdefault(key, i)
    by_modules = {group_name(group): i for i, group in reversed(list(enumerate(book.outdoor.groups)))}
    for i, group in enumerate(book.outdoor.groups):
        at = by_modules[group_name(group)]
        if at != i and tuple(sorted(group.modules)) != tuple(sorted(book.outdoor.groups[at].modules)):
            message = f"the name '{group_name(group)}' is used twice, first in outdoor.groups[{at}]"
            report(f"outdoor.groups[{i}].id", message, "each name once")


def _check_indoor(model: IndoorModel, path: str, report: Report) -> None:
    check_positive({"index": model.index, "cooling": model.cooling_w, "heating": model.heating_w}, path, report)
    check_not_negative({"sensible": model.sensible_w}, path, report)
    if model.sensible_w > model.cooling_w > 0:
        report(f"{path}.sensible", "the sensible capacity is more than the total, of which it is a part", "less")


def _check_ladders(book: Book, report: Report) -> None:
    for role in book_roles(book):
        if not book.tubes.ladders.get(role):
            report(f"tubes.{role}", f"there is no ladder of {role} tubes", f"{role}: a list of tube sizes")
    for role, sizes in book.tubes.ladders.items():
        for i, size in enumerate(sizes):
            where = f"tubes.{role}[{i}]"
            if size <= 0:
                report(where, "a tube has no size", "a tube size such as 15.88 mm")
            elif any(same_tube(size, other) for other in sizes[:i]):
                report(where, "the size stands twice on the ladder", "each size once")
    for size, wall_m in book.tubes.wall_m.items():
        if not 0 < wall_m < size / 2:
            report("tubes.wall", f"a tube of {size * 1000:g} mm cannot have a wall of {wall_m * 1000:g} mm", "a wall")


def _check_sizes(row: Mapping[Role, float], path: str, roles: Sequence[Role], *, book: Book, report: Report) -> None:
    for role in roles:
        if role not in row:
            report(f"{path}.{role}", f"there is no {role} size", f"{role}: a tube size")
    for role, size in row.items():
        if is_recovery(book) and role not in roles:
            report(f"{path}.{role}", f"this pipe has no {role} tube", listed(roles))
            continue
        ladder = book.tubes.ladders.get(role, ())
        if ladder and not any(same_tube(size, step) for step in ladder):
            message = f"{size * 1000:g} mm is not on the ladder of {role} tubes"
            report(f"{path}.{role}", message, "a size that stands under tubes")


def _size_rows(book: Book) -> Iterator[tuple[str, Mapping[Role, float], Sequence[Role]]]:
    """Every row that gives sizes, with the tubes that it has to give."""
    sizing, outer = book.sizing, outer_roles(book)
    tables: dict[str, tuple[SizeTable | None, Sequence[Role]]] = {
        "main": (sizing.main, outer),
        "branch": (sizing.branch, outer),
        "module": (sizing.module, outer),
        "below_box": (sizing.below_box, UNIT_ROLES),
    }
    if isinstance(sizing.unit, UnitSizing):
        for i, model in enumerate(book.indoor.models):
            yield f"indoor.models[{i}]", model.ports, UNIT_ROLES
    else:
        tables["unit"] = (sizing.unit, UNIT_ROLES)
    for name, (table, roles) in tables.items():
        for i, row in enumerate(table.rows if table is not None else ()):
            yield f"sizing.{name}.rows[{i}]", row.sizes, roles
