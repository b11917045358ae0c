"""Where the design departs from the book's plain tables, and on which of its pages it rests."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.engine.records import Check, CheckKind, Evaluation, Standing, SystemResult
from linewright.report.checklist.asked import SYSTEM
from linewright.report.reasons import because, number
from linewright.report.schedules.tables import Cell, Column, Table
from linewright.units import Dimension, UnitSystem, show, tube_name

_WHERE = (SYSTEM, Column("what", "what"), Column("at", "at"))


def deviations(evaluation: Evaluation, units: UnitSystem) -> Table:
    """Overrides, wider bounds that are used, declarations, forbidden actions, lengths as built, what is over."""
    columns = (
        SYSTEM,
        Column("what", "what"),
        Column("at", "at"),
        Column("text", "how it departs"),
        Column("page", "page"),
    )
    rows = tuple(row for result in evaluation.systems for row in _of_system(result, units))
    notes = () if rows else ("None: every size is that of the tables, and no wider bound is used.",)
    return Table("deviations", "Deviations and conditions", columns, rows, notes)


def _of_system(result: SystemResult, units: UnitSystem) -> Iterator[tuple[Cell, ...]]:
    yield from _overrides(result, units)
    for check in result.limits:
        if check.standing is Standing.ON_CONDITIONS:
            page = next((one.page for one in reversed(check.relaxed) if one.page is not None), check.page)
            yield _row(result, "wider bound", check.measure, "; ".join(because(check, units)), page=page)
    for check in (*result.limits, *result.checks):
        if check.standing is Standing.OVER:
            name = check.subject.partition("/")[2] or check.subject
            said = "; ".join(filter(None, (_figures(check, units), *because(check, units), check.note)))
            yield _row(result, "OVER", name, said or "does not hold", page=check.page)
    for name in result.system.declared:
        yield _row(result, "declared", name, "declared by the designer, for a bound that needs it")
    for name in result.system.forbidden_actions:
        yield _row(result, "forbidden action", name, "the book's change of size is not carried out")
    for action in result.actions:
        if action.due and not action.carried_out and not action.forbidden:
            yield _row(result, "action", action.id, f"due and not carried out: {action.why_not}", page=action.page)
    yield from _built(result, units)


def _figures(check: Check, units: UnitSystem) -> str:
    if check.value is None or check.bound is None:
        return ""
    value, bound = (number(one, check.dimension, units) for one in (check.value, check.bound))
    return f"{value} against {check.sense.value} {bound}"


def _overrides(result: SystemResult, units: UnitSystem) -> Iterator[tuple[Cell, ...]]:
    for run in result.runs:
        for role, size in sorted(run.tubes.items()):
            if size.override_m is None:
                continue
            table = "no size" if size.table_m is None else tube_name(size.table_m, units)
            text = f"{role.word}: {tube_name(size.override_m, units)} by hand; the table gives {table}"
            yield _row(result, "override", run.id, text, page=None if size.row is None else size.row.page)


def _built(result: SystemResult, units: UnitSystem) -> Iterator[tuple[Cell, ...]]:
    for run in (*result.system.outdoor.pipes, *result.system.runs):
        if run.as_built_m is not None:
            built = show(run.as_built_m, Dimension.LENGTH, units, places=2)
            by_design = "?" if run.length_m is None else show(run.length_m, Dimension.LENGTH, units, places=2)
            yield _row(result, "as built", run.to, f"{built} as built, {by_design} by design")


def _row(result: SystemResult, what: str, at: str, text: str, *, page: int | None = None) -> tuple[Cell, ...]:
    return (result.id, what, at, text, "" if page is None else page)


def pages(evaluation: Evaluation) -> Table:
    """Pages of each book that the verdicts and sizes rest on."""
    columns = (Column("book", "book"), Column("page", "page"), Column("for", "for"))
    found: dict[tuple[str, int], dict[str, None]] = {}
    for result in evaluation.systems:
        for page, what in _pages(result):
            if page is not None:
                found.setdefault((result.book, page), {})[what] = None
    rows = tuple((book, page, ", ".join(found[book, page])) for book, page in sorted(found))
    notes = ("Pages are those that the book names; have them at hand, in the edition of the book, before work begins.",)
    return Table("pages", "Pages of the book relied on", columns, rows, notes)


def _pages(result: SystemResult) -> Iterator[tuple[int | None, str]]:
    for check in (*result.limits, *result.checks):
        kind = check.kind.value if check.kind is not CheckKind.LIMIT else f"limit {check.measure}"
        yield check.page, kind
    for run in result.runs:
        for size in run.tubes.values():
            yield (None if size.row is None else size.row.page), "sizes of tube"
    for row in (*(item.row for item in result.fittings), *(joint.row for joint in result.outdoor.joints)):
        yield (None if row is None else row.page), "fittings"
    for action in result.actions:
        yield action.page, f"action {action.id}"
    for module in result.state.ground.modules:
        yield module.data.page, "outdoor units"
    for model in result.state.ground.models:
        yield model.page, "indoor units"
    for note in result.state.ground.book.book.notes:
        yield note.page, "notes"
    pressures = result.state.ground.book.book.pressures
    yield (None if pressures is None else pressures.page), "pressures"
