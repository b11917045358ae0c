"""`max: box`: each item is judged by what its own box states, and the one with the least margin governs."""

import pytest

from linewright.engine.records import Check, Standing
from linewright.engine.working import replay, working
from tests.engine.builders import Doc, subjects, system, the_limit, unit
from tests.recovery.builders import BOXES, box, boxes, in_series, judged, one_box, run


def two_boxes(first: Doc, second: Doc, **ports: list[int]) -> Doc:
    """J1 parts to B1 of box 4 and B2 of box 8, each with its units by index."""
    runs = [run("outdoor", "J1"), run("J1", "B1"), run("J1", "B2")]
    runs += [run("B1", name, ports=ports.get(name, [])) for name in first] + [run("B2", name) for name in second]
    units = [unit(name, index) for name, index in {**first, **second}.items()]
    fittings = [box("B1", "box 4"), box("B2", "box 8")]
    return system(runs, units, modules=["outdoor 20"], fittings=fittings)


def limit_of(measure: str, laid_out: Doc, changes: Doc | None = None) -> Check:
    return the_limit(judged(laid_out, {"limits": [{"measure": measure, "max": "box"}], **(changes or {})}), measure)


def test_the_box_with_the_least_left_governs_though_it_carries_less() -> None:
    """B1 carries 10 of 12, B2 12 of 20."""
    check = limit_of("box_index", two_boxes({"A": 5, "B": 5}, {"C": 6, "D": 6}))
    assert (check.value, check.bound, check.margin, check.governs) == (10, 12, 2, ("B1",))
    assert check.standing is Standing.WITHIN


def test_a_port_within_on_one_box_may_be_over_on_another() -> None:
    """6 on a port of box 8, which carries 6, and 6 on a port of box 4, which carries 5."""
    check = limit_of("port_index", two_boxes({"A": 6}, {"C": 6}))
    assert (check.standing, check.value, check.bound, check.governs) == (Standing.OVER, 6, 5, ("A",))


def test_joined_ports_are_held_against_what_they_may_carry_together() -> None:
    """A of 6 on two joined ports of box 4: 10 may be carried; C of 5 on a port of box 8, which carries 6, governs."""
    check = limit_of("port_index", two_boxes({"A": 6}, {"C": 5}, A=[1, 2]))
    assert (check.standing, check.value, check.bound, check.governs) == (Standing.WITHIN, 5, 6, ("C",))


def test_units_on_ports() -> None:
    check = limit_of("units_per_port", two_boxes({"A": 1}, {"C": 1}))
    assert (check.value, check.bound, check.governs) == (1, 2, ("A",))


def test_what_a_box_carries_on() -> None:
    laid_out = in_series({"A": 1}, {"B": 5}, models=("box 4", ""))
    check = limit_of("through_index", laid_out, boxes({"series": {"max": 2}}))
    assert (check.value, check.bound, check.margin, check.governs) == (5, 8, 3, ("B1",))


def test_a_bound_that_no_box_states_is_unstated() -> None:
    """Box 1 says nothing of an index of its port."""
    check = limit_of("port_index", one_box({"A": 3}))
    assert (check.standing, check.bound) == (Standing.UNSTATED, None)


def test_without_a_model_nobody_knows_the_bound() -> None:
    """An index of 24 on two ports: no box of the book serves."""
    wide = {"boxes": {"models": BOXES["models"][:1]}}
    check = limit_of("box_index", one_box({"A": 3, "B": 3}), wide)
    assert (check.standing, check.missing) == (Standing.UNJUDGED, ("model of B1",))


def test_a_box_that_is_surely_over_is_so_though_another_has_no_model() -> None:
    runs = [run("outdoor", "J1"), run("J1", "B1"), run("J1", "B2"), *(run("B2", name) for name in "CD")]
    laid_out = system([*runs, run("B1", "A")], [unit(n, 5) for n in "ACD"], fittings=[box("B1", "box 1"), box("B2")])
    small = {"boxes": {"models": [BOXES["models"][0] | {"index": 4}]}}
    check = limit_of("box_index", laid_out, small)
    assert (check.standing, check.value, check.bound, check.governs) == (Standing.OVER, 5, 4, ("B1",))


@pytest.mark.parametrize("limited", [True, False])
def test_what_a_limit_judges_is_not_said_twice(limited: bool) -> None:  # noqa: FBT001 - a case
    """6 on a port of box 4, which carries 5: said by the limit, or where there is none by a check of its own."""
    limits = [{"measure": "port_index", "max": "box"}] if limited else []
    found = judged(two_boxes({"A": 6}, {"C": 5}), {"limits": limits})
    assert ("fitting:B1" in subjects(found)) is not limited


def test_the_working_holds_the_item_against_its_own_box() -> None:
    found = judged(two_boxes({"A": 6}, {"C": 6}), {"limits": [{"measure": "port_index", "max": "box"}]})
    last = working(found, "main/limit:port_index").steps[-1]
    assert [(item.value, item.from_) for item in last.inputs] == [
        (5, "book:plain:boxes.models[1]"),
        (6, "main/measure:port_index@A"),
    ]
    assert (replay(last), last.note) == (-1, "over")
