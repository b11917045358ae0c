"""Run lists: out of a design and back without a difference; spreadsheets as they come; every fault at its cell."""

import csv
import io
import zipfile
from dataclasses import replace
from pathlib import Path

import pytest
from click.testing import CliRunner
from xlsxwriter import Workbook

from linewright.cli.main import cli
from linewright.document.encode import Style
from linewright.document.files import design_from_text
from linewright.document.grid import Grid, grid_from_text, grid_of
from linewright.document.grid_out import csv_text, workbook
from linewright.document.lists import ListEdits, ListKind, edits_from_grid, list_table
from linewright.errors import InputFaultsError
from linewright.model.design import Design, Item, Location, Run, System
from linewright.model.edits import Drop, Table, apply
from linewright.model.values import Role
from linewright.units import UnitSystem
from tests.edits.test_edits import some_design, some_dice
from tests.house.files import ROOT

BOAT = (ROOT / "examples" / "boat-house" / "boat-house.design.yaml").read_text(encoding="utf-8")
DESIGN = design_from_text(BOAT, "boat-house.design.yaml").design
(SYSTEM,) = DESIGN.systems
PILOT = ROOT / "examples" / "pilot-station" / "pilot-station.design.yaml"


def runs_from_grid(grid: Grid, design: Design = DESIGN, system: str = "main", *, remove: bool = False) -> ListEdits:
    return edits_from_grid(ListKind.RUNS, grid, design, system=system, remove=remove)


def read(text: str, *, remove: bool = False) -> ListEdits:
    return runs_from_grid(grid_from_text(text, "runs.csv"), remove=remove)


def runs_after(text: str, *, remove: bool = False) -> dict[str, Run]:
    made = apply(DESIGN, read(text, remove=remove).edit).design.systems[0]
    return {run.to: run for run in made.runs}


def faults(text: str) -> list[tuple[int, int, str]]:
    with pytest.raises(InputFaultsError) as refused:
        read(text)
    return [(fault.line, fault.column, fault.message) for fault in refused.value.faults]


def filled(design: Design) -> Design:
    """A random design with something in every column."""
    rng = some_dice(1)
    made: list[System] = []
    for system in design.systems:
        runs = [
            replace(
                run,
                items=rng.choice(((), (Item(kind="valve"),), (Item(kind="trap", count=3), Item(kind="oil loop")))),
                location=rng.choice((None, *Location)),
                as_built_m=rng.choice((None, 3.7, 10 / 3)),
                override=rng.choice(({}, {Role.GAS: 0.01588}, {Role.LIQUID: 0.00952, Role.GAS: 0.0254})),
            )
            for run in system.runs
        ]
        made.append(replace(system, runs=tuple(runs)))
    return replace(design, systems=tuple(made))


@pytest.mark.parametrize("units", UnitSystem)
@pytest.mark.parametrize("seed", range(20))
def test_what_is_written_reads_back_without_a_difference(seed: int, units: UnitSystem, tmp_path: Path) -> None:
    design = filled(some_design(seed))
    for system in design.systems:
        table = list_table(ListKind.RUNS, design, Style(units), system=system.id)
        assert len(table.rows) == len(system.runs)
        path = tmp_path / "runs.xlsx"
        path.write_bytes(workbook(table.texts, system.id, table.words))
        for grid in (grid_from_text(csv_text(table.texts), "runs.csv"), grid_of(str(path))):
            found = runs_from_grid(grid, design, system.id)
            assert (found.edit.edits, found.left_out) == ((), ())


def test_a_workbook_of_the_same_rows_is_the_same() -> None:
    rows = list_table(ListKind.RUNS, DESIGN, Style(), system="main").texts
    assert workbook(rows, "main", [0]) == workbook(rows, "main", [0])


def test_no_text_of_a_design_becomes_a_formula(tmp_path: Path) -> None:
    path = tmp_path / "runs.xlsx"
    path.write_bytes(workbook([["to"], ["=1+1"]], "main", [0]))
    assert [cell.text for row in grid_of(str(path)).rows for cell in row] == ["to", "=1+1"]


