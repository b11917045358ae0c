"""No text of a design becomes a formula in a spreadsheet, and what was done about it is undone on reading."""

import csv
import io
import json
from pathlib import Path

import pytest
from openpyxl import load_workbook

from linewright.app.handover import Buying, HandOver, about_project, hand_over
from linewright.app.project import Project, open_project
from linewright.app.recording import record
from linewright.document.grid_out import as_written, harmless
from linewright.report.forms.blanks import blanks_of
from linewright.report.forms.tables import form_csv
from linewright.takeoff import Settings
from linewright.units import UnitSystem
from tests.handover.cases import BOAT_HOUSE
from tests.house.files import ROOT

SI = UnitSystem.SI
EVIL = "=HYPERLINK(1)"


@pytest.fixture(scope="module")
def evil(tmp_path_factory: pytest.TempPathFactory) -> Project:
    """The boat house with a room, a project and a system that look like formulas."""
    text = BOAT_HOUSE.read_text(encoding="utf-8")
    text = text.replace("project: Boat house", 'project: "+Boat house"').replace("id: main", f'id: "{EVIL}"')
    path = tmp_path_factory.mktemp("evil") / "evil.design.yaml"
    path.write_text(text, encoding="utf-8")
    return open_project(path, [ROOT / "books"])


@pytest.fixture(scope="module")
def files(evil: Project) -> HandOver:
    return hand_over(evil, Buying(Settings()), SI, lambda _: None)


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@SUM(A1)"])
def test_what_begins_a_formula_gets_an_apostrophe_and_loses_it_again(text: str) -> None:
    assert harmless(text) == f"'{text}"
    assert as_written(harmless(text)) == text


@pytest.mark.parametrize("text", ["", "plain", "'quoted'", "1 = 1", "5 m"])
def test_all_else_stays(text: str) -> None:
    assert harmless(text) == text
    assert as_written(text) == text


def test_no_cell_of_any_csv_begins_a_formula(files: HandOver) -> None:
    seen = 0
    for name, data in files.files.items():
        if not name.endswith(".csv"):
            continue
        for row in csv.reader(io.StringIO(data.decode())):
            for cell in row:
                assert not cell.startswith(("=", "+", "@")), (name, row)
                assert not cell.startswith("-") or float(cell) < 0, (name, row)
                seen += cell == f"'{EVIL}"
    assert seen > 5


def test_workbooks_hold_texts_and_no_formulas(files: HandOver) -> None:
    for name in ("schedules.xlsx", "records/record.xlsx"):
        for page in load_workbook(io.BytesIO(files.files[name])):
            assert all(cell.data_type != "f" for row in page.iter_rows() for cell in row)
    assert EVIL in json.dumps(json.loads(files.files["schedules.json"]))


def test_cautions_stand_in_every_format(files: HandOver) -> None:
    caution = files.evaluation.cautions[0]
    book = load_workbook(io.BytesIO(files.files["schedules.xlsx"]))
    assert any(caution in str(cell) for row in book["read first"].iter_rows(values_only=True) for cell in row)
    for name in ("schedules.json", "contents.json"):
        document = json.loads(files.files[name])
        assert any(caution in line for line in document["cautions"])
        assert document["not_judged"]
    for name, data in files.files.items():
        if name.startswith(("schedules/", "checklist/")):
            rows = list(csv.reader(io.StringIO(data.decode())))
            assert any(row[0] == "# read first" and caution in row[1] for row in rows), name
            assert any(row[0] == "# not judged" for row in rows), name


def test_a_form_of_such_a_design_is_read_back(evil: Project, tmp_path: Path) -> None:
    rows = list(csv.reader(io.StringIO(form_csv(blanks_of(evil.evaluate(), SI), about_project(evil)))))
    for row in rows:
        if row[1:4] == ["charge", "charge", "weighed in"]:
            assert row[0] == f"'{EVIL}"
            row[5] = "1,5"
    place = tmp_path / "filled.csv"
    with place.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file, delimiter=";").writerows(rows)
    found = record(evil, str(place), SI)
    assert found.filled.number(EVIL, "charge", "charge", "weighed in") == 1.5
