"""Electrical and condensate data: passed on as a book states them; what it does not state is said so, never judged."""

import csv
import io
import json
from dataclasses import replace
from pathlib import Path

import pytest

from linewright.app.project import open_project
from linewright.book.schema import Drain, DrainRow, DrainTable, SuppliedFrom, SupplyRow, SupplyTable
from linewright.document.files import book_from_text, load_book
from linewright.document.saving import save_book
from linewright.engine import Evaluation, Library, evaluate
from linewright.engine.records import FittingResult
from linewright.model.values import NodeKind
from linewright.report.book_text import book_text
from linewright.report.checklist import checklist
from linewright.report.schedules.services import condensate, electrical
from linewright.report.schedules.tables import Cell, Table
from linewright.report.service_words import BY_OTHERS, NOT_IN_BOOK, PASSED_ON, voltage_words
from linewright.takeoff import Settings, take_off
from linewright.units import UnitSystem
from tests.handover.cases import BOAT_HOUSE, CLINIC, EXAMPLES, LOFTS, bought, evaluated, project, taken, whole_set
from tests.handover.paper import squeezed, texts
from tests.house.files import ROOT

PILOT = ROOT / "examples" / "pilot-station" / "pilot-station.design.yaml"
HOSTEL = ROOT / "examples" / "ridge-hostel" / "ridge-hostel.design.yaml"
FIGURES = ("min_circuit_current", "max_overcurrent", "running_current", "input")


def cells(table: Table, *wanted: str) -> list[dict[str, Cell]]:
    """Rows of a table by column, of the units with these ids (system/id), or all."""
    keys = [column.key for column in table.columns]
    rows = [dict(zip(keys, row, strict=True)) for row in table.rows]
    return [row for row in rows if not wanted or f"{row['system']}/{row['id']}" in wanted]


def services(evaluation: Evaluation) -> list[dict[str, Cell]]:
    found = bought(evaluation)
    table = next(one for one in checklist(evaluation, found, UnitSystem.SI) if one.name == "services")
    return [dict(zip([column.key for column in table.columns], row, strict=True)) for row in table.rows]


def with_book(path: Path, **sections: object) -> Evaluation:
    """A design judged by its one book with other sections of it."""
    opened = open_project(path)
    ((name, compiled),) = opened.library.books.items()
    text = Path(ROOT / "books" / f"{name}.book.yaml").read_text(encoding="utf-8")
    book = replace(compiled.book, **sections)  # type: ignore[arg-type]
    made = book_from_text(save_book(text, book), "changed.book.yaml").compiled
    return evaluate(opened.loaded.design, Library.of({name: made}, {name: "0"}))


def test_a_supply_of_the_clinic_stands_as_the_book_has_it() -> None:
    """Typed by hand from the rows of the demonstration book on its pages 34 to 36."""
    (module,) = cells(electrical(evaluated(CLINIC)), "ground/M1")
    assert module == {
        "system": "ground",
        "id": "M1",
        "kind": "outdoor module",
        "model": "outdoor 33.5",
        "supply": "the only one",
        "from": "a circuit of its own",
        "phases": 3,
        "voltage": "380-415 V",
        "frequency": "50 Hz",
        "min_circuit_current": 28.1,
        "max_overcurrent": 35.0,
        "running_current": 22.5,
        "input": 13_900.0,
        "cooling_input": NOT_IN_BOOK,
        "heating_input": NOT_IN_BOOK,
        "text": "",
        "book": "tidewater-r32",
        "page": 34,
    }
    (drain,) = cells(condensate(evaluated(CLINIC)), "ground/U1")
    assert drain == {
        "system": "ground",
        "id": "U1",
        "model": "cassette 4.5",
        "room": "entrance",
        "drain": "pump",
        "connection": "32 mm OD",
        "lift": 0.64,
        "text": "",
        "book": "tidewater-r32",
        "page": 36,
    }


