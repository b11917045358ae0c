"""Marked-up sheets: every part that differs has a mark that needs no colour, and stands in the table beside it."""

from __future__ import annotations

import json
from itertools import combinations
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from click.testing import CliRunner

from linewright.app.marking import Sides, marked_sheets
from linewright.app.project import open_project
from linewright.app.reviewing import review
from linewright.cli.main import cli
from linewright.draw.labels import Box
from linewright.draw.mark_places import around
from linewright.draw.marked import MarkKind
from linewright.draw.style import CLASSES
from linewright.draw.typeface import text_width
from linewright.units import UnitSystem
from tests.handover.cases import CLINIC
from tests.house.files import ROOT

PRINT_WORKS = ROOT / "examples" / "print-works" / "print-works.design.yaml"
SVG = "{http://www.w3.org/2000/svg}"
#: A run longer, a model changed, a unit taken away, two others behind a new joint in its place.
CHANGES = (
    ("to: J2, length: 70 ft", "to: J2, length: 105 ft"),
    ("id: U1, model: cassette 18", "id: U1, model: cassette 24"),
    (
        "      - {id: U4, model: wall 7, room: office, elevation: 7 ft}\n",
        (
            "      - {id: U5, model: cassette 18, room: hall, elevation: 14 ft}\n"
            "      - {id: U6, model: wall 7, room: office, elevation: 7 ft}\n"
        ),
    ),
    (
        "      - {from: J3, to: U4, length: 25 ft, bends: 3, location: shaft}\n",
        (
            "      - {from: J3, to: J4, length: 9 ft}\n      - {from: J4, to: U5, length: 10 ft}\n"
            "      - {from: J4, to: U6, length: 18 ft}\n"
        ),
    ),
    (
        "      - {id: J3, elevation: 14 ft}\n",
        "      - {id: J3, elevation: 14 ft}\n      - {id: J4, elevation: 14 ft}\n",
    ),
)


def other(tmp_path: Path, path: Path, *changes: tuple[str, str]) -> Path:
    text = path.read_text(encoding="utf-8")
    for before, after in changes:
        assert before in text, before
        text = text.replace(before, after)
    found = tmp_path / "other.design.yaml"
    found.write_text(text, encoding="utf-8")
    return found


def sheets(before: Path, after: Path, system: UnitSystem = UnitSystem.IP) -> dict[str, ET.Element]:
    sides = Sides(open_project(before), open_project(after), review(open_project(before), open_project(after)))
    return {name: ET.fromstring(text) for name, text in marked_sheets(sides, system).items()}  # noqa: S314 - our own


def words(item: ET.Element) -> str:
    """What is written, without the title behind it."""
    title = item.find(f"{SVG}title")
    return str((item.text if title is None else title.tail) or "")


def drawn(sheet: ET.Element, role: str) -> list[ET.Element]:
    return [item for item in sheet.iter() if item.get("data-role") == role]


def tags(sheet: ET.Element) -> set[str]:
    return {words(item) for item in drawn(sheet, "mark-tag") if item.tag == f"{SVG}text"}


def table(sheet: ET.Element, number: int = 0) -> list[list[str]]:
    """Rows of a table on a sheet; pieces of a wrapped cell together."""
    rows: dict[tuple[int, int], list[str]] = {}
    for item in drawn(sheet, "mark-table"):
        parts = str(item.get("data-id")).split("/")
        if item.tag == f"{SVG}text" and parts[1] == f"table{number}" and parts[2].isdigit():
            rows.setdefault((int(parts[2]), int(parts[3])), []).append(words(item))
    count = max((row for row, _ in rows), default=-1) + 1
    width = max((column for _, column in rows), default=-1) + 1
    return [[" ".join(rows.get((i, j), [])) for j in range(width)] for i in range(count)]


def marks_of(sheet: ET.Element) -> dict[str, set[str]]:
    """Classes of the lines around each part."""
    found: dict[str, set[str]] = {}
    for item in drawn(sheet, "mark"):
        part = str(item.get("data-id")).removeprefix("mark:").split("/")[0]
        found.setdefault(part, set()).add(str(item.get("class")))
    return found


@pytest.fixture(scope="module")
def sheet(tmp_path_factory: pytest.TempPathFactory) -> ET.Element:
    changed = other(tmp_path_factory.mktemp("marked"), PRINT_WORKS, *CHANGES)
    return sheets(PRINT_WORKS, changed)["main.svg"]


def test_each_kind_of_difference_has_a_line_of_its_own(sheet: ET.Element) -> None:
    found = marks_of(sheet)
    assert found["run:J2"] == {"lw-mark-changed"}
    assert "lw-mark-changed" in found["unit:U1"]
    assert "lw-mark-new" in found["run:U5"]
    assert "lw-mark-new" in found["fitting:J4"]
    assert "lw-mark-gone" in found["run:U4"]
    assert "lw-mark-follows" in found["run:J3"], "its size follows from what is beyond it"
    assert set(found) == {
        *("run:J2", "unit:U1", "unit:U4", "run:U4", "unit:U5", "unit:U6"),
        *("run:J4", "run:U5", "run:U6", "fitting:J4", "run:J3"),
    }


def test_the_kinds_are_told_apart_without_colour() -> None:
    looks = {part for kind in MarkKind for part in [CLASSES[kind.css].partition("stroke-dasharray:")[2]]}
    assert len(looks) == len(MarkKind)
    assert len({kind.letter for kind in MarkKind}) == len(MarkKind)


