"""Elective size actions: chosen are those with the fewest charge limits over, limits over, actions; then book order."""

from collections.abc import Sequence

import pytest

from linewright.engine import Evaluation, Standing
from tests.engine.builders import Doc, book, design, judge, run, system, the_check, the_limit, the_system, tube_mm, unit


def elective(name: str, runs: str, lines: Sequence[str] = ("gas", "liquid")) -> Doc:
    return {"id": name, "runs": runs, "lines": list(lines), "steps": 1}


def wanting(*actions: str, measure: str = "farthest_actual", plain: str = "50 m", wide: str = "70 m") -> Doc:
    relaxed = [{"max": wide, "needs": [{"action": name} for name in actions]}]
    return {"measure": measure, "max": plain, "relaxed": relaxed}


def judged(changes: Doc, *, forbidden: Sequence[str] = ()) -> Evaluation:
    """Outdoor - J1 (U1) - J2 (U2, U3): 20, 5, 10, 30, 5 m; U2 at 60 m, 40 m after the first branch."""
    runs = [
        run("outdoor", "J1", "20 m"),
        run("J1", "U1", "5 m"),
        run("J1", "J2", "10 m"),
        run("J2", "U2", "30 m"),
        run("J2", "U3", "5 m"),
    ]
    laid_out = system(runs, [unit(f"U{i}", 2) for i in (1, 2, 3)], forbidden=forbidden)
    return judge(design([laid_out]), book(changes))


def chosen(found: Evaluation) -> list[str]:
    return [action.id for action in the_system(found).actions if action.chosen]


def test_nothing_is_chosen_where_nothing_is_over() -> None:
    found = judged({"sizing.actions": [elective("a", "main")], "limits": [wanting("a", plain="60 m")]})
    assert chosen(found) == []
    assert tube_mm(found, "J1") == 22.22


def test_the_one_action_that_a_relaxed_bound_needs_is_chosen() -> None:
    found = judged({"sizing.actions": [elective("a", "main")], "limits": [wanting("a")]})
    assert chosen(found) == ["a"]
    assert tube_mm(found, "J1") == 25.4
    assert the_limit(found, "farthest_actual").standing is Standing.ON_CONDITIONS


def test_an_action_that_gains_nothing_is_not_chosen() -> None:
    """Even 55 m would not hold the 60 m of U2."""
    found = judged({"sizing.actions": [elective("a", "main")], "limits": [wanting("a", wide="55 m")]})
    assert chosen(found) == []
    assert the_limit(found, "farthest_actual").standing is Standing.OVER


def test_a_forbidden_action_is_never_chosen() -> None:
    changes = {"sizing.actions": [elective("a", "main")], "limits": [wanting("a")]}
    found = judged(changes, forbidden=["a"])
    assert chosen(found) == []
    assert the_limit(found, "farthest_actual").standing is Standing.OVER
    assert tube_mm(found, "J1") == 22.22


def test_of_two_single_actions_that_do_the_same_the_first_of_the_book_is_chosen() -> None:
    """The limit has two relaxed bounds, one for each action."""
    limit = wanting("a") | {"relaxed": [*wanting("b")["relaxed"], *wanting("a")["relaxed"]]}
    actions = [elective("a", "main", ["gas"]), elective("b", "main", ["liquid"])]
    assert chosen(judged({"sizing.actions": actions, "limits": [limit]})) == ["a"]
    assert chosen(judged({"sizing.actions": actions[::-1], "limits": [limit]})) == ["b"]
    assert chosen(judged({"sizing.actions": actions, "limits": [limit]}, forbidden=["a"])) == ["b"]


def test_two_actions_are_chosen_together_where_a_bound_needs_both() -> None:
    actions = [elective("a", "main"), elective("b", "first-to-last-branch")]
    found = judged({"sizing.actions": actions, "limits": [wanting("a", "b")]})
    assert chosen(found) == ["a", "b"]
    assert (tube_mm(found, "J1"), tube_mm(found, "J2")) == (25.4, 19.05)


