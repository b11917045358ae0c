"""Tube sizes of a heat-recovery system: which table serves which run, overrides, size actions, the cap at the main.

Sizes in mm, in the order of the book's tables: suction, high_low, liquid before a box; gas, liquid behind it.
"""

import pytest

from linewright.engine import Evaluation
from linewright.engine.figures import TableRow
from linewright.engine.records import Standing
from tests.engine.builders import Doc, system, the_check, the_limit, the_system, tube_mm, unit
from tests.recovery.builders import book, box, judged, notes_on, one_box, outer, run

BEFORE = ("suction", "high_low", "liquid")
BEHIND = ("gas", "liquid")


def parted(*, module: str = "outdoor 10") -> Doc:
    """J1 parts to B1 with A of 3, and to B2, behind whose port 1 the joint J2 parts to B of 2 and C of 2."""
    runs = [run("outdoor", "J1"), run("J1", "B1"), run("B1", "A"), run("J1", "B2"), run("B2", "J2")]
    runs += [run("J2", "B"), run("J2", "C")]
    units = [unit("A", 3), unit("B", 2), unit("C", 2)]
    return system(runs, units, modules=[module], fittings=[box("B1"), box("B2", "box 1")])


def test_each_run_is_looked_up_where_it_lies() -> None:
    found = judged(parted())
    assert [tube_mm(found, "J1", role) for role in BEFORE] == [22.22, 19.05, 9.52]  # main, by the outdoor index 10
    assert [tube_mm(found, "B2", role) for role in BEFORE] == [15.88, 12.7, 6.35]  # branch, index 4
    assert [tube_mm(found, "J2", role) for role in BEHIND] == [15.88, 6.35]  # below_box, index 4
    assert [tube_mm(found, "C", role) for role in BEHIND] == [12.7, 6.35]  # the unit's ports
    rows = {name: row.path for name in ("J1", "B2", "J2", "C") if (row := table_row(found, name)) is not None}
    assert rows == {
        "J1": "sizing.main.rows",
        "B2": "sizing.branch.rows",
        "J2": "sizing.below_box.rows",
        "C": "indoor.models",
    }


def table_row(found: Evaluation, name: str) -> TableRow | None:
    result = the_system(found)
    return result.state.table.rows[result.tree.at[name]]


def test_a_book_without_sizes_behind_a_box_serves_no_branch_there() -> None:
    used = book()
    del used["sizing"]["below_box"]
    found = judged(parted(), {"sizing": used["sizing"]})
    check = the_check(found, "run:J2")
    assert (check.standing, check.value) == (Standing.OVER, 4)
    assert check.note == "this book has no sizes for pipe that branches behind a mode box"


def test_an_index_beyond_the_table_behind_a_box_is_over() -> None:
    """Two units of 6 on one port: 12, and the table ends at 10."""
    runs = [run("outdoor", "B1"), run("B1", "J1"), run("J1", "A"), run("J1", "B")]
    found = judged(system(runs, [unit("A", 6), unit("B", 6)], modules=["outdoor 20"], fittings=[box("B1", "box 8")]))
    check = the_check(found, "run:J1")
    assert (check.standing, check.value, check.bound) == (Standing.OVER, 12, 10)
    assert check.note == "no row of the table gives gas and liquid"


def test_the_gas_port_of_a_unit_without_a_box_meets_the_suction_tube() -> None:
    runs = [run("outdoor", "J1"), run("J1", "X"), run("J1", "B1"), run("B1", "A")]
    found = judged(system(runs, [unit("X", 2), unit("A", 2)], fittings=[box("B1")]))
    assert [tube_mm(found, "X", role) for role in ("suction", "liquid")] == [12.7, 6.35]


def test_pipe_to_several_units_without_a_box_has_the_suction_and_liquid_of_its_row() -> None:
    runs = [run("outdoor", "J1"), run("J1", "B1"), run("B1", "A"), run("J1", "J2"), run("J2", "X"), run("J2", "Y")]
    found = judged(system(runs, [unit("A", 2), unit("X", 2), unit("Y", 1)], fittings=[box("B1")]))
    assert [tube_mm(found, "J2", role) for role in ("suction", "liquid")] == [15.88, 6.35]  # branch, index 3


