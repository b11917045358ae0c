"""What the book asks of the installer: requirements, settings, options that are on."""

from __future__ import annotations

from linewright.engine.records import CheckKind, Evaluation, Standing, SystemResult
from linewright.engine.rules import is_setting
from linewright.report.schedules.tables import Cell, Column, Table

SYSTEM = Column("system", "system")
DONE = Column("done", "done, by")
_COLUMNS = (
    SYSTEM,
    Column("id", "id"),
    Column("text", "what is asked"),
    Column("at", "at"),
    Column("standing", "standing"),
    Column("page", "page"),
)


def requirements(evaluation: Evaluation) -> Table:
    """Installation rules that no number proves."""
    rows = tuple(row for result in evaluation.systems for row in _rows(result, settings=False))
    notes = tuple(_silent(result) for result in evaluation.systems if not result.state.ground.book.book.requirements)
    return Table("requirements", "Requirements of the book", (*_COLUMNS, DONE), rows, notes)


def settings(evaluation: Evaluation) -> Table:
    """What is set at start-up, and kits that the design counts on."""
    rows: list[tuple[Cell, ...]] = [row for result in evaluation.systems for row in _rows(result, settings=True)]
    for result in evaluation.systems:
        on = set(result.system.options)
        options = [option for option in result.state.ground.book.book.options if option.id in on]
        rows += [(result.id, one.id, one.text, "", "option is on", _page(one.page), "") for one in options]
    return Table("settings", "Settings and options", (*_COLUMNS, DONE), tuple(rows))


def _rows(result: SystemResult, *, settings: bool) -> list[tuple[Cell, ...]]:
    found: list[tuple[Cell, ...]] = []
    for check in result.checks:
        if check.kind is not CheckKind.REQUIREMENT or is_setting(result, check) is not settings:
            continue
        name = check.subject.partition("requirement:")[2]
        stands = "stated as met" if check.standing is Standing.WITHIN else check.standing.value
        at = ", ".join((*check.governs, *(f"without {name}" for name in check.missing)))
        found.append((result.id, name, check.note, at, stands, _page(check.page), ""))
    return found


def _silent(result: SystemResult) -> str:
    return f"{result.id}: the book states no requirement; that is not to say that the maker has none"


def _page(page: int | None) -> Cell:
    return "" if page is None else page
