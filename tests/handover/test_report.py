"""The set as a user gets it: every format read back, the same bytes again, whole or not at all."""

import csv
import hashlib
import io
import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from openpyxl import load_workbook

from linewright.app.handover import HandOver
from linewright.app.output_folder import check_folder, write_folder
from linewright.cli.main import cli
from linewright.errors import InputFaultsError
from linewright.report.check_json import check_json
from linewright.takeoff import Kind
from linewright.units import Dimension, UnitSystem, from_unit
from linewright.units.showing import style
from tests.handover.cases import BOAT_HOUSE, CLINIC, SETS, evaluated, made_anew, project, whole_set
from tests.handover.paper import squeezed, texts

TEXTS = ("check.txt", "caution.txt", "not-judged.txt", "calculations.txt")


@pytest.fixture(scope="module")
def clinic() -> HandOver:
    return whole_set(CLINIC)


def rows_of(text: bytes) -> list[dict[str, str]]:
    lines = [line for line in text.decode().splitlines() if not line.startswith(("# ", '"# '))]
    return list(csv.DictReader(io.StringIO("\n".join(lines))))


def table(found: HandOver, name: str) -> list[dict[str, Any]]:
    tables = json.loads(found.files["schedules.json"])["schedules"]
    one = next(item for item in tables if item["name"] == name)
    keys = [column["key"] for column in one["columns"]]
    return [dict(zip(keys, row, strict=True)) for row in one["rows"]]


def test_json_holds_what_the_check_holds(clinic: HandOver) -> None:
    systems = check_json(evaluated(CLINIC))["systems"]
    units = {(system["id"], unit["id"]): unit for system in systems for unit in system["units"]}
    for row in table(clinic, "indoor"):
        unit = units.pop((row["system"], row["id"]))
        assert (row["reach"], row["elevation"]) == (unit["reach_m"], unit["elevation_m"])
        assert row["heating_delivered"] == unit["heating"]["delivered_w"]
    assert units == {}
    runs = {(system["id"], run["id"]): run for system in systems for run in system["runs"]}
    pipes = {(system["id"], pipe["id"]): pipe for system in systems for pipe in system["module_pipes"]}
    rows = table(clinic, "runs")
    for row in rows:
        run = runs.get((row["system"], row["run"])) or pipes[row["system"], row["run"]]
        assert (row["od"], row["length"]) == (run[f"{row['line']}_od_m"], run["length_m"])
    assert len(rows) == 2 * (len(runs) + len(pipes))
    limits = [check for system in systems for check in (*system["limits"], *system["checks"])]
    judged = table(clinic, "limits")
    assert [row["standing"] for row in judged[: len(limits)]] != []
    by_system = [row for row in judged if row["system"]]
    assert sorted(row["standing"] for row in by_system) == sorted(check["standing"] for check in limits)
    margins = sorted(
        row["margin"]["value"] for row in by_system if row["margin"] and row["margin"]["value"] is not None
    )
    assert margins == sorted(check["margin"] for check in limits if check["margin"] is not None)
    terms = table(clinic, "charge")
    for system in systems:
        mine = {row["term"]: row["mass"] for row in terms if row["system"] == system["id"]}
        assert mine["additional charge, to be weighed in"] == system["charge"]["rounded_kg"]
        assert mine["total charge"] == system["charge"]["total_kg"]


@pytest.mark.parametrize("system", [UnitSystem.SI, pytest.param(UnitSystem.IP, marks=pytest.mark.soak)])
def test_csv_and_workbook_hold_what_json_holds(system: UnitSystem) -> None:
    found = whole_set(CLINIC, system)
    book = load_workbook(io.BytesIO(found.files["schedules.xlsx"]), data_only=True)
    for one in json.loads(found.files["schedules.json"])["schedules"]:
        name, rows = one["name"], rows_of(found.files[f"schedules/{one['name']}.csv"])
        sheet = list(book[name].iter_rows(min_row=1, max_row=len(rows) + 1, values_only=True))
        assert [str(cell) for cell in sheet[0]] == list(rows[0] if rows else map(str, sheet[0]))
        assert len(rows) == len(one["rows"])
        units = [column["unit"] for column in one["columns"]]
        owned = {i for row in one["rows"] for i, cell in enumerate(row) if isinstance(cell, dict)}
        for plain, written, cells in zip(one["rows"], rows, sheet[1:], strict=True):
            texts = list(written.values())
            assert ["" if cell is None else cell for cell in cells] == [
                as_cell(text, cell) for text, cell in zip(texts, cells, strict=True)
            ]
            position = 0
            for column, (value, unit) in enumerate(zip(plain, units, strict=True)):
                own = isinstance(value, dict)
                check_text(value["value"] if own else value, value["unit"] if own else unit, texts[position], system)
                position += 2 if column in owned else 1


