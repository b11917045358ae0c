"""The report on paper, read back and compared with the evaluation it was made from."""

import io
import json
import re
from functools import cache
from pathlib import Path

import pdfplumber
import pytest
from fontTools.ttLib import TTFont

from linewright.app.handover import Buying, HandOver, hand_over
from linewright.app.papers import REPORT, StoppedError, watched
from linewright.app.project import open_project
from linewright.engine.records import Standing
from linewright.report.pdf import Front, Paper
from linewright.report.pdf.grids import grid
from linewright.report.pdf.making import FACES
from linewright.report.pdf.missing import printable
from linewright.report.schedules import schedules
from linewright.takeoff import Settings
from linewright.units import UnitSystem, to_unit
from linewright.units.showing import style
from tests.handover.cases import BOAT_HOUSE, CLINIC, SETS, evaluated, project, whole_set
from tests.handover.paper import Read, before, holds, read, rows_under, sizes, squeezed, texts
from tests.house.files import ROOT


def made(path: Path, system: UnitSystem = UnitSystem.SI, paper: Paper = Paper.A4) -> HandOver:
    return _made(path, system, paper)


@cache
def _made(path: Path, system: UnitSystem, paper: Paper) -> HandOver:
    front = Front("P3", "2026-11-30", paper)
    return hand_over(project(path), Buying(Settings()), system, lambda _: None, front=front)


def pages(path: Path, system: UnitSystem = UnitSystem.SI, paper: Paper = Paper.A4) -> list[Read]:
    """All pages up to the working, of which there are many."""
    return _pages(path, system, paper)


@cache
def _pages(path: Path, system: UnitSystem, paper: Paper) -> list[Read]:
    data = made(path, system, paper).files[REPORT]
    return read(data, before(data, "CalculationsEvery"))


CASES = [
    pytest.param(CLINIC, UnitSystem.SI, Paper.A4, marks=pytest.mark.soak),
    pytest.param(CLINIC, UnitSystem.IP, Paper.LETTER, marks=pytest.mark.soak),
    (BOAT_HOUSE, UnitSystem.SI, Paper.A4),
    (BOAT_HOUSE, UnitSystem.IP, Paper.LETTER),
]


@pytest.mark.parametrize(("path", "system", "paper"), CASES)
def test_every_row_of_every_schedule_is_printed(path: Path, system: UnitSystem, paper: Paper) -> None:
    found = made(path, system, paper)
    for table in schedules(found.evaluation, found.found, system):
        if table.name == "limits" or not table.rows:
            continue
        printed = grid(table, system)
        rows = rows_under(pages(path, system, paper), [column.heading for column in printed.columns])
        kept = [i for i in range(len(table.columns)) if any(row[i] != "" for row in table.rows)]
        assert len(rows) == len(table.rows), table.name
        for cells, row in zip(rows, table.rows, strict=True):
            for text, i in zip(cells, kept, strict=True):
                assert holds(text, row[i], table.columns[i], system), (table.name, row, text)


@pytest.mark.parametrize(("path", "system", "paper"), CASES)
def test_every_limit_and_check_is_printed_as_it_was_judged(path: Path, system: UnitSystem, paper: Paper) -> None:
    rows = [
        dict(zip(table[0], (squeezed(cell) for cell in row), strict=True))
        for page in pages(path, system, paper)
        for table in page.tables
        if {"kind", "subject", "bound is", "standing"} <= set(table[0])
        for row in table[1:]
    ]
    evaluation = made(path, system, paper).evaluation
    checks = [check for result in evaluation.systems for check in (*result.limits, *result.checks)]
    checks += [check for room in evaluation.rooms for check in room.checks]
    assert len(rows) == len(checks)
    for row, check in zip(rows, checks, strict=True):
        assert squeezed(check.subject).endswith(row["subject"])
        assert row["standing"] == squeezed(check.standing.value)
        if check.page is not None:
            assert row["page"] == str(check.page)
        for key, value in (("value", check.value), ("bound", check.bound), ("left", check.margin)):
            if value is not None:
                unit = style(check.dimension, system).unit
                number = "".join(mark for mark in row[key] if mark in "-.0123456789")
                step = 10.0 ** -len(number.partition(".")[2])
                assert abs(float(number) - (to_unit(value, unit) if unit else value)) <= step / 2 + 1e-6, check


