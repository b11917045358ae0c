"""What pipework adds to the take-off: walls, insulation, supports, nitrogen; lengths as built."""

from __future__ import annotations

from collections.abc import Iterator
from math import pi
from pathlib import Path

import pytest

from linewright.app.project import open_project
from linewright.engine import Evaluation
from linewright.engine.records import SystemResult
from linewright.model.values import Role
from linewright.takeoff import Gap, Kind, Settings, TakeOff, take_off
from linewright.units import same_tube
from tests.handover.cases import BOAT_HOUSE, CLINIC, evaluated, taken
from tests.house.files import ROOT
from tests.pipework.clinic import clinic, pipework

PRINT_WORKS = ROOT / "examples" / "print-works" / "print-works.design.yaml"
FT, IN, PSI = 0.3048, 0.0254, 6894.757293168
DRY = (
    "indoor_air: {temperature: 27 C, humidity: 80 %}, conductivity: 0.040 W/(m K), gas_line: 4 C, stock: [13 mm, 25 mm]"
)


def counted(found: TakeOff, kind: Kind) -> dict[float | None, int]:
    return {line.od_m: line.counted for line in found.lines if line.kind is kind}


def texts(found: TakeOff, start: str) -> list[str]:
    return [gap.text for gap in found.gaps if gap.subject.startswith(start)]


def test_supports_are_those_that_pipework_counts() -> None:
    found, systems = taken(PRINT_WORKS), evaluated(PRINT_WORKS).systems
    supports = counted(found, Kind.SUPPORT)
    assert sum(supports.values()) == sum(
        move.supports or 0 for one in systems if one.pipework for move in one.pipework.moves
    )
    # 1/4 in: J3 to U4, 25 ft in a shaft at 5 ft: five spans, six supports, and one beside each of three bends.
    assert supports[0.25 * IN] == 9


def test_spares_count_for_supports_and_are_rounded_up() -> None:
    line = next(
        line
        for line in take_off(evaluated(PRINT_WORKS), Settings(spares=0.1)).lines
        if line.kind is Kind.SUPPORT and line.od_m == 0.25 * IN
    )
    assert (line.counted, line.count) == (9, 10)


def test_without_pipework_supports_are_named_as_not_counted() -> None:
    found = taken(BOAT_HOUSE)
    assert counted(found, Kind.SUPPORT) == {}
    assert texts(found, "supports") == ["the design does not state how pipework is judged: none are counted"]


def test_a_tube_whose_supports_are_not_known_leaves_the_take_off_incomplete() -> None:
    """EN 378-2 has no spacing for tube below 15 mm."""
    found = take_off(clinic("{basis: drawn, supports: en-378-2}"))
    assert not found.complete
    lacking = [gap for gap in found.gaps if gap.left_out and "/movement:" in gap.subject]
    assert lacking
    assert all("spacing of" in gap.text for gap in lacking)
    doubts = [gap.text for gap in found.gaps if gap.subject == "ground/supports"]
    assert doubts == ["spacing of supports by en-378-2 is from memory: to confirm"]


#: Print works: outside diameter and wall [in] as the book has them, length of both lines together [ft].
BORES = [
    (0.25, 0.025, 25),
    (0.375, 0.030, 69),
    (0.5, 0.035, 129),
    (0.625, 0.040, 39),
    (0.75, 0.042, 30),
    (0.875, 0.045, 104),
]


def test_nitrogen_by_hand() -> None:
    """Print works: 1137 in3 of bore; at 600 psi 1137 / 1728 x 600 / 14.696 = 26.87 ft3 of free gas."""
    volume = sum(pi / 4 * (od - 2 * wall) ** 2 * feet * 12 for od, wall, feet in BORES)
    line = next(line for line in taken(PRINT_WORKS).lines if line.kind is Kind.NITROGEN)
    assert line.net is not None
    assert line.net / FT**3 == pytest.approx(volume / 1728 * 600 / 14.6959, rel=1e-5)
    assert line.net / FT**3 == pytest.approx(26.87, abs=0.005)
    assert line.count == 1


