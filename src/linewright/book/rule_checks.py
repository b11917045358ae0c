"""What can be wrong with the requirements, options, operating ranges, pressures and charge terms of a book."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.book.limit_checks import check_condition, check_where
from linewright.book.naming import check_known, check_once
from linewright.book.quantities import Report, check_dimension, check_not_negative, check_positive
from linewright.book.ratios import is_of_ratio
from linewright.book.schema import (
    AppliesTo,
    Book,
    CountBy,
    FromGroup,
    GroupRatio,
    OperatingRange,
    Range,
    Requirement,
    SiteValue,
)
from linewright.book.term_checks import check_terms
from linewright.units import Dimension


def check_rules(book: Book, report: Report) -> None:
    """Note what is wrong with the rules that no table holds."""
    check_once([option.id for option in book.options], "options", "id", report=report)
    check_once([item.id for item in book.requirements], "requirements", "id", report=report)
    for i, item in enumerate(book.requirements):
        _check_requirement(item, f"requirements[{i}]", book, report=report)
    for i, option in enumerate(book.options):
        check_not_negative({"charge": option.charge_kg}, f"options[{i}]", report)
        for j, condition in enumerate(option.when):
            check_condition(condition, f"options[{i}].when[{j}]", book, report=report)
    for i, group in enumerate(book.outdoor.groups):
        for j, ratio in enumerate(group.ratios):
            _check_ratio(ratio, f"outdoor.groups[{i}].ratios[{j}]", book, report=report)
    _check_operation(book, report)
    _check_pressures(book, report)
    check_terms(book, report)


def _check_ratio(ratio: GroupRatio, path: str, book: Book, *, report: Report) -> None:
    """A ratio that no limit puts in force would be judged by nobody."""
    if ratio.where is None and ratio.count_by is CountBy.INDEX:
        report(path, "this is the group's own ratio", "under connection_ratio:, or with where: or count_by:")
        return
    if ratio.where is not None:
        check_where(ratio.where, f"{path}.where", book, report=report)
    limits = [*book.limits, *(limit for option in book.options for limit in option.limits)]
    fitting = [limit for limit in limits if is_of_ratio(limit, ratio)]
    for key in ("min", "max"):
        named = any(getattr(limit, key) is FromGroup.GROUP for limit in fitting)
        if getattr(ratio, key) is not None and not named:
            message = f"no limit puts this in force with {key}: group"
            report(f"{path}.{key}", message, "a limit on connection_ratio with the same where: and count_by:")


def _check_requirement(item: Requirement, path: str, book: Book, *, report: Report) -> None:
    kinds = {model.kind for model in book.indoor.models}
    for j, kind in enumerate(item.kind):
        check_known(kind, kinds, f"{path}.kind[{j}]", what="kind of indoor unit", report=report)
    for key, stated in (("kind", item.kind), ("where", item.where)):
        if stated and item.applies_to not in (AppliesTo.UNITS, AppliesTo.UNIT_RUNS):
            message = f"a requirement on {item.applies_to} is asked of no units"
            report(f"{path}.{key}", message, "applies_to: units or unit-runs")
    if item.where is not None:
        check_where(item.where, f"{path}.where", book, report=report)
    for j, condition in enumerate(item.when):
        check_condition(condition, f"{path}.when[{j}]", book, report=report)


#: Bounds of what may be the density of an oil [kg/m3]: a judgement, wide enough for all.
LEAST_OIL_KG_M3, MOST_OIL_KG_M3 = 700.0, 1200.0


def _check_operation(book: Book, report: Report) -> None:
    operation = book.operation
    if operation is None:
        return
    for mode in ("cooling", "heating"):
        for path, found in _ranges(getattr(operation, mode), f"operation.{mode}"):
            _check_range(found, path, Dimension.TEMPERATURE, report)
            if found != Range() and path.removeprefix("operation.") not in set(SiteValue):
                stated = [name for name in SiteValue if name.startswith(mode)]
                report(path, "no site states it, so that nobody could judge it", f"one of {', '.join(stated)}")
    _check_range(operation.altitude, "operation.altitude", Dimension.LENGTH, report)
    check_not_negative({"least_capacity": operation.least_capacity}, "operation", report)
    density = operation.oil_density_kg_m3
    if density is not None and not LEAST_OIL_KG_M3 <= density <= MOST_OIL_KG_M3:
        report("operation.oil_density", "no oil of compressors is that light or that heavy", "700 to 1200 kg/m3")


def _ranges(of: OperatingRange, path: str) -> Iterator[tuple[str, Range]]:
    for name in ("outdoor_db", "outdoor_wb", "indoor_db", "indoor_wb"):
        yield f"{path}.{name}", getattr(of, name)


def _check_range(found: Range, path: str, dimension: Dimension, report: Report) -> None:
    good = [
        check_dimension(amount, dimension, f"{path}.{key}", report=report)
        for key, amount in (("min", found.min), ("max", found.max))
        if amount is not None
    ]
    if all(good) and found.min and found.max and found.min.value > found.max.value:
        report(f"{path}.min", "the least value is above the largest", "min below max")


def _check_pressures(book: Book, report: Report) -> None:
    pressures = book.pressures
    if pressures is None:
        return
    stated = {"high": pressures.high_pa, "low": pressures.low_pa, "vacuum": pressures.vacuum_pa}
    check_positive(stated | {"vacuum_hold": pressures.vacuum_hold_s}, "pressures", report)
    for size, thickness in pressures.insulation_m.items():
        if thickness <= 0:
            message = f"a tube of {size * 1000:g} mm has no insulation of {thickness * 1000:g} mm"
            report("pressures.insulation", message, "a thickness above zero")
    for i, stage in enumerate(pressures.test):
        check_positive({"pressure": stage.pressure_pa, "hold": stage.hold_s}, f"pressures.test[{i}]", report)
    if pressures.high_pa and pressures.low_pa and pressures.low_pa > pressures.high_pa:
        report("pressures.low", "the pressure of the low side is above that of the high side", "low below high")