def test_every_tag_on_the_sheet_is_in_the_table_and_the_other_way_round(sheet: ET.Element) -> None:
    rows = table(sheet)
    assert tags(sheet) == {row[0] for row in rows}
    by_part = {(row[1], row[2]): row[3:] for row in rows}
    assert by_part["run J2", "length"] == ["70 ft", "105 ft"]
    assert by_part["unit U4", "gone"] == ["wall 7, office", "none"]
    assert by_part["unit U5", "new"] == ["none", "cassette 18, hall"]
    assert by_part["run J3", "gas size"] == ["3/4 in", "7/8 in"]


def test_what_comes_of_it_stands_below(sheet: ET.Element) -> None:
    verdicts = {row[0]: row[1:] for row in table(sheet, 1)}
    assert verdicts["main/limit:after_first_branch"] == ["within", "5.0 ft", "over", "-32.0 ft"]
    turned = [row[1] != row[3] for row in table(sheet, 1)]
    assert turned == sorted(turned, reverse=True), "those whose standing changed come first"
    assert table(sheet, 2)[0][0] == "main"


def test_no_tag_covers_text_or_another_tag_and_all_stand_on_the_page(sheet: ET.Element) -> None:
    width = float(str(sheet.get("width")))
    frames = [item for item in drawn(sheet, "mark-tag") if item.tag == f"{SVG}rect"]
    boxes = [
        Box(x, y, x + float(str(item.get("width"))), y + float(str(item.get("height"))))
        for item in frames
        for x, y in ((float(str(item.get("x"))), float(str(item.get("y")))),)
    ]
    assert all(box.left >= 0 and box.right <= width for box in boxes)
    assert not any(one.meets(two) for one, two in combinations(boxes, 2))
    labels = [item for item in sheet.iter(f"{SVG}text") if item.get("data-role") == "run-label"]
    for item in labels:
        size, x, y = (float(str(item.get(key))) for key in ("font-size", "x", "y"))
        long = text_width(words(item), size)
        left = x - {"middle": long / 2, "end": long}.get(str(item.get("text-anchor")), 0.0)
        assert not any(box.meets(Box(left, y - 0.7 * size, left + long, y)) for box in boxes)


def test_a_line_along_a_pipe_goes_around_the_words_beside_it() -> None:
    text = Box(40.0, 0.0, 60.0, 10.0)
    assert around((0.0, 5.0, 100.0, 5.0), [text]) == [(0.0, 5.0, 38.0, 5.0), (62.0, 5.0, 100.0, 5.0)]
    assert around((0.0, 15.0, 100.0, 15.0), [text]) == [(0.0, 15.0, 100.0, 15.0)]
    assert around((45.0, 5.0, 55.0, 5.0), [text]) == []


@pytest.mark.parametrize("system", UnitSystem)
def test_nothing_is_marked_where_nothing_differs(system: UnitSystem) -> None:
    for sheet in sheets(CLINIC, CLINIC, system).values():
        assert marks_of(sheet) == {}
        assert tags(sheet) == set()
        assert "Nothing differs." in {words(item) for item in drawn(sheet, "mark-table")}


def test_a_system_that_is_gone_is_drawn_as_it_was_and_said_to_be_gone(tmp_path: Path) -> None:
    text = CLINIC.read_text(encoding="utf-8")
    start = text.index(
        "  # ---------------------------------------------------------------------------------------------- within"
    )
    less = tmp_path / "less.design.yaml"
    less.write_text(text[:start], encoding="utf-8")
    found = sheets(CLINIC, less)
    assert set(found) == {"ground.svg", "quay.svg", "upper.svg"}
    gone = found["quay.svg"]
    heads = [words(item) for item in drawn(gone, "mark-head")]
    assert any("drawn as in A: this system is gone in B" in head for head in heads)
    assert [row[1:3] for row in table(gone)] == [["system quay", "gone"]]
    back = sheets(less, CLINIC)["quay.svg"]
    assert [row[1:3] for row in table(back)] == [["system quay", "new"]]


def test_names_beyond_all_bounds_are_wrapped_and_not_cut(tmp_path: Path) -> None:
    long = "A room with a name that is longer than anybody thought of when the sheet was drawn " * 3
    changed = other(tmp_path, PRINT_WORKS, ("name: Office", f"name: {long.strip()}"))
    found = sheets(PRINT_WORKS, changed)["main.svg"]
    (row,) = table(found)
    assert long.strip() in row[4]
    width = float(str(found.get("width")))
    for item in drawn(found, "mark-table"):
        if item.tag == f"{SVG}text":
            assert float(str(item.get("x"))) + text_width(words(item), 11.0) <= width


def test_the_files_of_a_comparison_are_written_whole(tmp_path: Path) -> None:
    changed, folder = other(tmp_path, PRINT_WORKS, *CHANGES), tmp_path / "set"
    asked = ["compare", str(PRINT_WORKS), str(changed), "-o", str(folder)]
    done = CliRunner().invoke(cli, [*asked, "--json"])
    assert done.exit_code == 0, done.output
    names = {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}
    assert names == {"compare.txt", "compare.json", "contents.json", "sheets/main.svg"}
    assert json.loads((folder / "compare.json").read_text(encoding="utf-8")) == json.loads(done.stdout)
    first = {name: (folder / name).read_bytes() for name in names}
    assert CliRunner().invoke(cli, asked).exit_code == 0
    assert first == {name: (folder / name).read_bytes() for name in names}
    (folder / "mine.txt").write_text("x", encoding="utf-8")
    assert CliRunner().invoke(cli, asked).exit_code == 2