def test_a_column_that_is_not_there_stays_as_it_is() -> None:
    before = {run.to: run for run in SYSTEM.runs}
    after = runs_after("to,length [ft]\nJ2,30\n")
    assert after["J2"] == replace(before["J2"], length_m=9.144)
    assert {name: run for name, run in after.items() if name != "J2"} == {
        name: run for name, run in before.items() if name != "J2"
    }


@pytest.mark.parametrize(
    "text",
    [
        "\ufefffrom;to;Length [m]\nJ1;J2;12,5\n",
        "from\tto\tLENGTH (m)\r\nJ1\tJ2\t12.5\r\n\r\n",
        'to,length\n\nJ2,"12.5 m"\n,,\n',
        'length [cm],to\n"1250 cm",J2\n',
        "to,length [m]\nJ2,  12.50 \n",
    ],
    ids=["decimal commas and a mark", "tabs and windows", "units in cells and blank rows", "order", "blanks"],
)
def test_spreadsheets_as_they_come(text: str) -> None:
    assert runs_after(text)["J2"].length_m == pytest.approx(12.5)


def test_feet_and_inches_and_what_is_not_known() -> None:
    after = runs_after('to,length\nJ2,"12\'-6 1/2"""\nU1,unknown\n')
    assert after["J2"].length_m == pytest.approx(12 * 0.3048 + 6.5 * 0.0254)
    assert after["U1"].length_m is None


def test_items_ports_and_sizes_in_one_cell() -> None:
    after = runs_after('to,items,gas [in],bends\nJ2,"valve, trap x 2",5/8,3\n')["J2"]
    assert after.items == (Item(kind="valve"), Item(kind="trap", count=2))
    assert after.override[Role.GAS] == pytest.approx(0.015875)
    assert after.bends == 3


def test_a_blank_cell_takes_away_but_not_a_length() -> None:
    first = apply(DESIGN, read("to,rise [m],items,bends\nJ2,1,valve,4\n").edit).design
    later = runs_from_grid(grid_from_text("to,rise,items,bends,length\nJ2,,,,\n", "runs.csv"), first)
    run = next(run for run in apply(first, later.edit).design.systems[0].runs if run.to == "J2")
    assert (run.rise_m, run.items, run.bends) == (None, (), 0)
    assert run.length_m == next(run.length_m for run in SYSTEM.runs if run.to == "J2")


def test_runs_that_the_list_leaves_out_stay_unless_they_are_to_be_removed() -> None:
    names = [run.to for run in SYSTEM.runs]
    found = read("to,bends\nJ1,1\n")
    assert found.left_out == tuple(name for name in names if name != "J1")
    assert list(runs_after("to,bends\nJ1,1\n")) == names
    removing = read("to,bends\nJ1,1\n", remove=True)
    dropped = [(edit.table, edit.id) for edit in removing.edit.edits if isinstance(edit, Drop)]
    assert [name for table, name in dropped if table is Table.RUNS] == list(reversed(names[1:]))
    assert [name for table, name in dropped if table is Table.UNITS] == [unit.id for unit in SYSTEM.units]


def test_a_new_row_is_a_new_run() -> None:
    found = read("from,to,length [m]\nJ2,J9,4\n")
    assert found.added == ("J9",)
    assert found.edit.edits[0].item == Run(from_="J2", to="J9", length_m=4.0)  # type: ignore[union-attr]


def test_every_fault_is_told_at_its_cell() -> None:
    text = "to;length [m];bends;colour\nJ1;1,250;2;\nJ2;3 kg;x;\nJ1;3;;\n;15;;\nU9;3;;\nU1;4;1;;late\n"
    assert faults(text) == [
        (1, 4, "no column is called 'colour'"),
        (2, 2, "the comma in '1,250' may part decimals or thousands"),
        (3, 2, '"3 kg" is a mass, not a length'),
        (3, 3, "'x' is not a whole number"),
        (4, 1, "the run to 'J1' stands twice, first in row 2"),
        (5, 1, "the row names no run"),
        (6, 1, "the run to 'U9' is new, and its from is missing"),
        (7, 5, "'late' stands in a column without a heading"),
    ]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "the table is empty"),
        ("from,length\nJ1,3\n", "there is no column 'to'"),
        ("to,to\nJ1,J1\n", "the column 'to' stands twice"),
        ('to,length\n"J1,3\n', "the rows cannot be told apart: unexpected end of data"),
    ],
)
def test_a_table_that_is_none(text: str, message: str) -> None:
    with pytest.raises(InputFaultsError) as refused:
        read(text)
    assert message in [fault.message for fault in refused.value.faults]


