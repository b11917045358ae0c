"""What can be wrong with the terms of a charge, and with the length that the factory charge covers."""

from __future__ import annotations

from collections.abc import Mapping

from linewright.book.limit_checks import check_condition
from linewright.book.measures import MeasureName
from linewright.book.naming import check_known, group_name
from linewright.book.quantities import Report, check_positive
from linewright.book.roles import book_roles
from linewright.book.schema import Book, IndexOf, Per, Term
from linewright.errors import listed

#: What hangs on the charge itself; a term cannot.
OF_CHARGE = (MeasureName.ADDITIONAL_CHARGE, MeasureName.TOTAL_CHARGE, MeasureName.CHARGE_PER_LENGTH)
_SHAPE = "rate:, add:, each: or rows:"
_NAMED = (Per.UNIT, Per.MODULE, Per.BOX, Per.GROUP)
_INDEXED = (Per.UNIT, Per.MODULE, Per.BOX)


def check_terms(book: Book, report: Report) -> None:
    """Note what is wrong with the terms of the charge, those of options apart: they are read with the option on."""
    for i, term in enumerate(book.charge.terms):
        _check_term(term, f"charge.terms[{i}]", book, report=report)
    covered = book.charge.covered
    if covered is not None:
        check_positive({"length": covered.length_m}, "charge.covered", report)
        if not book.charge.liquid:
            report("charge.covered", "nothing is charged by liquid, of which it would be taken off", "charge.liquid")


def _check_term(term: Term, path: str, book: Book, *, report: Report) -> None:
    stated = (("rate", term.rate_kg_m is not None), ("add", term.add_kg is not None))
    shapes = [key for key, there in (*stated, ("each", bool(term.each)), ("rows", bool(term.rows))) if there]
    if len(shapes) != 1:
        report(path, f"a charge term has one of {_SHAPE}, this has {' and '.join(shapes) or 'none'}", _SHAPE)
        return
    _check_shape(term, shapes[0], path, report=report)
    _check_idle(term, path, report)
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
    if shape == "each" and term.per not in _NAMED:
        report(f"{path}.each", f"a term per {term.per} has no names", "per: unit, module, box or group")
    if shape == "rows" and term.by is None and term.per not in _INDEXED:
        report(f"{path}.rows", "bands are of a measure, or of the index of a unit, module or box", "by: a measure")
    rates = term.rate_kg_m.values() if isinstance(term.rate_kg_m, Mapping) else (term.rate_kg_m or 0.0,)
    if any(rate < 0 for rate in rates):
        report(f"{path}.rate", "no tube holds less than nothing", "zero or more")
    check_positive({"beyond": term.beyond_m}, path, report)


def _check_idle(term: Term, path: str, report: Report) -> None:
    """Note keys that would say nothing."""
    if term.lines and term.per is not Per.LENGTH:
        report(f"{path}.lines", f"a term per {term.per} has no lines", "per: length")
    if len(set(term.lines)) < len(term.lines):
        report(f"{path}.lines", "a line stands twice", "each line once")
    if term.of is IndexOf.OUTDOOR and term.per is not Per.INDEX:
        report(f"{path}.of", f"a term per {term.per} is not of an index", "per: index")
    if term.by is not None and not term.rows:
        report(f"{path}.by", "a measure is named and no bands of it", "rows: of that measure")
    elif term.by is not None and term.per is not Per.SYSTEM:
        message = f"bands of a measure are of the whole system, not of a {term.per}"
        report(f"{path}.per", message, "per: system, or no by:")