def test_a_cylinder_gives_only_what_is_above_the_pressure_of_the_pipe() -> None:
    """At 650 psi a cylinder of 50 L gives 0.95 x 50 x 50 / 14.696 = 162 L: 761 L and 5 % take five."""
    bought = Settings(nitrogen_pa=650 * PSI)
    line = next(line for line in take_off(evaluated(PRINT_WORKS), bought).lines if line.kind is Kind.NITROGEN)
    assert line.count == 5
    empty = take_off(evaluated(PRINT_WORKS), Settings(nitrogen_pa=600 * PSI))
    assert not empty.complete
    assert texts(empty, "nitrogen") == ["the pressure of the cylinder is not above that of the test: none are counted"]


def test_a_book_without_a_test_takes_no_nitrogen_and_says_so() -> None:
    found = taken(BOAT_HOUSE)
    assert not any(line.kind is Kind.NITROGEN for line in found.lines)
    assert any(text == "the book states no pressure test: no nitrogen is counted" for text in texts(found, ""))


def tubes(system: SystemResult) -> Iterator[tuple[str, Role, float, float]]:
    """Every tube with its size and length, those of the module pipes too."""
    for run in system.runs:
        yield from ((run.id, role, tube.od_m or 0.0, run.length_m or 0.0) for role, tube in run.tubes.items())
    for pipe in system.outdoor.pipes:
        yield from ((pipe.id, role, od_m or 0.0, pipe.length_m or 0.0) for role, od_m in pipe.tubes.items())


def test_insulation_is_that_which_pipework_has_chosen() -> None:
    """25.4 mm gas indoors needs 19.6 mm (tests/pipework/test_clinic.py): 25 mm of a stock of 13 and 25."""
    evaluation = clinic(f"{{{DRY}}}")
    found = take_off(evaluation)
    thick = {
        line.thickness_m
        for line in found.lines
        if line.kind is Kind.INSULATION and line.od_m and same_tube(line.od_m, 0.0254)
    }
    assert 0.025 in thick
    assert thick <= {0.013, 0.025, None}
    bare = sum(
        length
        for system in evaluation.systems
        for name, role, od_m, length in tubes(system)
        for item in pipework(evaluation, system.id).insulation
        if item.order_m == 0.0 and item.role is role and name in item.runs and same_tube(od_m, item.od_m)
    )
    of_plain = metres(taken(CLINIC), Kind.INSULATION)
    assert metres(found, Kind.INSULATION) + bare == pytest.approx(of_plain)
    assert any("nothing asks for insulation of it" in text for text in texts(found, "")) == (bare > 0)


def test_insulation_that_no_stock_covers_is_a_gap_without_a_thickness() -> None:
    found = take_off(clinic("{outdoor_air: {temperature: 27 C, humidity: 97 %}, stock: [6 mm]}"))
    assert "none that is stocked is thick enough: choose it before buying" in texts(found, "ground/insulation")
    assert any(line.kind is Kind.INSULATION and line.thickness_m is None for line in found.lines)


def test_saturated_air_is_a_gap_that_says_so() -> None:
    found = take_off(clinic("{outdoor_air: {temperature: 27 C, humidity: 100 %}}"))
    assert any("saturated air" in text for text in texts(found, "ground/insulation"))


def materials(evaluation: Evaluation, od_mm: float) -> set[tuple[float | None, str]]:
    found = take_off(evaluation)
    return {(m.wall_m, m.temper) for m in (one.material for one in found.cuttings) if same_tube(m.od_m, od_mm / 1000)}


