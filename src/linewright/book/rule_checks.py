"""What can be wrong with the requirements, options, operating ranges, pressures and charge terms of a book."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from linewright.book.limit_checks import check_condition
from linewright.book.measures import MeasureName
from linewright.book.naming import check_known, check_once, group_name
from linewright.book.quantities import Report, check_dimension, check_not_negative, check_positive
from linewright.book.roles import book_roles
from linewright.book.schema import Book, OperatingRange, Per, Range, Term
from linewright.errors import listed
from linewright.units import Dimension

#: What hangs on the charge itself; a term cannot.
OF_CHARGE = (MeasureName.ADDITIONAL_CHARGE, MeasureName.TOTAL_CHARGE, MeasureName.CHARGE_PER_LENGTH)
_SHAPE = "rate:, add:, each: or rows:"


def check_rules(book: Book, report: Report) -> None:
    """Note what is wrong with the rules that no table holds."""
    check_once([option.id for option in book.options], "options", "id", report=report)
    check_once([item.id for item in book.requirements], "requirements", "id", report=report)
    kinds = {model.kind for model in book.indoor.models}
    for i, item in enumerate(book.requirements):
        where = f"requirements[{i}]"
        for j, kind in enumerate(item.kind):
            check_known(kind, kinds, f"{where}.kind[{j}]", what="kind of indoor unit", report=report)
        for j, condition in enumerate(item.when):
            check_condition(condition, f"{where}.when[{j}]", book, report=report)
    for i, option in enumerate(book.options):
        check_not_negative({"charge": option.charge_kg}, f"options[{i}]", report)
    _check_operation(book, report)
    _check_pressures(book, report)
    for i, term in enumerate(book.charge.terms):
        _check_term(term, f"charge.terms[{i}]", book, report=report)
    covered = book.charge.covered
    if covered is not None:
        check_positive({"length": covered.length_m}, "charge.covered", report)


def _check_operation(book: Book, report: Report) -> None:
    operation = book.operation
    if operation is None:
        return
    for mode in ("cooling", "heating"):
        for path, found in _ranges(getattr(operation, mode), f"operation.{mode}"):
            _check_range(found, path, Dimension.TEMPERATURE, report)
    _check_range(operation.altitude, "operation.altitude", Dimension.LENGTH, report)
    check_not_negative({"least_capacity": operation.least_capacity}, "operation", report)


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
    check_positive({"high": pressures.high_pa, "low": pressures.low_pa}, "pressures", report)
    for i, stage in enumerate(pressures.test):
        check_positive({"pressure": stage.pressure_pa}, f"pressures.test[{i}]", report)
    if pressures.high_pa and pressures.low_pa and pressures.low_pa > pressures.high_pa:
        report("pressures.low", "the pressure of the low side is above that of the high side", "low below high")


def _check_term(term: Term, path: str, book: Book, *, report: Report) -> None:
    shapes = [
        key
        for key, there in (
            ("rate", term.rate_kg_m is not None),
            ("add", term.add_kg is not None),
            ("each", bool(term.each)),
            ("rows", bool(term.rows)),
        )
        if there
    ]
    if len(shapes) != 1:
        report(path, f"a charge term has one of {_SHAPE}, this has {' and '.join(shapes) or 'none'}", _SHAPE)
        return
    _check_shape(term, shapes[0], path, report=report)
    for i, condition in enumerate(term.when):
        check_condition(condition, f"{path}.when[{i}]", book, report=report)
        if condition.measure in OF_CHARGE:
            report(f"{path}.when[{i}].measure", "a charge term cannot hang on the charge", "another measure")
    if term.by in OF_CHARGE:
        report(f"{path}.by", "a charge term cannot hang on the charge", "another measure")
    for i, role in enumerate(term.lines):
        if role not in book_roles(book):
            report(f"{path}.lines[{i}]", f"this book has no {role} line", listed(book_roles(book)))
    known = {
        Per.UNIT: {model.model for model in book.indoor.models} | {model.kind for model in book.indoor.models},
        Per.MODULE: {module.model for module in book.outdoor.modules},
        Per.BOX: {model.model for model in book.boxes.models} if book.boxes is not None else set(),
        Per.GROUP: {group_name(group) for group in book.outdoor.groups},
    }.get(term.per, set())
    for name in term.each:
        check_known(name, known, f"{path}.each.{name}", what=f"name of a {term.per}", report=report)


def _check_shape(term: Term, shape: str, path: str, *, report: Report) -> None:
    """Lengths have a rate and lines; units, modules and groups have names; bands are of a measure or an index."""
    if (shape == "rate") != (term.per is Per.LENGTH):
        report(f"{path}.per", f"a term with {shape}: is not per {term.per}", "per: length and rate: go together")
    if term.per is Per.LENGTH and not term.lines:
        report(f"{path}.lines", "a term per length names no line", "lines: [liquid], say")
    if term.beyond_m is not None and (term.per is not Per.LENGTH or isinstance(term.rate_kg_m, Mapping)):
        report(f"{path}.beyond", "only a term per length with a single rate is beyond a length", "no beyond here")
    if shape == "each" and term.per not in (Per.UNIT, Per.MODULE, Per.BOX, Per.GROUP):
        report(f"{path}.each", f"a term per {term.per} has no names", "per: unit, module, box or group")
    if shape == "rows" and term.by is None and term.per not in (Per.UNIT, Per.MODULE, Per.BOX):
        report(f"{path}.rows", "bands are of a measure, or of the index of a unit, module or box", "by: a measure")
