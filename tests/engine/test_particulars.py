"""Particulars of results that no limit rests on: bounds of joints, what is assumed, which groups would serve."""

from linewright.engine import Standing
from linewright.engine.working import working
from tests.engine.builders import (
    PLAIN,
    SITE,
    Doc,
    book,
    design,
    judge,
    room,
    run,
    system,
    the_check,
    the_run,
    the_system,
    two_units,
    unit,
)


def test_a_joint_has_two_arms() -> None:
    runs = [run("outdoor", "J1", "9 m"), *(run("J1", name, "1 m") for name in "ABC")]
    found = judge(design([system(runs, [unit(name, 2) for name in "ABC"])]))
    check = the_check(found, "fitting:J1")
    assert (check.standing, check.value, check.bound, check.margin) == (Standing.OVER, 3, 2, -1)


def test_an_outdoor_joint_has_two_arms() -> None:
    pipes = [{"from": "outdoor", "to": name, "length": "1 m"} for name in ("M1", "M2", "M3")]
    groups = [*PLAIN["outdoor"]["groups"], {"modules": ["outdoor 10"] * 3, "index": 30}]
    runs, units = two_units("1 m", "2 m")
    laid_out = system(runs, units, modules=["outdoor 10"] * 3, pipes=pipes)
    changes: Doc = {
        "outdoor.groups": groups,
        "sizing.main": {"rows": [{"upto": 30, "gas": "28.58 mm", "liquid": "12.7 mm"}]},
    }
    changes["fittings.outdoor_joint"] = {"rows": [{"upto": 30, "model": "outdoor joint"}]}
    check = the_check(judge(design([laid_out]), book(changes)), "outdoor_joint:outdoor")
    assert (check.standing, check.value, check.bound, check.margin) == (Standing.OVER, 3, 2, -1)


def test_a_capacity_that_is_judged_lacks_nothing_and_one_that_is_not_says_what() -> None:
    runs, units = [run("outdoor", "X", "9 m")], [unit("X", 5, room="x")]
    judged = judge(design([system(runs, units)], rooms=[room("x", "3 kW")], site=SITE))
    assert (the_check(judged, "capacity.cooling").standing, the_check(judged, "capacity.cooling").missing) == (
        Standing.WITHIN,
        (),
    )
    open_ = room("x", "3 kW")
    del open_["cooling"]
    check = the_check(judge(design([system(runs, units)], rooms=[open_], site=SITE)), "capacity.cooling")
    assert (check.standing, check.missing) == (Standing.UNJUDGED, ("the load of a room, or a block load",))


def test_a_rise_is_assumed_only_where_nobody_states_it() -> None:
    """The joint has no level of its own: the rise to it is assumed, unless the run says it."""
    units = [unit("A", 2, elevation="3 m"), unit("B", 2, elevation="3 m")]
    for rise, assumed in (("", True), ("3 m", False)):
        runs = [run("outdoor", "J1", "9 m", rise=rise), run("J1", "A", "1 m"), run("J1", "B", "1 m")]
        assert the_run(judge(design([system(runs, units)])), "J1").assumed_rise is assumed


def said_of_groups(limit: int) -> list[str]:
    """What is said of groups, of two units on `outdoor 10`, which takes so many; `outdoor 20` takes nine."""
    bound = {"max": limit}
    groups = [
        {"modules": ["outdoor 10"], "index": 10, "indoor_count": bound},
        {"modules": ["outdoor 20"], "index": 20, "indoor_count": {"max": 9}},
    ]
    limits = [{"measure": "indoor_count", "max": "group"}]
    runs, units = two_units("1 m", "2 m")
    found = judge(design([system(runs, units)]), book({"outdoor.groups": groups, "limits": limits}))
    return [note.text for note in the_system(found).notes if "group" in note.text]


def test_other_groups_are_named_only_where_this_one_does_not_serve() -> None:
    assert said_of_groups(2) == []
    (text,) = said_of_groups(1)
    assert "outdoor 20" in text


def test_the_working_of_a_unit_has_no_need_where_it_serves_no_room() -> None:
    runs = [run("outdoor", "J1", "9 m"), run("J1", "A", "1 m"), run("J1", "B", "1 m")]
    units = [unit("A", 2, room="x"), unit("B", 2)]
    found = judge(design([system(runs, units)], rooms=[room("x", "1 kW")], site=SITE))
    needs = {
        name: [item.name for step in working(found, f"main/unit:{name}.cooling").steps for item in step.inputs]
        for name in "AB"
    }
    assert "its part of the room's load" in needs["A"]
    assert "its part of the room's load" not in needs["B"]
