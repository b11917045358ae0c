"""Size actions: when they are due, which runs they touch, what stops them, which elective ones are chosen."""

from collections.abc import Sequence

import pytest

from linewright.engine import Evaluation, Standing
from linewright.engine.records import ActionResult
from linewright.engine.working import working
from linewright.model.values import Role
from tests.engine.builders import (
    Doc,
    book,
    design,
    judge,
    run,
    subjects,
    system,
    the_check,
    the_limit,
    the_run,
    the_system,
    tube_mm,
    unit,
    upto,
)

BOTH = ["gas", "liquid"]
LONG = {"measure": "farthest_actual", "over": "50 m"}


def mandatory(runs: str, *, lines: Sequence[str] = BOTH, steps: int = 1, when: Doc | None = None, **more: str) -> Doc:
    return {"id": "up", "when": when or LONG, "runs": runs, "lines": list(lines), "steps": steps, "page": 6, **more}


def tree(*, main: Doc | None = None, j2: Doc | None = None, far: str = "30 m", forbidden: Sequence[str] = ()) -> Doc:
    """Outdoor - J1 (U1) - J2 (U2, and U3 through a coupling): 20, 5, 10, `far`, 5 + 5 m.

    Base sizes: J1 22.22 and 9.52, J2 (index 4) 15.88 and 6.35, units 12.7 and 6.35.
    """
    runs = [
        run("outdoor", "J1", "20 m") | {"override": main or {}},
        run("J1", "U1", "5 m"),
        run("J1", "J2", "10 m") | {"override": j2 or {}},
        run("J2", "U2", far),
        run("J2", "C1", "5 m"),
        run("C1", "U3", "5 m"),
    ]
    return system(runs, [unit(f"U{i}", 2) for i in (1, 2, 3)], forbidden=forbidden)


def judged(laid_out: Doc, actions: Sequence[Doc], changes: Doc | None = None) -> Evaluation:
    return judge(design([laid_out]), book({"sizing.actions": list(actions), **(changes or {})}))


def the_action(found: Evaluation, name: str = "up") -> ActionResult:
    return next(action for action in the_system(found).actions if action.id == name)


def upped(found: Evaluation, role: str = "gas") -> set[str]:
    """Runs that stand above their table size."""
    return {
        item.id
        for item in the_system(found).runs
        if (tube := next(t for r, t in item.tubes.items() if r == role)).od_m != tube.table_m
    }


@pytest.mark.parametrize(
    ("far", "due"), [("20 m", False), ("20.000001 m", True), ("30 m", True)], ids=["at 50 m", "just over", "60 m"]
)
def test_a_mandatory_action_is_due_over_its_bound_only(far: str, due: bool) -> None:  # noqa: FBT001
    found = judged(tree(far=far), [mandatory("main")])
    action = the_action(found)
    assert (action.due, action.carried_out) == (due, due)
    assert (tube_mm(found, "J1"), tube_mm(found, "J1", "liquid")) == ((25.4, 12.7) if due else (22.22, 9.52))
    assert ("action:up" in subjects(found)) is due
    if due:
        assert the_check(found, "action:up").standing is Standing.WITHIN


def test_a_mandatory_action_reads_the_base_design_and_fires_once() -> None:
    """An upsized main counts half: 10 + 40 = 50 m equivalent is no longer over 50, but the base was 60."""
    when = {"measure": "farthest_equivalent", "over": "50 m"}
    limit = {"measure": "farthest_equivalent", "max": "50 m", "upsized_main": {1: 0.5}}
    found = judged(tree(), [mandatory("main", when=when)], {"limits": [limit]})
    assert the_action(found).carried_out
    assert tube_mm(found, "J1") == 25.4
    assert the_limit(found, "farthest_equivalent").value == pytest.approx(50)
    assert the_limit(found, "farthest_equivalent").standing is Standing.WITHIN


@pytest.mark.parametrize(
    ("action", "runs"),
    [
        (mandatory("main"), {"J1"}),
        (mandatory("unit-run"), {"U2"}),
        (mandatory("first-to-last-branch"), {"J2"}),
        (mandatory("first-to-last-branch", unit_run="yes"), {"J2", "U2"}),
        (mandatory("path"), {"J1", "J2", "U2"}),
        (mandatory("path", paths="all"), {"J1", "U1", "J2", "U2", "C1", "U3"}),
        (mandatory("unit-run", paths="all"), {"U1", "U2", "C1", "U3"}),
        (mandatory("first-to-last-branch", paths="all"), {"J2"}),
    ],
    ids=["main", "unit run", "between", "between and unit run", "path", "all paths", "all unit runs", "all between"],
)
def test_an_action_touches_the_runs_that_it_names_on_the_way_to_far_units(action: Doc, runs: set[str]) -> None:
    """U2 alone is beyond 50 m; U3's own run goes through a coupling."""
    found = judged(tree(), [action], {"sizing.cap": "none"})
    assert set(the_action(found).runs) == runs
    assert upped(found) == runs
    assert upped(found, "liquid") == runs


