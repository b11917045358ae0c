"""The inch-pound lofts and the hostel: counted, and standing where their comments say."""

from linewright.app.project import open_project
from linewright.engine import Evaluation, Standing
from linewright.engine.records import SystemResult
from tests.house.files import ROOT


def evaluated(name: str) -> Evaluation:
    return open_project(ROOT / "examples" / name / f"{name}.design.yaml").evaluate()


def system(evaluation: Evaluation, name: str) -> SystemResult:
    return next(result for result in evaluation.systems if result.id == name)


def test_the_lofts_have_two_systems_of_40_and_64_units_in_inch_pound() -> None:
    lofts = evaluated("foundry-lofts")
    assert {result.id: len(result.units) for result in lofts.systems} == {"west": 40, "east": 64}
    assert len(lofts.rooms) == 104
    assert lofts.design.units.value == "ip"


def test_the_west_is_within_and_the_east_shows_what_is_left() -> None:
    lofts = evaluated("foundry-lofts")
    west = system(lofts, "west")
    assert {check.standing for check in (*west.limits, *west.checks)} <= {Standing.WITHIN, Standing.NOT_APPLICABLE}
    east = system(lofts, "east")
    left = {check.measure: check.left for check in east.limits if check.standing is Standing.UNJUDGED}
    assert {"farthest_actual", "total_length", "last_joint_to_unit"} <= left.keys()
    # 540 ft less the longest way that lacks a length: main 46, to D1 10, then D1 to D3 34, D5 to D7 34, to H38 and its
    # units: stated in the file; the total is all stated lengths from 3280 ft.
    stated = sum(run.length_m for run in east.system.runs if run.length_m is not None)
    assert left["total_length"] is not None
    assert abs(left["total_length"] - (3280 * 0.3048 - stated)) < 1e-9
    assert [run.to for run in east.system.runs if run.length_m is None] == ["D4", "U305", "U317", "U326"]


def test_the_hostel_is_within_with_everything_confirmed() -> None:
    hostel = evaluated("ridge-hostel")
    assert hostel.standing is Standing.WITHIN
    # Worked by hand: liquid 41 m of 9.52, ... are listed by `why`; here the terms of other shapes.
    charge = {term.name: term.kg for term in system(hostel, "lodge").charge.terms}
    # Modules 0.6 + 0.4; units of 50 or more: 90, 112, 56 at 0.12, five others at 0.05; 480 points at 0.5 g.
    assert abs((charge["modules"] or 0) - 1.0) < 1e-9
    assert abs((charge["indoor units"] or 0) - (3 * 0.12 + 5 * 0.05)) < 1e-9
    assert abs((charge["outdoor index"] or 0) - 0.24) < 1e-9
    # Altitude 1100 m: 0.95 less a tenth of the way to 0.89.
    cooling = system(hostel, "lodge").cooling
    assert cooling is not None
    assert abs((cooling.factors[0].value or 0) - 0.944) < 1e-9