@pytest.mark.parametrize("path", [BOAT_HOUSE, pytest.param(CLINIC, marks=pytest.mark.soak)])
def test_the_worksheet_adds_up_as_printed(path: Path) -> None:
    """By hand: the printed terms of a system give its sum, rounded and with the factory charge its total."""
    headings = ["system", "refrigerant", "term", "length [m]", "per length [kg/m]", "mass [kg]"]
    rows = rows_under(pages(path), headings)
    for result in evaluated(path).systems:
        mine = {row[2]: float(row[5]) for row in rows if row[0] == result.id}
        terms = [float(row[5]) for row in rows if row[0] == result.id][: len(result.charge.terms)]
        assert mine["sumoftheterms"] == pytest.approx(sum(terms), abs=0.0005 * (len(terms) + 1))
        total = mine["additionalcharge,tobeweighedin"] + mine["factorycharge"]
        assert mine["totalcharge"] == pytest.approx(total, abs=0.001)


@pytest.mark.parametrize("path", SETS)
def test_how_it_stands_and_what_is_open_comes_first(path: Path) -> None:
    cover, caution, *others = texts(made(path).files[REPORT])[:8]
    assert "revisionP3" in cover
    for text in (cover, caution):
        for count, word in ((sum(1 for _ in over(path)), "over"),):
            assert f"{count}{word}" in text or not count
    assert "Readthisfirst" in caution
    for subject in over(path):
        assert squeezed(f"OVER: {subject}") in caution + others[0]
    opened = "".join(others[:4])
    for result in evaluated(path).systems:
        for check in (*result.limits, *result.checks):
            if check.standing in (Standing.UNJUDGED, Standing.TO_CONFIRM):
                assert squeezed(f"{check.standing.value}: {check.subject}") in opened


def over(path: Path) -> list[str]:
    return [
        check.subject
        for result in evaluated(path).systems
        for check in (*result.limits, *result.checks)
        if check.standing is Standing.OVER
    ]


@pytest.mark.parametrize(("path", "system", "paper"), CASES)
def test_pages_are_numbered_named_and_nothing_leaves_them(path: Path, system: UnitSystem, paper: Paper) -> None:
    found = pages(path, system, paper)
    source = project(path).loaded
    every = texts(made(path, system, paper).files[REPORT])
    for number, text in enumerate(every, start=1):
        assert f"page{number}of{len(every)}" in text
        assert squeezed(source.design.project) in text
        assert f"sha256{source.sha256[:12]}" in text
        assert "P3,2026-11-30" in text
    assert all(page.outside == [] for page in found)
    assert (round(found[0].wide, 1), round(found[0].high, 1)) == {
        Paper.A4: (210.0, 297.0),
        Paper.LETTER: (215.9, 279.4),
    }[paper]


@pytest.mark.parametrize("path", [BOAT_HOUSE, pytest.param(CLINIC, marks=pytest.mark.soak)])
def test_the_whole_working_is_in_the_annex(path: Path) -> None:
    text = "".join(texts(made(path).files[REPORT]))
    calculations = made(path).files["calculations.txt"].decode()
    titles = [line for line in calculations.splitlines() if line.startswith("[") and "] " in line]
    assert len(titles) > 40
    assert all(squeezed(title) in text for title in titles)


@pytest.mark.parametrize("path", [BOAT_HOUSE, pytest.param(CLINIC, marks=pytest.mark.soak)])
def test_text_of_sheets_is_tall_enough_as_printed(path: Path) -> None:
    with pdfplumber.open(io.BytesIO(made(path).files[REPORT])) as document:
        sheets = [page for page in document.pages if page.width > 300 / 25.4 * 72 and page.height > 280 / 25.4 * 72]
        assert len(sheets) == len(evaluated(path).systems)
        for page in sheets:
            own = page.crop((0, 60, page.width, page.height - 80))
            assert min(char["size"] for char in own.chars) / 72 * 25.4 >= 2.0


@pytest.mark.parametrize(("path", "system", "paper"), CASES)
def test_the_same_input_gives_the_same_bytes(path: Path, system: UnitSystem, paper: Paper) -> None:
    front = Front("P3", "2026-11-30", paper)
    again = hand_over(project(path), Buying(Settings()), system, lambda _: None, front=front)
    assert again.files[REPORT] == made(path, system, paper).files[REPORT]


def test_work_that_nobody_wants_any_more_ends_at_the_next_step() -> None:
    told: list[str] = []
    progress = watched(told.append, lambda: len(told) == 2)
    with pytest.raises(StoppedError):
        hand_over(project(BOAT_HOUSE), Buying(Settings()), UnitSystem.SI, progress)
    assert len(told) == 2