@pytest.mark.parametrize(
    "when",
    [
        {"measure": "connection_ratio", "over": "50 %"},  # 6 on 10
        {"measure": "nearest_farthest_difference", "over": "34 m"},  # 60 less 25 m; U1 and U3 are 25 and 40 m away
    ],
)
def test_a_condition_on_no_single_unit_makes_all_units_far(when: Doc) -> None:
    found = judged(tree(), [mandatory("unit-run", when=when)])
    assert set(the_action(found).runs) == {"U1", "U2", "C1", "U3"}


def test_of_several_far_units_the_longest_path_may_be_meant() -> None:
    """U2 at 42 m, U1 and U3 at 40 m are all beyond 35; U1 has the longest run of its own, but not the longest way."""
    laid_out = tree(far="12 m")
    laid_out["runs"][1] = run("J1", "U1", "20 m")
    when = {"measure": "farthest_actual", "over": "35 m"}
    far = judged(laid_out, [mandatory("unit-run", when=when)])
    longest = judged(laid_out, [mandatory("unit-run", when=when, paths="longest")])
    assert set(the_action(far).runs) == {"U1", "U2", "C1", "U3"}
    assert set(the_action(longest).runs) == {"U2"}


@pytest.mark.parametrize(("line", "other"), [("gas", "liquid"), ("liquid", "gas")])
def test_an_action_on_one_line_leaves_the_other_as_it_is(line: str, other: str) -> None:
    found = judged(tree(), [mandatory("main", lines=[line])])
    assert upped(found, line) == {"J1"}
    assert upped(found, other) == set()


def test_of_two_actions_on_one_tube_the_greater_number_of_steps_counts() -> None:
    """22.22 two steps up is 28.58, not three."""
    actions = [mandatory("main", lines=["gas"], steps=2), mandatory("main", lines=["gas"]) | {"id": "also"}]
    assert tube_mm(judged(tree(), actions), "J1") == 28.58


def test_a_step_past_the_ladders_end_is_not_carried_out() -> None:
    """Gas 22.22 has two sizes above it on the ladder, not three."""
    found = judged(tree(), [mandatory("main", lines=["gas"], steps=3)])
    assert (the_action(found).due, the_action(found).carried_out) == (True, False)
    assert "J1" in the_action(found).why_not
    assert the_check(found, "action:up").standing is Standing.OVER
    assert tube_mm(found, "J1") == 22.22


@pytest.mark.parametrize(
    ("override", "done", "gas_mm"),
    [
        ({"gas": "25.4 mm"}, True, 25.4),
        ({"gas": "28.58 mm"}, True, 28.58),  # larger still
        ({"gas": "1 in"}, True, 25.4),  # the same size in inches
        ({"gas": "22.22 mm"}, False, 22.22),
    ],
    ids=["as asked", "larger", "in inches", "kept down"],
)
def test_an_override_at_least_as_large_carries_the_action_out(override: Doc, done: bool, gas_mm: float) -> None:  # noqa: FBT001
    found = judged(tree(main=override), [mandatory("main", lines=["gas"])])
    assert the_action(found).carried_out is done
    assert the_check(found, "action:up").standing is (Standing.WITHIN if done else Standing.OVER)
    assert tube_mm(found, "J1") == gas_mm


def test_an_action_that_the_designer_forbids_is_not_carried_out_and_its_absence_is_a_fault() -> None:
    found = judged(tree(forbidden=["up"]), [mandatory("main")])
    action = the_action(found)
    assert (action.due, action.forbidden, action.carried_out) == (True, True, False)
    assert the_check(found, "action:up").standing is Standing.OVER
    assert upped(found) == set()


CAP = {"sizing.main": {"rows": [upto(20, "15.88 mm", "6.35 mm")]}}


