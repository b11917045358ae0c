"""What is over or unjudged can be seen without colour, and what is unjudged never looks like within."""

from __future__ import annotations

import pytest

from linewright.draw import Axis, sheet_scene
from linewright.draw.lane_words import lane_rows
from linewright.draw.margins import margin_ids
from linewright.draw.verdicts import strip_checks
from linewright.engine.records import Standing
from linewright.units import UnitSystem
from tests.draw.cases import ALL, drawn
from tests.draw.geometry import by_id, of_role, text, texts

SIGNS = {
    Standing.OVER: "▲ ",
    Standing.UNJUDGED: "? ",
    Standing.TO_CONFIRM: "□ ",
    Standing.ON_CONDITIONS: "◇ ",
}
each_axis = pytest.mark.parametrize("axis", Axis)
each_case = pytest.mark.parametrize("name", ALL)


@each_axis
@each_case
def test_a_margin_says_its_standing_in_words_and_by_a_sign(name: str, axis: Axis) -> None:
    case = drawn(name, axis)
    found, checks = by_id(case.scene), strip_checks(case.sheet)
    assert checks
    for check, margin in zip(checks, margin_ids(checks), strict=True):
        words = text(case.scene, f"{margin}/name").text
        if check.standing is Standing.WITHIN:
            assert words[0] not in "▲?□◇"
            assert f"{margin}/words" not in found
            continue
        assert words.startswith(SIGNS[check.standing])
        said = {Standing.OVER: ("over", "short"), Standing.TO_CONFIRM: ("to confirm",)}
        assert text(case.scene, f"{margin}/words").text.startswith(said.get(check.standing, (str(check.standing),)))


@each_axis
@each_case
def test_an_unjudged_margin_never_has_the_bar_of_one_within(name: str, axis: Axis) -> None:
    case = drawn(name, axis)
    checks = strip_checks(case.sheet)
    bars = {item.group: item.css for item in of_role(case.scene, "margin-bar")}
    frames = {item.id: item.css for item in of_role(case.scene, "margin")}
    for check, margin in zip(checks, margin_ids(checks), strict=True):
        unjudged = check.standing in {Standing.UNJUDGED, Standing.TO_CONFIRM}
        assert (frames[margin] == "bar-unjudged") is unjudged
        assert (bars.get(margin) == "bar-over") is (check.standing is Standing.OVER)
        if unjudged:
            assert bars.get(margin) in {None, "bar-lower"}
            used = text(case.scene, f"{margin}/used").text
            if check.bound is None:
                assert used.endswith("no bound"), "a known figure without a bound is told as that"
            else:
                assert not used[0].isdigit(), "a lower bound is not the value"


@each_axis
@each_case
def test_a_lane_with_anything_unjudged_is_not_called_within(name: str, axis: Axis) -> None:
    case = drawn(name, axis)
    rooms = {room.id: room for room in case.evaluation.rooms}
    for row, lane in zip(lane_rows(case.sheet, UnitSystem.SI), case.sheet.lanes, strict=True):
        words = text(case.scene, f"unit:{row.unit}/verdict").title
        room = rooms.get(lane.unit.room)
        standings = {check.standing for check in room.checks} if room else set()
        if Standing.OVER in standings:
            assert words.startswith("▲ ")
        if Standing.UNJUDGED in standings:
            assert words[0] in "▲?"
            assert "unjudged" in words
        if lane.unit.reach_m is None:
            assert words != "within"
        if room is None:
            assert words != "within", "nothing says whether it serves anything"


def test_the_cases_show_every_standing_that_a_lane_can_have() -> None:
    lanes = [item.title for name in ALL for item in texts(drawn(name).scene, "cell") if item.id.endswith("/verdict")]
    assert {words[0] for words in lanes} >= {"▲", "?", "◇", "w", "l"}
    assert {words for words in lanes if words[0] == "l"} == {"lengths within"}


@each_case
def test_unknown_pipe_is_dashed_and_marked(name: str) -> None:
    case = drawn(name)
    unknown = {run.id for run in case.result.runs if run.length_m is None}
    dashed = {item.group.removeprefix("run:") for item in of_role(case.scene, "run") if item.css == "pipe-unknown"}
    assert dashed == unknown
    for run in unknown:
        marks = [item.text for item in texts(case.scene, "run-label") if item.group == f"run:{run}"]
        assert not marks or "?" in marks[0]


@each_case
def test_the_head_counts_what_is_not_within(name: str) -> None:
    case = drawn(name)
    served = {unit.room for unit in case.result.units}
    rooms = [check for room in case.evaluation.rooms if room.id in served for check in room.checks]
    checks = [*case.result.limits, *case.result.checks, *rooms]
    words = text(case.scene, "title/summary").text
    for standing, sign in SIGNS.items():
        count = sum(check.standing is standing for check in checks)
        assert (f"{sign}{count} {standing}" in words) is (count > 0)


@each_case
def test_rows_of_margins_are_left_out_only_where_all_of_them_are_within(name: str) -> None:
    case = drawn(name)
    checks = strip_checks(case.sheet)
    short = sheet_scene(case.sheet, UnitSystem.SI, margin_rows=1)
    shown = [item.id for item in of_role(short, "margin")]
    assert shown == margin_ids(checks)[: len(shown)]
    left = checks[len(shown) :]
    assert {check.standing for check in left} <= {Standing.WITHIN}
    told = [item.text for item in texts(short) if item.role == "margins-rest"]
    assert told == ([f"and {len(left)} more, all within"] if left else [])
    assert short.height <= sheet_scene(case.sheet, UnitSystem.SI).height


def test_the_short_strip_is_short() -> None:
    """The comfortable system of the clinic: one row of its margins, and every one that is over of the faulty one."""
    assert len(of_role(sheet_scene(drawn("clinic-ground").sheet, UnitSystem.SI, margin_rows=1), "margin")) < 9
    upper = strip_checks(drawn("clinic-upper").sheet)
    over = sum(check.standing is Standing.OVER for check in upper)
    short = sheet_scene(drawn("clinic-upper").sheet, UnitSystem.SI, margin_rows=1)
    assert over > 1
    assert sum(item.css == "bar-over" for item in of_role(short, "margin-bar")) == over
