"""A bound of 40 m after the first branch that relaxes to 90 m only if all its conditions hold.

Common practice, no source. The conditions: both lines one step up from the first to the last branch on the way
to every unit beyond 40 m; the total length, those runs counted twice, within its bound; every unit within 40 m of
the fitting nearest to it; nearest and farthest unit within 40 m of each other.
"""

from typing import NamedTuple

import pytest

from linewright.engine import Evaluation, Standing
from linewright.engine.records import Check
from tests.engine.builders import Doc, book, design, judge, run, system, the_limit, the_system, tube_mm, unit

CONDITIONS = ["action", "total", "last joint", "difference"]


class Bounds(NamedTuple):
    """Bounds of the conditions."""

    total: str = "150 m"
    last: str = "40 m"
    difference: str = "40 m"


def relaxing_book(changes: Doc | None = None, *, bounds: Bounds = Bounds()) -> Doc:  # noqa: B008 - frozen
    needs = [
        {"action": "one-up"},
        {"measure": "total_length", "upsized_twice": "yes", "max": bounds.total},
        {"measure": "last_joint_to_unit", "max": bounds.last},
        {"measure": "nearest_farthest_difference", "max": bounds.difference},
    ]
    relaxed = [{"max": "90 m", "page": 8, "needs": needs}]
    limit = {"measure": "after_first_branch", "max": "40 m", "page": 7, "relaxed": relaxed}
    action = {"id": "one-up", "runs": "first-to-last-branch", "lines": ["gas", "liquid"], "steps": 1}
    return book({"limits": [limit], "sizing.actions": [action], **(changes or {})})


def laid(
    *, near: str = "25 m", between: str = "30 m", far: str = "30 m", other: str = "5 m", override: Doc | None = None
) -> Doc:
    """J1 with the near unit and, `between` farther on, J2 with the far unit and another one; main 20 m."""
    over = override or {}
    runs = [
        run("outdoor", "J1", "20 m"),
        run("J1", "near", near),
        run("J1", "J2", between, gas=over.get("gas", ""), liquid=over.get("liquid", "")),
        run("J2", "far", far),
        run("J2", "other", other),
    ]
    return system(runs, [unit("near", 2), unit("far", 2), unit("other", 2)])


def judged(laid_out: Doc, used: Doc | None = None) -> tuple[Evaluation, Check]:
    found = judge(design([laid_out]), used or relaxing_book())
    return found, the_limit(found, "after_first_branch")


def failing(limit: Check) -> list[str]:
    """The conditions that do not hold."""
    (tried,) = limit.relaxed
    assert len(tried.needs) == len(CONDITIONS)
    return [name for name, need in zip(CONDITIONS, tried.needs, strict=True) if need.holds is False]


def test_all_conditions_together_relax_the_bound() -> None:
    """Far unit 30 + 30 = 60 m; total 20 + 25 + 2 x 30 + 30 + 5 = 140 of 150 m; nearest 25, so 35 m between them."""
    found, limit = judged(laid())
    assert limit.standing is Standing.ON_CONDITIONS
    assert limit.value == pytest.approx(60)
    assert (limit.bound, limit.plain_bound, limit.page) == (90, 40, 8)
    assert failing(limit) == []
    assert [need.holds for need in limit.relaxed[0].needs] == [True] * 4
    assert [action.carried_out for action in the_system(found).actions] == [True]


def test_only_the_runs_from_first_to_last_branch_go_up_one_step_on_both_lines() -> None:
    """J2 carries 4: 15.88 and 6.35 by the table, 19.05 and 9.52 one step up. Main and unit runs stay."""
    found, _ = judged(laid())
    assert (tube_mm(found, "J2"), tube_mm(found, "J2", "liquid")) == (19.05, 9.52)
    assert (tube_mm(found, "J1"), tube_mm(found, "J1", "liquid")) == (22.22, 9.52)
    assert {(tube_mm(found, name), tube_mm(found, name, "liquid")) for name in ("near", "far", "other")} == {
        (12.7, 6.35)
    }


def test_a_branch_that_leads_to_no_unit_beyond_40_m_stays_as_it_is() -> None:
    runs = [
        run("outdoor", "J1", "20 m"),
        run("J1", "J2", "30 m"),
        run("J2", "far", "30 m"),
        run("J2", "other", "5 m"),
        run("J1", "J3", "10 m"),
        run("J3", "near", "20 m"),
        run("J3", "third", "20 m"),
    ]
    units = [unit(name, 2) for name in ("far", "other", "near", "third")]
    found, limit = judged(system(runs, units), relaxing_book(bounds=Bounds(total="175 m")))
    assert limit.standing is Standing.ON_CONDITIONS  # 20 + 2 x 30 + 30 + 5 + 10 + 20 + 20 = 165 m
    assert tube_mm(found, "J2") == 19.05
    assert tube_mm(found, "J3") == 15.88


def test_within_40_m_nothing_has_to_be_relaxed() -> None:
    found, limit = judged(laid(between="20 m", far="20 m"))
    assert limit.standing is Standing.WITHIN
    assert limit.bound == 40
    assert limit.plain_bound is None
    assert tube_mm(found, "J2") == 15.88


def test_the_action_alone_failing_because_the_designer_forbids_it() -> None:
    laid_out = laid() | {"forbidden_actions": ["one-up"]}
    _, limit = judged(laid_out)
    assert failing(limit) == ["action"]
    assert (limit.standing, limit.bound) == (Standing.OVER, 40)


