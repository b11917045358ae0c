"""The picture is the length check: pipe and limits stand where sums of lengths put them, one lane for each unit."""

from __future__ import annotations

import pytest

from linewright.draw import Axis
from linewright.draw.primitives import Line, Rect, Text
from linewright.model.design import System
from linewright.units import UnitSystem
from tests.draw.cases import ALL, Drawn, drawn
from tests.draw.reading import by_id, known_reaches, lines, of_role

# Known to the last run, with every module pipe stated.
KNOWN = ("boat-house", "clinic-ground", "clinic-quay", "clinic-upper", "one-unit", "eight", "sixty-four", "twin-risers")
each_axis = pytest.mark.parametrize("axis", Axis)
each_case = pytest.mark.parametrize("name", ALL)


@each_axis
@each_case
def test_each_unit_has_one_lane_on_which_pipe_and_table_meet(name: str, axis: Axis) -> None:
    case = drawn(name, axis)
    units = {unit.id for unit in case.result.system.units}
    rows = {item.group.removeprefix("unit:"): item for item in of_role(case.scene, "lane", Line)}
    assert set(rows) == units
    ends = {unit: by_id(case.scene, f"node:{unit}", Rect) for unit in units}
    middles = {unit: end.y + end.height / 2 for unit, end in ends.items()}
    assert sorted(middles.values()) == sorted(set(middles.values()))
    for unit, y in middles.items():
        assert by_id(case.scene, f"run:{unit}", Line).y1 == pytest.approx(y)
        assert by_id(case.scene, f"unit:{unit}/room", Text).y == pytest.approx(y + 4)
        assert y < rows[unit].y1 == pytest.approx(y + _pitch(len(units)) / 2)


def _pitch(units: int) -> float:
    return 38.0 if units <= 24 else 34.0


@pytest.mark.parametrize("name", [name for name in ALL if name != "all-unknown"])
def test_levels_stand_in_true_order_with_the_units_of_their_rooms(name: str) -> None:
    case = drawn(name)
    site = case.evaluation.design.site
    tops = {item.group.removeprefix("level:"): item for item in of_role(case.scene, "band", Rect)}
    heights = [level.elevation_m for level in site.levels if level.id in tops]
    ys = [tops[level.id].y for level in site.levels if level.id in tops]
    assert [y for _, y in sorted(zip(heights, ys, strict=True), reverse=True)] == sorted(ys)
    levels = {room.id: room.level for room in case.evaluation.design.rooms}
    for unit in case.result.system.units:
        band = tops.get(levels.get(unit.room, ""))
        if band is not None:
            assert band.y < by_id(case.scene, f"node:{unit.id}", Rect).y < band.y + band.height


@pytest.mark.parametrize("units", UnitSystem)
@pytest.mark.parametrize("name", KNOWN)
def test_a_run_spans_the_sums_of_its_lengths(name: str, units: UnitSystem) -> None:
    case = drawn(name, Axis.ACTUAL, units)
    sums, runs = known_reaches(case.result.system), lines(case.scene, "run")
    assert len(runs) == len(case.result.system.runs)
    for run in case.result.system.runs:
        line = runs[f"run:{run.to}"]
        assert (line.x0_m, line.x1_m) == pytest.approx((sums[run.from_], sums[run.to]))


@pytest.mark.parametrize("name", KNOWN)
def test_on_the_equivalent_axis_a_run_spans_its_equivalent_length(name: str) -> None:
    case = drawn(name, Axis.EQUIVALENT)
    runs = lines(case.scene, "run")
    for run in case.result.runs:
        line = runs[f"run:{run.id}"]
        assert line.x0_m is not None
        assert line.x1_m is not None
        assert line.x1_m - line.x0_m == pytest.approx(run.equivalent_m or 0.0)
        assert (line.css == "pipe-unknown") is (run.equivalent_m is None)
    for unit in case.result.units:
        if unit.equivalent_reach_m is not None:
            assert runs[f"run:{unit.id}"].x1_m == pytest.approx(unit.equivalent_reach_m)


@each_axis
@each_case
def test_metres_are_pixels_at_one_scale_but_behind_a_mark_of_stretching(name: str, axis: Axis) -> None:
    case = drawn(name, axis)
    scene = case.scene
    marked = {item.group.removeprefix("run:") for item in scene.primitives if item.css in {"gap", "pipe-unknown"}}
    ways = _ways(case.result.system)
    for unit in (unit.id for unit in case.result.system.units):
        line = by_id(scene, f"run:{unit}", Line)
        assert line.x1_m is not None
        true = scene.axis.origin_px + scene.axis.px_per_m * line.x1_m
        assert line.x2 > true - 0.01, "never drawn nearer than it is"
        if not marked & ways[unit]:
            assert line.x2 == pytest.approx(true), unit


def _ways(system: System) -> dict[str, set[str]]:
    """Runs on the way to each node, by the node at their far end."""
    before = {run.to: run.from_ for run in system.runs}
    found: dict[str, set[str]] = {}
    for node in before:
        way, at = set(), node
        while at in before:
            way.add(at)
            at = before[at]
        found[node] = way
    return found