def capped(policy: str) -> Evaluation:
    """Main 15.88 and 6.35, J2 the same; J2 is to go one step up and may not be larger than the main."""
    return judged(tree(), [mandatory("first-to-last-branch")], {**CAP, "sizing.capped": policy})


def test_a_capped_action_fails_by_default() -> None:
    found = judged(tree(), [mandatory("first-to-last-branch")], CAP)
    assert the_action(found).carried_out is False
    assert the_check(found, "action:up").standing is Standing.OVER
    assert tube_mm(found, "J2") == 15.88
    assert tube_mm(capped("fails"), "J2") == 15.88
    assert the_action(capped("fails")).carried_out is False


def test_a_capped_action_may_count_as_carried_out() -> None:
    found = capped("counts")
    assert the_action(found).carried_out
    assert (tube_mm(found, "J2"), tube_mm(found, "J1")) == (15.88, 15.88)


def test_a_capped_action_may_raise_the_main() -> None:
    found = capped("raises-main")
    assert the_action(found).carried_out
    assert (tube_mm(found, "J2"), tube_mm(found, "J2", "liquid")) == (19.05, 9.52)
    assert (tube_mm(found, "J1"), tube_mm(found, "J1", "liquid")) == (19.05, 9.52)


def test_a_tube_that_the_cap_stops_at_the_first_of_two_steps_has_taken_the_first() -> None:
    """J2 from 15.88: two steps lead to 22.22, beyond the main of 19.05, which is one step up."""
    main = {"sizing.main": {"rows": [upto(20, "19.05 mm", "6.35 mm")]}}
    one, two = (mandatory("first-to-last-branch", lines=["gas"], steps=n) | {"id": f"up {n}"} for n in (1, 2))
    found = judged(tree(), [one, two], main)
    assert tube_mm(found, "J2") == 19.05
    assert (the_action(found, "up 1").carried_out, the_action(found, "up 2").carried_out) == (True, False)
    assert the_action(found, "up 2").why_not == "not as large as asked: gas of run J2"


def test_a_raised_main_has_taken_the_step_that_it_was_asked_itself() -> None:
    """The main of 25.4 has one size above it: two steps lead nowhere, but J2 at 28.58 raises it by one."""
    gas = {"sizing.main": {"rows": [upto(20, "25.4 mm", "9.52 mm")]}, "sizing.capped": "raises-main"}
    changes = gas | {"sizing.branch": {"rows": [upto(30, "22.22 mm", "9.52 mm")]}}
    two, one = mandatory("path", lines=["gas"], steps=2), mandatory("main", lines=["gas"]) | {"id": "one"}
    found = judged(tree(), [two, one], changes)
    assert (tube_mm(found, "J2"), tube_mm(found, "J1")) == (28.58, 28.58)
    assert (the_action(found).carried_out, the_action(found, "one").carried_out) == (False, True)
    assert working(found, "main/run:J1.gas_od").steps[-1].inputs[0].name == "the main is raised"
    assert working(found, "main/run:J1.gas_od").steps[-1].result == pytest.approx(0.02858)


def test_without_a_cap_a_branch_goes_beyond_the_main() -> None:
    found = judged(tree(), [mandatory("first-to-last-branch")], {**CAP, "sizing.cap": "none"})
    assert the_action(found).carried_out
    assert (tube_mm(found, "J2"), tube_mm(found, "J1")) == (19.05, 15.88)


@pytest.mark.parametrize(
    ("gas", "standing"),
    [
        ("12.7 mm", Standing.OVER),  # smaller than the table's 15.88
        ("15.88 mm", Standing.WITHIN),
        ("5/8 in", Standing.WITHIN),
        ("19.05 mm", Standing.WITHIN),  # one step, which the action may give it
        ("22.22 mm", Standing.UNJUDGED),  # two steps: no action of the book goes so far
        ("25.4 mm", Standing.OVER),  # larger than the main
        ("17 mm", Standing.OVER),  # no size of the ladder
    ],
)
def test_an_override_is_judged_against_table_main_and_actions(gas: str, standing: Standing) -> None:
    found = judged(tree(far="5 m", j2={"gas": gas}), [mandatory("first-to-last-branch")])
    assert the_check(found, "run:J2.gas").standing is standing


def test_an_override_without_any_action_in_the_book_is_unjudged_one_step_up() -> None:
    found = judged(tree(far="5 m", j2={"gas": "19.05 mm"}), [])
    assert the_check(found, "run:J2.gas").standing is Standing.UNJUDGED
    assert the_run(found, "J2").tubes[Role.GAS].source == "override"
