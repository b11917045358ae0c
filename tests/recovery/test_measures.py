"""Measures of mode boxes, each worked by hand on one small system, in every variant it has."""

import pytest

from linewright.engine.figures import Series
from linewright.engine.records import Standing
from tests.engine.builders import Doc, design, judge, system, the_limit, the_system, unit
from tests.engine.builders import book as plain_book
from tests.recovery.builders import box, boxes, judged, run

OF_BOXES = (
    "joint_to_box",
    "box_to_unit",
    "level_between_boxes",
    "level_within_box",
    "box_index",
    "through_index",
    "port_index",
    "units_per_port",
    "boxes_in_series",
    "box_count",
)


def station(*, b1: str = "3 m", a: str = "1 m") -> Doc:
    """J1 at 10 m; B1 7 m on; B2 5 m through it; C on B3, 2 m from J1. Lengths from the boxes: A 4, B 6 + 1, D 9, C 3.

    Levels: B1 3 m, B2 8 m, B3 1 m; A 1 m and B 4.5 m behind B1, D 9 m behind B2, C 0 m.
    """
    runs = [run("outdoor", "J1", "10 m"), run("J1", "B1", "7 m", bends=2), run("B1", "A", "4 m", bends=1)]
    runs += [run("B1", "K", "6 m"), run("K", "B", "1 m"), run("B1", "B2", "5 m"), run("B2", "D", "9 m")]
    runs += [run("J1", "B3", "2 m"), run("B3", "C", "3 m")]
    units = [unit("A", 2, elevation=a), unit("B", 3, elevation="4.5 m"), unit("D", 4, elevation="9 m"), unit("C", 1)]
    fittings = [box("B1", elevation=b1), box("B2", elevation="8 m"), box("B3", elevation="1 m")]
    return system(runs, units, fittings=fittings)


def measured(use: Doc, laid_out: Doc | None = None, **changes: Doc) -> Series:
    """Series of a measure that a limit of the book is put on."""
    limit = {"max": "1000 m" if any(word in use["measure"] for word in ("level", "_to_", "farthest")) else 1000} | use
    used = boxes({"series": {"max": 3}}) | {"limits": [limit], **changes}
    found = the_system(judged(laid_out or station(), used))
    return found.measures[0].series


def test_joint_to_box_goes_back_to_the_branch_before_it() -> None:
    """B1 to J1 7, B2 to B1 5, B3 to J1 2."""
    series = measured({"measure": "joint_to_box"})
    assert series.values == pytest.approx({"B1": 7, "B2": 5, "B3": 2})
    assert (series.value, series.governs) == (7, ("B1",))


def test_joint_to_box_of_the_first_branch_goes_back_to_the_root() -> None:
    laid_out = system([run("outdoor", "B1", "12 m"), run("B1", "A", "3 m")], [unit("A", 2)], fittings=[box("B1")])
    assert measured({"measure": "joint_to_box"}, laid_out).values == {"B1": 12}


ALLOWED: Doc = {
    "fittings.allowance": {"bend": "0.5 m", "joint": "1 m", "header": "0 m", "box": "2 m", "outdoor_joint": "0 m"}
}


def test_joint_to_box_by_equivalent_lengths_counts_bends_and_the_box() -> None:
    """B1: 7 + 2 bends of 0.5 + 2 for the box = 10; B2: 5 + 2; B3: 2 + 2."""
    series = measured({"measure": "joint_to_box", "lengths": "equivalent"}, **ALLOWED)
    assert series.values == pytest.approx({"B1": 10, "B2": 7, "B3": 4})


def test_box_to_unit_goes_through_couplings() -> None:
    series = measured({"measure": "box_to_unit"})
    assert series.values == pytest.approx({"A": 4, "B": 7, "D": 9, "C": 3})
    assert (series.value, series.governs) == (9, ("D",))


