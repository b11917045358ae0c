"""Physics of a system beside the book's results: what is worked out, what is missing, that nothing is judged by it."""

import json
import math
from pathlib import Path

import pytest
from click.testing import CliRunner

from linewright.app.project import open_project
from linewright.cli.main import cli
from linewright.engine.hydraulics import hydraulics
from linewright.engine.hydraulics_records import RISER_M_S, Hydraulics
from linewright.model.values import Role
from linewright.report.hydraulics_out import assumed, hydraulics_json, hydraulics_text
from linewright.units import UnitSystem
from tests.house.files import ROOT

EXAMPLES = {path.parent.name: path for path in sorted((ROOT / "examples").rglob("*.design.yaml"))}


def found(example: str, system: str) -> Hydraulics:
    evaluation = open_project(EXAMPLES[example]).evaluate()
    return hydraulics(next(one for one in evaluation.systems if one.id == system))


def test_the_books_length_factor_is_near_that_of_the_lumped_pipe() -> None:
    """The demonstration books say that their factors were made so; 0.025 is a judgement."""
    for example, system in (("harbour-clinic", "ground"), ("harbour-clinic", "upper"), ("foundry-lofts", "west")):
        evaluation = open_project(EXAMPLES[example]).evaluate()
        result = next(one for one in evaluation.systems if one.id == system)
        assert result.cooling is not None
        (factor,) = [one.value for one in result.cooling.factors if one.name == "length"]
        shares = hydraulics(result).shares
        assert shares is not None
        assert shares.lumped == pytest.approx(factor, abs=0.025)


def test_the_tree_keeps_more_than_the_lumped_pipe_and_every_unit_has_a_share() -> None:
    one = found("harbour-clinic", "quay")
    assert one.shares is not None
    assert 1 > one.shares.tree > one.shares.lumped > 0.8
    assert one.shares.held is not None
    assert one.shares.lumped > one.shares.held > 0.5
    assert len(one.units) == 17
    assert all(0.8 < unit.cooling_share < 1.01 for unit in one.units)


def test_a_book_that_states_no_least_capacity_leaves_oil_open() -> None:
    one = found("harbour-clinic", "quay")
    assert {run.cooling_oil for run in one.runs} == {None}
    assert any("the book states no least capacity" in line for line in assumed(one.conditions, UnitSystem.SI))
    lodge = found("ridge-hostel", "lodge")
    assert any(run.heating_oil is not None for run in lodge.runs)


@pytest.mark.parametrize(
    ("stated", "cold", "hot", "said"),
    [
        ("", 960.0, 930.0, "ester oil, since the book names none: 960.0 kg/m³ with suction gas, 930.0 kg/m³"),
        ("  oil: mineral\n", 900.0, 870.0, "mineral oil, as the book states: 900.0 kg/m³"),
        (
            "  oil_density: 1000 kg/m3\n",
            1000.0,
            1000.0,
            "oil of the density that the book states: 1000.0 kg/m³ with",
        ),
    ],
)
def test_the_oil_of_the_book_moves_the_margin(tmp_path: Path, stated: str, cold: float, hot: float, said: str) -> None:
    """Margin goes with 1 / sqrt(rho_oil - rho_gas) (Jacobs et al. 1976), all else the same."""
    name = "highland-r454b.book.yaml"
    lines = [line for line in (ROOT / "books" / name).read_text(encoding="utf-8").split("\n") if "  oil" not in line]
    text = "\n".join(lines).replace("  leaving_subcooling: 9 K\n", f"  leaving_subcooling: 9 K\n{stated}")
    (tmp_path / name).write_text(text, encoding="utf-8")
    design = tmp_path / EXAMPLES["ridge-hostel"].name
    design.write_text(EXAMPLES["ridge-hostel"].read_text(encoding="utf-8"), encoding="utf-8")
    result = open_project(design).evaluate().systems[0]
    one, usual = result.hydraulics, found("ridge-hostel", result.id)
    assert (one.conditions.oil.cold_kg_m3, one.conditions.oil.hot_kg_m3) == (cold, hot)
    assert any(said in line for line in assumed(one.conditions, UnitSystem.SI))
    compared = 0
    gas = {item.id: item for item in one.runs}
    for run in usual.runs:
        mine = gas[run.id]
        if run.heating_oil is not None and mine.heating_oil is not None:
            density = float(one.solved.rows[0].heated.gas.density_kg_m3[result.tree.at[run.id]])
            ratio = math.sqrt((usual.conditions.oil.hot_kg_m3 - density) / (hot - density))
            assert mine.heating_oil / run.heating_oil == pytest.approx(ratio, rel=1e-6)
            compared += 1
    assert compared > 3


@pytest.mark.parametrize(
    ("example", "system", "missing"),
    [
        ("foundry-lofts", "east", "equivalent length of run D4"),
    ],
)
def test_what_is_missing_is_named_and_nothing_is_worked_out(example: str, system: str, missing: str) -> None:
    one = found(example, system)
    assert missing in one.missing
    assert (one.shares, one.runs, one.units) == (None, (), ())


def test_a_refrigerant_that_is_not_shipped_is_missing(tmp_path: Path) -> None:
    text = EXAMPLES["boat-house"].read_text(encoding="utf-8")
    book = (ROOT / "books" / "minimal.book.yaml").read_text(encoding="utf-8")
    (tmp_path / "a.design.yaml").write_text(text, encoding="utf-8")
    (tmp_path / "minimal.book.yaml").write_text(
        book.replace("refrigerant: R-32", "refrigerant: R-744"), encoding="utf-8"
    )
    (system,) = open_project(tmp_path / "a.design.yaml").evaluate().systems
    assert hydraulics(system).missing[0] == "properties of R-744"