def as_cell(text: str, cell: object) -> object:
    return pytest.approx(float(text), rel=1e-9) if isinstance(cell, int | float) else text


def check_text(value: object, unit: str | None, text: str, system: UnitSystem) -> None:
    """A text of a table is the value in JSON, to seven digits and in the printed unit."""
    if value is None:
        assert text == "?"
    elif isinstance(value, str) or unit is None:
        assert text == str(value)
    else:
        options = [one for one in Dimension if one.si == unit]
        read = [
            from_unit(float(text), style(one, system).unit) if style(one, system).unit else float(text)
            for one in options
        ]
        assert any(number == pytest.approx(value, rel=1e-6, abs=1e-9) for number in read)


def test_schedules_sum_to_the_take_off(clinic: HandOver) -> None:
    by_size: dict[float, float] = {}
    for row in table(clinic, "runs"):
        by_size[row["od"]] = by_size.get(row["od"], 0.0) + row["length"]
    bought = {line.od_m: line.net for line in clinic.found.lines if line.kind is Kind.TUBE and line.net is not None}
    assert bought == pytest.approx(by_size)
    models = [row["model"] for row in table(clinic, "fittings") if row["model"]]
    kinds = (Kind.JOINT, Kind.HEADER, Kind.BOX, Kind.OUTDOOR_JOINT)
    lines = {line.name: line.count for line in clinic.found.lines if line.kind in kinds}
    assert lines == {name: models.count(name) for name in models}
    weighed = sum(row["mass"] for row in table(clinic, "charge") if row["term"].endswith("weighed in"))
    assert next(line.net for line in clinic.found.lines if line.kind is Kind.REFRIGERANT) == pytest.approx(weighed)
    pieces: dict[tuple[str, int], float] = {}
    for row in table(clinic, "cuts"):
        key = (row["tube"], row["length_no"])
        pieces[key] = pieces.get(key, 0.0) + row["piece"]
        assert pieces[key] <= row["length"] + 1e-9


@pytest.mark.parametrize("path", SETS)
def test_the_same_input_gives_the_same_bytes(path: Path) -> None:
    assert dict(made_anew(path).files) == dict(whole_set(path).files)


def test_another_process_gives_the_same_bytes(tmp_path: Path) -> None:
    """The order of sets of words, which differs from process to process, shows nowhere."""
    for seed in ("1", "2"):
        command = [sys.executable, "-m", "linewright", "report", str(BOAT_HOUSE), "-o", str(tmp_path / seed)]
        subprocess.run(command, check=True, capture_output=True, env={**os.environ, "PYTHONHASHSEED": seed})
    sets = [
        {path.relative_to(tmp_path / seed): path.read_bytes() for path in (tmp_path / seed).rglob("*.*")}
        for seed in ("1", "2")
    ]
    assert sets[0] == sets[1]
    assert len(sets[0]) > 15


def test_every_file_says_of_what_it_was_made(clinic: HandOver) -> None:
    design = hashlib.sha256(CLINIC.read_bytes().replace(b"\r\n", b"\n")).hexdigest()
    books = [book.sha256 for book in project(CLINIC).books.values()]
    for name, data in clinic.files.items():
        if name.endswith(".xlsx"):
            about = load_workbook(io.BytesIO(data))["about"]
            text = " ".join(str(cell) for row in about.iter_rows(values_only=True) for cell in row)
        elif name.endswith(".pdf"):
            if name == "drawings.pdf":
                continue  # a title block names the design, and the books by title
            text = "\n".join(texts(data))
            parts = [squeezed(part) for part in (design, *books, "Harbour clinic", "tidewater-r32", "edition")]
            assert all(part in text for part in parts), name
            continue
        else:
            text = data.decode()
        for wanted in (design, *books, "Harbour clinic", "tidewater-r32", "edition"):
            assert wanted in text, (name, wanted)