def test_the_wall_that_holds_is_bought_where_that_of_the_book_does_not() -> None:
    """19.05 mm, brazed, by JIS: 1.0 mm holds 3.62 MPa of 4.15, and 1.2 mm is sold (tests/pipework/test_clinic.py)."""
    evaluation = clinic("{basis: annealed, code: jis}")
    assert {wall for wall, _ in materials(evaluation, 19.05)} == {0.0012}
    said = "the wall of the book does not hold the design pressure: the thinnest that is sold and does is bought"
    assert said in texts(take_off(evaluation), "ground/strength:19.05")


def test_a_wall_that_no_tube_mends_is_bought_as_the_book_has_it_and_said() -> None:
    evaluation = clinic("{basis: annealed, wall_tolerance: 10 %}")
    assert {wall for wall, _ in materials(evaluation, 25.4)} == {0.001}
    said = "it does not hold the design pressure, and none that is sold does"
    assert said in texts(take_off(evaluation), "ground/strength:25.4")


def test_a_size_without_a_wall_is_bought_as_it_is_sold_and_holds() -> None:
    """15.88 mm brazed, EN 1057: 0.685 mm is needed, and 5/8 in coil is sold with 0.889 mm."""
    evaluation = clinic("{basis: annealed, code: en-1057}", ("    15.88 mm: 1.0 mm\n", ""))
    assert [wall for wall, _ in materials(evaluation, 15.88)] == [pytest.approx(0.000889)]
    said = "the book states no wall: the thinnest that is sold and holds is bought"
    assert said in texts(take_off(evaluation), "ground/strength:15.88")


def test_without_a_basis_the_tube_of_the_book_is_bought() -> None:
    assert materials(clinic(""), 19.05) == materials(clinic("{filled: 20 C}"), 19.05)


BUILT = ("to: U3, length: 11 m}", "to: U3, length: 11 m, as_built: 14 m}")


def boat_house(tmp_path: Path, *changes: tuple[str, str]) -> Evaluation:
    text = BOAT_HOUSE.read_text(encoding="utf-8")
    for before, after in changes:
        assert before in text
        text = text.replace(before, after)
    path = tmp_path / "built.design.yaml"
    path.write_text(text, encoding="utf-8")
    return open_project(path).evaluate()


def metres(found: TakeOff, kind: Kind) -> float:
    return sum(line.net or 0.0 for line in found.lines if line.kind is kind)


@pytest.mark.parametrize("kind", [Kind.TUBE, Kind.INSULATION])
def test_lengths_as_built_are_taken_on_request_only(tmp_path: Path, kind: Kind) -> None:
    """U3 was measured as 14 m where the design has 11: three metres more of each of its two tubes."""
    evaluation = boat_house(tmp_path, BUILT)
    plain, built = take_off(evaluation), take_off(evaluation, Settings(as_built=True))
    assert metres(plain, kind) == pytest.approx(metres(taken(BOAT_HOUSE), kind))
    assert metres(built, kind) - metres(plain, kind) == pytest.approx(6.0)


def test_a_run_that_was_not_measured_is_named(tmp_path: Path) -> None:
    evaluation = boat_house(tmp_path, BUILT)
    found = take_off(evaluation, Settings(as_built=True))
    said = {gap.subject for gap in found.gaps if gap.text == "no length as built: that of the design is taken"}
    runs = {f"{one.id}/run:{run.id}" for one in evaluation.systems for run in one.runs}
    assert said == runs - {f"{evaluation.systems[0].id}/run:U3"}
    assert not any("as built" in gap.text for gap in take_off(evaluation).gaps)


def test_a_length_as_built_fills_one_that_was_not_known(tmp_path: Path) -> None:
    evaluation = boat_house(tmp_path, ("to: U3, length: 11 m}", "to: U3, length: unknown, as_built: 14 m}"))
    plain, built = take_off(evaluation), take_off(evaluation, Settings(as_built=True))
    assert (
        Gap(f"{evaluation.systems[0].id}/run:U3", "no length of the gas tube: not counted", left_out=True) in plain.gaps
    )
    assert not any(gap.text.startswith("no length of") for gap in built.gaps)
