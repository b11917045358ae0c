"""The picture is the length check: pipe and limits stand where sums made from the design alone put them."""

from __future__ import annotations

import pytest

from linewright.draw import Axis
from linewright.draw.primitives import Line
from linewright.model.design import ROOT, System
from linewright.units import UnitSystem
from tests.draw.cases import ALL, Drawn, drawn
from tests.draw.geometry import line, of_role

# Known to the last run, with every module pipe stated.
KNOWN = ("boat-house", "clinic-ground", "clinic-quay", "clinic-upper", "one-unit", "eight", "sixty-four", "twin-risers")
ALONG = {"farthest_actual", "farthest_equivalent", "after_first_branch"}
each_axis = pytest.mark.parametrize("axis", Axis)


def summed(system: System) -> dict[str, float]:
    """Sum the runs from the farthest outdoor module [m]."""
    away = {ROOT: 0.0}
    for _ in system.outdoor.pipes:
        away |= {run.to: away[run.from_] + (run.length_m or 0.0) for run in system.outdoor.pipes if run.from_ in away}
    found = {ROOT: max(away.values())}
    for _ in system.runs:
        found |= {run.to: found[run.from_] + (run.length_m or 0.0) for run in system.runs if run.from_ in found}
    return found


@pytest.mark.parametrize("units", UnitSystem)
@pytest.mark.parametrize("name", KNOWN)
def test_a_run_spans_the_sums_of_its_lengths(name: str, units: UnitSystem) -> None:
    case = drawn(name, Axis.ACTUAL, units)
    sums = summed(case.result.system)
    for run in case.result.system.runs:
        found = line(case.scene, f"run:{run.to}")
        assert (found.x0_m, found.x1_m) == pytest.approx((sums[run.from_], sums[run.to]))


@pytest.mark.parametrize("name", ["clinic-ground", "clinic-quay", "clinic-upper", "eight", "sixty-four"])
def test_a_limit_stands_where_its_bound_is_reached(name: str) -> None:
    case = drawn(name)
    sums, runs = summed(case.result.system), case.result.system.runs
    branched = {run.from_ for run in runs if sum(other.from_ == run.from_ for other in runs) > 1}
    first = min(sums[node] for node in branched)
    bounds = {check.measure: check.bound or 0.0 for check in case.result.limits}
    assert line(case.scene, "first-branch").x1_m == pytest.approx(first)
    # The book measures the farthest length from the outdoor unit, which is the zero of the axis.
    assert _mark_m(case, "farthest_actual") == pytest.approx(bounds["farthest_actual"])
    assert _mark_m(case, "after_first_branch") == pytest.approx(first + bounds["after_first_branch"])


def _mark_m(case: Drawn, measure: str) -> float | None:
    """Where a limit stands [m]: its line, or its name at the edge where it is far out."""
    return next(item.x1_m for item in case.scene.primitives if item.id == f"limit:{measure}")


@pytest.mark.parametrize("name", ["sixty-four", "clinic-upper"])
def test_a_last_joint_limit_is_a_tick_on_each_lane(name: str) -> None:
    case = drawn(name)
    sums, before = summed(case.result.system), {run.to: run.from_ for run in case.result.system.runs}
    bound = next(check.bound for check in case.result.limits if check.measure == "last_joint_to_unit")
    assert bound is not None
    for unit in case.result.units:
        tick = line(case.scene, f"limit:last_joint_to_unit/{unit.id}")
        assert tick.x1_m == pytest.approx(sums[before[unit.id]] + bound)
        assert tick.y1 < line(case.scene, f"run:{unit.id}").y1 < tick.y2


@each_axis
@pytest.mark.parametrize("name", ALL)
def test_pipe_beyond_a_limit_starts_at_its_mark(name: str, axis: Axis) -> None:
    scene = drawn(name, axis).scene
    marks = [item for item in of_role(scene, "limit", "limit-tick") if isinstance(item, Line)]
    for piece in of_role(scene, "run-beyond"):
        run = line(scene, piece.group)
        assert isinstance(piece, Line)
        assert run.x1_m is not None
        if piece.x0_m != run.x0_m and run.x2 == pytest.approx(scene.axis.x(run.x1_m)):
            assert any(mark.x1_m == piece.x0_m and mark.x1 == pytest.approx(piece.x1) for mark in marks), piece.id


def test_some_pipe_lies_beyond_a_limit() -> None:
    assert len(of_role(drawn("faults").scene, "run-beyond")) > 5
    assert len(of_role(drawn("clinic-upper").scene, "run-beyond")) > 5


@each_axis
@pytest.mark.parametrize("name", ALL)
def test_only_a_length_along_the_pipe_has_a_mark_on_it(name: str, axis: Axis) -> None:
    scene = drawn(name, axis).scene
    lined = {item.id.partition("@")[0] for item in of_role(scene, "limit", "limit-far")}
    assert lined <= {f"limit:{measure}" for measure in ALONG}
    ticked = {item.id.rpartition("/")[0].partition("@")[0] for item in of_role(scene, "limit-tick")}
    assert ticked <= {f"limit:{measure}" for measure in ALONG | {"last_joint_to_unit"}}
    margins = {item.id for item in of_role(scene, "margin")}
    if name not in {"boat-house", "one-unit"}:  # their book bounds no total
        assert any("total_length" in margin for margin in margins)


@each_axis
@pytest.mark.parametrize("name", ["eight", "clinic-quay"])
def test_the_farthest_outdoor_module_lies_at_zero(name: str, axis: Axis) -> None:
    ends = [item.x1_m for item in of_role(drawn(name, axis).scene, "module-pipe")]
    assert len(ends) > 1
    assert min(end for end in ends if end is not None) == pytest.approx(0.0, abs=1e-9)
