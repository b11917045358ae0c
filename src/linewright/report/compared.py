"""What differs between two designs: as records, in words and as JSON."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from linewright.engine.records import Check, Standing
from linewright.report.page import Page
from linewright.report.reasons import UNKNOWN, number
from linewright.report.table import Column
from linewright.units import Dimension, UnitSystem, tube_name

SCHEMA = "linewright/compare/1"
UNKNOWN_WORD = "unknown"


class Side(NamedTuple):
    """One of the two designs: its file, the hash of its text, how it stands, the hashes of its books by id."""

    file: str
    sha256: str
    standing: Standing
    books: Mapping[str, str]


class Field(NamedTuple):
    """A field that is stated otherwise; "" where it is not stated."""

    element: str
    field: str
    before: str
    after: str

    @property
    def words(self) -> tuple[str, str]:
        """Both sides in words: nothing stands as an empty cell, a bracket or a mark."""
        return _stated(self.before, self.field), _stated(self.after, self.field)


#: Written for a list or a mapping in which nothing stands, and where there is no such thing at all.
NONE = "none"
_NOT_GIVEN = "not given"
#: A run has a length, so that one which is not stated is `unknown` in its file.
_NEVER_LEFT_OUT = ("length",)
_EXISTS = "exists"


def _stated(text: str, field: str) -> str:
    if field == _EXISTS:
        return text or "no"
    if text in ("[]", "{}"):
        return NONE
    return text or (UNKNOWN_WORD if field in _NEVER_LEFT_OUT else _NOT_GIVEN)


class Resulted(NamedTuple):
    """Something that was worked out otherwise: a figure in SI or a word; `None` where it is not known."""

    element: str
    what: str
    before: float | str | None
    after: float | str | None
    dimension: Dimension | None

    def words(self, system: UnitSystem) -> tuple[str, str]:
        """Both sides in words."""
        return _said(self.before, self.dimension, system), _said(self.after, self.dimension, system)


def _said(value: float | str | None, dimension: Dimension | None, system: UnitSystem) -> str:
    if isinstance(value, str):
        return value
    return UNKNOWN if value is None or dimension is None else tube_name(value, system)


class Changed(NamedTuple):
    """A check whose standing or figures differ; `None` where there is none."""

    subject: str
    before: Check | None
    after: Check | None


class Charged(NamedTuple):
    """Charge of a system before and after [kg]; `None` where it is not known, or there is no such system.

    in_before, in_after : whether the design has the system
    """

    system: str
    in_before: bool
    in_after: bool
    additional_before: float | None
    additional_after: float | None
    total_before: float | None
    total_after: float | None


class Compared(NamedTuple):
    """All that differs."""

    before: Side
    after: Side
    fields: tuple[Field, ...]
    results: tuple[Resulted, ...]
    verdicts: tuple[Changed, ...]
    charges: tuple[Charged, ...]

    @property
    def same(self) -> bool:
        """Whether nothing differs, neither in the designs nor in the books."""
        return (
            not (self.fields or self.results or self.verdicts or self.charges) and self.before.books == self.after.books
        )


def compared_text(found: Compared, *, system: UnitSystem, colour: bool) -> str:
    """Write what a reviewer needs."""
    page = Page(colour=colour)
    for name, side in (("A", found.before), ("B", found.after)):
        page.text(f"{name}: {side.file} ({side.sha256[:12]}), {side.standing.value}")
    if found.same:
        page.text("Nothing differs.")
        return str(page)
    for name in sorted({*found.before.books, *found.after.books}):
        if found.before.books.get(name) != found.after.books.get(name):
            page.text(f"The book {name} is another, or is in one of them only.")
    page.blank()
    page.table(_FIELDS, [(one.element, one.field, *one.words) for one in found.fields])
    page.blank()
    page.table(_RESULTS, [(one.element, one.what, *one.words(system)) for one in found.results])
    page.blank()
    page.table(_VERDICTS, [verdict_row(one, system) for one in found.verdicts])
    page.blank()
    page.table(_CHARGES, [charge_row(one, system) for one in found.charges])
    page.text(
        f"{len(found.fields)} fields, {len(found.results)} results, {len(found.verdicts)} verdicts and "
        f"{len(found.charges)} charges differ; {sum(turned(one) for one in found.verdicts)} standings changed."
    )
    return str(page)


_FIELDS = (Column("element", most=26), Column("field", most=14), Column("A", most=18), Column("B"))
_RESULTS = (Column("follows", most=26), Column("result", most=14), Column("A", most=18), Column("B"))
_VERDICTS = (
    Column("verdict", most=30),
    Column("A", most=13),
    Column("left", right=True),
    Column("B", most=13),
    Column("left", right=True),
)
_CHARGES = (
    Column("charge of", most=16),
    Column("added, A", right=True),
    Column("added, B", right=True),
    Column("total, A", right=True),
    Column("total, B", right=True),
)


def verdict_row(one: Changed, system: UnitSystem) -> tuple[str, ...]:
    """Subject, then standing and what is left of either side."""
    return (one.subject, *_standing(one.before, system), *_standing(one.after, system))


def _standing(check: Check | None, system: UnitSystem) -> tuple[str, str]:
    if check is None:
        return NONE, "-"
    stated = check.margin is None and check.bound is None and not check.missing
    return check.standing.value, "-" if stated else number(check.margin, check.dimension, system)


def turned(one: Changed) -> bool:
    """Whether it stands otherwise."""
    return (one.before and one.before.standing) != (one.after and one.after.standing)


def charge_row(one: Charged, system: UnitSystem) -> tuple[str, ...]:
    """System, then additional and total charge before and after; of a system that one side lacks, that it does."""
    sides = (
        (one.additional_before, one.in_before, "A"),
        (one.additional_after, one.in_after, "B"),
        (one.total_before, one.in_before, "A"),
        (one.total_after, one.in_after, "B"),
    )
    return (one.system, *(_charged(kg, system, there=there, side=side) for kg, there, side in sides))


def _charged(kg: float | None, system: UnitSystem, *, there: bool, side: str) -> str:
    """A charge; that it is not known is another thing than that there is no such system."""
    return number(kg, Dimension.MASS, system) if there else f"not in {side}"


def compared_json(found: Compared) -> dict[str, Any]:
    """Give all that differs as plain values in SI."""
    return {
        "schema": SCHEMA,
        "same": found.same,
        "before": _side(found.before),
        "after": _side(found.after),
        "fields": [one._asdict() for one in found.fields],
        "results": [_result(one) for one in found.results],
        "verdicts": [
            {"subject": one.subject, "before": _check(one.before), "after": _check(one.after)} for one in found.verdicts
        ],
        "charges": [
            {
                "system": one.system,
                "in_before": one.in_before,
                "in_after": one.in_after,
                "additional_before_kg": one.additional_before,
                "additional_after_kg": one.additional_after,
                "total_before_kg": one.total_before,
                "total_after_kg": one.total_after,
            }
            for one in found.charges
        ],
    }


def _result(one: Resulted) -> dict[str, Any]:
    unit = None if one.dimension is None else one.dimension.si
    return {"element": one.element, "result": one.what, "before": one.before, "after": one.after, "unit": unit}


def _side(side: Side) -> dict[str, Any]:
    return {"file": side.file, "sha256": side.sha256, "standing": side.standing.value, "books": dict(side.books)}


def _check(check: Check | None) -> dict[str, Any] | None:
    if check is None:
        return None
    return {
        "standing": check.standing.value,
        "value": check.value,
        "bound": check.bound,
        "margin": check.margin,
        "unit": check.dimension.si,
        "missing": sorted(check.missing),
    }