def test_the_calculations_hold_every_limit_run_term_and_room(clinic: HandOver) -> None:
    text = clinic.files["calculations.txt"].decode()
    for result in clinic.evaluation.systems:
        names = [
            *(f"limit:{check.measure}" for check in result.limits),
            *(f"run:{run.id}" for run in result.runs),
            "charge",
        ]
        assert all(f"] {result.id}/{name}\n" in text for name in names)
        assert all(term.name in text for term in result.charge.terms)
    assert all(f"] {check.subject}\n" in text for room in clinic.evaluation.rooms for check in room.checks)


def test_what_is_open_is_listed(clinic: HandOver) -> None:
    text = " ".join(clinic.files["not-judged.txt"].decode().split())
    for result in clinic.evaluation.systems:
        for check in (*result.limits, *result.checks):
            assert (f"{check.standing.value}: {check.subject}" in text) == (
                check.standing.value in ("unjudged", "to confirm")
            )
    assert all(gap.subject in text for gap in clinic.found.gaps)


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(cli, ["report", *map(str, arguments)])


def test_the_command_writes_the_set_and_says_how_it_goes(tmp_path: Path) -> None:
    done = run(BOAT_HOUSE, "-o", tmp_path / "set", "--json", "--units", "ip")
    assert done.exit_code == 0
    listing = json.loads((tmp_path / "set" / "contents.json").read_text(encoding="utf-8"))
    assert json.loads(done.stdout) == listing
    assert "cutting 1/4 in" in done.stderr
    for name, digest in listing["files"].items():
        assert hashlib.sha256((tmp_path / "set" / name).read_bytes()).hexdigest() == digest
    assert list(tmp_path.iterdir()) == [tmp_path / "set"]


def test_an_earlier_set_gives_way_and_other_files_do_not(tmp_path: Path) -> None:
    folder = tmp_path / "set"
    assert run(BOAT_HOUSE, "-o", folder).exit_code == 0
    assert run(BOAT_HOUSE, "-o", folder, "--waste", "10 %").exit_code == 0
    (folder / "mine.txt").write_text("mine", encoding="utf-8")
    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    done = run(BOAT_HOUSE, "-o", folder)
    assert done.exit_code == 2
    assert "the folder holds other files: 'mine.txt'" in done.stderr
    assert {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()} == before


def test_a_place_that_is_no_folder_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "set"
    path.write_text("mine", encoding="utf-8")
    with pytest.raises(InputFaultsError) as caught:
        check_folder(path, "contents.json")
    assert caught.value.faults[0].message == "'set' is no folder"
    assert run(BOAT_HOUSE, "-o", path).exit_code == 2


def test_a_place_that_cannot_be_written_leaves_nothing(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    done = run(BOAT_HOUSE, "-o", tmp_path / "file" / "set")
    assert done.exit_code == 2
    assert "Not a directory" in done.stderr or "cannot be written" in done.stderr or "exists" in done.stderr
    assert [path.name for path in tmp_path.iterdir()] == ["file"]


def test_a_set_that_cannot_be_moved_leaves_the_earlier_one(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = tmp_path / "set"
    write_folder(folder, {"a.txt": b"1"})
    replaced = Path.replace

    def fails(self: Path, target: Path) -> Path:
        if self.name.endswith(".part"):
            raise OSError(28, "No space left on device")
        return replaced(self, target)

    monkeypatch.setattr(Path, "replace", fails)
    with pytest.raises(OSError, match="No space left"):
        write_folder(folder, {"a.txt": b"2"})
    assert [path.name for path in tmp_path.iterdir()] == ["set"]
    assert (folder / "a.txt").read_bytes() == b"1"


def test_a_faulty_list_or_design_writes_nothing(tmp_path: Path) -> None:
    stock = tmp_path / "stock.csv"
    stock.write_text("od,form,length\n9.52 mm,coil,25 m\n", encoding="utf-8")
    for arguments in (
        [BOAT_HOUSE, "--stock", stock],
        [BOAT_HOUSE, "--stock", tmp_path / "none.csv"],
        [BOAT_HOUSE, "--prices", tmp_path / "none.csv"],
        [tmp_path / "none.design.yaml"],
        [BOAT_HOUSE, "--waste", "-1 %"],
        [BOAT_HOUSE, "--waste", "5"],
        [BOAT_HOUSE, "--cylinder", "ten"],
    ):
        done = run(*arguments, "-o", tmp_path / "set")
        assert done.exit_code == 2, arguments
        assert not (tmp_path / "set").exists()


@pytest.mark.parametrize("name", TEXTS)
def test_texts_are_plain(clinic: HandOver, name: str) -> None:
    text = clinic.files[name].decode()
    assert "\x1b" not in text
    assert text.endswith("\n")
