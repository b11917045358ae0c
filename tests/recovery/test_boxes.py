"""Mode boxes: which one the book picks, their ports, and everything that can be too much for one."""

from collections.abc import Sequence

import pytest

from linewright.engine.records import Standing
from linewright.report.check_json import check_json
from tests.engine.builders import Doc, design, judge, subjects, system, the_check, the_run, the_system, unit
from tests.engine.builders import book as plain_book
from tests.engine.builders import model as model_row
from tests.recovery.builders import BOXES, book, box, boxes, in_series, judged, notes_on, one_box, run


def model_of(laid_out: Doc, name: str = "B1", changes: Doc | None = None) -> str:
    found = the_system(judged(laid_out, changes))
    return next(fitting.model for fitting in found.fittings if fitting.id == name)


@pytest.mark.parametrize(
    ("indices", "model"),
    [
        ([6], "box 1"),  # one port, an index of 6
        ([6.5], "box 4"),  # box 1 ends at 6, and no port carries so much: the first with ports and index enough
        ([3, 3], "box 4"),
        ([5, 5, 2], "box 4"),  # 12, at its edge
        ([5, 5, 3], "box 8"),  # 13
        ([6, 2], "box 8"),  # a port of box 4 carries 5 at most
        ([2, 2, 2, 2, 2], "box 8"),  # five ports
        ([4, 4, 4, 4, 5], ""),  # 21: beyond every box
        ([1] * 9, ""),  # nine ports
    ],
)
def test_the_box_with_the_fewest_ports_that_serves_is_picked(indices: Sequence[float], model: str) -> None:
    used = {"indoor": {"models": [model_row(index) for index in sorted({*indices, 1})]}}
    found = judged(one_box({f"U{i}": index for i, index in enumerate(indices)}), used)
    assert next(fitting.model for fitting in the_system(found).fittings if fitting.id == "B1") == model
    assert the_check(found, "fitting:B1").standing is Standing.OVER if not model else True


def test_no_box_for_so_many_ports_is_over() -> None:
    found = judged(one_box({f"U{i}": 1 for i in range(9)}))
    assert notes_on(found, "fitting:B1") == ["no box of this book has 9 ports and carries an index of 9"]


def test_ports_are_as_stated_and_else_the_next_free_ones_in_the_order_of_the_file() -> None:
    found = judged(one_box({"A": 1, "B": 1, "C": 1, "D": 1}, model="box 8", ports={"B": [1], "D": [3, 4]}))
    assert [the_run(found, name).ports for name in "ABCD"] == [(2,), (1,), (5,), (3, 4)]


def test_unused_ports_are_counted_as_caps() -> None:
    shown = check_json(judged(one_box({"A": 2, "B": 2, "C": 1})))["systems"][0]["fittings"]
    box_ = next(fitting for fitting in shown if fitting["id"] == "B1")
    assert (box_["model"], box_["ports"], box_["ports_used"], box_["caps"]) == ("box 4", 4, 3, 1)
    assert (box_["own_index"], box_["through_index"], box_["boxes_on_way"]) == (5, 0, 1)


def test_a_box_of_the_designers_choice_is_judged_by_its_own_bounds() -> None:
    """An index of 7 on one port of a box of one port, which ends at 6."""
    found = judged(one_box({"A": 5, "B": 2}, model="box 1"))
    assert notes_on(found, "fitting:B1") == ["its ports carry more than this box may", "box 1 has no port 2"]


def test_a_port_number_that_the_box_does_not_have_is_over() -> None:
    found = judged(one_box({"A": 2}, model="box 4", ports={"A": [5]}))
    check = the_check(found, "fitting:B1")
    assert (check.standing, check.value, check.bound, check.note) == (Standing.OVER, 5, 4, "box 4 has no port 5")