def a_workbook(path: Path) -> Path:
    book = Workbook(str(path))
    book.add_worksheet("notes").write(0, 0, "nothing here")
    page = book.add_worksheet("runs")
    page.write(1, 1, "Runs of the boat house")
    rows: list[list[str | float]] = [["to", "length [m]"], ["J2", 12.5], ["U1", 3], ["total", 15.5]]
    for i, row in enumerate(rows, start=2):
        for j, text in enumerate(row, start=1):
            page.write(i, j, text)
    book.close()
    return path


def test_a_range_of_a_sheet_keeps_its_places(tmp_path: Path) -> None:
    path = a_workbook(tmp_path / "job.xlsx")
    grid = grid_of(f"{path}:runs!B3:C5")
    assert [[(cell.text, cell.row, cell.column) for cell in row] for row in grid.rows] == [
        [("to", 3, 2), ("length [m]", 3, 3)],
        [("J2", 4, 2), ("12.5", 4, 3)],
        [("U1", 5, 2), ("3", 5, 3)],
    ]
    assert runs_from_grid(grid).changed == ("J2", "U1")


@pytest.mark.parametrize(
    ("name", "message"),
    [
        ("job.xlsx:rums!B3:C5", "there is no sheet 'rums'"),
        ("none.xlsx", "there is no such file"),
        ("text.xlsx", "the workbook cannot be read: invalid Zip archive"),
    ],
)
def test_a_workbook_that_cannot_be_read(name: str, message: str, tmp_path: Path) -> None:
    a_workbook(tmp_path / "job.xlsx")
    (tmp_path / "text.xlsx").write_text("no workbook", encoding="utf-8")
    with pytest.raises(InputFaultsError) as refused:
        grid_of(str(tmp_path / name))
    assert refused.value.faults[0].message.startswith(message)


def test_only_a_workbook_has_sheets() -> None:
    with pytest.raises(InputFaultsError, match="there is no such file"):
        grid_of("runs.csv:sheet!A1:B2")


def run(*arguments: str | Path, code: int = 0) -> str:
    done = CliRunner().invoke(cli, ["convert", *map(str, arguments)])
    assert done.exit_code == code, done.output
    return done.output


def test_the_command_writes_a_list_and_reads_it_back(tmp_path: Path) -> None:
    design, runs = tmp_path / "pilot.design.yaml", tmp_path / "runs.csv"
    text = PILOT.read_text(encoding="utf-8")
    design.write_text(text, encoding="utf-8", newline="\n")
    assert "28 runs" in run(design, runs)
    assert len(list(csv.reader(io.StringIO(runs.read_text(encoding="utf-8"))))) == 29
    assert "0 runs changed" in run(runs, design)
    assert design.read_text(encoding="utf-8") == text
    runs.write_text("to,length [m]\nB4,12.5\n", encoding="utf-8")
    assert "Nothing was written." in run(runs, design, "--dry-run")
    assert design.read_text(encoding="utf-8") == text
    assert "1 runs changed" in run(runs, design)
    assert design.read_text(encoding="utf-8") == text.replace("to: B4, length: 11 m", "to: B4, length: 12.5 m")


def test_a_list_with_one_fault_changes_nothing(tmp_path: Path) -> None:
    design, runs = tmp_path / "pilot.design.yaml", tmp_path / "runs.csv"
    text = PILOT.read_text(encoding="utf-8")
    design.write_text(text, encoding="utf-8", newline="\n")
    runs.write_text("from,to,length [m],rise [m]\nJ3,B3,6,\nB3,B4,12.5,90\n", encoding="utf-8")
    assert "is longer than the run" in run(runs, design, code=2)
    runs.write_text("to,length [m]\nB4,12.5\nB3,x\n", encoding="utf-8")
    assert "runs.csv:3:2" in run(runs, design, code=2)
    assert design.read_text(encoding="utf-8") == text


