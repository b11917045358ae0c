"""The working of flow against the figures it explains, and one run followed by hand with other libraries."""

import math
from functools import cache
from pathlib import Path

import fluids
import pytest
from CoolProp.CoolProp import PropsSI

from linewright.app.project import open_project
from linewright.app.shipped import shipped
from linewright.engine.formulas import FORMULAS
from linewright.engine.records import Evaluation, SystemResult
from linewright.engine.working import Step, subjects, working
from linewright.engine.working.flow import RUN, SYSTEM, UNIT
from linewright.engine.working.flow_terms import ASSUMED

EXAMPLES = sorted(path.parent.name for path in shipped("examples").glob("*/*.design.yaml"))
PAGE = Path(__file__).parents[2] / "docs/reference/properties.md"


@cache
def judged(example: str) -> Evaluation:
    return open_project(next(shipped("examples").glob(f"{example}/*.design.yaml"))).evaluate()


def worked_out() -> list[tuple[str, str]]:
    return [
        (example, result.id)
        for example in EXAMPLES
        for result in judged(example).systems
        if not result.hydraulics.missing
    ]


def result_of(example: str, system: str) -> SystemResult:
    return next(one for one in judged(example).systems if one.id == system)


def last(example: str, subject: str) -> Step:
    return working(judged(example), subject).steps[-1]


@pytest.mark.parametrize(("example", "system"), worked_out())
def test_the_working_ends_with_the_figures_of_the_check(example: str, system: str) -> None:
    """The check is worked out to a millionth, the working further."""
    found = result_of(example, system).hydraulics
    shares = found.shares
    assert shares is not None
    expected: dict[str, float | None] = {
        "physics.cooling": shares.tree,
        "physics.heating": shares.heating,
        "physics.suction": shares.suction_pa,
        "physics.superheat": shares.superheat_k,
    }
    if all(unit.heating_share is not None for unit in found.units):
        expected["physics.heating_left"] = shares.heating_left_k
    for run in found.runs:
        expected |= {
            f"run:{run.id}.cooling_gas": run.gas_at_pa,
            f"run:{run.id}.cooling_loss": run.cooling_loss_k,
            f"run:{run.id}.cooling_velocity": run.cooling_gas_m_s,
            f"run:{run.id}.cooling_oil": run.cooling_oil,
            f"run:{run.id}.cooling_liquid": run.liquid_at_pa,
            f"run:{run.id}.subcooling": run.subcooling_at_k,
        }
        if run.heating_gas_m_s:
            expected |= {
                f"run:{run.id}.heating_loss": run.heating_loss_k,
                f"run:{run.id}.heating_velocity": run.heating_gas_m_s,
                f"run:{run.id}.heating_oil": run.heating_oil,
            }
    for unit in found.units:
        expected |= {
            f"unit:{unit.id}.cooling_share": unit.cooling_share,
            f"unit:{unit.id}.vapour": unit.vapour,
        }
        if unit.heating_share is not None:
            expected[f"unit:{unit.id}.heating_share"] = unit.heating_share
    for rest, value in expected.items():
        result = last(example, f"{system}/{rest}").result
        if value is None:
            assert result is None, rest
        else:
            assert result == pytest.approx(value, rel=2e-5, abs=2e-5), rest


def test_seven_systems_are_followed_on_all_books_with_properties() -> None:
    assert len(worked_out()) >= 7
    books = {judged(example).design.systems[0].book for example, _ in worked_out()}
    assert len(books) >= 4


def test_all_three_ways_to_say_a_figure_are_listed() -> None:
    listed = set(subjects(judged("boat-house")))
    assert {f"main/physics.{name}" for name in SYSTEM} <= listed
    assert {f"main/assumption:{name}" for name in ASSUMED} <= listed
    for run in result_of("boat-house", "main").tree.ids:
        assert {f"main/run:{run}.{name}" for name in RUN} <= listed
    for unit in result_of("boat-house", "main").units:
        assert {f"main/unit:{unit.id}.{name}" for name in UNIT} <= listed


def test_every_figure_is_on_the_page() -> None:
    page = PAGE.read_text(encoding="utf-8")
    assert [name for name in RUN if f"run:RUN.{name}`" not in page] == []
    assert [name for name in UNIT if f"unit:UNIT.{name}`" not in page] == []
    assert [name for name in SYSTEM if f"physics.{name}`" not in page] == []


def test_one_run_of_gas_is_followed_by_hand() -> None:
    """From what is printed, with CoolProp for the gas and the fluids library for friction: no line of ours.

    p1^2 - p2^2 = 2 G^2 (p/rho) (f L/2D + ln(p1/p2)) + 2 p rho g dz, at the mean pressure.
    """
    steps = working(judged("harbour-clinic"), "ground/run:K1.cooling_gas").steps
    inputs = {item.name: item.value for item in steps[0].inputs}
    names = ("suction pressure", "flow of K1", "enthalpy of the gas in K1")
    near, flow, enthalpy = (float(inputs[name]) for name in names)
    length, bore = float(inputs["equivalent length of K1"]), float(inputs["bore of K1, gas"])
    rise = float(inputs.get("rise of K1", 0.0))
    far = float(steps[0].result or 0.0)
    mean = (near + far) / 2
    density = PropsSI("D", "P", mean, "H", enthalpy, "R32")
    viscosity = PropsSI("V", "P", mean, "H", enthalpy, "R32")
    flux = flow / (math.pi / 4 * bore**2)
    factor = fluids.friction.friction_factor(Re=flux * bore / viscosity, eD=1.5e-6 / bore, Method="Churchill_1977")
    fall = 2 * flux**2 * mean / density * (factor * length / 2 / bore + math.log(far / near))
    by_hand = math.sqrt(near**2 + fall - 2 * mean * density * 9.80665 * rise)
    assert far - near > 1000
    assert far - near == pytest.approx(by_hand - near, rel=2e-3)
    named = {step.name: step.result for step in steps}
    assert named["density there"] == pytest.approx(density, rel=1e-3)
    assert named["viscosity there"] == pytest.approx(viscosity, rel=1e-3)
    assert named["friction factor"] == pytest.approx(factor, rel=1e-3)


def test_what_is_not_worked_out_says_for_want_of_what() -> None:
    step = last("foundry-lofts", "east/physics.suction")
    assert step.result is None
    assert "equivalent length of run D4" in step.note
    assert not any(subject.startswith("east/physics") for subject in subjects(judged("foundry-lofts")))


def test_an_assumption_is_a_formula_that_says_where_it_is_from() -> None:
    for name in ASSUMED:
        step = last("boat-house", f"main/assumption:{name}")
        assert step.inputs == ()
        assert step.source in ("common practice, no source", "Moody 1944, from memory")
        assert FORMULAS[name].function() == step.result