def test_a_port_that_two_runs_use_is_over() -> None:
    found = judged(one_box({"A": 2, "B": 2, "C": 1}, ports={"A": [2], "B": [2]}))
    check = the_check(found, "fitting:B1")
    assert (check.measure, check.standing, check.governs) == ("box_ports_twice", Standing.OVER, ("A", "B"))
    assert check.note == "port 2 is used by more than one run"


@pytest.mark.parametrize(("index", "within"), [(5, True), (6, False)])
def test_a_port_carries_no_more_than_the_box_says(index: float, within: bool) -> None:  # noqa: FBT001 - a case
    found = judged(one_box({"A": index, "B": 1}, model="box 4"))
    assert ("fitting:B1" not in subjects(found)) is within
    if not within:
        check = the_check(found, "fitting:B1")
        assert (check.measure, check.value, check.bound, check.margin, check.governs) == (
            "port_index",
            6,
            5,
            -1,
            ("A",),
        )


@pytest.mark.parametrize(("units", "within"), [(2, True), (3, False)])
def test_a_port_has_no_more_units_than_the_box_says(units: int, within: bool) -> None:  # noqa: FBT001 - a case
    """One port of box 4, on it a header with two or three units of 1."""
    names = [f"U{i}" for i in range(units)]
    runs = [run("outdoor", "B1"), run("B1", "H1"), *(run("H1", name) for name in names)]
    header = {"id": "H1", "kind": "header"}
    laid_out = system(runs, [unit(name, 1) for name in names], fittings=[box("B1", "box 4"), header])
    headers = {"rows": [{"upto": 10, "ports": 4, "model": "small header"}]}
    found = judged(laid_out, {"fittings.below_box_header": headers})
    assert ("fitting:B1" not in subjects(found)) is within
    if not within:
        check = the_check(found, "fitting:B1")
        assert (check.measure, check.value, check.bound, check.governs) == ("units_per_port", 3, 2, ("H1",))


@pytest.mark.parametrize(
    ("index", "ports", "model", "note"),
    [
        (10, [1, 2], "box 4", ""),  # joined, at the edge of 10; one port alone carries 5
        (10, [1, 2, 3], "box 4", "box 4 lets no 3 ports be joined"),
        (6, [1, 2], "box 8", "box 8 lets no 2 ports be joined"),
    ],
)
def test_joined_ports_are_one_with_bounds_of_their_own(index: float, ports: list[int], model: str, note: str) -> None:
    found = judged(one_box({"A": index}, model=model, ports={"A": ports}))
    assert notes_on(found, "fitting:B1") == ([note] if note else [])


def test_a_box_that_lets_ports_be_joined_is_picked_for_joined_ports() -> None:
    """Two joined ports with an index of 10: box 4 lets two be joined for 10, box 8 none."""
    assert model_of(one_box({"A": 10}, ports={"A": [1, 2]})) == "box 4"


def test_joined_ports_carry_no_more_than_they_may_together() -> None:
    """Two units of 5 and one of 1 on the joined ports: 11, and 10 is allowed; three units are."""
    runs = [run("outdoor", "B1"), run("B1", "J1", ports=[1, 2]), run("J1", "A"), run("J1", "J2")]
    runs += [run("J2", "B"), run("J2", "C")]
    units = [unit("A", 5), unit("B", 5), unit("C", 1)]
    found = judged(system(runs, units, modules=["outdoor 20"], fittings=[box("B1", "box 4")]))
    check = the_check(found, "fitting:B1")
    assert (check.measure, check.value, check.bound, check.governs) == ("port_index", 11, 10, ("J1",))


def test_a_book_that_says_nothing_of_boxes_in_series_allows_none() -> None:
    found = judged(in_series({"A": 2}, {"B": 2}))
    assert notes_on(found, "fitting:B2") == ["this book lets no box stand behind another"]


