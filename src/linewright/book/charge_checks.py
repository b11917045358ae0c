"""What can be wrong with the fittings and the charge of a book, and the step in which a charge is rounded."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import NamedTuple

from linewright.book.naming import check_known, group_name
from linewright.book.quantities import Report, check_not_negative, check_positive
from linewright.book.roles import book_roles, line_rates
from linewright.book.schema import Book, FittingBy, FittingTable, HeaderTable
from linewright.errors import listed, quoted

_STEP = re.compile(r"\s*([0-9]{1,6}|[0-9]{0,6}\.[0-9]{1,9})\s*(kg|g|lb|oz)\s*")


class Step(NamedTuple):
    """A rounding step in the unit in which the book rounds."""

    number: float
    unit: str


def check_charge(book: Book, report: Report) -> None:
    """Note what is wrong with the terms of the charge."""
    charge = book.charge
    modules = {module.model for module in book.outdoor.modules}
    groups = {group.id for group in book.outdoor.groups if group.id}
    groups |= {group_name(group) for group in book.outdoor.groups} | modules
    indoor = {model.model for model in book.indoor.models} | {model.kind for model in book.indoor.models}
    _check_names(charge.group, groups, "charge.group", what="outdoor group or module", report=report)
    _check_names(charge.module, modules, "charge.module", what="outdoor module", report=report)
    _check_names(charge.indoor, indoor, "charge.indoor", what="indoor model or kind", report=report)
    for name, rates in line_rates(charge):
        if rates and name not in book_roles(book):
            report(f"charge.{name}", f"this book has no {name} line", listed(book_roles(book)))
        for size, rate in rates.items():
            if size <= 0 or rate < 0:
                message = f"a tube of {size * 1000:g} mm cannot hold {rate:g} kg/m"
                report(f"charge.{name}", message, "zero or more for a tube of a size")
    for i, band in enumerate(charge.connection_ratio):
        check_not_negative({"add": band.add_kg}, f"charge.connection_ratio[{i}]", report)
    check_not_negative(
        {"indoor_each": charge.indoor_each_kg, "min": charge.min_kg, "max": charge.max_kg}, "charge", report
    )
    check_positive({"multiplier": charge.multiplier}, "charge", report)
    if charge.min_kg is not None and charge.max_kg is not None and charge.min_kg > charge.max_kg >= 0:
        report("charge.min", "the least charge is above the largest", "min below max")


def round_step(book: Book, report: Report) -> Step | None:
    """Give the step in which a charge is rounded, if any."""
    rounding = book.charge.round
    if rounding is None:
        return None
    match = _STEP.fullmatch(rounding.step)
    if match is not None and float(match[1]) > 0:
        return Step(float(match[1]), match[2])
    report("charge.round.step", f"{quoted(rounding.step)} is not a step", "a mass above zero such as 0.1 kg or 0.1 lb")
    return None


def check_fittings(book: Book, report: Report) -> None:
    """Note what is wrong with fitting tables and allowances."""
    tables = book.fittings
    for name, table in (
        ("first", tables.first),
        ("joint", tables.joint),
        ("outdoor_joint", tables.outdoor_joint),
        ("below_box", tables.below_box),
    ):
        if table is not None:
            _check_table(table, f"fittings.{name}.rows", report)
    for name, headers in (("header", tables.header), ("below_box_header", tables.below_box_header)):
        if headers is not None:
            _check_headers(headers, f"fittings.{name}.rows", report)
    for kind, entry in tables.allowance.items():
        lengths = entry if isinstance(entry, Mapping) else {0.0: entry}
        if any(length < 0 for length in lengths.values()):
            report(f"fittings.allowance.{kind}", "an equivalent length is negative", "zero or more")


def _check_names(given: Mapping[str, float], known: set[str], path: str, *, what: str, report: Report) -> None:
    for name, mass_kg in given.items():
        check_known(name, known, f"{path}.{name}", what=what, report=report)
        if mass_kg < 0:
            report(f"{path}.{name}", "the charge is negative", "zero or more")


def _check_table(table: FittingTable, path: str, report: Report) -> None:
    for i, row in enumerate(table.rows):
        check_positive({"gas": row.gas}, f"{path}[{i}]", report)
        if row.gas is None and table.by is not FittingBy.INDEX:
            message = f"the table is by {table.by}, and the row names no gas tube"
            report(f"{path}[{i}].gas", message, "gas: the largest tube that enters the fitting")


def _check_headers(table: HeaderTable, rows: str, report: Report) -> None:
    for i, row in enumerate(table.rows):
        path = f"{rows}[{i}]"
        if row.ports < 2:
            report(f"{path}.ports", "a header has at least two ports", "2 or more")
        check_positive({"port_index": row.port_index}, path, report)
