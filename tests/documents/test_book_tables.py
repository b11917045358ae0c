"""Tables of a book out of a spreadsheet: tables of the shipped books come back the same; every bad cell is told."""

import dataclasses
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from xlsxwriter import Workbook

from linewright.app.shipped import shipped
from linewright.book.edits import apply_to_book
from linewright.book.schema import Book, OutdoorTables
from linewright.cli.main import cli
from linewright.document.book_paths import place_in
from linewright.document.book_table import table_from_grid
from linewright.document.encode import Style, Word, encode
from linewright.document.files import book_from_text
from linewright.document.grid import grid_from_text
from linewright.document.grid_out import csv_text
from linewright.errors import InputFaultsError
from linewright.units import Amount, UnitSystem

BOOKS = {path.name.partition(".")[0]: path.read_text(encoding="utf-8") for path in shipped("books").glob("*.book.yaml")}
SKERRY = BOOKS["skerry-hr-r410a"]
ROWS = (
    "sizing.main.rows",
    "sizing.branch.rows",
    "fittings.joint.rows",
    "indoor.models",
    "outdoor.modules",
    "outdoor.groups",
)
#: Only where the book has them.
SERVICES = ("outdoor.electrical.rows", "indoor.electrical.rows", "indoor.condensate.rows")


def read(text: str) -> Book:
    return book_from_text(text, "some.book.yaml").compiled.book


def put(book: Book, at: str, table: str) -> Book:
    return apply_to_book(book, table_from_grid(grid_from_text(table, "table.csv"), place_in(book, at))).book


def faults(at: str, table: str) -> list[tuple[int, int, str]]:
    with pytest.raises(InputFaultsError) as refused:
        table_from_grid(grid_from_text(table, "table.csv"), place_in(None, at))
    return [(fault.line, fault.column, fault.message) for fault in refused.value.faults]


def flat(tree: Any, before: str = "") -> dict[str, str]:  # noqa: ANN401 - a plain tree
    """A row as cells: keys inside others with a dot, several names parted by a plus."""
    if isinstance(tree, Word):
        return {before: tree.text}
    if isinstance(tree, list):
        return {before: " + ".join(item.text for item in tree)}
    return {
        key: text for name, item in tree.items() for key, text in flat(item, f"{before}.{name}".lstrip(".")).items()
    }


@pytest.mark.parametrize("units", UnitSystem)
@pytest.mark.parametrize("at", [*ROWS, *SERVICES])
@pytest.mark.parametrize("name", BOOKS)
def test_rows_that_go_out_as_cells_come_back_the_same(name: str, at: str, units: UnitSystem) -> None:
    book = read(BOOKS[name])
    place = place_in(book, at)
    if at in SERVICES and place.found is None:
        return
    trees = [tree for tree in encode(place.found, place.hint, Style(units)) if isinstance(tree, dict)]
    trees = [{key: item for key, item in tree.items() if key != "ratios"} for tree in trees]
    cells = [flat(tree) for tree in trees]
    heads = list(dict.fromkeys(key for row in cells for key in row))
    table = csv_text([heads, *[[row.get(key, "") for key in heads] for row in cells]])
    made = put(book, at, table)
    assert dataclasses.replace(made, outdoor=without_ratios(made)) == dataclasses.replace(
        book, outdoor=without_ratios(book)
    )


def without_ratios(book: Book) -> OutdoorTables:
    """Ratios of a group have rows of their own, which a cell cannot hold."""
    groups = tuple(dataclasses.replace(group, ratios=()) for group in book.outdoor.groups)
    return dataclasses.replace(book.outdoor, groups=groups)


def test_a_row_of_units_serves_bare_numbers_in_any_case_and_order() -> None:
    table = "Liquid [mm];UPTO;gas (in)\n9,52;10;5/8\n12,7;20;3/4\n"
    made = table_from_grid(grid_from_text(table, "t"), place_in(None, "sizing.branch.rows")).to
    assert [(row.upto.value, round(row.sizes["gas"], 6), round(row.sizes["liquid"], 6)) for row in made] == [
        (10, 0.015875, 0.00952),
        (20, 0.01905, 0.0127),
    ]


