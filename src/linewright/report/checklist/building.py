"""All tables of the checklist, in the order in which they are worked through."""

from __future__ import annotations

from linewright.engine.records import Evaluation
from linewright.report.cautions import NOTHING_OPEN, open_sections
from linewright.report.checklist.asked import requirements, settings
from linewright.report.checklist.cores import cores
from linewright.report.checklist.departures import deviations, pages
from linewright.report.checklist.devices import devices, valves
from linewright.report.schedules.tables import Cell, Column, Table
from linewright.takeoff import TakeOff
from linewright.units import UnitSystem

#: What books do not hold, and is passed on as such.
NOT_STATED = "not stated in the book"


def checklist(evaluation: Evaluation, found: TakeOff, units: UnitSystem) -> tuple[Table, ...]:
    """Build every table."""
    return (
        requirements(evaluation),
        settings(evaluation),
        devices(evaluation, units),
        valves(evaluation),
        cores(evaluation, units),
        services(evaluation),
        deviations(evaluation, units),
        questions(evaluation, found),
        pages(evaluation),
    )


def services(evaluation: Evaluation) -> Table:
    """Electrical supply and condensate of every model: books do not hold them, so that they have to be asked for."""
    columns = (
        Column("book", "book"),
        Column("model", "model"),
        Column("units", "units"),
        Column("supply", "electrical supply"),
        Column("current", "current, fuse"),
        Column("condensate", "condensate connection"),
    )
    found: dict[tuple[str, str], list[str]] = {}
    for result in evaluation.systems:
        pairs = [(module.data.model, module.id) for module in result.state.ground.modules]
        pairs += [(unit.model, unit.id) for unit in result.units]
        for model, name in pairs:
            found.setdefault((result.book, model), []).append(f"{result.id}/{name}")
    rows = tuple((*key, ", ".join(names), *(NOT_STATED for _ in range(3))) for key, names in found.items())
    return Table("services", "Electrical supply and condensate", columns, rows)


def questions(evaluation: Evaluation, found: TakeOff) -> Table:
    """What is open: not judged, to be confirmed, left out or taken for granted."""
    columns = (Column("about", "about"), Column("text", "open question"), Column("answer", "answer, by"))
    rows: list[tuple[Cell, ...]] = []
    about = ""
    for section in open_sections(evaluation, found):
        about = section.title or about
        rows += [(about, line, "") for line in section.lines if line != NOTHING_OPEN]
    return Table("questions", "Open questions", columns, tuple(rows))