@pytest.mark.parametrize("example", sorted((ROOT / "examples").rglob("*.design.yaml")), ids=lambda path: path.name)
def test_a_design_goes_to_json_and_back(example: Path, tmp_path: Path) -> None:
    there, back = tmp_path / "there.json", tmp_path / "back.design.yaml"
    run(example, there)
    run(there, back)
    design = design_from_text(example.read_text(encoding="utf-8"), "a").design
    assert design_from_text(there.read_text(encoding="utf-8"), "b").design == design
    assert design_from_text(back.read_text(encoding="utf-8"), "c").design == design


def test_a_book_goes_to_json(tmp_path: Path) -> None:
    run(ROOT / "books" / "minimal.book.yaml", tmp_path / "minimal.book.json")
    done = CliRunner().invoke(cli, ["book", "check", str(tmp_path / "minimal.book.json")])
    assert done.exit_code == 0, done.output


def test_no_file_is_written_over_unasked(tmp_path: Path) -> None:
    target = tmp_path / "runs.csv"
    target.write_text("mine", encoding="utf-8")
    assert "'runs.csv' is there already" in run(PILOT, target, code=2)
    assert target.read_text(encoding="utf-8") == "mine"
    run(PILOT, target, "--replace")
    assert target.read_text(encoding="utf-8") != "mine"


def test_which_system_is_meant_has_to_be_said(tmp_path: Path) -> None:
    lofts = ROOT / "examples" / "foundry-lofts" / "foundry-lofts.design.yaml"
    assert "the design has several systems" in run(lofts, tmp_path / "runs.csv", code=2)
    assert "there is no system 'eest'" in run(lofts, tmp_path / "runs.csv", "--system", "eest", code=2)
    run(lofts, tmp_path / "runs.xlsx", "--system", "east")


def test_two_lists_are_no_conversion(tmp_path: Path) -> None:
    assert "one of the two is a design or a book" in run("a.csv", tmp_path / "b.csv", code=2)


def test_an_error_or_a_formula_without_a_value_is_no_empty_cell(tmp_path: Path) -> None:
    """An empty cell under bends is none, and under length leaves what is there: neither is meant by an error."""
    path = tmp_path / "job.xlsx"
    book = Workbook(str(path))
    book.add_worksheet("a")
    page = book.add_worksheet("runs")
    page.write_row("A1", ["to", "length [m]", "bends", "location"])
    page.write_row("A2", ["J2"])
    page.write_formula("B2", "=1/0", None, "#DIV/0!")
    page.write_formula("C2", "=B2+1", None, "")
    page.write_formula("A3", "=NA()", None, "#N/A")
    page.write_row("A4", ["U1", "3 kg"])
    page.write_formula("B5", "=1/0", None, "#DIV/0!")
    book.close()
    with pytest.raises(InputFaultsError) as refused:
        runs_from_grid(grid_of(f"{path}:runs!A1:D4"))
    assert [(fault.line, fault.column, fault.message) for fault in refused.value.faults] == [
        (2, 2, "the cell has no value but the error '#DIV/0!'"),
        (2, 3, "the cell has a formula, and no value of it was saved"),
        (3, 1, "the cell has no value but the error '#N/A'"),
        (4, 2, '"3 kg" is a mass, not a length'),
    ]


def test_a_formula_has_the_value_that_was_saved_be_it_an_empty_text(tmp_path: Path) -> None:
    path = tmp_path / "job.xlsx"
    book = Workbook(str(path))
    page = book.add_worksheet("runs")
    page.write_row("A1", ["to", "length [m]"])
    page.write_row("A2", ["J2"])
    page.write_formula("B2", "=10+2.5", None, 12.5)
    page.write_row("A3", ["U1"])
    page.write_formula("B3", '=IF(1,"",2)', None, "?")
    book.close()
    rewrite(path, "<v>?</v>", "<v></v>")
    grid = grid_of(str(path))
    assert not grid.unread
    assert runs_from_grid(grid).changed == ("J2",)