def test_box_to_unit_by_equivalent_lengths() -> None:
    """A: 4 + one bend of 0.5."""
    series = measured({"measure": "box_to_unit", "lengths": "equivalent"}, **ALLOWED)
    assert series.values == pytest.approx({"A": 4.5, "B": 7, "D": 9, "C": 3})


def test_box_to_unit_leaves_out_a_unit_without_a_box() -> None:
    runs = [run("outdoor", "J1"), run("J1", "X", "8 m"), run("J1", "B1"), run("B1", "A", "3 m")]
    laid_out = system(runs, [unit("X", 2), unit("A", 2)], fittings=[box("B1")])
    assert measured({"measure": "box_to_unit"}, laid_out).values == {"A": 3}


def test_box_to_unit_may_be_of_some_units() -> None:
    series = measured({"measure": "box_to_unit", "where": {"model": ["unit 3", "unit 1"]}})
    assert series.values == pytest.approx({"B": 7, "C": 3})


def test_an_unknown_length_behind_a_box_leaves_a_lower_bound() -> None:
    laid_out = station()
    for item in laid_out["runs"]:
        item["bends"] = 0
        item["length"] = "unknown" if item["to"] == "B" else item["length"]
    used = boxes({"series": {"max": 3}}) | {"limits": [{"measure": "box_to_unit", "max": "9 m"}]}
    check = the_limit(judged(laid_out, used), "box_to_unit")
    assert (check.standing, check.missing, check.left) == (Standing.UNJUDGED, ("length of run B",), 3)


def test_level_between_boxes() -> None:
    """B2 at 8, B3 at 1."""
    series = measured({"measure": "level_between_boxes"})
    assert (series.value, series.governs) == (7, ("B2", "B3"))


def test_level_within_box_is_judged_box_by_box() -> None:
    """Behind B1 A at 1 and B at 4.5: 3.5; behind B2 and B3 one unit each."""
    series = measured({"measure": "level_within_box"})
    assert series.values == pytest.approx({"B1": 3.5, "B2": 0, "B3": 0})
    assert (series.value, series.governs) == (3.5, ("B1",))


def test_level_within_box_lacks_the_elevation_of_a_unit() -> None:
    series = measured({"measure": "level_within_box"}, station(a=""))
    assert series.missing == ("elevation of A",)


def test_a_box_without_any_level_leaves_the_levels_between_boxes_unknown() -> None:
    """One unit behind B2 and its level unknown: nothing says where B2 is."""
    runs = [run("outdoor", "J1"), run("J1", "B1"), run("B1", "A"), run("J1", "B2"), run("B2", "B")]
    units = [unit("A", 2), unit("B", 2, elevation="")]
    laid_out = system(runs, units, fittings=[box("B1"), box("B2")])
    series = measured({"measure": "level_between_boxes"}, laid_out)
    assert (series.value, series.missing) == (None, ("elevation of B2",))


def test_box_index_is_that_of_its_own_ports() -> None:
    """B1: 2 + 3, without the 4 that it carries on."""
    series = measured({"measure": "box_index"})
    assert series.values == {"B1": 5, "B2": 4, "B3": 1}
    assert (series.value, series.governs) == (5, ("B1",))


def test_through_index_is_what_a_box_carries_on() -> None:
    series = measured({"measure": "through_index"})
    assert series.values == {"B1": 4}


def test_port_index_names_the_run_on_the_port() -> None:
    """The run to the coupling K carries B."""
    assert measured({"measure": "port_index"}).values == {"A": 2, "K": 3, "D": 4, "C": 1}


def test_units_per_port_counts_joined_ports_as_one() -> None:
    runs = [run("outdoor", "B1"), run("B1", "J1", ports=[1, 2]), run("J1", "A"), run("J1", "B"), run("B1", "C")]
    laid_out = system(runs, [unit(name, 2) for name in "ABC"], fittings=[box("B1", "box 4")])
    assert measured({"measure": "units_per_port"}, laid_out).values == {"J1": 2, "C": 1}