def test_a_model_without_data_says_so_in_every_cell() -> None:
    (supply,) = cells(electrical(evaluated(CLINIC)), "upper/U35")
    assert supply["model"] == "floor 4.5"
    said = ("supply", "from", "phases", "voltage", "frequency", *FIGURES)
    assert {supply[key] for key in said} == {NOT_IN_BOOK}
    (drain,) = cells(condensate(evaluated(CLINIC)), "upper/U35")
    assert {drain[key] for key in ("drain", "connection", "lift")} == {NOT_IN_BOOK}
    assert "Of 1 of 39 the books state no supply: ask the maker" in electrical(evaluated(CLINIC)).notes
    assert "Of 1 of 35 the books state no condensate: ask the maker" in condensate(evaluated(CLINIC)).notes


@pytest.mark.parametrize("path", [BOAT_HOUSE, LOFTS], ids=lambda path: path.stem)
def test_a_book_without_any_leaves_nothing_blank_and_nothing_nought(path: Path) -> None:
    evaluation = evaluated(path)
    for row in cells(electrical(evaluation)):
        assert {row[key] for key in FIGURES} == {NOT_IN_BOOK}
    assert {row["condensate"] for row in services(evaluation)} <= {NOT_IN_BOOK, ""}
    assert {row["supply"] for row in services(evaluation)} == {NOT_IN_BOOK}


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_module_box_and_unit_has_its_row(path: Path) -> None:
    evaluation = evaluated(path)
    units = {f"{result.id}/{unit.id}" for result in evaluation.systems for unit in result.units}
    modules = {f"{result.id}/{one.id}" for result in evaluation.systems for one in result.state.ground.modules}
    boxes = {
        f"{result.id}/{one.id}" for result in evaluation.systems for one in result.fittings if one.kind.value == "box"
    }
    named = [f"{row['system']}/{row['id']}" for row in cells(electrical(evaluation))]
    assert set(named) == units | modules | boxes
    assert {f"{row['system']}/{row['id']}" for row in cells(condensate(evaluation))} == units
    listed = [name for row in services(evaluation) for name in str(row["units"]).split(", ")]
    assert sorted(listed) == sorted(units | modules | boxes)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_it_is_passed_on_and_judges_nothing(path: Path) -> None:
    """No check, no standing and no figure depends on it: without these tables of its books a design stands the same."""
    opened = project(path)
    bare = {
        name: book_from_text(
            save_book(
                (ROOT / "books" / f"{name}.book.yaml").read_text(encoding="utf-8"),
                replace(
                    made.book,
                    outdoor=replace(made.book.outdoor, electrical=None),
                    indoor=replace(made.book.indoor, electrical=None, condensate=None),
                    boxes=None if made.book.boxes is None else replace(made.book.boxes, electrical=None),
                ),
            ),
            "bare.book.yaml",
        ).compiled
        for name, made in opened.library.books.items()
    }
    changed = evaluate(opened.loaded.design, Library.of(bare, dict.fromkeys(bare, "0")))
    mine = evaluated(path)
    assert changed.standing is mine.standing
    for before, after in zip(mine.systems, changed.systems, strict=True):
        assert (before.limits, before.checks, before.charge) == (after.limits, after.checks, after.charge)


def test_several_supplies_of_one_model_each_have_a_row_and_none_is_chosen() -> None:
    rows = cells(electrical(evaluated(CLINIC)), "upper/M1")
    assert [row["supply"] for row in rows] == ["1 of 2", "2 of 2"]
    assert [row["frequency"] for row in rows] == ["50 Hz", "60 Hz"]
    assert any("does not say which is ordered" in note for note in electrical(evaluated(CLINIC)).notes)
    (row,) = [row for row in services(evaluated(CLINIC)) if row["model"] == "outdoor 22.4"]
    assert str(row["supply"]).startswith("(1) 3-phase, 380-415 V, 50 Hz")
    assert "; or (2) 3-phase, 380 V, 60 Hz" in str(row["supply"])


