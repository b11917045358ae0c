"""Where a run lies decides its tubes: before a box, behind one, or on the way to none."""

import pytest

from linewright.engine.zones import Zone
from linewright.model.values import Role
from tests.engine.builders import Doc, design, judge, system, the_run, the_system, unit
from tests.recovery.builders import book, box, in_series, judged, one_box, run

OUTER = {Role.SUCTION, Role.HIGH_LOW, Role.LIQUID}
INNER = {Role.GAS, Role.LIQUID}
DIRECT = {Role.SUCTION, Role.LIQUID}


def joint_before() -> Doc:
    """J1 parts to box B1 with one unit, and to unit X that has no box; beyond B1 the joint J2 parts to two units."""
    runs = [run("outdoor", "J1"), run("J1", "X"), run("J1", "B1"), run("B1", "J2"), run("J2", "A"), run("J2", "B")]
    return system(runs, [unit("X", 1), unit("A", 2), unit("B", 2)], fittings=[box("B1")])


def off_the_through_pipe() -> Doc:
    """B1 leads on to J1, where the pipe parts to box B2 and to unit X, which no box stands before."""
    runs = [run("outdoor", "B1"), run("B1", "A"), run("B1", "J1"), run("J1", "X"), run("J1", "B2"), run("B2", "B")]
    return system(runs, [unit(name, 1) for name in "AXB"], fittings=[box("B1"), box("B2")])


@pytest.mark.parametrize(
    ("laid_out", "zones"),
    [
        (one_box({"A": 2}), {"B1": Zone.OUTER, "A": Zone.INNER}),
        (
            joint_before(),
            {
                "J1": Zone.OUTER,
                "X": Zone.DIRECT,
                "B1": Zone.OUTER,
                "J2": Zone.INNER,
                "A": Zone.INNER,
                "B": Zone.INNER,
            },
        ),
        (
            in_series({"A": 1}, {"B": 1}),
            {"B1": Zone.OUTER, "A": Zone.INNER, "B2": Zone.OUTER, "B": Zone.INNER},
        ),
        (
            off_the_through_pipe(),
            {
                "B1": Zone.OUTER,
                "A": Zone.INNER,
                "J1": Zone.OUTER,
                "X": Zone.DIRECT,
                "B2": Zone.OUTER,
                "B": Zone.INNER,
            },
        ),
    ],
    ids=["one box", "a joint before and a joint behind", "in series", "a unit off the through pipe"],
)
def test_a_run_lies_before_a_box_behind_one_or_on_the_way_to_none(laid_out: Doc, zones: dict[str, Zone]) -> None:
    found = the_system(judged(laid_out))
    assert {found.tree.ids[i]: zone for i, zone in enumerate(found.state.ground.zones)} == zones


def test_tubes_follow_where_a_run_lies() -> None:
    found = judged(joint_before())
    tubes = {name: set(the_run(found, name).tubes) for name in ("J1", "X", "B1", "J2", "A")}
    assert tubes == {"J1": OUTER, "X": DIRECT, "B1": OUTER, "J2": INNER, "A": INNER}


def test_a_system_without_any_box_has_two_tubes_all_the_way() -> None:
    laid_out = system([run("outdoor", "A")], [unit("A", 2)])
    assert set(the_run(judge(design([laid_out]), book()), "A").tubes) == DIRECT


def test_a_unit_that_does_without_a_box_is_behind_none() -> None:
    """X hangs on J1, whose other arm leads to B1; only A and B are behind a box, both behind B1."""
    ground = the_system(judged(joint_before())).state.ground
    behind = {ground.tree.ids[i]: ground.tree.ids[at] for i, at in enumerate(ground.box_before) if at >= 0}
    assert behind == {"J2": "B1", "A": "B1", "B": "B1"}