def changed(tmp_path: Path, *changes: tuple[str, str]) -> Hydraulics:
    text = EXAMPLES["boat-house"].read_text(encoding="utf-8")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new, 1)
    (tmp_path / "a.design.yaml").write_text(text, encoding="utf-8")
    (system,) = open_project(tmp_path / "a.design.yaml").evaluate().systems
    return hydraulics(system)


def test_a_pipe_that_no_refrigerant_gets_through_is_told_and_gives_no_figure(tmp_path: Path) -> None:
    gas = changed(tmp_path, ("length: 9 m", "length: 9000 m"))
    assert gas.shares is None
    assert gas.missing[0].startswith("a state within the tables of R-32: ")


def test_a_unit_far_above_gets_vapour_with_its_liquid_and_the_text_says_how_much(tmp_path: Path) -> None:
    """R-32 at 41 degC loses about 1.45 K in 10 m: 5 K last for less than 40 m, let alone 52."""
    found = changed(tmp_path, ("room: office, elevation: 2.7 m", "room: office, elevation: 60 m"))
    low, high, _ = found.units
    assert (low.vapour, low.subcooling_left_k > 0) == (0.0, True)
    assert high.subcooling_left_k < -2
    assert 0.005 < high.vapour < 0.05
    done = CliRunner().invoke(cli, ["check", str(tmp_path / "a.design.yaml"), "--physics"])
    words = " ".join(done.output.split())
    assert f"at U2; liquid boils before the valve, {high.vapour:.1%} of it at the least" in words


def test_a_share_that_was_not_found_is_called_unknown() -> None:
    evaluation = open_project(EXAMPLES["boat-house"]).evaluate()
    one = hydraulics(evaluation.systems[0])
    assert one.shares is not None
    without = one._replace(shares=one.shares._replace(held=None))
    text = hydraulics_text([without], evaluation, system=UnitSystem.SI, colour=False)
    assert "with suction pressure held: unknown" in " ".join(text.split())
    assert hydraulics_json(without)["held_share"] is None


def test_a_level_that_nobody_states_is_said_to_count_as_none(tmp_path: Path) -> None:
    found = changed(tmp_path, (", elevation: 2.5 m", ""))
    assert found.conditions.without_level == ("U3",)
    assert "no change of level, since nobody states one, in U3" in assumed(found.conditions, UnitSystem.SI)


def checked(example: str, *more: str) -> tuple[int, str]:
    done = CliRunner().invoke(cli, ["check", str(EXAMPLES[example]), *more])
    return done.exit_code, done.output


@pytest.mark.parametrize("example", EXAMPLES)
def test_physics_changes_no_verdict_and_no_exit_code(example: str) -> None:
    code, plain = checked(example)
    with_physics, more = checked(example, "--physics")
    assert code == with_physics
    assert more.startswith(plain.rstrip("\n"))
    assert "judged by nothing" in more


def test_the_text_fits_eighty_columns_in_both_systems() -> None:
    for units in ("si", "ip"):
        _, text = checked("harbour-clinic", "--physics", "--units", units)
        assert max(len(line) for line in text.splitlines()) <= 80
        assert "least subcooling left" in text
        of_the_other = {"si": ("ft/min", "°F", "Fdeg"), "ip": (" m/s", "°C", " K ")}[units]
        physics = text[text.index("Physics of system") :]
        assert [word for word in of_the_other if word in physics] == []


def test_json_has_it_only_when_asked() -> None:
    assert "physics" not in json.loads(checked("boat-house", "--json")[1])
    (one,) = json.loads(checked("boat-house", "--json", "--physics")[1])["physics"]
    assert one["system"] == "main"
    assert [unit["id"] for unit in one["units"]] == ["U1", "U2", "U3"]


def test_three_tubes_are_worked_out_each_with_its_own_gas() -> None:
    """Cooling draws through the suction tube, heating through the other; a unit that only cools has no heating."""
    evaluation = open_project(EXAMPLES["pilot-station"]).evaluate()
    result = next(one for one in evaluation.systems if one.id == "station")
    one = hydraulics(result)
    assert one.missing == ()
    assert one.shares is not None
    assert 0.8 < one.shares.tree < 1.02
    only = {run.id for run in result.runs if Role.GAS not in run.tubes and Role.HIGH_LOW not in run.tubes}
    assert {unit.id for unit in one.units if unit.heating_share is None} == only & {u.id for u in one.units} != set()
    by_id = {run.id: run for run in one.runs}
    assert all(by_id[name].heating_gas_m_s == 0.0 for name in only)


def test_the_traditional_velocity_stands_beside_the_margins() -> None:
    """At the least flow velocity over the least of the margin is the margin, and the text counts who is slower."""
    one = found("ridge-hostel", "lodge")
    rising = [run for run in one.runs if run.heating_oil is not None]
    assert rising
    for run in rising:
        assert run.heating_least_m_s is not None
        assert 0 < run.heating_least_m_s <= run.heating_gas_m_s * (1 + 1e-9)
    slow = [run for run in rising if run.heating_least_m_s is not None and run.heating_least_m_s < RISER_M_S]
    carried = sum(run.heating_oil is not None and run.heating_oil >= 1 for run in slow)
    said = " ".join(checked("ridge-hostel", "--physics")[1].split())
    assert f"heating, at the least flow: {len(slow)} of {len(rising)} runs in which gas rises are slower" in said
    assert f"{carried} of these still carry oil up by the margin" in said