@each_axis
@pytest.mark.parametrize("units", UnitSystem)
@each_case
def test_a_limit_line_stands_at_the_scale_of_its_metres(name: str, units: UnitSystem, axis: Axis) -> None:
    scene = drawn(name, axis, units).scene
    scaled = [item for role in ("limit", "limit-plain", "first-branch", "tick") for item in of_role(scene, role, Line)]
    assert scaled
    for line in scaled:
        assert line.x1_m is not None
        assert line.x1 == line.x2 == pytest.approx(scene.axis.origin_px + scene.axis.px_per_m * line.x1_m)


@pytest.mark.parametrize("name", ["clinic-ground", "clinic-quay", "clinic-upper", "eight", "sixty-four"])
def test_a_limit_stands_where_its_bound_is_reached(name: str) -> None:
    case = drawn(name)
    sums, system = known_reaches(case.result.system), case.result.system
    branched = {run.from_ for run in system.runs if sum(other.from_ == run.from_ for other in system.runs) > 1}
    first = min(sums[node] for node in branched)
    bounds = {check.measure: check.bound for check in case.result.limits}
    assert by_id(case.scene, "first-branch", Line).x1_m == pytest.approx(first)
    # The book measures the farthest length from the outdoor unit, which is the zero of the axis.
    assert _mark_m(case, "farthest_actual") == pytest.approx(bounds["farthest_actual"])
    assert _mark_m(case, "after_first_branch") == pytest.approx(first + (bounds["after_first_branch"] or 0.0))


def _mark_m(case: Drawn, measure: str) -> float | None:
    """Where a limit stands [m]: its line, or its name at the edge where it is far out."""
    return next(item.x1_m for item in case.scene.primitives if item.id == f"limit:{measure}")


@each_axis
@each_case
def test_pipe_beyond_a_limit_starts_at_its_line(name: str, axis: Axis) -> None:
    scene = drawn(name, axis).scene
    marks = [*lines(scene, "limit").values(), *lines(scene, "limit-tick").values()]
    for piece in lines(scene, "run-beyond").values():
        run = by_id(scene, piece.group, Line)
        true = scene.axis.origin_px + scene.axis.px_per_m * (run.x1_m or 0.0)
        if piece.x0_m != run.x0_m and run.x2 == pytest.approx(true):
            assert any(mark.x1_m == piece.x0_m and mark.x1 == pytest.approx(piece.x1) for mark in marks), piece.id


def test_some_pipe_lies_beyond_a_limit() -> None:
    assert lines(drawn("faults").scene, "run-beyond")
    assert lines(drawn("clinic-quay").scene, "run-beyond") or lines(drawn("clinic-upper").scene, "run-beyond")


@each_axis
@each_case
def test_a_line_is_drawn_only_for_a_limit_that_is_a_length_along_the_pipe(name: str, axis: Axis) -> None:
    scene = drawn(name, axis).scene
    along = {"farthest_actual", "farthest_equivalent", "after_first_branch"}
    named = {item.id.partition(":")[2].partition("@")[0] for item in of_role(scene, "limit", Line)}
    assert named <= along
    ticked = {
        item.id.partition(":")[2].partition("/")[0].partition("@")[0] for item in of_role(scene, "limit-tick", Line)
    }
    assert ticked <= along | {"last_joint_to_unit"}
    totals = {f"limit:{measure}" for measure in ("total_length", "main_length", "level_outdoor_above", "total_charge")}
    assert not totals & {item.id for item in scene.primitives}


def test_a_total_stands_in_the_margins() -> None:
    assert any(item.id.startswith("margin:") and "total_length" in item.id for item in drawn("eight").scene.primitives)


@pytest.mark.parametrize("name", ["sixty-four", "clinic-upper"])
def test_a_last_joint_limit_is_a_tick_on_each_lane_that_it_reaches(name: str) -> None:
    case = drawn(name)
    sums, ticks = known_reaches(case.result.system), lines(case.scene, "limit-tick")
    bound = next(check.bound for check in case.result.limits if check.measure == "last_joint_to_unit")
    assert bound is not None
    mine = {name: tick for name, tick in ticks.items() if name.startswith("limit:last_joint_to_unit/")}
    assert mine
    before = {run.to: run.from_ for run in case.result.system.runs}
    for mark, tick in mine.items():
        unit = mark.rpartition("/")[2]
        assert tick.x1_m == pytest.approx(sums[before[unit]] + bound)
        end = by_id(case.scene, f"node:{unit}", Rect)
        assert tick.y1 < end.y + end.height / 2 < tick.y2


@each_axis
def test_the_two_axes_carry_their_own_limits(axis: Axis) -> None:
    marks = {item.id for item in drawn("eight", axis).scene.primitives if item.group == "limits"}
    assert ("limit:farthest_actual" in marks) is (axis is Axis.ACTUAL)
    assert ("limit:farthest_equivalent" in marks) is (axis is Axis.EQUIVALENT)


@each_axis
@pytest.mark.parametrize("name", ["eight", "clinic-quay"])
def test_the_farthest_outdoor_module_lies_at_zero(name: str, axis: Axis) -> None:
    ends = [line.x1_m for line in lines(drawn(name, axis).scene, "module-pipe").values()]
    assert len(ends) > 1
    assert min(end for end in ends if end is not None) == pytest.approx(0.0, abs=1e-9)
