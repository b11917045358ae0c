"""One mode box: which tubes lead to it and from it, and the box that the book picks."""

from linewright.engine.records import RunResult
from linewright.model.values import Role
from tests.engine.builders import design, judge, subjects, the_run, the_system, tube_mm
from tests.recovery.builders import book, one_box


def roles(run: RunResult) -> set[Role]:
    return set(run.tubes)


def test_three_tubes_lead_to_a_box_and_two_from_it() -> None:
    found = judge(design([one_box({"A": 3, "B": 2})]), book())
    assert roles(the_run(found, "B1")) == {Role.SUCTION, Role.HIGH_LOW, Role.LIQUID}
    assert roles(the_run(found, "A")) == {Role.GAS, Role.LIQUID}
    assert [tube_mm(found, "B1", role) for role in ("suction", "high_low", "liquid")] == [22.22, 19.05, 9.52]
    assert [tube_mm(found, "A", role) for role in ("gas", "liquid")] == [12.7, 6.35]
    assert subjects(found) == []


def test_the_book_picks_the_smallest_box_that_serves() -> None:
    """Two ports and an index of 5: the box of four."""
    found = judge(design([one_box({"A": 3, "B": 2})]), book())
    box = next(fitting for fitting in the_system(found).fittings if fitting.id == "B1")
    assert (box.model, box.ports, box.ports_used, box.index) == ("box 4", 4, 2, 5)
    assert [the_run(found, name).ports for name in ("A", "B")] == [(1,), (2,)]


def test_mixed_operation_is_said_to_be_unjudged() -> None:
    found = judge(design([one_box({"A": 3, "B": 2})]), book())
    assert any("both modes at once" in caution for caution in found.cautions)
