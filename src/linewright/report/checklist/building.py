"""All tables of the checklist, in the order in which they are worked through."""

from __future__ import annotations

from linewright.book.services import Served, drain_of, supplies_of
from linewright.engine.records import Evaluation
from linewright.report.cautions import NOTHING_OPEN, open_sections
from linewright.report.checklist.asked import DONE, requirements, settings
from linewright.report.checklist.cores import cores
from linewright.report.checklist.departures import deviations, pages
from linewright.report.checklist.devices import devices, valves
from linewright.report.reasons import UNKNOWN
from linewright.report.schedules.services import ServedUnit, served_units
from linewright.report.schedules.tables import Cell, Column, Table
from linewright.report.service_words import (
    BY_OTHERS,
    NOT_IN_BOOK,
    PASSED_ON,
    current_words,
    drain_words,
    supply_words,
)
from linewright.takeoff import TakeOff
from linewright.units import UnitSystem


def checklist(evaluation: Evaluation, found: TakeOff, units: UnitSystem) -> tuple[Table, ...]:
    """Build every table."""
    return (
        requirements(evaluation),
        settings(evaluation),
        devices(evaluation, units),
        valves(evaluation),
        cores(evaluation, units),
        services(evaluation, units),
        deviations(evaluation, units),
        questions(evaluation, found),
        pages(evaluation),
    )


def services(evaluation: Evaluation, units: UnitSystem) -> Table:
    """Electrical supply and condensate of every model as the books state them, and who designs what comes of it."""
    columns = (
        Column("book", "book"),
        Column("model", "model"),
        Column("units", "units"),
        Column("supply", "electrical supply"),
        Column("current", "current, protection"),
        Column("circuit", "circuit and isolator of each"),
        Column("condensate", "condensate connection"),
        Column("pipe", "condensate pipe"),
        Column("page", "pages"),
        DONE,
    )
    found: dict[tuple[str, Served, str], list[ServedUnit]] = {}
    for unit in served_units(evaluation):
        found.setdefault((unit.result.book, unit.served, unit.model or UNKNOWN), []).append(unit)
    rows = tuple(_served(made, units) for made in found.values())
    return Table("services", "Electrical supply and condensate", columns, rows, (PASSED_ON, BY_OTHERS))


def _served(alike: list[ServedUnit], units: UnitSystem) -> tuple[Cell, ...]:
    first = alike[0]
    book, model = first.result.state.ground.book.book, first.model or ""
    supplies = supplies_of(book, first.served, model)
    names = ", ".join(f"{unit.result.id}/{unit.id}" for unit in alike)
    supply = _options([supply_words(row) for row in supplies])
    current = _options([current_words(row) for row in supplies])
    pages = [row.page for row in supplies]
    condensate = pipe = ""
    if first.served is Served.INDOOR:
        drain = drain_of(book, model)
        condensate, pipe = drain_words(drain, units), "by others"
        pages += [None if drain is None else drain.page]
    stated = dict.fromkeys(str(page) for page in pages if page is not None)
    known = (supply, current) if first.model is not None else (None, None)
    head = (first.result.book, first.model, names, *known, "by the electrical engineer")
    return (*head, condensate, pipe, ", ".join(stated), "")


def _options(said: list[str]) -> str:
    """Several supplies of one model are numbered: which of them is ordered, the design does not say."""
    if len(said) > 1:
        return "; or ".join(f"({number}) {text}" for number, text in enumerate(said, start=1))
    return said[0] if said else NOT_IN_BOOK


def questions(evaluation: Evaluation, found: TakeOff) -> Table:
    """What is open: not judged, to be confirmed, left out or taken for granted."""
    columns = (Column("about", "about"), Column("text", "open question"), Column("answer", "answer, by"))
    rows: list[tuple[Cell, ...]] = []
    about = ""
    for section in open_sections(evaluation, found):
        about = section.title or about
        rows += [(about, line, "") for line in section.lines if line != NOTHING_OPEN]
    return Table("questions", "Open questions", columns, tuple(rows))