def test_the_action_alone_failing_because_no_run_may_be_larger_than_the_main() -> None:
    """The main has 15.88 and 6.35 like J2, so J2 cannot go up."""
    rows = {"rows": [{"upto": 20, "gas": "15.88 mm", "liquid": "6.35 mm"}]}
    found, limit = judged(laid(), relaxing_book({"sizing.main": rows}))
    assert failing(limit) == ["action"]
    assert limit.standing is Standing.OVER
    assert tube_mm(found, "J2") == 15.88


@pytest.mark.parametrize(
    "override", [{"gas": "15.88 mm"}, {"liquid": "6.35 mm"}], ids=["gas kept down", "liquid kept down"]
)
def test_the_action_alone_failing_because_one_line_is_kept_down(override: Doc) -> None:
    _, limit = judged(laid(override=override))
    assert failing(limit) == ["action"]
    assert limit.standing is Standing.OVER


def test_the_action_holds_where_overrides_already_carry_it_out() -> None:
    _, limit = judged(laid(override={"gas": "19.05 mm", "liquid": "9.52 mm"}))
    assert limit.standing is Standing.ON_CONDITIONS


#: Designs that fail one condition alone, the book that would let it pass, and the value that fails.
ALONE = {
    # Other unit at 20 m: 20 + 25 + 30 + 30 + 20 = 125 m once, 155 m with J2 twice, of 150 m.
    "total": (laid(other="20 m"), Bounds(total="155 m"), Bounds(total="154.999 m"), 155),
    # Far unit 45 m from J2, 15 + 45 = 60 m after J1; total 20 + 25 + 2 x 15 + 45 + 5 = 125 m; nearest is the other
    # unit, 15 + 5 = 20 m after J1, so 40 m apart, which just holds.
    "last joint": (laid(between="15 m", far="45 m"), Bounds(last="45 m"), Bounds(last="44.999 m"), 45),
    # Near unit 15 m after J1, far unit 60 m: 45 m apart; total 20 + 15 + 2 x 30 + 30 + 5 = 130 m.
    "difference": (laid(near="15 m"), Bounds(difference="45 m"), Bounds(difference="44.999 m"), 45),
}


@pytest.mark.parametrize("condition", ALONE)
def test_one_condition_alone_failing_keeps_the_bound_at_40_m(condition: str) -> None:
    laid_out, _, tight, _ = ALONE[condition]
    for used in (relaxing_book(), relaxing_book(bounds=tight)):
        found, limit = judged(laid_out, used)
        assert (limit.standing, limit.bound) == (Standing.OVER, 40)
        # An action that gains nothing is not carried out.
        assert tube_mm(found, "J2") == 15.88


@pytest.mark.parametrize("condition", ALONE)
def test_it_was_that_condition_alone(condition: str) -> None:
    laid_out, loose, _, value = ALONE[condition]
    _, limit = judged(laid_out, relaxing_book(bounds=loose))
    assert (limit.standing, limit.bound) == (Standing.ON_CONDITIONS, 90)
    assert limit.relaxed[0].needs[CONDITIONS.index(condition)].value == pytest.approx(value)


@pytest.mark.parametrize("condition", ALONE)
def test_a_rejected_relaxation_names_the_condition_that_fails_with_the_action_carried_out(condition: str) -> None:
    """Conditions are judged after the action: the action could be carried out, so it is not what fails."""
    laid_out, _, _, value = ALONE[condition]
    _, limit = judged(laid_out)
    assert failing(limit) == [condition]
    assert limit.relaxed[0].needs[CONDITIONS.index(condition)].value == pytest.approx(value)


@pytest.mark.parametrize(
    ("metres", "standing"),
    [("34 m", Standing.ON_CONDITIONS), ("35 m", Standing.ON_CONDITIONS), ("35.001 m", Standing.OVER)],
    ids=["89 m", "90 m", "90.001 m"],
)
def test_even_with_all_conditions_90_m_is_the_end(metres: str, standing: Standing) -> None:
    """Far unit 55 m + 35 m after J1; the near unit hangs on a joint of its own, 15 m + 38 m after J1."""
    runs = [
        run("outdoor", "J1", "20 m"),
        run("J1", "J2", "55 m"),
        run("J2", "far", metres),
        run("J2", "other", "5 m"),
        run("J1", "J3", "15 m"),
        run("J3", "near", "38 m"),
        run("J3", "third", "38 m"),
    ]
    units = [unit(name, 2) for name in ("far", "other", "near", "third")]
    _, limit = judged(system(runs, units), relaxing_book(bounds=Bounds(total="1000 m")))
    assert limit.standing is standing


def test_40_m_reached_by_a_sum_needs_nothing_relaxed() -> None:
    """Tenths that do not add up to 40 exactly in binary: 39.7 + 0.1 + 0.1 + 0.1."""
    runs = [
        run("outdoor", "J1", "20 m"),
        run("J1", "near", "25 m"),
        run("J1", "C1", "39.7 m"),
        run("C1", "C2", "0.1 m"),
        run("C2", "C3", "0.1 m"),
        run("C3", "far", "0.1 m"),
    ]
    _, limit = judged(system(runs, [unit("near", 2), unit("far", 2)]))
    assert limit.standing is Standing.WITHIN