def test_one_action_is_chosen_rather_than_two_where_it_holds_alone() -> None:
    limit = wanting("a", "b") | {"relaxed": [*wanting("a", "b")["relaxed"], *wanting("c")["relaxed"]]}
    actions = [elective(name, "main", [line]) for name, line in (("a", "gas"), ("b", "liquid"), ("c", "gas"))]
    assert chosen(judged({"sizing.actions": actions, "limits": [limit]})) == ["c"]


CHARGED = {"liquid": {"6.35 mm": "0.01 kg/m", "9.52 mm": "0.1 kg/m", "12.7 mm": "0.2 kg/m"}}


@pytest.mark.parametrize(("most", "choice"), [("5 kg", ["a"]), ("4.5 kg", ["a"]), ("4.499 kg", [])])
def test_a_charge_limit_is_never_traded_for_a_length(most: str, choice: list[str]) -> None:
    """Liquid: main 20 m at 9.52 is 2 kg, one step up 4 kg; the rest, 50 m at 6.35, 0.5 kg."""
    changes = {
        "sizing.actions": [elective("a", "main")],
        "limits": [wanting("a"), {"measure": "additional_charge", "max": most}],
        "charge": CHARGED,
    }
    found = judged(changes)
    assert chosen(found) == choice
    assert the_limit(found, "additional_charge").standing is Standing.WITHIN
    length = the_limit(found, "farthest_actual").standing
    assert length is (Standing.ON_CONDITIONS if choice else Standing.OVER)


@pytest.mark.parametrize("where", ["limit", "cap"])
def test_not_even_for_two_lengths(where: str) -> None:
    """The action would mend two lengths and break the charge alone: fewer limits over, but one of them a charge."""
    most = "4.499 kg"
    limits = [wanting("a"), wanting("a", measure="after_first_branch", plain="30 m", wide="40 m")]
    capped = {"max": most} if where == "cap" else {}
    limits += [] if where == "cap" else [{"measure": "additional_charge", "max": most}]
    found = judged({"sizing.actions": [elective("a", "main")], "limits": limits, "charge": CHARGED | capped})
    assert chosen(found) == []
    over = [check.measure for check in the_system(found).limits if check.standing is Standing.OVER]
    assert over == ["farthest_actual", "after_first_branch"]
    loose = judged({"sizing.actions": [elective("a", "main")], "limits": limits[:2], "charge": CHARGED})
    assert chosen(loose) == ["a"]


@pytest.mark.parametrize(("most", "choice"), [("4.5 kg", ["a"]), ("4.499 kg", [])])
def test_the_cap_on_the_charge_counts_as_a_charge_limit(most: str, choice: list[str]) -> None:
    changes = {
        "sizing.actions": [elective("a", "main")],
        "limits": [wanting("a")],
        "charge": CHARGED | {"max": most},
    }
    found = judged(changes)
    assert chosen(found) == choice
    assert the_check(found, "charge").standing is Standing.WITHIN


def test_two_limits_over_are_worse_than_one() -> None:
    """Without the action the length is over; with it the total: upsized runs twice, 70 + 20 = 90 m."""
    twice = {"measure": "total_length", "upsized_twice": "yes", "max": "80 m"}
    actions = [elective("a", "main")]
    once = judged({"sizing.actions": actions, "limits": [wanting("a"), twice]})
    # One over either way: the fewest actions win.
    assert chosen(once) == []
    more = {"measure": "after_first_branch", "max": "30 m"}
    relaxed = more | {"relaxed": [{"max": "40 m", "needs": [{"action": "a"}]}]}
    found = judged({"sizing.actions": actions, "limits": [wanting("a"), relaxed, twice]})
    # Two over without it, one with it.
    assert chosen(found) == ["a"]
    assert the_limit(found, "total_length").standing is Standing.OVER
    assert the_limit(found, "total_length").value == pytest.approx(90)