def test_a_table_of_two_axes_keeps_its_page() -> None:
    book = read(SKERRY)
    table = "outdoor_db [F] / indoor_wb [F]\t63\t67\n77\t0.99\t1.05\n95\t0.94\t1.00\n"
    made = put(book, "capacity.cooling.temperature", table).capacity.cooling.temperature[0]
    assert made.page == book.capacity.cooling.temperature[0].page
    assert made.factor == ((0.99, 1.05), (0.94, 1.0))
    assert [round(entry, 6) for entry in made.outdoor_db_degc] == [25, 35]


def test_every_temperature_table_comes_back_the_same() -> None:
    book = read(SKERRY)
    table = book.capacity.cooling.temperature[0]
    rows = [["outdoor_db [degC] / indoor_wb [degC]", *map(str, table.indoor_wb_degc)]]
    rows += [[str(at), *map(str, row)] for at, row in zip(table.outdoor_db_degc, table.factor, strict=True)]
    emptied = dataclasses.replace(table, factor=((1.0,),), outdoor_db_degc=(1.0,), indoor_wb_degc=(2.0,))
    cooling = dataclasses.replace(book.capacity.cooling, temperature=(emptied,))
    other = dataclasses.replace(book, capacity=dataclasses.replace(book.capacity, cooling=cooling))
    assert put(other, "capacity.cooling.temperature", csv_text(rows)) == book


def test_a_table_of_one_axis() -> None:
    book = put(read(SKERRY), "capacity.cooling.length", "equivalent [m],factor\n7.5,1\n60,0.95\n120,0.9\n")
    assert book.capacity.cooling.length[0].factor == ((1.0,), (0.95,), (0.9,))
    book = put(read(SKERRY), "capacity.cooling.ratio", "ratio,factor\n50 %,0.55\n100 %,1\n")
    assert book.capacity.cooling.ratio[0].ratio == (
        Amount(0.5, book.capacity.cooling.ratio[0].ratio[0].dimension),
        *(book.capacity.cooling.ratio[0].ratio[1:]),
    )


def test_supplies_of_several_voltages_stand_in_one_cell_and_take_the_unit_of_their_column() -> None:
    table = (
        "model,phases,voltage [V],voltage_to [V],frequency [Hz],input [W]\n"
        "wall 2.2 + wall 2.8,1,208 / 230,,50/60,35\n"
        "wall 3.6,1,220,240,50,\n"
    )
    made = put(read(BOOKS["tidewater-r32"]), "indoor.electrical.rows", table).indoor.electrical
    assert made is not None
    first, second = made.rows
    assert (first.model, first.voltage_v, first.frequency_hz) == (("wall 2.2", "wall 2.8"), (208, 230), (50, 60))
    assert (second.voltage_v, second.voltage_to_v, second.input_w) == ((220,), 240, None)


def test_figures_by_size_and_ladders() -> None:
    book = put(read(SKERRY), "charge.gas", "size [mm],rate [kg/m]\n12.7,0.003\n15.88,0.005\n19.05,0.008\n22.22,0.012\n")
    assert book.charge.gas == read(SKERRY).charge.gas
    for table in ("gas [mm],12.7,15.88,19.05,22.22,25.4,28.58,34.92,41.28\n", "12.7 mm\n15.88 mm\n19.05 mm\n"):
        made = table_from_grid(grid_from_text(table, "t"), place_in(None, "tubes.gas")).to
        assert made[:3] == pytest.approx((0.0127, 0.01588, 0.01905))


