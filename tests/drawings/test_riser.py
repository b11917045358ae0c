"""The riser diagram on paper: nothing on top of anything, levels true to height, every unit and every run told."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import pytest

from linewright.draw.paper import PAPERS, Drawing, TooSmallError
from linewright.draw.paper.marks import Stroke, Words
from linewright.draw.paper.papers import METRIC
from linewright.draw.run_words import size_words
from linewright.units import Dimension, UnitSystem, show
from tests.draw import cases
from tests.drawings.drawn import risers
from tests.drawings.geometry import LEAST_MM, ids, least_text, outside, overlapping, struck, symbols, words

CLINIC = ("clinic-ground", "clinic-quay", "clinic-upper")
SI, IP = UnitSystem.SI, UnitSystem.IP
EVERYWHERE = [(name, paper, SI if paper in METRIC else IP) for name in CLINIC for paper in PAPERS]
#: A paper with the units of the other side of the sea.
ELSEWHERE = [
    pytest.param(name, paper, IP if units is SI else SI, marks=pytest.mark.soak) for name, paper, units in EVERYWHERE
]
UGLY = [(name, paper, units) for name in cases.MADE for paper, units in (("A3", SI), ("tabloid", IP))]
MORE = [("sixty-four", "A1", SI), ("sixty-four", "arch-d", IP), ("eight", "A4", SI), ("one-unit", "letter", IP)]


@pytest.mark.parametrize(("name", "paper", "units"), [*EVERYWHERE, *UGLY, *MORE, *ELSEWHERE])
def test_nothing_stands_on_anything_and_nothing_leaves_the_border(name: str, paper: str, units: UnitSystem) -> None:
    drawn = risers(name, paper, units)
    assert [pair for sheet in drawn for pair in overlapping(sheet)] == []
    assert [pair for sheet in drawn for pair in struck(sheet)] == []
    assert [mark for sheet in drawn for mark in outside(sheet)] == []
    assert min(least_text(sheet) for sheet in drawn) >= LEAST_MM
    assert all(len(ids(sheet)) == len(set(ids(sheet))) for sheet in drawn)
    units_drawn = sorted(dict(one.facts)["tag"] for sheet in drawn for one in symbols(sheet, "unit", "unit-above"))
    assert units_drawn == sorted(unit.id for unit in cases.drawn(name).result.units)


def scale(drawing: Drawing) -> int:
    """How many metres a metre of paper stands for, as the title block says."""
    (said,) = (item.text for item in words(drawing) if item.id == "title/scale")
    return int(said.removeprefix("heights 1:").split(",")[0])


def level_lines(drawing: Drawing) -> dict[str, float]:
    return {
        mark.id.split("/")[0].removeprefix("level:"): mark.y1
        for mark in drawing.marks
        if isinstance(mark, Stroke) and mark.id.startswith("level:") and "/line/" in mark.id
    }


@pytest.mark.parametrize("name", [*CLINIC, "eight", "sixty-four", "twin-risers", "faults"])
def test_levels_are_true_to_height(name: str) -> None:
    stated = {level.id: level.elevation_m for level in cases.drawn(name).evaluation.design.site.levels}
    for sheet in risers(name):
        lines = level_lines(sheet)
        first = next(iter(lines), "")
        for level, y in lines.items():
            true = (stated[first] - stated[level]) * 1000 / scale(sheet)
            assert abs((y - lines[first]) - true) < 0.01, level


def upright(drawings: Sequence[Drawing], run: str) -> float:
    """The height that a ruler finds for a run [mm]: all that its gas line climbs or falls."""
    pieces = [
        mark
        for sheet in drawings
        for mark in sheet.marks
        if isinstance(mark, Stroke) and mark.id.startswith(f"run:{run}/gas/") and abs(mark.x1 - mark.x2) < 1e-9
    ]
    return sum(mark.y1 - mark.y2 for mark in pieces)


def test_a_riser_can_be_measured_on_the_print() -> None:
    """Rises as the design states them: 6.7 m up the shaft; 2.8 m into the ceiling; 1.2 m down from the roof."""
    for name, run, rise_m in (("clinic-quay", "J11", 6.7), ("clinic-ground", "K1", 2.8), ("clinic-upper", "J31", -1.2)):
        drawn = risers(name)
        # The two lines of a run turn their corners one beside the other, 1.1 mm apart, and end at the edge of a symbol.
        assert abs(upright(drawn, run) * scale(drawn[0]) / 1000 - rise_m) < 0.0012 * scale(drawn[0]), run


@pytest.mark.parametrize("name", [*CLINIC, "eight", "twin-risers"])
def test_a_unit_without_a_break_stands_at_its_level(name: str) -> None:
    case = cases.drawn(name)
    stated = {level.id: level.elevation_m for level in case.evaluation.design.site.levels}
    found = 0
    for sheet in risers(name, "A2"):
        lines = level_lines(sheet)
        broken = {mark.id.split("/")[0] for mark in sheet.marks if isinstance(mark, Stroke) and "/break/" in mark.id}
        for one in symbols(sheet, "unit", "unit-above"):
            facts = dict(one.facts)
            if f"run:{facts['tag']}" in broken:
                continue
            level, y = next(iter(lines.items()))
            height_m = stated[level] + (y - one.y) * scale(sheet) / 1000
            assert abs(height_m - float(facts["elevation_m"])) < 0.00001 * scale(sheet), facts
            found += 1
    assert found or name in {"eight", "twin-risers"}


def texts(drawings: Sequence[Drawing]) -> list[str]:
    return [item.text for sheet in drawings for item in words(sheet)]


@pytest.mark.parametrize("units", UnitSystem)
@pytest.mark.parametrize("name", CLINIC)
def test_every_run_tells_its_sizes_and_its_length(name: str, units: UnitSystem) -> None:
    drawn = risers(name, units=units)
    tree = cases.drawn(name).result.tree
    for run in cases.drawn(name).result.runs:
        number = tree.at[run.id]
        said = [item.text for sheet in drawn for item in words(sheet) if item.id.startswith(f"run:{number}/")]
        assert said[0] == size_words(run, units)
        assert run.length_m is not None
        assert said[1] == show(run.length_m, Dimension.LENGTH, units)


def test_names_that_are_cut_stand_in_full_in_the_schedule() -> None:
    drawn = risers("long-names")
    cells: dict[str, list[str]] = {}
    for sheet in drawn:
        for item in words(sheet):
            if item.id.startswith("units/"):
                cells.setdefault(item.id.rsplit("/", 1)[0], []).append(item.text)
    found = {"".join(lines).replace(" ", "") for lines in cells.values()}
    for room in cases.drawn("long-names").evaluation.design.rooms:
        assert room.name.replace(" ", "") in found
    for unit in cases.drawn("long-names").result.units:
        assert unit.id in found


def test_what_has_no_level_is_drawn_apart() -> None:
    (sheet, *_) = risers("no-rooms")
    (edge,) = (mark for mark in sheet.marks if isinstance(mark, Stroke) and mark.id == "apart/edge")
    assert all(one.y > edge.y1 for one in symbols(sheet, "outdoor"))
    assert all(one.y < edge.y1 for one in symbols(sheet, "unit", "unit-above"))
    assert any("LEVEL NOT STATED" in text for text in texts([sheet]))
    assert not any("LEVEL NOT STATED" in text for text in texts(risers("clinic-quay")))


def test_a_level_that_is_only_assumed_is_marked_and_not_measured() -> None:
    drawn = risers("clinic-quay")
    said = texts(drawn)
    assert "J12 ~" in said
    assert "J11" in said
    assert any(text.startswith("level not stated: drawn at the pipe before it") for text in said)


def match_lines(drawing: Drawing) -> Iterator[Words]:
    yield from (item for item in words(drawing) if item.id.startswith("match/"))


def test_a_wide_diagram_goes_on_at_a_match_line_on_either_side() -> None:
    first, second, _, _, _ = risers("clinic-ground", "A4")
    assert [item.text for item in match_lines(first)] == ["match line A, sheet 2"]
    assert [item.text for item in match_lines(second)] == ["match line A, sheet 1"]


def test_a_tower_on_small_paper_asks_for_a_larger_one() -> None:
    with pytest.raises(TooSmallError):
        risers("sixty-four", "A4")


def test_the_title_block_tells_what_was_put_in() -> None:
    for sheet in risers("clinic-quay"):
        said = {item.id: item.full or item.text for item in words(sheet) if item.id.startswith("title/")}
        assert said["title/project"] == "Harbour clinic"
        assert said["title/system"] == "quay, First floor and second floor west"
        assert (said["title/revision"], said["title/date"], said["title/paper"]) == ("B", "2026-11-20", "A3")
        assert said["title/design file"] == "harbour-clinic.design.yaml   sha256 8a25eadbe9dd"
        assert "title/drawn" not in said
        assert said["title/drawn/head"] == "drawn"
        assert said["title/stamp"].startswith("DEMONSTRATION DATA")
    assert "for comment" in texts(risers("clinic-quay")[:1])
