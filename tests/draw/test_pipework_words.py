"""Pipework on the sheet: what is bought for each run, what moves, loops, and the tube that holds least."""

from __future__ import annotations

from functools import cache

from linewright.app.project import open_project
from linewright.draw import Axis, Scene, layout, sheet_scene
from linewright.draw.primitives import Text
from linewright.engine import Evaluation
from linewright.units import UnitSystem
from tests.house.files import ROOT
from tests.pipework.clinic import clinic, pipework

PRINT_WORKS = ROOT / "examples" / "print-works" / "print-works.design.yaml"


@cache
def scene(system: UnitSystem = UnitSystem.IP) -> Scene:
    project = open_project(PRINT_WORKS)
    return drawn(project.evaluate(), system)


def drawn(evaluation: Evaluation, system: UnitSystem = UnitSystem.SI, number: int = 0) -> Scene:
    return sheet_scene(layout(evaluation, evaluation.systems[number], axis=Axis.ACTUAL), system)


def words(found: Scene, start: str) -> str:
    """All that is written under one head below the lanes."""
    return " ".join(item.text for item in found.primitives if isinstance(item, Text) and item.id.startswith(start))


def test_behind_a_run_stands_what_is_bought_for_it() -> None:
    run = next(item for item in scene().primitives if item.id == "run:J2")
    # 70 ft with one loop: two parts of 10.67 m, 16.92e-6 x 10.67 x (80 - 3.3) = 13.8 mm, 0.55 in when rounded up.
    assert "gas wall 0.045 in drawn, insulation 1-1/2 in, moves 0.55 in" in run.title
    assert "liquid wall 0.035 in annealed" in run.title
    assert "supports" in run.title


def test_below_the_lanes_stand_tube_insulation_movement_and_supports() -> None:
    found = words(scene(), "foot:pipework")
    for said in (
        "7/8 in: wall 0.045 in drawn, within",
        "insulation 1-1/2 in on gas 7/8 in indoors, within",
        "J2 gas moves 0.55 in",
        "supports 116 for 16 of 16 tubes",
        "anchors are taken at both ends of every run",
    ):
        assert said in found, said


def test_a_loop_stands_on_its_run_and_in_the_legend() -> None:
    arches = [item for item in scene().primitives if item.role == "loop"]
    assert {item.group for item in arches} == {"run:J2"}
    assert arches[0].title == "1 offset or loop on J2"
    assert any(item.id.startswith("legend/loop") for item in scene().primitives)


def test_the_strip_shows_the_tube_that_holds_least() -> None:
    names = [item.text for item in scene().primitives if isinstance(item, Text) and item.role == "margin-name"]
    (strength,) = [name for name in names if "strength" in name]
    # 5/8 in coil, drawn: rated annealed, 615.9 psi for 602.
    assert "15.875 mm" in strength


def test_nothing_of_it_stands_on_a_sheet_without_pipework() -> None:
    plain = drawn(clinic(""))
    assert not words(plain, "foot:pipework")
    assert not [item for item in plain.primitives if item.role == "loop"]
    assert "insulation" not in next(item for item in plain.primitives if item.id == "run:J2").title


def test_what_is_not_known_is_marked_and_not_left_out() -> None:
    """Air without a dew point, a size without a wall, a spacing that no table has."""
    stated = "{basis: drawn, supports: en-378-2, indoor_air: {temperature: 27 C, humidity: 104 %}}"
    evaluation = clinic(stated, ("    25.4 mm: 1.0 mm\n", ""))
    found = drawn(evaluation)
    said = words(found, "foot:pipework")
    assert "25.4 mm: wall ?" in said
    assert "insulation ? on gas 25.4 mm indoors, unjudged" in said
    moves = pipework(evaluation).moves
    counted = [move for move in moves if move.supports is not None]
    assert len(counted) < len(moves)
    assert f"for {len(counted)} of {len(moves)} tubes" in said


def test_what_is_to_be_confirmed_names_what_it_is_of() -> None:
    found = words(scene(), "foot:confirm")
    assert "strength, 12.7 mm: asme-b31.5, drawn; rests on memory" in found
    assert "movement: offsets, loops and anchors as listed" in found
    assert "Open at ·" not in found
