"""Where a drawing larger than its sheet is cut: sheets are used, nothing is lost, every match line has a mate."""

from __future__ import annotations

from collections import Counter
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linewright.app.drawings import Kind, Request, drawings
from linewright.app.project import Project, open_project
from linewright.draw.paper import PAPERS, Drawing, TooSmallError
from linewright.draw.paper.around import AIR, content
from linewright.draw.paper.division import Frame, division
from linewright.draw.paper.extent import area_of
from linewright.draw.paper.lettering import Area
from linewright.draw.paper.marks import Layer, Mark, Pen, Stroke, Symbol
from linewright.draw.paper.papers import METRIC, laid
from linewright.draw.riser import diagram_sheets, riser_drawings
from linewright.draw.riser.heights import SIDE
from linewright.engine import Evaluation
from linewright.units import UnitSystem
from tests.drawings.drawn import FACTS, risers
from tests.drawings.geometry import least_text, outside, overlapping, struck, words

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted(ROOT.glob("examples/*/*.design.yaml"))
#: What docs/drawings.md promises of every sheet of a divided drawing but the last.
LEAST_USED = 0.2
LARGE = [name for name in PAPERS if name not in {"A4", "letter", "arch-a"}]
#: On these a drawing is most likely divided; the others are left to the soak.
SMALL = ("A4", "A3", "letter", "tabloid")
ON_PAPERS = [name if name in SMALL else pytest.param(name, marks=pytest.mark.soak) for name in PAPERS]
_SYSTEM = (Layer.UNIT, Layer.OUTDOOR, Layer.FITTING)


@cache
def opened(path: Path) -> tuple[Project, Evaluation]:
    project = open_project(path)
    return project, project.evaluate()


@cache
def drawn(path: Path, paper: str) -> list[tuple[Drawing, ...]]:
    """The diagrams of a design, without schedules; those that a paper has no room for are left out."""
    _, evaluation = opened(path)
    units = UnitSystem.SI if paper in METRIC else UnitSystem.IP
    found = []
    for result in evaluation.systems:
        try:
            sheets = riser_drawings(evaluation, result, FACTS, PAPERS[paper], system=units)
        except TooSmallError:
            continue
        found.append(tuple(sheets[: diagram_sheets(sheets)]))
    return found


def parts(drawing: Drawing) -> dict[str, list[Mark]]:
    """The marks of the system, by the part of the sheet in which they stand."""
    found: dict[str, list[Mark]] = {}
    for mark in drawing.marks:
        own = mark.layer in _SYSTEM or mark.layer.value.startswith("LW-TUBE") or mark.id.startswith(("run:", "unit:"))
        if own:
            found.setdefault(mark.id.rpartition("/part-")[2] if "/part-" in mark.id else "1", []).append(mark)
    return found


def used(drawing: Drawing) -> float:
    """The share of the room of a sheet, right of the names of the levels, that its pipes, symbols and words span."""
    room = content(laid(PAPERS[drawing.paper], landscape=drawing.width > drawing.height))
    ground = 0.0
    for marks in parts(drawing).values():
        areas = [area_of(mark) for mark in marks]
        width = max(one.right for one in areas) - min(one.left for one in areas)
        ground += width * (max(one.bottom for one in areas) - min(one.top for one in areas))
    return ground / ((room.width - 2 * AIR - SIDE) * (room.height - 2 * AIR))


@pytest.mark.parametrize("paper", ON_PAPERS)
@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.parent.name)
def test_no_sheet_but_the_last_is_nearly_empty(path: Path, paper: str) -> None:
    for sheets in drawn(path, paper):
        shares = [used(sheet) for sheet in sheets]
        assert all(share >= LEAST_USED for share in shares[:-1]), shares
        if paper in LARGE:
            assert all(share >= 1.5 * LEAST_USED for share in shares[:-1]), shares


@pytest.mark.parametrize("paper", ON_PAPERS)
@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.parent.name)
def test_a_divided_diagram_is_legible_and_has_every_unit_once(path: Path, paper: str) -> None:
    for sheets in drawn(path, paper):
        for sheet in sheets:
            assert overlapping(sheet) == []
            assert struck(sheet) == []
            assert outside(sheet) == []
            assert least_text(sheet) >= 2.0
    _, evaluation = opened(path)
    tags = sorted(sorted(unit.id for unit in result.units) for result in evaluation.systems)
    found = sorted(
        sorted(
            dict(mark.facts)["tag"]
            for sheet in sheets
            for mark in sheet.marks
            if isinstance(mark, Symbol) and mark.name.startswith("unit")
        )
        for sheets in drawn(path, paper)
    )
    assert all(one in tags for one in found)
    assert found == tags or paper not in LARGE