def rewrite(path: Path, old: str, new: str, *, sheet: int = 1) -> None:
    """Change a sheet of a workbook as a writer of workbooks would not."""
    part = f"xl/worksheets/sheet{sheet}.xml"
    with zipfile.ZipFile(path) as parts:
        texts = {name: parts.read(name) for name in parts.namelist()}
    before = texts[part].decode("utf-8")
    assert old in before
    texts[part] = before.replace(old, new).encode("utf-8")
    with zipfile.ZipFile(path, "w") as parts:
        for name, text in texts.items():
            parts.writestr(name, text)


@pytest.mark.parametrize(
    ("old", "new"),
    [("<worksheet", '<!DOCTYPE worksheet [<!ENTITY a "b">]><worksheet'), ("</worksheet>", ""), ('r="3"', 'r="x"')],
)
def test_a_sheet_that_is_none_is_not_read(old: str, new: str, tmp_path: Path) -> None:
    path = a_workbook(tmp_path / "job.xlsx")
    rewrite(path, old, new, sheet=2)
    with pytest.raises(InputFaultsError, match="the workbook cannot be read: "):
        grid_of(f"{path}:runs")


@pytest.mark.parametrize(
    ("name", "message"),
    [
        ("runs.xls", "a workbook '.xls' is not read"),
        ("runs.XLSB", "a workbook '.xlsb' is not read"),
        ("runs.ods", "a workbook '.ods' is not read"),
    ],
)
def test_a_workbook_whose_errors_cannot_be_seen_is_not_read(name: str, message: str) -> None:
    with pytest.raises(InputFaultsError) as refused:
        grid_of(name)
    assert refused.value.faults[0].message == message


def test_a_point_is_not_guessed_at_beside_a_decimal_comma() -> None:
    assert faults("to;length [m];ports\nJ2;1.250;\nU1;12,5;\n") == [
        (2, 2, "the point in '1.250' may part thousands, as others have a decimal comma")
    ]
    assert runs_after("to;length [m]\nJ2;1.2500\nU1;12,5\n")["J2"].length_m == pytest.approx(1.25)
    assert runs_after("to;length [m]\nJ2;1.250\nU1;12.5\n")["J2"].length_m == pytest.approx(1.25)
    assert runs_after("to;length [m];items\nJ2;3.048;trap 1,5\n")["J2"].length_m == pytest.approx(3.048)


def test_what_the_design_cannot_be_is_told_at_its_cell(tmp_path: Path) -> None:
    design, runs = tmp_path / "pilot.design.yaml", tmp_path / "runs.csv"
    design.write_text(PILOT.read_text(encoding="utf-8"), encoding="utf-8", newline="\n")
    runs.write_text(
        "bends,to,length [m],from,rise [m]\n1,B3,5,J3,\n1,B4,-3,B3,\n,X1,2,B3,90\n", encoding="utf-8", newline="\n"
    )
    told = run(runs, design, code=2)
    assert "runs.csv:3:3" in told
    assert "runs.csv:4:5" in told


def test_a_run_that_is_added_below_another_is_told(tmp_path: Path) -> None:
    design, runs = tmp_path / "pilot.design.yaml", tmp_path / "runs.csv"
    design.write_text(PILOT.read_text(encoding="utf-8"), encoding="utf-8", newline="\n")
    runs.write_text("from,to,length [m]\nB4,X9,3\n", encoding="utf-8")
    assert "run:X9: added" in run(runs, design)


def test_a_fault_is_told_at_its_cell_where_runs_are_removed_before_it(tmp_path: Path) -> None:
    """Runs of the edited design are counted without those that the list leaves out."""
    design, runs = tmp_path / "boat.design.yaml", tmp_path / "runs.csv"
    design.write_text(BOAT, encoding="utf-8", newline="\n")
    names = [run.to for run in SYSTEM.runs]
    kept = [names[0], names[-1]]
    lines = "".join(f"{name},{-1 if name == names[-1] else 5}\n" for name in kept)
    runs.write_text(f"to,length [m]\n{lines}", encoding="utf-8")
    told = run(runs, design, "--remove", code=2)
    assert "runs.csv:3:2" in told
    assert "the length -1.00 m is negative" in told
