"""The low side and the vapour barrier: told, stated, never a pass by themselves."""

from __future__ import annotations

import pytest

from linewright.engine.records import Check, Standing
from linewright.engine.working import working
from linewright.report.check_json import check_json
from linewright.report.check_text import check_text
from linewright.standards.pipework import formulas as f
from linewright.units import UnitSystem
from tests.pipework.clinic import clinic, pipework, tube

NAMEPLATE = "\npressures: {high: 4.15 MPa, low: 2.21 MPa}\n"


def test_the_low_side_of_the_nameplate_comes_first() -> None:
    found = clinic("{}", pressures=NAMEPLATE)
    low = pipework(found).low
    assert low.pressure_pa == pytest.approx(2.21e6)
    assert low.by == "the nameplate in the book"
    assert check_json(found)["systems"][0]["pipework"]["low_side_pressure_pa"] == pytest.approx(2.21e6)
    text = " ".join(check_text(found, system=UnitSystem.SI, colour=False, books={}).split())
    assert "low side 2210.0 kPa by the nameplate in the book, by which no tube is judged" in text


@pytest.mark.parametrize(("ambient", "low"), [(32, 32), (33, 38), (43, 43), (55, 55)])
def test_else_the_low_side_is_the_saturation_at_the_ambient(ambient: float, low: float) -> None:
    """EN 378-2, low side outdoors, from memory."""
    assert f.low_side_temperature(ambient) == low


def test_by_the_ambient_it_rests_on_memory_and_beyond_the_table_it_is_not_known() -> None:
    """The clinic has 33 degC: 38 degC, at which R-32 boils at 2.36 MPa absolute (cross-check with CoolProp 8.0.0)."""
    low = pipework(clinic("{}", pressures="")).low
    assert low.pressure_pa == pytest.approx(2.26e6, abs=1e4)
    assert low.doubts == ("EN 378-2",)
    hot = pipework(clinic("{ambient: 60 C}", pressures="")).low
    assert hot.pressure_pa is None
    assert hot.missing == "low-side design temperature of EN 378-2 for 60 degC of ambient air"


def test_no_tube_is_judged_by_the_low_side() -> None:
    """25.4 mm half-hard holds 4.918 MPa by the form of EN 1057, whatever the low side is."""
    for low in ("2.21 MPa", "4.10 MPa"):
        pressures = f"\npressures: {{high: 4.15 MPa, low: {low}}}\n"
        assert tube(clinic("{basis: drawn, code: en-1057}", pressures=pressures), 25.4).check.value == 4.15e6
    steps = working(clinic("{}", pressures=NAMEPLATE), "ground/low-side-pressure").steps
    assert steps[-1].note.endswith("no tube is judged by it")


def barrier(stated: str) -> list[Check]:
    return [check for check in pipework(clinic(stated)).others if check.measure == "vapour_barrier"]


def test_a_vapour_barrier_stands_to_confirm_until_it_is_stated() -> None:
    (silent,) = barrier("{}")
    assert silent.standing is Standing.TO_CONFIRM
    assert "0.05 perm" in silent.note
    assert "J2" in silent.governs
    (stated,) = barrier("{vapour_barrier: yes}")
    assert stated.standing is Standing.ON_CONDITIONS


def test_lines_above_the_dew_point_need_none_and_unknown_air_does() -> None:
    dry = "{temperature: 20 C, humidity: 5 %}"
    assert barrier(f"{{outdoor_air: {dry}, indoor_air: {dry}}}") == []
    wet = "{temperature: 27 C, humidity: 104 %}"
    (unknown,) = barrier(f"{{outdoor_air: {wet}, indoor_air: {wet}}}")
    assert unknown.standing is Standing.TO_CONFIRM