def test_units_that_are_supplied_from_the_outdoor_unit_and_inch_pound_connections() -> None:
    evaluation = with_book(
        HOSTEL,
        indoor=replace(
            next(iter(project(HOSTEL).library.books.values())).book.indoor,
            condensate=DrainTable(
                rows=(
                    DrainRow(
                        model=tuple({unit.model for unit in evaluated(HOSTEL).systems[0].units}),
                        drain=Drain.PUMP,
                        connection="3/4 in NPT",
                        lift_m=28 * 0.0254,
                    ),
                ),
                page=40,
            ),
        ),
    )
    rows = cells(electrical(evaluation))
    walls = [row for row in rows if str(row["model"]).startswith("wall")]
    assert walls
    assert {row["from"] for row in walls} == {"the outdoor unit"}
    assert {row["voltage"] for row in walls} == {"208/230 V"}
    assert {row["max_overcurrent"] for row in walls} == {NOT_IN_BOOK}
    assert {(row["connection"], row["page"]) for row in cells(condensate(evaluation))} == {("3/4 in NPT", 40)}
    found = take_off(evaluation, Settings(), system=UnitSystem.IP)
    table = next(one for one in checklist(evaluation, found, UnitSystem.IP) if one.name == "services")
    assert any("3/4 in NPT, lift 28 in" in str(cell) for row in table.rows for cell in row)


def test_a_page_of_a_row_goes_before_that_of_its_table() -> None:
    rows = cells(electrical(evaluated(HOSTEL)))
    pages = {(row["voltage"], row["page"]) for row in rows if str(row["model"]).startswith("outdoor ")}
    assert {("208/230 V", 26), ("460 V", 27)} <= pages


def test_a_running_current_never_stands_in_for_a_minimum_circuit_current() -> None:
    rows = [row for row in cells(electrical(evaluated(CLINIC))) if str(row["model"]).startswith("wall")]
    assert {(row["min_circuit_current"], row["running_current"]) for row in rows} == {(NOT_IN_BOOK, 0.3)}
    (row,) = [row for row in services(evaluated(CLINIC)) if row["model"] == "wall 2.8"]
    assert row["current"] == (
        "minimum circuit current not in the book, maximum overcurrent protection not in the book, running current 0.3 A"
    )


def test_modules_of_a_group_each_have_a_supply_and_nothing_is_summed() -> None:
    evaluation = evaluated(CLINIC)
    quay = cells(electrical(evaluation), "quay/M1", "quay/M2")
    assert [row["model"] for row in quay] == ["outdoor 33.5", "outdoor 22.4", "outdoor 22.4"]
    assert [row["supply"] for row in quay] == ["the only one", "1 of 2", "2 of 2"]
    assert all(row["id"] for row in cells(electrical(evaluation)))
    assert any("nothing is summed" in note for note in electrical(evaluation).notes)


def test_mode_boxes_have_a_supply_and_one_without_a_model_is_not_known() -> None:
    rows = [row for row in cells(electrical(evaluated(PILOT))) if row["kind"] == "mode box"]
    assert rows
    assert {(row["voltage"], row["max_overcurrent"], row["page"]) for row in rows} == {("220-240 V", 15.0, 34)}
    evaluation = evaluated(PILOT)
    (system,) = evaluation.systems
    nameless = tuple(nameless_box(item) for item in system.fittings)
    unknown = evaluation._replace(systems=(system._replace(fittings=nameless),))
    rows = [row for row in cells(electrical(unknown)) if row["kind"] == "mode box"]
    assert {(row["model"], row["voltage"], row["max_overcurrent"]) for row in rows} == {(None, None, None)}


def nameless_box(item: FittingResult) -> FittingResult:
    return item._replace(model="") if item.kind is NodeKind.BOX else item


