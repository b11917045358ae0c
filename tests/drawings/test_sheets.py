"""The sheet of a system on paper: the same scene, letters of 2 mm, divided between its lanes."""

from __future__ import annotations

from pathlib import Path

import pytest

from linewright.app.drawings import Kind, Request, drawings, revision
from linewright.app.project import open_project
from linewright.draw.paper import TooSmallError, next_paper, paper_svg
from linewright.draw.paper.papers import PAPERS
from linewright.errors import InputFaultsError
from linewright.units import UnitSystem
from tests.draw import cases
from tests.drawings.drawn import sheets
from tests.drawings.geometry import LEAST_MM, least_text, outside, words

ROOT = Path(__file__).parents[2]
CLINIC = ROOT / "examples" / "harbour-clinic" / "harbour-clinic.design.yaml"
WIDE = [name for name in PAPERS if name not in {"A4", "letter", "arch-a"}]


@pytest.mark.parametrize("paper", WIDE)
@pytest.mark.parametrize("name", ["clinic-ground", "clinic-quay", "clinic-upper", "eight", "one-unit", "long-names"])
def test_letters_are_2_mm_and_nothing_leaves_the_border(name: str, paper: str) -> None:
    for units in UnitSystem:
        drawn = sheets(name, paper, units)
        assert min(least_text(sheet) for sheet in drawn) >= LEAST_MM
        assert [mark for sheet in drawn for mark in outside(sheet)] == []


def test_every_text_of_the_scene_is_on_one_of_the_sheets() -> None:
    case = cases.drawn("sixty-four")
    drawn = sheets("sixty-four")
    assert len(drawn) > 1
    lanes = {f"unit:{unit.id}/unit" for unit in case.result.units}
    found = [item.id for sheet in drawn for item in words(sheet)]
    assert lanes <= set(found)
    assert all(found.count(name) == 1 for name in lanes)


def test_the_heads_of_the_columns_stand_on_every_sheet_that_has_lanes() -> None:
    for sheet in sheets("sixty-four"):
        names = {item.id for item in words(sheet)}
        if any(name.endswith("/unit") and name.startswith("unit:") for name in names):
            assert any(item.text == "room" for item in words(sheet))


@pytest.mark.parametrize("paper", ["A4", "letter", "arch-a"])
def test_a_small_paper_is_refused_and_nothing_made_smaller(paper: str) -> None:
    with pytest.raises(TooSmallError):
        sheets("clinic-quay", paper)


def test_the_next_paper_is_asked_for() -> None:
    project = open_project(CLINIC)
    evaluation = project.evaluate()
    with pytest.raises(InputFaultsError) as caught:
        drawings(project, evaluation, evaluation.systems[1], Kind.SHEET, request=Request("A4"), system=UnitSystem.SI)
    (fault,) = caught.value.faults
    assert fault.message == "the sheet of system 'quay' has no room on 'A4' with letters of 2 mm"
    assert fault.expected == "A3 or a larger paper"


def test_without_a_paper_one_is_found_that_does() -> None:
    project = open_project(CLINIC)
    evaluation = project.evaluate()
    for units, paper in ((UnitSystem.SI, "A3"), (UnitSystem.IP, "tabloid")):
        drawn = drawings(project, evaluation, evaluation.systems[0], Kind.SHEET, request=Request(), system=units)
        assert {sheet.paper for sheet in drawn} == {paper}


def test_papers_grow() -> None:
    assert [paper.name for paper in iter_up("A4")] == ["A4", "A3", "A2", "A1"]
    assert [paper.name for paper in iter_up("letter")] == ["letter", "tabloid", "arch-b", "arch-c", "arch-d"]
    # A4 is 210 mm x 297 mm (ISO 216), tabloid 11 in x 17 in (ASME Y14.1, B), ARCH D 24 in x 36 in.
    assert (PAPERS["A4"].short, PAPERS["A4"].long) == (210.0, 297.0)
    assert PAPERS["tabloid"].long == pytest.approx(17 * 25.4)
    assert PAPERS["arch-d"].short == pytest.approx(24 * 25.4)


def iter_up(name: str) -> list:  # type: ignore[type-arg]
    found = [PAPERS[name]]
    while (larger := next_paper(found[-1])) is not None:
        found.append(larger)
    return found


def test_a_revision_is_a_mark_a_day_and_words() -> None:
    assert revision("B, 2026-11-20, for tender, all trades") == ("B", "2026-11-20", "for tender, all trades")
    for wrong in ("B", "B, tomorrow, x", "B, 2026-13-01, x", ", 2026-11-20, x"):
        with pytest.raises(ValueError, match=r"\S"):
            revision(wrong)


def test_the_svg_is_in_true_millimetres_and_the_same_every_time() -> None:
    (sheet, *_) = sheets("clinic-quay")
    text = paper_svg(sheet)
    assert '<svg xmlns="http://www.w3.org/2000/svg" width="420mm" height="297mm" viewBox="0 0 420 297"' in text
    assert text == paper_svg(sheet)
    assert "http" not in text.replace("http://www.w3.org/2000/svg", "")