def test_an_override_of_a_tube_that_the_run_does_not_have_is_over() -> None:
    laid_out = one_box({"A": 2})
    laid_out["runs"][0]["override"] = {"gas": "22.22 mm"}
    laid_out["runs"][1]["override"] = {"suction": "22.22 mm", "high": "9.52 mm"}
    found = judged(laid_out)
    assert the_check(found, "run:B1.gas").standing is Standing.OVER
    assert notes_on(found, "run:B1.gas") == ["the pipe here has no gas line"]
    assert notes_on(found, "run:A.suction") == ["the pipe here has no suction line"]
    assert notes_on(found, "run:A.high") == ["this book has no high line"]


def test_an_override_of_the_high_low_tube_is_judged_against_its_table() -> None:
    laid_out = one_box({"A": 2})
    laid_out["runs"][0]["override"] = {"high_low": "15.88 mm"}
    check = the_check(judged(laid_out), "run:B1.high_low")
    assert (check.standing, check.note) == (Standing.OVER, "smaller than the table size")


@pytest.mark.parametrize(("cap", "gas"), [("main", 15.88), ("none", 19.05)])
def test_gas_behind_a_box_is_capped_at_the_suction_of_the_main(cap: str, gas: float) -> None:
    """Index 5 behind the box wants gas of 19.05; the suction of the main is 15.88 here."""
    runs = [run("outdoor", "B1"), run("B1", "J1"), run("J1", "A"), run("J1", "B")]
    laid_out = system(runs, [unit("A", 3), unit("B", 2)], fittings=[box("B1", "box 8")])
    used = book()
    used["sizing"]["main"]["rows"][0] = outer(10, "15.88 mm", "15.88 mm", "9.52 mm")
    used["sizing"]["cap"] = cap
    found = judged(laid_out, {"sizing": used["sizing"]})
    assert tube_mm(found, "J1", "gas") == gas
    assert tube_mm(found, "J1", "liquid") == 9.52


def far(lines: list[str], *, runs: str = "main", capped: str = "fails") -> Doc:
    """A limit of 5 m with a wider bound of 50 m for which an action has to be carried out."""
    need = {"max": "50 m", "needs": [{"action": "up"}]}
    action = {"id": "up", "runs": runs, "lines": lines}
    sizing = book()["sizing"] | {"actions": [action], "capped": capped}
    return {"sizing": sizing, "limits": [{"measure": "farthest_actual", "max": "5 m", "relaxed": [need]}]}


def test_an_action_takes_each_tube_up_its_own_ladder() -> None:
    """suction 22.22 to 25.4, high_low 19.05 to 22.22; liquid is not asked."""
    found = judged(one_box({"A": 2}), far(["suction", "high_low"]))
    assert [tube_mm(found, "B1", role) for role in BEFORE] == [25.4, 22.22, 9.52]
    assert the_limit(found, "farthest_actual").standing is Standing.ON_CONDITIONS


def test_an_action_leaves_alone_the_tubes_that_a_run_does_not_have() -> None:
    """All lines of the whole path: before the box three go up, behind it gas 12.7 to 15.88 and liquid 6.35 to 9.52."""
    found = judged(one_box({"A": 2}), far(["suction", "high_low", "liquid", "gas"], runs="path"))
    assert [tube_mm(found, "B1", role) for role in BEFORE] == [25.4, 22.22, 12.7]
    assert [tube_mm(found, "A", role) for role in BEHIND] == [15.88, 9.52]
    assert set(the_system(found).runs[1].tubes) == {"suction", "high_low", "liquid"}


def test_gas_that_goes_up_behind_a_box_raises_the_suction_of_the_main() -> None:
    """The unit of 10 has gas of 12.7; one step up is 15.88, more than the suction of 12.7 of this main."""
    changes = far(["gas"], runs="unit-run", capped="raises-main")
    changes["sizing"]["main"] = {"rows": [outer(10, "12.7 mm", "12.7 mm", "9.52 mm")]}
    found = judged(one_box({"A": 10}, model="box 8"), changes)
    assert (tube_mm(found, "A", "gas"), tube_mm(found, "B1", "suction")) == (15.88, 15.88)
    assert tube_mm(found, "B1", "high_low") == 12.7


def test_gas_that_the_suction_of_the_main_holds_back_has_not_gone_up() -> None:
    changes = far(["gas"], runs="unit-run")
    changes["sizing"]["main"] = {"rows": [outer(10, "12.7 mm", "12.7 mm", "9.52 mm")]}
    found = judged(one_box({"A": 10}, model="box 8"), changes)
    assert tube_mm(found, "A", "gas") == 12.7
    assert the_limit(found, "farthest_actual").standing is Standing.OVER
