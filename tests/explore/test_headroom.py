"""Headroom of the boat house, worked out by hand from the bounds of its book (tests/contract/data, books/minimal).

As it stands (README of the contract): reach of U1, U2, U3 33, 35, 41 m actual, U3 43.5 m equivalent; 17 m after the
first branch; 55 m in all; units at 2.7, 2.7 and 2.5 m, outdoor unit at 8 m; ratio 16.3 / 16. At full demand 15.232 kW
of cooling and 13.228 kW of heating are shared by the ratings 7.1 : 5.6 : 3.6 and 8.0 : 6.3 : 4.0 kW.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from linewright.engine import evaluate
from linewright.engine.records import Standing
from linewright.explore.first_failure import first_failure
from linewright.explore.headroom import headroom
from linewright.explore.headroom_records import GrowthKind, TighteningKind
from linewright.explore.verdicts import Verdict, standing_of
from linewright.model.edits import Kind, Set, apply
from tests.explore.boat import design, gives, growth, library, spare

LENGTHS = [
    # run, holds to [m], what gives: bound - value
    ("J1", 24.0 + (70.0 - 41.0), {"main/limit:farthest_actual"}),
    # Relaxed 30 m needs nearest_farthest_difference <= 20 m: 41 - 33 = 8 m now.
    ("J2", 6.0 + (20.0 - 8.0), {"main/limit:after_first_branch"}),
    # Beyond 15 m after the last joint the relaxed bound after the first branch loses its need as well, and the 17 m
    # to U3 are then over the plain 15 m.
    ("U1", 15.0, {"main/limit:last_joint_to_unit", "main/limit:after_first_branch"}),
    ("U2", 15.0, {"main/limit:last_joint_to_unit", "main/limit:after_first_branch"}),
    ("U3", 15.0, {"main/limit:last_joint_to_unit", "main/limit:after_first_branch"}),
]


@pytest.mark.parametrize(("run", "holds_to_m", "given"), LENGTHS, ids=[case[0] for case in LENGTHS])
def test_a_length_grows_up_to_the_bound_that_it_meets_first(run: str, holds_to_m: float, given: set[str]) -> None:
    found = growth(spare(), f"main/run:{run}.length")
    assert found.holds_to == pytest.approx(holds_to_m, abs=1e-9)
    assert found.fails_at == pytest.approx(holds_to_m + 0.001, abs=1e-9)
    assert gives(found) == given


@pytest.mark.parametrize(("run", "holds_to_m", "given"), LENGTHS, ids=[case[0] for case in LENGTHS])
def test_exactly_at_the_bound_it_holds_and_a_millimetre_over_it_does_not(
    run: str, holds_to_m: float, given: set[str]
) -> None:
    for length_m, standing in ((holds_to_m, Standing.ON_CONDITIONS), (holds_to_m + 0.001, Standing.OVER)):
        edit = Set(kind=Kind.RUN, id=run, system="main", values={"length_m": length_m})
        evaluation = evaluate(apply(design(), edit).design, library())
        assert standing_of(evaluation, "main") is standing, given


LEVELS = [
    # subject, down, holds to [m], what is over
    ("main/outdoor.elevation", False, 2.5 + 30.0, {"main/limit:level_outdoor_above"}),
    ("main/outdoor.elevation", True, 2.7 - 20.0, {"main/limit:level_outdoor_below"}),
    ("main/unit:U3.elevation", False, 2.7 + 10.0, {"main/limit:level_between_indoor"}),
    ("main/unit:U3.elevation", True, 2.7 - 10.0, {"main/limit:level_between_indoor"}),
    ("main/unit:U1.elevation", False, 2.5 + 10.0, {"main/limit:level_between_indoor"}),
]


@pytest.mark.parametrize(("subject", "down", "holds_to_m", "given"), LEVELS)
def test_a_level_goes_up_and_down_to_the_bound(subject: str, *, down: bool, holds_to_m: float, given: set[str]) -> None:
    found = growth(spare(), subject, down=down)
    assert found.holds_to == pytest.approx(holds_to_m, abs=1e-9)
    assert found.fails_at == pytest.approx(holds_to_m + (-0.001 if down else 0.001), abs=1e-9)
    assert gives(found) == given


COUNTS = [
    # Ratio at most 130 %: 20.8 of index on 16. 16.3 + 3.6 = 19.9 is below, 16.3 + 2 x 3.6 = 23.5 is not.
    # Heating with it: 13.2 x 8.0 / 22.3 = 4.7 kW for 4.0 in the workshop, and the others likewise.
    ("main/units.cassette 3.6", 2),
    # 16.3 + 5.6 = 21.9, 16.3 + 7.1 = 23.4: not even one.
    ("main/units.cassette 5.6", 1),
    ("main/units.cassette 7.1", 1),
]


@pytest.mark.parametrize(("subject", "holds_to"), COUNTS)
def test_units_may_be_added_up_to_the_ratio(subject: str, holds_to: int) -> None:
    found = growth(spare(), subject)
    assert (found.holds_to, found.fails_at) == (holds_to, holds_to + 1)
    assert "main/limit:connection_ratio" in gives(found)


def test_bends_may_be_added_up_to_the_equivalent_length() -> None:
    # With 1.5 m a bend: main 24 + 4 x 1.5 + 0.5 = 30.5, J1-J2 6 + 1.5 + 0.5 = 8, J2-U3 11: 49.5 m. (85 - 49.5) / 1.5
    # = 23.7, so 23 more; the 24th gives.
    wide = library(("bend: 0.3 m", "bend: 1.5 m"))
    found = headroom(design(), wide, "main", kinds=[GrowthKind.COUNT])
    bends = growth(found, "main/run:J1.bends")
    assert (bends.holds_to, bends.fails_at) == (27, 28)
    assert gives(bends) == {"main/limit:farthest_equivalent"}


def test_where_nothing_gives_the_end_of_the_search_is_said_and_no_more() -> None:
    # (85 - 43.5) / 0.3 = 138 bends: beyond the sixty that are tried.
    bends = growth(spare(), "main/run:J1.bends")
    assert (bends.fails_at, bends.tried_to, bends.holds_to) == (None, 64, 64)


LOADS = [
    # Shares of 15.232 kW of cooling and of 13.228 kW of heating, rounded down to whole 10 W steps.
    ("room:store.cooling", 15232.0 * 3.6 / 16.3),
    ("room:office.cooling", 15232.0 * 5.6 / 16.3),
    ("room:workshop.cooling", 15232.0 * 7.1 / 16.3),
    ("room:store.sensible", 15232.0 * 3.6 / 16.3 * 2.7 / 3.6),
    ("room:workshop.heating", 18000.0 * 0.832 * 0.90 * (1.0 - 0.04 * 36.0 / 77.5) * 8.0 / 18.3),
    ("room:store.heating", 18000.0 * 0.832 * 0.90 * (1.0 - 0.04 * 36.0 / 77.5) * 4.0 / 18.3),
]


@pytest.mark.parametrize(("subject", "delivered_w"), LOADS)
def test_a_load_grows_up_to_what_is_delivered(subject: str, delivered_w: float) -> None:
    found = growth(spare(), subject)
    assert found.holds_to == pytest.approx(delivered_w // 10 * 10, abs=1e-6)
    assert found.fails_at == pytest.approx(delivered_w // 10 * 10 + 10, abs=1e-6)
    assert gives(found) == {subject}


def test_all_loads_together_grow_until_the_first_room_is_short() -> None:
    # Cooling: 15.232 x 3.6 / 16.3 = 3.364 over 3.0 in the store is the least share of all: 112.1 %.
    found = growth(spare(), "main/loads.cooling")
    assert found.holds_to == pytest.approx(1.121, abs=1e-9)
    assert gives(found) == {"room:store.cooling"}


def test_what_gives_first_stands_first() -> None:
    lengths = [one.room for one in spare().growths if one.kind is GrowthKind.LENGTH]
    assert lengths == sorted(lengths)
    assert [one.kind for one in spare().growths] == sorted(
        [one.kind for one in spare().growths], key=list(GrowthKind).index
    )


def test_a_smaller_unit_is_proposed_only_where_all_still_holds() -> None:
    # Ratings of 7.1 + 3.6 + 3.6 = 14.3 kW lie below the capacity, so each unit gives its own: 3.6 kW for 3.5 kW in the
    # office, and 2.7 kW sensible for 2.5; in heating 13.228 x 4.0 / 16.0 = 3.31 kW for 3.0. In the workshop 5.6 kW do
    # too: 4.1 kW sensible for 4.0, in heating 13.228 x 6.3 / 16.6 = 5.02 kW for 4.0. The store has the smallest.
    found = [one for one in spare().tightenings if one.kind is TighteningKind.UNIT]
    assert [(one.subject, one.before, one.after) for one in found] == [
        ("main/unit:U1", 7100.0, 5600.0),
        ("main/unit:U2", 5600.0, 3600.0),
    ]
    for one in found:
        after = evaluate(apply(design(), one.edit).design, library())
        assert standing_of(after, "main") is Standing.ON_CONDITIONS


GROUP = "{{modules: [{0}], index: {1}, indoor_count: {{max: 8}}, connection_ratio: {{min: 50 %, max: 130 %}}}}"
TWO_GROUPS = (
    (
        GROUP.format("outdoor 16", 16),
        "\n    - ".join(
            [
                *(GROUP.format(f"outdoor {n}", n) for n in (16, 14, 12)),
                "{modules: [outdoor 7, outdoor 7], index: 14}",
            ]
        ),
    ),
    (
        "    - {model: outdoor 16, index: 16,",
        "".join(
            f"    - {{model: outdoor {n}, index: {n}, cooling: {n} kW, heating: {n + 2} kW, factory_charge: 4 kg, "
            "gas: 22.22 mm, liquid: 9.52 mm}\n"
            for n in (7, 12, 14)
        )
        + "    - {model: outdoor 16, index: 16,",
    ),
    ("group: {outdoor 16: 0.4 kg}", "group: {outdoor 16: 0.4 kg, outdoor 14: 0.4 kg, outdoor 12: 0.4 kg}"),
)


def test_a_smaller_outdoor_group_is_proposed_where_all_still_holds() -> None:
    # 14 kW x 0.952 = 13.328 kW, of which the store gets 3.6 / 16.3: 2.94 kW, short of 3.0 but not of 2.9. With 12 kW
    # the ratio 16.3 / 12 = 136 % is over 130 %. Two modules of 7 kW would need pipes that nobody has laid out.
    less = ("cooling: 3.0 kW, sensible: 2.0 kW", "cooling: 2.9 kW, sensible: 2.0 kW")
    for changes, subjects in (((), []), ((less,), ["main/outdoor"])):
        found = headroom(design(*changes), library(*TWO_GROUPS), "main", kinds=[])
        groups = [one for one in found.tightenings if one.kind is TighteningKind.GROUP]
        assert [one.subject for one in groups] == subjects
        assert [(one.before, one.after) for one in groups] == [(16000.0, 14000.0)] * len(groups)
        assert any("1 smaller group has another count of modules" in left.why for left in found.not_tightened)


def test_a_size_that_is_stated_larger_than_the_table_has_it_could_be_less() -> None:
    # The main: 22.22 mm of gas line by the table; 25.4 mm are stated, one step up, which the action long-main allows.
    wide = design(("to: J1, length: 24 m, bends: 4", "to: J1, length: 24 m, bends: 4, override: {gas: 25.4 mm}"))
    found = headroom(wide, library(), "main", kinds=[])
    tubes = [(one.subject, one.before, one.after) for one in found.tightenings if one.kind is TighteningKind.TUBE]
    assert tubes == [("main/run:J1.gas_od", 0.0254, 0.02222), ("main/run:J1.gas_od", 0.0254, None)]


HEADER = (
    (
        (
            "      - {from: J1, to: J2, length: 6 m, bends: 1}\n      - {from: J2, to: U2, length: 5 m}\n"
            "      - {from: J2, to: U3, length: 11 m}\n"
        ),
        "      - {from: J1, to: U2, length: 11 m}\n      - {from: J1, to: U3, length: 15 m}\n",
    ),
    ("    runs:\n", "    fittings: [{id: J1, kind: header}]\n    runs:\n"),
)


def test_more_units_take_the_ports_of_a_header() -> None:
    # Four ports, three taken; the index allows one more of 3.6, as above.
    found = headroom(design(*HEADER), library(), "main", kinds=[GrowthKind.COUNT])
    assert growth(found, "main/units.cassette 3.6").holds_to == 2


def test_no_headroom_is_claimed_of_a_system_that_does_not_hold() -> None:
    short = design(("cooling: 3.0 kW, sensible: 2.0 kW", "cooling: 3.5 kW, sensible: 2.0 kW"))
    found = headroom(short, library(), "main")
    assert (found.claimed, found.standing, found.growths, found.tightenings) == (False, Standing.OVER, (), ())
    assert [check.subject for check in found.broken] == ["room:store.cooling"]


UNKNOWN = (("to: U2, length: 5 m", "to: U2, length: unknown"),)


def test_no_headroom_is_claimed_of_a_system_that_is_not_wholly_judged() -> None:
    found = headroom(design(*UNKNOWN), library(), "main")
    assert (found.claimed, found.standing, found.growths) == (False, Standing.UNJUDGED, ())
    assert "main/limit:total_length" in {check.subject for check in found.open}


def test_what_is_open_stays_out_where_the_rest_is_asked_for_and_is_said() -> None:
    found = headroom(design(*UNKNOWN), library(), "main", beside=True)
    assert (found.claimed, found.beside, found.standing) == (True, True, Standing.UNJUDGED)
    assert "main/limit:farthest_actual" in {check.subject for check in found.open}
    # The length of U2 itself is not known and cannot grow; U1 may still come 15 m after its joint.
    assert ("main/run:U2.length", "its length is unknown") in found.left_out
    assert not [one for one in found.growths if one.subject == "main/run:U2.length"]


def test_what_becomes_unjudged_gives() -> None:
    # With a table of length factors that ends at 50 m, the main cannot be judged beyond 24 + 50 - 43.5 = 30.5 m.
    short = library(("equivalent: [7.5 m, 45 m, 85 m]", "equivalent: [7.5 m, 45 m, 50 m]"))
    found = headroom(design(), short, "main", kinds=[GrowthKind.LENGTH])
    main = growth(found, "main/run:J1.length")
    assert main.holds_to == pytest.approx(30.5)
    assert {check.standing for check in main.gives} == {Standing.UNJUDGED}


def test_what_is_no_design_any_more_gives() -> None:
    # J1 stands at 2.7 m: the outdoor unit cannot be more than the 24 m of the main above it.
    levels = design(("    runs:\n", "    fittings: [{id: J1, elevation: 2.7 m}]\n    runs:\n"))
    found = headroom(levels, library(), "main", kinds=[GrowthKind.LEVEL])
    up = growth(found, "main/outdoor.elevation")
    assert up.holds_to == pytest.approx(26.7)
    assert up.gives == ()
    assert up.faults[0].startswith("the levels of the ends are 24.00 m apart")


def test_rises_that_are_stated_go_with_the_level_of_their_end() -> None:
    stated = design(
        ("to: U3, length: 11 m", "to: U3, length: 11 m, rise: 0.5 m"),
        ("    runs:\n", "    fittings: [{id: J2, elevation: 2.0 m}]\n    runs:\n"),
    )
    found = headroom(stated, library(), "main", kinds=[GrowthKind.LEVEL])
    assert growth(found, "main/unit:U3.elevation").holds_to == pytest.approx(12.7)
    assert not [one for one in found.growths if one.subject == "main/run:U3.rise"]


def test_locks_do_not_keep_the_question_from_being_asked_but_nothing_locked_is_proposed() -> None:
    locked = replace(design(), locks=("main/unit:U2.model", "main/run:J1.length"))
    found = headroom(locked, library(), "main")
    assert growth(found, "main/run:J1.length").holds_to == pytest.approx(53.0)
    assert [one.subject for one in found.tightenings] == ["main/unit:U1"]
    assert [(left.subject, "locked" in left.why) for left in found.not_tightened] == [("main/unit:U2", True)]


def test_the_first_failure_is_found_where_something_fails_holds_and_fails_again() -> None:
    # Fails from 130 to 260 and from 400 on; the scan of 100 meets the first stretch.
    def judge(step: int) -> Verdict:
        return Verdict(faults=("over",)) if 130 <= step <= 260 or step >= 400 else Verdict()

    found = first_failure(judge, scan=100, most=1_000)
    assert (found.holds, found.tried) == (129, 200)


def test_what_stands_at_its_bound_has_no_room_even_where_it_would_hold_again_farther_on() -> None:
    found = first_failure(lambda step: Verdict(faults=("over",) * (1 <= step <= 50)), scan=100, most=1_000)
    assert (found.holds, found.tried) == (0, 1)


def test_one_step_after_the_other_is_tried_where_the_scan_is_that_fine() -> None:
    asked: list[int] = []

    def judge(step: int) -> Verdict:
        asked.append(step)
        return Verdict(faults=("over",)) if step >= 4 else Verdict()

    assert first_failure(judge, scan=1, most=9).holds == 3
    assert asked == [1, 2, 3, 4]


def test_a_stretch_shorter_than_a_step_of_the_scan_is_missed_as_the_page_says() -> None:
    found = first_failure(lambda step: Verdict(faults=("over",) * (130 <= step <= 160)), scan=100, most=1_000)
    assert (found.holds, found.verdict) == (1_000, None)


def test_the_same_design_gives_the_same_headroom() -> None:
    again = headroom(design(), library(), "main")
    assert (again.growths, again.left_out, again.tried) == (spare().growths, spare().left_out, spare().tried)