def test_a_pump_kit_is_said_to_be_sold_apart() -> None:
    rows = [row for row in cells(condensate(evaluated(CLINIC))) if str(row["model"]).startswith("ducted")]
    assert {(row["drain"], row["text"]) for row in rows} == {("pump-kit", "lift of the kit")}
    assert any("The take-off counts none" in note for note in condensate(evaluated(CLINIC)).notes)
    names = {line.name for line in taken(CLINIC).lines}
    assert not any("pump" in name for name in names)


def test_what_drains_by_gravity_has_no_lift() -> None:
    rows = [row for row in cells(condensate(evaluated(CLINIC))) if row["drain"] == "gravity"]
    assert {row["lift"] for row in rows} == {""}


def test_the_set_shows_it_in_every_format_with_the_caution() -> None:
    files = whole_set(CLINIC).files
    made = json.loads(files["schedules.json"])["schedules"]
    (table,) = [one for one in made if one["name"] == "electrical"]
    units = {column["key"]: column["unit"] for column in table["columns"]}
    assert (units["min_circuit_current"], units["input"]) == ("A", "W")
    assert {PASSED_ON, BY_OTHERS} <= set(table["notes"])
    lines = files["schedules/condensate.csv"].decode()
    assert "640" in lines
    assert "lift of the pump [mm]" in lines
    rows = list(csv.reader(io.StringIO(lines)))
    assert any("not in the book" in row for row in rows)
    paper = "".join(texts(files["report.pdf"]))
    for word in ("Electrical data", "Condensate", "380-415 V", "32 mm OD", "not in the book"):
        assert squeezed(word) in paper
    sheet = "".join(texts(files["checklist.pdf"]))
    assert squeezed(BY_OTHERS) in sheet
    for name in ("not-judged.txt", "checklist.txt"):
        assert PASSED_ON in " ".join(files[name].decode().split())


# Nominal voltages with a stroke, a range with a dash, as nameplates print them.
@pytest.mark.parametrize(
    ("volts", "to", "said"),
    [((400.0,), None, "400 V"), ((208.0, 230.0), None, "208/230 V"), ((220.0,), 240.0, "220-240 V"), ((), None, "")],
)
def test_voltages_in_words(volts: tuple[float, ...], to: float | None, said: str) -> None:
    row = SupplyRow(model=("x",), voltage_v=volts, voltage_to_v=to, from_=SuppliedFrom.OWN)
    assert voltage_words(row) == (said or NOT_IN_BOOK)


def test_a_book_is_shown_with_what_is_not_in_it() -> None:
    compiled = load_book(ROOT / "books" / "tidewater-r32.book.yaml").compiled
    shown = " ".join(book_text(compiled, line="", system=UnitSystem.SI, colour=False).split())
    assert "Electrical data of indoor units" in shown
    assert "electrical data, indoor unit: floor 2.2, floor 2.8," in shown
    assert "condensate, indoor unit: floor 2.2," in shown
    bare = compiled._replace(book=replace(compiled.book, outdoor=replace(compiled.book.outdoor, electrical=None)))
    assert "electrical data, outdoor module: outdoor 22.4, outdoor 33.5" in " ".join(
        book_text(bare, line="", system=UnitSystem.SI, colour=False).split()
    )


def test_a_table_of_supplies_is_written_as_it_was_read() -> None:
    path = ROOT / "books" / "minimal.book.yaml"
    text, book = path.read_text(encoding="utf-8"), load_book(path).compiled.book
    table = SupplyTable(
        rows=(SupplyRow(model=("outdoor 16",), voltage_v=(208.0, 230.0), frequency_hz=(60.0,), input_w=5400.0),), page=9
    )
    saved = save_book(text, replace(book, outdoor=replace(book.outdoor, electrical=table)))
    assert book_from_text(saved, "saved.book.yaml").compiled.book.outdoor.electrical == table
