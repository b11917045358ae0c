"""The report of a hand-over set as one document: how it stands, cautions, schedules, charge, sheets, calculations."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from linewright.draw import Scene
from linewright.engine import Evaluation
from linewright.report.cautions import Section, caution_sections, open_sections
from linewright.report.check_text import summary
from linewright.report.pdf.annex import annex
from linewright.report.pdf.blocks import (
    Blanks,
    Block,
    Contents,
    Document,
    Facts,
    Grid,
    GridColumn,
    Heading,
    Layout,
    Say,
    Tone,
    Turn,
)
from linewright.report.pdf.fronts import Front, document_of
from linewright.report.pdf.grids import grid
from linewright.report.pdf.pictures import picture
from linewright.report.schedules import About, Table
from linewright.report.schedules.about import ADVICE
from linewright.report.schedules.tables import Cell
from linewright.takeoff import TakeOff
from linewright.units import Dimension, UnitSystem, show

_LATER = ("charge", "limits")


class Parts(NamedTuple):
    """What the document is made of."""

    about: About
    evaluation: Evaluation
    found: TakeOff
    tables: Sequence[Table]
    sheets: Sequence[tuple[str, Scene]]
    book_lines: Mapping[str, str]
    files: Mapping[str, str]
    system: UnitSystem


def report_document(parts: Parts, front: Front) -> Document:
    """The whole report."""
    return document_of("Design report", parts.about, front, tuple(_blocks(parts, front)))


def _blocks(parts: Parts, front: Front) -> Iterator[Block]:
    yield from _cover(parts, front)
    yield Turn(Layout.UPRIGHT)
    yield from _sections(caution_sections(parts.evaluation, parts.found, parts.book_lines))
    yield Turn(Layout.UPRIGHT)
    yield from _sections(open_sections(parts.evaluation, parts.found))
    by_name = {table.name: table for table in parts.tables}
    yield Turn(Layout.ACROSS)
    yield from _limits(by_name["limits"], parts)
    yield Turn(Layout.ACROSS)
    yield Heading("Charge worksheet")
    yield grid(by_name["charge"], parts.system)
    yield Turn(Layout.ACROSS)
    yield Heading("Schedules")
    for table in parts.tables:
        if table.name not in _LATER:
            yield Heading(table.title, 2)
            yield from _table(table, parts.system)
    for name, scene in parts.sheets:
        yield picture(scene, front.paper, f"Sheet of system {name}")
    yield from annex(parts.evaluation, parts.files, parts.system)


def _limits(table: Table, parts: Parts) -> Iterator[Block]:
    """Limits and checks of each system apart, then those of rooms."""
    yield Heading("Limits and checks")
    for name in (*(result.id for result in parts.evaluation.systems), ""):
        rows = tuple(("", *_bare(row[1], row[2], name), *row[3:]) for row in table.rows if row[0] == name)
        if rows:
            yield Heading(f"System {name}" if name else "Rooms", 2)
            yield grid(table._replace(rows=rows, notes=()), parts.system)
    yield from (Say(note, Tone.NOTE) for note in table.notes)


def _bare(kind: Cell, subject: Cell, system: str) -> tuple[Cell, Cell]:
    """A subject without its system, which the heading names, and without its kind, which stands beside it."""
    text = str(subject).removeprefix(f"{system}/" if system else "room:")
    return kind, text.removeprefix(f"{kind}:")


def _table(table: Table, system: UnitSystem) -> Iterator[Block]:
    if table.rows:
        yield grid(table, system)
        return
    yield Say("Nothing to list.", Tone.NOTE)
    yield from (Say(note, Tone.NOTE) for note in table.notes)


def _cover(parts: Parts, front: Front) -> Iterator[Block]:
    evaluation, about = parts.evaluation, parts.about
    yield Heading(about.project, listed=False)
    yield Say("Design report of the refrigerant piping", Tone.STRONG)
    yield from (Say(line, Tone.WARNING) for line in (*about.only_lines, *summary(evaluation)))
    revision = [("revision", front.revision or "none stated"), ("date", front.date or "none stated")]
    yield Facts((*revision, *about.rows()))
    yield Heading("Systems", 2, listed=False)
    yield _systems(evaluation, parts.system)
    yield Blanks(("drawn by, date", "checked by, date", "approved by, date", "licensed engineer, number, date"))
    yield Heading("Contents", 2, listed=False)
    yield Contents()


def _systems(evaluation: Evaluation, system: UnitSystem) -> Grid:
    columns = tuple(
        GridColumn(text, right)
        for text, right in (
            ("system", False),
            ("name", False),
            ("book", False),
            ("group", False),
            ("units", True),
            ("ratio", True),
            ("refrigerant", False),
            ("to be weighed in", True),
            ("total charge", True),
        )
    )
    rows = []
    for one in evaluation.systems:
        masses = [
            "?" if kg is None else show(kg, Dimension.MASS, system)
            for kg in (one.charge.rounded_kg, one.charge.total_kg)
        ]
        ratio = show(one.indoor_index / one.outdoor_index, Dimension.RATIO, system)
        refrigerant = one.state.ground.book.book.refrigerant
        rows.append((one.id, one.name, one.book, one.group, str(len(one.units)), ratio, refrigerant, *masses))
    return Grid(columns, tuple(rows))


def _sections(sections: Sequence[Section]) -> Iterator[Block]:
    first = True
    for section in sections:
        if section.title:
            yield Heading(section.title, 1 if first else 2)
        first = False
        tone = Tone.WARNING if section.grave else Tone.PLAIN
        yield from (Say(line, tone) for line in section.lines)
    yield Say(ADVICE, Tone.NOTE)
