"""The sheet in true coordinates. The boat house is the contract's minimal design, whose figures were worked by hand."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from linewright.book.compiled import compile_book
from linewright.book.schema import Origin
from linewright.draw import Axis, layout
from linewright.draw.plan import LengthLimit, SheetLayout
from linewright.engine import Library, evaluate
from linewright.engine.records import Standing
from linewright.units import over
from tests.draw.cases import ALL, TIDEWATER, book, design_of, drawn, library, run, tower
from tests.oracle.generate import faultless, generate


def limit(sheet: SheetLayout, measure: str) -> LengthLimit:
    return next(item for item in sheet.limits if item.check.measure == measure)


def test_pipes_reach_as_far_as_their_lengths_add_up_to() -> None:
    sheet = drawn("boat-house").sheet
    # 24 m to J1, then 9 m; 6 m to J2, then 5 m and 11 m (contract/README.md)
    spans = {pipe.id: (pipe.near.reach_m, pipe.far.reach_m) for pipe in sheet.pipes}
    assert spans == {"J1": (0, 24), "J2": (24, 30), "U1": (24, 33), "U2": (30, 35), "U3": (30, 41)}


def test_on_the_equivalent_axis_allowances_count() -> None:
    sheet = drawn("boat-house", Axis.EQUIVALENT).sheet
    ends = {pipe.id: pipe.far.reach_m for pipe in sheet.pipes}
    # J1 25.7 m and 6.8 m more to J2; then 9.6 m, 5 m and 11 m (contract/README.md)
    assert ends == pytest.approx({"J1": 25.7, "J2": 32.5, "U1": 35.3, "U2": 37.5, "U3": 43.5})


def test_each_limit_stands_on_its_own_axis() -> None:
    actual, equivalent = drawn("boat-house").sheet, drawn("boat-house", Axis.EQUIVALENT).sheet
    assert [item.check.measure for item in actual.limits] == [
        "farthest_actual",
        "after_first_branch",
        "last_joint_to_unit",
    ]
    assert [check.measure for check in actual.limits_elsewhere] == ["farthest_equivalent"]
    assert [item.check.measure for item in equivalent.limits] == ["farthest_equivalent"]


def test_limits_along_the_pipe_stand_where_the_bound_is_reached() -> None:
    sheet = drawn("boat-house").sheet
    # 70 m from the origin; 30 m (relaxed) and 15 m (plain) beyond the first branch at 24 m
    assert limit(sheet, "farthest_actual").line_m == pytest.approx(70)
    assert limit(sheet, "after_first_branch").line_m == pytest.approx(54)
    assert limit(sheet, "after_first_branch").plain_line_m == pytest.approx(39)


def test_a_last_joint_limit_is_a_tick_on_each_lane() -> None:
    found = limit(drawn("boat-house").sheet, "last_joint_to_unit")
    assert found.line_m is None
    # 15 m beyond J1 at 24 m, and beyond J2 at 30 m
    assert found.ticks_m == pytest.approx({"U1": 39, "U2": 45, "U3": 45})


def test_modules_lie_behind_the_root_and_the_farthest_at_the_origin() -> None:
    sheet = drawn("clinic-quay").sheet
    # the book measures from the outdoor unit; module pipes of 1.5 m and 3 m
    assert sheet.root.reach_m == pytest.approx(3)
    assert {row.id: row.reach_m for row in sheet.module_rows} == pytest.approx({"M1": 1.5, "M2": 0})


def test_from_the_first_outdoor_joint_modules_have_negative_reach() -> None:
    changed = replace(book(TIDEWATER).book, origin=Origin.FIRST_OUTDOOR_JOINT)
    evaluation = evaluate(tower(1, 2), Library.of({TIDEWATER: compile_book(changed, faultless)}))
    sheet = layout(evaluation, evaluation.systems[0], book=changed)
    assert sheet.root.reach_m == 0
    assert {row.id: row.reach_m for row in sheet.module_rows} == pytest.approx({"M1": -1.2, "M2": -1.8, "M3": -3.2})


@pytest.mark.parametrize("name", ALL)
def test_every_unit_has_one_lane_and_levels_stand_in_true_order(name: str) -> None:
    case = drawn(name)
    assert sorted(lane.unit.id for lane in case.sheet.lanes) == sorted(unit.id for unit in case.result.units)
    rows = [lane.number for lane in case.sheet.lanes] + [row.number for row in case.sheet.module_rows]
    assert sorted(rows) == list(range(len(rows)))
    stated = [band.elevation_m for band in case.sheet.bands if band.elevation_m is not None]
    assert all(upper > lower for upper, lower in pairwise(stated))
    assert all(upper.last + 1 == lower.first for upper, lower in pairwise(case.sheet.bands))


def test_a_unit_stands_on_the_level_of_its_room() -> None:
    case = drawn("clinic-quay")
    rooms = {room.id: room.level for room in case.evaluation.design.rooms}
    for band in case.sheet.bands:
        assert {rooms[lane.unit.room] for lane in band.lanes} <= {band.id}


def test_a_unit_without_a_room_stands_on_the_level_below_its_elevation() -> None:
    made = tower(3, 2)
    system = made.systems[0]
    roomless = replace(system, units=tuple(replace(unit, room="") for unit in system.units))
    evaluation = evaluate(replace(made, systems=(roomless,)), library())
    sheet = layout(evaluation, evaluation.systems[0])
    assert {band.id: [lane.unit.id[:2] for lane in band.lanes] for band in sheet.bands if band.lanes} == {
        "L2": ["U2", "U2"],
        "L1": ["U1", "U1"],
        "L0": ["U0", "U0"],
    }


def test_branches_stand_together_so_that_a_riser_crosses_nothing() -> None:
    sheet = drawn("sixty-four").sheet
    at = {lane.unit.id: lane.number for lane in sheet.lanes}
    assert [name for name, _ in sorted(at.items(), key=lambda item: item[1])] == [
        f"U{floor}{k:02d}" for floor in range(7, -1, -1) for k in range(1, 9)
    ]


def test_an_unknown_run_keeps_what_is_known_and_what_is_left() -> None:
    made = design_of(
        (run("outdoor", "J1", 20.0), run("J1", "U1", 5.0), run("J1", "U2", None)),
        tower(1, 2).systems[0].units[:2],
        rooms=tower(1, 2).rooms,
        outdoor=replace(tower(1, 2).systems[0].outdoor, pipes=(), modules=tower(1, 2).systems[0].outdoor.modules[1:2]),
        site=tower(1, 2).site,
    )
    units = (replace(made.systems[0].units[0], id="U1"), replace(made.systems[0].units[1], id="U2"))
    evaluation = evaluate(replace(made, systems=(replace(made.systems[0], units=units),)), library())
    sheet = layout(evaluation, evaluation.systems[0])
    pipe = next(item for item in sheet.pipes if item.id == "U2")
    assert not pipe.known
    assert not pipe.far.certain
    assert pipe.far.reach_m == pytest.approx(20)
    # 135 - 20 of the farthest length, 40 after the first branch, 50 from the last joint: 40 m are left
    assert pipe.metres_left == pytest.approx(40)


@pytest.mark.parametrize("seed", range(60))
def test_a_unit_is_drawn_beyond_a_limit_exactly_when_it_is_over(seed: int) -> None:
    case = generate(seed)
    evaluation = evaluate(
        case.design, Library.of({name: compile_book(found, faultless) for name, found in case.books.items()})
    )
    for result in evaluation.systems:
        for axis in Axis:
            sheet = layout(evaluation, result, axis=axis, book=case.books[result.book])
            reach = {pipe.far.id: pipe.far.reach_m for pipe in sheet.pipes}
            for mark in sheet.limits:
                measured = result.measured(mark.check)
                assert measured is not None
                assert mark.check.bound is not None
                for unit, value in measured.series.values.items():
                    assert mark.is_past(reach[unit], unit) == over(value, mark.check.bound), (mark.id, unit)


def test_pipe_beyond_a_limit_starts_at_the_line() -> None:
    sheet = drawn("clinic-upper").sheet
    line = limit(sheet, "after_first_branch")
    assert line.check.standing is Standing.OVER
    assert line.line_m is not None
    for pipe in sheet.pipes:
        if pipe.far.reach_m > line.line_m:
            assert pipe.beyond_m == pytest.approx(max(line.line_m, pipe.near.reach_m))
        else:
            assert pipe.beyond_m is None