def test_boxes_in_series_are_counted_along_the_way() -> None:
    """Three in a row on a bound of two: the third is one too many."""
    runs = [run("outdoor", "B1"), run("B1", "A"), run("B1", "B2"), run("B2", "B"), run("B2", "B3"), run("B3", "C")]
    laid_out = system(runs, [unit(name, 1) for name in "ABC"], fittings=[box("B1"), box("B2"), box("B3")])
    found = judged(laid_out, boxes({"series": {"max": 2, "page": 44}}))
    check = the_check(found, "fitting:B3")
    assert (check.measure, check.value, check.bound, check.page) == ("boxes_in_series", 3, 2, 44)
    assert [name for name in subjects(found) if name.startswith("fitting")] == ["fitting:B3"]


@pytest.mark.parametrize(("beyond", "within"), [({"B": 4, "C": 4}, True), ({"B": 4, "C": 5}, False)])
def test_a_box_carries_on_no_more_than_it_may(beyond: dict[str, float], within: bool) -> None:  # noqa: FBT001 - a case
    """Box 4 carries on 8."""
    laid_out = in_series({"A": 1}, beyond, models=("box 4", "box 8"))
    found = judged(laid_out, boxes({"series": {"max": 2}}))
    assert notes_on(found, "fitting:B1") == ([] if within else ["it carries on more than this box may"])


def test_the_index_of_a_box_is_that_of_its_own_ports() -> None:
    """4 on its own ports and 4 carried on: 8 through the pipe before it, 4 on the box."""
    found = judged(in_series({"A": 4}, {"B": 4}), boxes({"series": {"max": 2}}))
    first = next(one for one in the_system(found).state.ground.boxes if one.id == "B1")
    assert (first.own_index, first.through_index, the_run(found, "B1").downstream_index) == (4, 4, 8)
    assert first.used == (1,)


def test_pipe_to_another_box_leaves_by_no_port() -> None:
    laid_out = in_series({"A": 4}, {"B": 4})
    next(item for item in laid_out["runs"] if item["to"] == "B2")["ports"] = [2]
    found = judged(laid_out, boxes({"series": {"max": 2}}))
    assert notes_on(found, "fitting:B1") == ["pipe to another box leaves by the through pipe of a box, not by a port"]


def direct(*, allowed: Doc | None = None) -> Doc:
    return boxes({} if allowed is None else {"direct": allowed})


def beside_a_box() -> Doc:
    """X of 2 hangs on J1 without a box, A of 2 behind B1."""
    runs = [run("outdoor", "J1"), run("J1", "X"), run("J1", "B1"), run("B1", "A")]
    return system(runs, [unit("X", 2), unit("A", 2)], fittings=[box("B1")])


@pytest.mark.parametrize(
    ("allowed", "within"),
    [
        (None, False),
        ({"page": 45}, True),
        ({"kind": ["wall"]}, True),
        ({"model": ["unit 2"]}, True),
        ({"model": ["unit 3"]}, False),
    ],
    ids=["nothing is said", "any", "its kind", "its model", "another model"],
)
def test_a_unit_without_a_box_wants_the_books_leave(allowed: Doc | None, within: bool) -> None:  # noqa: FBT001 - a case
    found = judged(beside_a_box(), direct(allowed=allowed))
    assert notes_on(found, "unit:X") == ([] if within else ["this book wants a mode box before it"])


def test_a_unit_without_a_box_is_named_as_cooling_only() -> None:
    found = judged(beside_a_box(), direct(allowed={}))
    assert "without a mode box, so cooling only: X" in [note.text for note in the_system(found).notes]


def test_a_box_at_which_the_pipe_ends_is_over() -> None:
    runs = [run("outdoor", "J1"), run("J1", "A"), run("J1", "B1")]
    found = judged(system(runs, [unit("A", 2)], fittings=[box("B1", "box 1")]), direct(allowed={}))
    assert "the pipe ends at B1 without a unit" in notes_on(found, "fitting:B1")


def test_a_box_in_a_heat_pump_is_over() -> None:
    laid_out = one_box({"A": 2})
    found = judge(design([laid_out]), plain_book())
    assert notes_on(found, "fitting:B1") == ["no box of this book serves it"]