def test_boxes_in_series_counts_the_way_to_each_box() -> None:
    series = measured({"measure": "boxes_in_series"})
    assert series.values == {"B1": 1, "B2": 2, "B3": 1}
    assert (series.value, series.governs) == (2, ("B2",))


def test_box_count() -> None:
    series = measured({"measure": "box_count"})
    assert (series.value, series.governs) == (3, ("B1", "B2", "B3"))


@pytest.mark.parametrize("name", OF_BOXES)
def test_in_a_heat_pump_no_measure_of_boxes_applies(name: str) -> None:
    bound = "1 m" if "level" in name or "_to_" in name else 0
    laid_out = system([run("outdoor", "A")], [unit("A", 5)])
    found = judge(design([laid_out]), plain_book({"limits": [{"measure": name, "max": bound}]}))
    assert the_limit(found, name).standing is Standing.NOT_APPLICABLE


def test_the_length_of_each_tube_is_counted_where_it_is() -> None:
    """Main 10 x 3 tubes, to the box 4 x 3, behind it 2 x 2, without a box 5 x 2: 30 + 12 + 4 + 10 = 56."""
    runs = [run("outdoor", "J1", "10 m"), run("J1", "B1", "4 m"), run("B1", "A", "2 m"), run("J1", "X", "5 m")]
    laid_out = system(runs, [unit("A", 2), unit("X", 2)], fittings=[box("B1")])
    limit = {"measure": "total_length", "each_tube": "yes", "max": "60 m"}
    found = judged(laid_out, {"limits": [limit]})
    assert the_limit(found, "total_length").value == pytest.approx(56)


def test_module_pipes_have_the_tubes_of_the_main() -> None:
    """Twin: main 10 x 3, behind the box 2 x 2, module pipes (1 + 2) x 3: 30 + 4 + 9 = 43."""
    pipes = [{"from": "outdoor", "to": "M1", "length": "1 m"}, {"from": "outdoor", "to": "M2", "length": "2 m"}]
    runs = [run("outdoor", "B1", "10 m"), run("B1", "A", "2 m")]
    laid_out = system(runs, [unit("A", 5)], modules=["outdoor 10", "outdoor 10"], pipes=pipes, fittings=[box("B1")])
    limit = {"measure": "total_length", "each_tube": "yes", "module_pipes": "in", "max": "60 m"}
    assert the_limit(judged(laid_out, {"limits": [limit]}), "total_length").value == pytest.approx(43)


def test_a_box_counts_as_a_branch_on_the_way() -> None:
    """J1 and B1 on the way to A; J1, B1 and B2 on the way to D."""
    series = measured({"measure": "fitting_count"})
    assert series.values == {"A": 2, "B": 2, "D": 3, "C": 2}


def test_allowances_of_pipe_before_a_box_are_by_its_suction_tube() -> None:
    """Main: suction 22.22 mm, so 5 m for its bend; behind the box gas 12.7 mm, so 1 m. 10 + 5 + 2 + 1 = 18."""
    by_size = {"22.22 mm": "5 m", "19.05 mm": "7 m", "12.7 mm": "1 m"}
    changes: Doc = {"fittings.allowance": {"bend": by_size, "box": "0 m"}}
    runs = [run("outdoor", "B1", "10 m", bends=1), run("B1", "A", "2 m", bends=1)]
    laid_out = system(runs, [unit("A", 2)], fittings=[box("B1")])
    assert measured({"measure": "farthest_equivalent"}, laid_out, **changes).value == pytest.approx(18)


def test_a_main_counts_as_up_by_its_suction_tube() -> None:
    """The suction of the main set to 25.4, one up: its 10 m count 5."""
    laid_out = system(
        [run("outdoor", "B1", "10 m", override={"suction": "25.4 mm"}), run("B1", "A", "2 m")],
        [unit("A", 2)],
        fittings=[box("B1")],
    )
    use = {"measure": "farthest_equivalent", "upsized_main": {1: 0.5, "line": "gas"}}
    assert measured(use, laid_out).value == pytest.approx(7)
