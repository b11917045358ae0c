"""The records as forms on paper: a page or more for each record of each system, to be filled in by hand."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from linewright.engine.records import Evaluation, SystemResult
from linewright.engine.site_targets import label_of
from linewright.report.forms.blanks import Blank, Form
from linewright.report.forms.corrections import corrections
from linewright.report.forms.recorded import label_rows
from linewright.report.pdf.blocks import (
    Blanks,
    Block,
    Contents,
    Grid,
    GridColumn,
    Heading,
    Layout,
    Say,
    Tone,
    Turn,
)
from linewright.units import UnitSystem

_ROW_MM = 8.0
_SIGN = Blanks(("done by, firm", "date, time", "witnessed by", "signature"))
_PRACTICE = "(common practice, no source)"
#: Where work can hurt.
_CAUTIONS = {
    Form.TEST: (
        f"Dry nitrogen through a regulator and nothing else: oxygen or air explodes with oil {_PRACTICE}.",
        f"Raise pressure slowly, stage by stage; nobody stays beside the pipe meanwhile {_PRACTICE}.",
        "Units and parts that do not bear the pressure are shut off or left out: see the maker's data.",
    ),
    Form.VACUUM: (f"Never start a compressor while its pipe is under vacuum {_PRACTICE}.",),
    Form.CHARGE: (
        f"Weigh; do not charge by pressure alone. Air the room; no flame, no spark {_PRACTICE}.",
        "What is weighed in on site may be more than a room may take: see the check of refrigerant in rooms.",
    ),
    Form.JOINTS: (f"Nitrogen flows while tube is brazed; let it out of the room {_PRACTICE}.",),
    Form.START: (
        "Readings that physics leads to at conditions that are assumed. They judge nothing; the maker's data decide.",
    ),
}
_TITLES = {
    Form.TEST: "Pressure test",
    Form.VACUUM: "Evacuation",
    Form.CHARGE: "Charge and label",
    Form.JOINTS: "Joints",
    Form.BUILT: "Lengths as built",
    Form.START: "Readings at start-up",
}
#: Lines of the label that do not hang on what is weighed in.
_KNOWN = ("", "refrigerant", "factory charge")
_ENTRY = (GridColumn("item"), GridColumn("what"), GridColumn("asked for, expected", least_mm=40.0), GridColumn("unit"))


def record_blocks(evaluation: Evaluation, blanks: Sequence[Blank], units: UnitSystem) -> tuple[Block, ...]:
    """All forms of all systems."""
    return tuple(_blocks(evaluation, blanks, units))


def _blocks(evaluation: Evaluation, blanks: Sequence[Blank], units: UnitSystem) -> Iterator[Block]:
    yield Heading("Records of the site", listed=False)
    yield Say(
        "To be filled in by hand, or in record.xlsx or record.csv, which linewright record reads back and judges.",
        Tone.NOTE,
    )
    yield Contents()
    for result in evaluation.systems:
        mine = [blank for blank in blanks if blank.key.system == result.id]
        for form in Form:
            yield Turn(Layout.UPRIGHT)
            yield Heading(f"{_TITLES[form]}, system {result.id}")
            yield from (Say(line, Tone.WARNING) for line in _CAUTIONS.get(form, ()))
            yield from _form(form, result, [blank for blank in mine if blank.key.form == form.value], units)
            yield _SIGN


def _form(form: Form, result: SystemResult, blanks: Sequence[Blank], units: UnitSystem) -> Iterator[Block]:
    if form is Form.JOINTS:
        yield _matrix("joint", blanks)
    elif form is Form.BUILT:
        yield _built(blanks)
    elif form is Form.TEST:
        yield from _test(result, blanks, units)
    else:
        yield _entries(blanks)
    if form is Form.VACUUM:
        yield Heading("Readings on the way", 2, listed=False)
        yield _empty(("time", "pressure", "pump on or off", "by"), rows=8)
    if form is Form.CHARGE:
        yield from _charge(result, units)


def _entries(blanks: Sequence[Blank]) -> Grid:
    """A row for each blank: what is expected, and room to write."""
    rows = tuple((blank.key.item, blank.key.field, blank.expected, blank.unit, "") for blank in blanks)
    return Grid((*_ENTRY, GridColumn("read", least_mm=30.0)), rows, row_mm=_ROW_MM)


def _matrix(name: str, blanks: Sequence[Blank]) -> Grid:
    """A row for each item, a column to write in for each field."""
    items = list(dict.fromkeys(blank.key.item for blank in blanks))
    fields = list(dict.fromkeys(blank.key.field for blank in blanks))
    columns = (GridColumn(name, least_mm=16.0), *(GridColumn(field, least_mm=24.0) for field in fields))
    return Grid(columns, tuple((item, *("" for _ in fields)) for item in items), row_mm=_ROW_MM)


def _built(blanks: Sequence[Blank]) -> Grid:
    unit = blanks[0].unit if blanks else ""
    columns = (GridColumn("run, by its far end"), GridColumn("length"), GridColumn(f"as built [{unit}]", least_mm=40.0))
    rows = tuple((blank.key.item, blank.expected, "", "") for blank in blanks)
    return Grid((*columns, GridColumn("by", least_mm=24.0)), rows, row_mm=_ROW_MM)


def _test(result: SystemResult, blanks: Sequence[Blank], units: UnitSystem) -> Iterator[Block]:
    yield _entries([blank for blank in blanks if blank.key.item == "gauge"])
    stages = list(dict.fromkeys(blank.key.item for blank in blanks if blank.key.item != "gauge"))
    fields = [blank for blank in blanks if blank.key.item == stages[0]]
    columns = (GridColumn("stage", least_mm=15.0), GridColumn("pressure, gauge"), GridColumn("held"))
    heads = tuple(GridColumn(_headed(blank), least_mm=15.0) for blank in fields)
    rows = []
    for stage in stages:
        asked = {blank.key.field: blank.expected for blank in blanks if blank.key.item == stage}
        rows.append((stage, asked["gauge at start"], asked["held"] or "not stated", *("" for _ in fields)))
    yield Grid((*columns, *heads), tuple(rows), row_mm=_ROW_MM + 4.0)
    yield from corrections(result, units)


def _headed(blank: Blank) -> str:
    return f"{blank.key.field} [{blank.unit}]" if blank.unit else blank.key.field


def _charge(result: SystemResult, units: UnitSystem) -> Iterator[Block]:
    yield Heading("What was weighed in", 2, listed=False)
    yield _empty(("cylinder", "before", "after", "weighed in", "by"), rows=5)
    yield Heading("Label", 2, listed=False)
    planned = label_of(result, result.charge.rounded_kg)
    rows = tuple((name, said, said if name in _KNOWN else "") for name, said in label_rows(planned, units))
    columns = (GridColumn("label"), GridColumn("by the worksheet"), GridColumn("as weighed in", least_mm=60.0))
    notes = (
        "t CO2e = total charge in kg x GWP / 1000. Warming potentials by the edition that stands beside them.",
        "The label names the maker and the installer, is legible and lasts; the law where the plant stands decides.",
    )
    yield Grid(columns, rows, notes, row_mm=_ROW_MM)


def _empty(headings: tuple[str, ...], *, rows: int) -> Grid:
    columns = tuple(GridColumn(text, least_mm=20.0) for text in headings)
    return Grid(columns, (("",) * len(headings),) * rows, row_mm=_ROW_MM)