def mates(sheets: tuple[Drawing, ...]) -> Counter[tuple[str, frozenset[int]]]:
    """Match lines by name and by the sheets on its two sides, as each side tells them."""
    found: Counter[tuple[str, frozenset[int]]] = Counter()
    for number, sheet in enumerate(sheets, start=1):
        for item in words(sheet):
            if item.id.startswith("match/"):
                name, _, where = item.text.partition(", ")
                other = int(where.removeprefix("sheet ")) if where.startswith("sheet ") else number
                found[name, frozenset({number, other})] += 1
    return found


@pytest.mark.parametrize("paper", ON_PAPERS)
@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.parent.name)
def test_a_match_line_is_told_on_both_its_sides(path: Path, paper: str) -> None:
    for sheets in drawn(path, paper):
        assert all(count % 2 == 0 for count in mates(sheets).values())
        assert len(sheets) == 1 or mates(sheets)


def test_a_low_diagram_goes_on_below_on_the_same_sheet() -> None:
    first, _ = risers("clinic-quay")
    said = [item for item in words(first) if item.id.startswith("match/")]
    assert [item.text for item in said] == ["match line A, below", "match line A, above"]
    upper, lower = said
    assert upper.y < lower.y


def test_a_tower_has_no_sheet_that_holds_levels_alone() -> None:
    """The outdoor group stands over the first column of four: what is right of it would be an empty sheet."""
    path = ROOT / "examples" / "foundry-lofts" / "foundry-lofts.design.yaml"
    for sheets in (drawn(path, "A4")[0], risers("sixty-four")):
        assert all(parts(sheet) for sheet in sheets[: diagram_sheets(sheets)])


def test_the_parts_of_a_diagram_are_about_as_wide_as_one_another() -> None:
    """Four sheets of A4 of which the last had a unit and an eighth of the width before."""
    path = ROOT / "examples" / "harbour-clinic" / "harbour-clinic.design.yaml"
    (sheets,) = (sheets for sheets in drawn(path, "A4") if len(sheets) == 4)
    widths = []
    for sheet in sheets:
        (marks,) = parts(sheet).values()
        areas = [area_of(mark) for mark in marks]
        widths.append(max(one.right for one in areas) - min(one.left for one in areas))
    assert min(widths) > 0.6 * max(widths)


def test_without_a_paper_a_divided_diagram_takes_the_one_that_saves_sheets() -> None:
    project, evaluation = opened(ROOT / "examples" / "foundry-lofts" / "foundry-lofts.design.yaml")
    west = evaluation.systems[1]
    found = drawings(project, evaluation, west, Kind.RISER, request=Request(), system=UnitSystem.SI)
    smaller = drawings(project, evaluation, west, Kind.RISER, request=Request("A3"), system=UnitSystem.SI)
    larger = drawings(project, evaluation, west, Kind.RISER, request=Request("A1"), system=UnitSystem.SI)
    assert {sheet.paper for sheet in found} == {"A2"}
    assert diagram_sheets(larger) == diagram_sheets(found) < diagram_sheets(smaller)


def test_a_diagram_that_is_not_divided_stays_on_the_usual_paper() -> None:
    project, evaluation = opened(ROOT / "examples" / "harbour-clinic" / "harbour-clinic.design.yaml")
    for result in evaluation.systems:
        found = drawings(project, evaluation, result, Kind.RISER, request=Request(), system=UnitSystem.SI)
        assert ({sheet.paper for sheet in found}, diagram_sheets(found)) == ({"A3"}, 1)


@settings(max_examples=60, deadline=None)
@given(
    heights=st.lists(st.floats(4.0, 30.0), min_size=2, max_size=40),
    room=st.floats(60.0, 250.0),
)
def test_whatever_stands_below_one_another_is_cut_between_and_into_even_parts(
    heights: list[float], room: float
) -> None:
    """Texts below one another with gaps of 3 mm: no cut meets one, no part is higher than its room, none is a scrap."""
    tops = [sum(heights[:k]) + 3.0 * k for k in range(len(heights))]
    marks: list[Mark] = [
        Symbol(f"one:{k}", Layer.UNIT, 0.0, top, "one", (Stroke("", Layer.UNIT, 0.0, 0.0, 20.0, height, Pen(0.2)),), ())
        for k, (top, height) in enumerate(zip(tops, heights, strict=True))
    ]
    area = Area(0.0, 0.0, 50.0, tops[-1] + heights[-1])
    cuts = division(marks, Frame(area), Area(0.0, 0.0, 100.0, room))
    if cuts is None:
        return
    assert (cuts.ys[0], cuts.ys[-1]) == (area.top, area.bottom)
    sizes = [after - before for before, after in zip(cuts.ys, cuts.ys[1:], strict=False)]
    assert all(0 < size <= room - 2 * AIR for size in sizes)
    for cut in cuts.ys[1:-1]:
        assert not any(top < cut < top + height for top, height in zip(tops, heights, strict=True))
    assert sorted(one for sheet in cuts.sheets for one in sheet) == [(k, 0) for k in range(len(sizes))]