def test_tubes_of_another_size_than_the_connection_of_their_box_are_named() -> None:
    """Suction of the main 22.22 on 19.05; port 1 gas 12.7 on 15.88, port 2 is joined and has no size of its own."""
    sized = {**BOXES["models"][1], "suction": "19.05 mm", "liquid": "9.52 mm", "outlet": {"gas": "15.88 mm"}}
    laid_out = one_box({"A": 2, "B": 2}, ports={"B": [2, 3]})
    found = judged(laid_out, {"boxes": {"models": [sized]}})
    said = [note.text for note in the_system(found).notes if "connection" in note.text]
    assert said == ["tubes of another size than the connection of their box: B1 suction, port 1"]


def test_a_joint_behind_a_box_is_a_small_one() -> None:
    runs = [run("outdoor", "J1"), run("J1", "B1"), run("J1", "B2"), run("B1", "J2"), run("J2", "A"), run("J2", "B")]
    laid_out = system([*runs, run("B2", "C")], [unit(n, 2) for n in "ABC"], fittings=[box("B1"), box("B2")])
    found = {fitting.id: fitting for fitting in the_system(judged(laid_out)).fittings}
    assert (found["J1"].model, found["J2"].model) == ("first", "small joint")
    row = found["J2"].row
    assert row is not None
    assert (row.path, row.page, row.number) == ("fittings.below_box.rows", 43, 4)


def test_a_book_without_joints_behind_a_box_serves_none() -> None:
    runs = [run("outdoor", "B1"), run("B1", "J1"), run("J1", "A"), run("J1", "B")]
    laid_out = system(runs, [unit("A", 2), unit("B", 2)], fittings=[box("B1")])
    without = {key: table for key, table in book()["fittings"].items() if key != "below_box"}
    found = judged(laid_out, {"fittings": without})
    assert notes_on(found, "fitting:J1") == ["no joint of this book serves it"]


def test_a_header_before_the_boxes_and_one_behind_them_are_of_their_own_tables() -> None:
    runs = [run("outdoor", "H1"), run("H1", "B1"), run("H1", "B2"), run("B1", "H2"), run("H2", "A"), run("H2", "B")]
    fittings = [{"id": "H1", "kind": "header"}, box("B1"), box("B2"), {"id": "H2", "kind": "header"}]
    laid_out = system([*runs, run("B2", "C")], [unit(n, 1) for n in "ABC"], fittings=fittings)
    used = {
        "fittings.below_box_header": {"rows": [{"upto": 4, "ports": 2, "port_index": 0.5, "model": "small header"}]}
    }
    found = judged(laid_out, used)
    models = {fitting.id: fitting.model for fitting in the_system(found).fittings}
    assert (models["H1"], models["H2"]) == ("header 8", "small header")
    assert notes_on(found, "fitting:H2") == ["a port carries more than one port of this header may"]


@pytest.mark.parametrize(
    ("chosen", "model"), [("", "four"), ("eight", "eight"), ("four", "four"), ("two", "")], ids=str
)
def test_a_header_of_the_designers_choice_is_kept_where_it_serves(chosen: str, model: str) -> None:
    """Three units of 1: two ports are too few."""
    rows = [{"upto": 10, "ports": n, "model": name} for n, name in ((2, "two"), (4, "four"), (8, "eight"))]
    runs = [run("outdoor", "H1"), *(run("H1", name) for name in "ABC")]
    header = {"id": "H1", "kind": "header"} | ({"model": chosen} if chosen else {})
    laid_out = system(runs, [unit(name, 1) for name in "ABC"], fittings=[header])
    found = judge(design([laid_out]), plain_book({"fittings.header": {"rows": rows}}))
    assert the_system(found).fittings[0].model == model
    assert ("fitting:H1" in subjects(found)) is (not model)