def test_a_figure_that_is_not_known_is_a_question_mark() -> None:
    cells = {cell for page in pages(BOAT_HOUSE) for table in page.tables for row in table for cell in row}
    assert "?" in cells
    assert not cells & {"None", "nan", "inf"}


@pytest.mark.parametrize("name", ["港の診療所", "مرحبا", "Annex 🏥", "Tab\x07le"])
def test_what_the_face_has_not_is_a_square_and_is_told(tmp_path: Path, name: str) -> None:
    text = BOAT_HOUSE.read_text(encoding="utf-8")
    wanted = project(BOAT_HOUSE).loaded.design.project
    path = tmp_path / "named.design.yaml"
    path.write_text(
        text.replace(f"project: {wanted}", f"project: {json.dumps(name, ensure_ascii=chr(7) in name)}"),
        encoding="utf-8",
    )
    found = hand_over(open_project(path, [ROOT / "books"]), Buying(Settings()), UnitSystem.SI, lambda _: None)
    cover = texts(found.files[REPORT])[0]
    # The characters of both faces, as another library reads them.
    held = set.intersection(*[{chr(code) for code in TTFont(face).getBestCmap()} for face in FACES.glob("*.ttf")])
    printed = "".join(mark if mark in held else "□" for mark in name)
    assert squeezed(printed) in cover
    for mark in name:
        assert mark in held or f"U+{ord(mark):04X}" in cover
    assert "holdthemwhole" in cover
    assert name in json.loads(found.files["schedules.json"])["about"]["project"]


def test_letters_made_of_two_are_composed() -> None:
    assert printable("Cafe\u0301 Zu\u0308rich") == "Café Zürich"


LONG = "Überlangername" * 4


@pytest.mark.parametrize(
    ("name", "paper"),
    [
        pytest.param(REPORT, Paper.LETTER, marks=pytest.mark.soak),
        ("checklist.pdf", Paper.A4),
        ("records/forms.pdf", Paper.A4),
    ],
)
def test_the_longest_names_run_into_nothing(tmp_path_factory: pytest.TempPathFactory, name: str, paper: Paper) -> None:
    for page in read(longest(tmp_path_factory.getbasetemp(), paper).files[name], 14):
        if page.wide * page.high > 300 * 280:
            continue  # sheets have words that cross, and tests of their own
        assert (page.clashing, page.outside) == ([], []), page.text[:80]


@cache
def longest(folder: Path, paper: Paper) -> HandOver:
    """The clinic with names as long as they may be."""
    text = CLINIC.read_text(encoding="utf-8")
    text = text.replace("project: Harbour clinic", f"project: {LONG} and a part with spaces that wraps where it can")
    text = text.replace("id: ground\n", f"id: {'the-system-of-the-ground-floor-and-of-the-annex-beyond'}\n")
    text = re.sub(r"\bU5\b", "a-unit-with-an-identifier-that-somebody-will-type-all-of-05", text)
    text = text.replace("name: Treatment 1", f"name: {'Wing' * 14}")
    path = folder / f"{paper.value}.design.yaml"
    path.write_text(text, encoding="utf-8")
    front = Front("P3 with a long remark about the tender of phase two, issued for comment", "2026-11-30", paper)
    opened = open_project(path, [ROOT / "books"])
    return hand_over(opened, Buying(Settings()), UnitSystem.SI, lambda _: None, front=front)


@pytest.mark.parametrize(("path", "system", "paper"), CASES)
def test_columns_do_not_run_into_each_other(path: Path, system: UnitSystem, paper: Paper) -> None:
    for page in pages(path, system, paper):
        assert page.wide * page.high > 300 * 280 or page.clashing == [], page.text[:80]


def test_drawings_are_as_large_as_they_say() -> None:
    files = whole_set(CLINIC).files
    drawn = [name for name in sorted(files) if name.startswith("drawings/") and name.endswith(".svg")]
    found = sizes(files["drawings.pdf"])
    assert len(found) == len(drawn)
    for name, (wide, high), said in zip(drawn, found, texts(files["drawings.pdf"]), strict=True):
        text = files[name].decode()
        assert f'width="{wide:g}mm" height="{high:g}mm"' in text.replace(".000", "")
        assert squeezed("Harbour clinic") in said