def test_a_declaration_that_the_design_makes_relaxes_a_bound() -> None:
    relaxed = [{"max": "70 m", "needs": [{"declared": "high-lift setting made"}]}]
    limit = {"measure": "farthest_actual", "max": "50 m", "relaxed": relaxed}
    laid_out = system([run("outdoor", "U1", "60 m")], [unit("U1", 5)])
    silent = judge(design([laid_out]), book({"limits": [limit]}))
    assert the_limit(silent, "farthest_actual").standing is Standing.OVER
    said = laid_out | {"declared": ["high-lift setting made"]}
    found = judge(design([said]), book({"limits": [limit]}))
    assert the_limit(found, "farthest_actual").standing is Standing.ON_CONDITIONS


def test_relaxed_bounds_are_tried_in_book_order_and_the_first_that_holds_is_shown() -> None:
    """60 m: the first relaxed bound is too small, the second needs what fails, the third holds."""
    relaxed = [
        {"max": "55 m", "page": 1, "needs": [{"measure": "indoor_count", "max": 9}]},
        {"max": "80 m", "page": 2, "needs": [{"measure": "indoor_count", "max": 2}]},
        {"max": "75 m", "page": 3, "needs": [{"measure": "indoor_count", "max": 3}]},
        {"max": "90 m", "page": 4, "needs": []},
    ]
    found = judged({"limits": [{"measure": "farthest_actual", "max": "50 m", "page": 9, "relaxed": relaxed}]})
    limit = the_limit(found, "farthest_actual")
    assert (limit.standing, limit.bound, limit.page, limit.plain_bound) == (Standing.ON_CONDITIONS, 75, 3, 50)


def test_an_over_limit_shows_the_last_relaxed_bound_whose_needs_hold() -> None:
    relaxed = [
        {"max": "52 m", "page": 1, "needs": [{"measure": "indoor_count", "max": 9}]},
        {"max": "55 m", "page": 2, "needs": []},
        {"max": "80 m", "page": 3, "needs": [{"measure": "indoor_count", "max": 2}]},
    ]
    found = judged({"limits": [{"measure": "farthest_actual", "max": "50 m", "page": 9, "relaxed": relaxed}]})
    limit = the_limit(found, "farthest_actual")
    assert (limit.standing, limit.bound, limit.page) == (Standing.OVER, 55, 2)


def test_an_action_serves_a_limit_that_no_unit_breaks_by_itself() -> None:
    """The main rises 12 m, over 10; on the runs to the units the pipe falls again."""
    runs = [run("outdoor", "J1", "20 m", rise="12 m")]
    runs += [run("J1", name, "15 m", rise="-12 m") for name in ("U1", "U2")]
    limits = [wanting("a", measure="rise_without_trap", plain="10 m", wide="15 m")]
    used = book({"sizing.actions": [elective("a", "unit-run")], "limits": limits})
    found = judge(design([system(runs, [unit("U1", 2), unit("U2", 2)])]), used)
    assert chosen(found) == ["a"]
    assert the_system(found).actions[0].runs == ("U1", "U2")
    assert the_limit(found, "rise_without_trap").standing is Standing.ON_CONDITIONS


def test_an_action_is_not_due_for_a_limit_that_only_an_unknown_length_may_break() -> None:
    """U1 is 20 m away and more, which may be less than the 40 m that the limit asks; U2 is 50 m away."""
    runs = [run("outdoor", "J1", "20 m"), run("J1", "U1", "unknown"), run("J1", "U2", "30 m")]
    relaxed = [{"min": "30 m", "needs": [{"action": "a"}]}]
    limits = [{"measure": "farthest_actual", "min": "40 m", "relaxed": relaxed}]
    used = book({"sizing.actions": [elective("a", "unit-run")], "limits": limits})
    found = judge(design([system(runs, [unit("U1", 2), unit("U2", 2)])]), used)
    assert the_limit(found, "farthest_actual").standing is Standing.UNJUDGED
    assert the_system(found).actions[0].due is False