@pytest.mark.parametrize(
    ("at", "table", "told"),
    [
        (
            "sizing.branch.rows",
            "upto,gas [mm],liquid [mm],colour\n10,x,9.52,\n20 kg,19.05,,\n",
            [
                (1, 4, "no column is called 'colour'"),
                (2, 2, '"x" does not begin with a finite decimal number'),
            ],
        ),
        (
            "capacity.cooling.temperature",
            "outdoor [C] / indoor_wb [C],17,19\n25,0.99,\n35,1,1.06,3\n",
            [
                (1, 1, "no axis is called 'outdoor'"),
                (2, 3, "nothing is written here"),
                (3, 4, "'3' stands in a column without a heading"),
            ],
        ),
        (
            "capacity.cooling.length",
            "equivalent [m],factor\n7.5,1\n60,\n",
            [(3, 1, "the row has nothing under 'factor'")],
        ),
        (
            "capacity.cooling.temperature",
            "outdoor_db [C] / indoor_wb [C]\t17\t\t19\n25\t0.99\n35\t1\t1.02\t1.06\n",
            [(2, 4, "nothing is written here"), (3, 3, "'1.02' stands in a column without a heading")],
        ),
        ("capacity.cooling.temperature", "outdoor_db [C] / indoor_wb [C]\n", [(1, 1, "the table is empty")]),
        (
            "capacity.cooling.temperature",
            "outdoor_db [C] / indoor_wb [C]\t17\t19\n25\t0,99\t1.000\n",
            [(2, 3, "the point in '1.000' may part thousands, as others have a decimal comma")],
        ),
        (
            "charge.gas",
            "size [mm]\trate [kg/m]\n12,7\t1.250\n",
            [(2, 2, "the point in '1.250' may part thousands, as others have a decimal comma")],
        ),
        (
            "tubes.gas",
            "gas [mm]\n12,7\n1.588\n",
            [(3, 1, "the point in '1.588' may part thousands, as others have a decimal comma")],
        ),
        (
            "sizing.branch.rows",
            "upto\tgas [mm]\t\tliquid [mm]\n10\t15.88\t7\t9.52\n",
            [(2, 3, "'7' stands in a column without a heading")],
        ),
        ("charge.liquid", "size [mm],rate [kg/m],page\n9.52,0.05,3\n", [(1, 1, "this has not two columns")]),
        ("title", "a\nb\n", [(1, 1, "no table stands there")]),
        ("limits", "", [(1, 1, "the table is empty")]),
    ],
)
def test_every_cell_that_is_not_understood_is_told(at: str, table: str, told: list[tuple[int, int, str]]) -> None:
    found = faults(at, table)
    for line, column, message in told:
        assert any((line, column) == fault[:2] and fault[2].startswith(message) for fault in found), found


def run(*arguments: str | Path, table: str = "", code: int = 0) -> str:
    done = CliRunner().invoke(cli, ["book", "table", *map(str, arguments)], input=table)
    assert done.exit_code == code, done.output
    return done.output


def test_what_is_pasted_is_printed_as_it_is_written_in_a_book() -> None:
    printed = run("sizing.branch.rows", "-", table="upto\tgas [mm]\tliquid [mm]\n10\t15.88\t9.52\n")
    assert printed == "- {upto: 10, gas: 15.88 mm, liquid: 9.52 mm}\n"


def test_a_range_of_a_workbook_goes_into_a_book_and_nothing_else_changes(tmp_path: Path) -> None:
    book, work = tmp_path / "my.book.yaml", tmp_path / "tables.xlsx"
    book.write_text(SKERRY, encoding="utf-8", newline="\n")
    made = Workbook(str(work))
    sheet = made.add_worksheet("charge")
    rows: list[list[str | float]] = [
        ["size [mm]", "rate [kg/m]"],
        [12.7, 0.003],
        [15.88, 0.0055],
        [19.05, 0.008],
        [22.22, 0.012],
    ]
    for i, row in enumerate(rows, start=4):
        for j, cell in enumerate(row, start=1):
            sheet.write(i, j, cell)
    made.close()
    assert "Nothing was written." in run("charge.gas", f"{work}:charge!B5:C9", "--into", book, "--dry-run")
    assert book.read_text(encoding="utf-8") == SKERRY
    run("charge.gas", f"{work}:charge!B5:C9", "--into", book)
    assert book.read_text(encoding="utf-8") == SKERRY.replace(
        "15.88 mm: 0.005 kg/m, 19.05 mm: 0.008 kg/m, 22.22 mm: 0.012 kg/m}",
        "15.88 mm: 0.0055 kg/m, 19.05 mm: 0.008 kg/m, 22.22 mm: 0.012 kg/m}",
        1,
    )


def test_a_table_half_understood_is_not_taken(tmp_path: Path) -> None:
    book = tmp_path / "my.book.yaml"
    book.write_text(SKERRY, encoding="utf-8", newline="\n")
    bad = "size [mm]\trate [kg/m]\n12.7\t0.004\n15.88\tx\n"
    assert "-:3:2" in run("charge.gas", "-", "--into", book, table=bad, code=2)
    overlapping = "upto\tsuction [mm]\thigh_low [mm]\tliquid [mm]\n20\t25.4\t22.22\t15.88\n10\t25.4\t22.22\t15.88\n"
    assert "they overlap" in run("sizing.branch.rows", "-", "--into", book, table=overlapping, code=2)
    assert "the key 'sizng' is not known here" in run("sizng.branch.rows", "-", table="a\n", code=2)
    assert book.read_text(encoding="utf-8") == SKERRY
