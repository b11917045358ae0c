"""Headers: the row with the fewest ports that are enough, unused ports as caps, what may not hang on them."""

import pytest

from linewright.engine import Evaluation, Standing
from linewright.engine.records import FittingResult
from linewright.report.check_json import check_json
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
    the_system,
    unit,
)

HEADERS = [
    {"upto": 6, "ports": 8, "model": "eight, to 6"},
    {"upto": 10, "ports": 4, "model": "four, to 10"},
    {"upto": 10, "ports": 6, "model": "six, to 10"},
    {"upto": 20, "ports": 4, "model": "four, to 20"},
]


def headed(indices: list[int], *, rows: list[Doc] | None = None, modules: str = "outdoor 10") -> Evaluation:
    """J1 with a unit of 1 and a header with units of these indices; the header is not the first branch."""
    names = [f"A{i}" for i in range(len(indices))]
    runs = [run("outdoor", "J1", "9 m"), run("J1", "X", "1 m"), run("J1", "H1", "1 m")]
    runs += [run("H1", name, "1 m") for name in names]
    units = [unit("X", 1), *(unit(name, index) for name, index in zip(names, indices, strict=True))]
    laid_out = system(runs, units, modules=[modules], fittings=[{"id": "H1", "kind": "header"}])
    limits = [{"measure": "header_depth", "max": 0}]
    return judge(design([laid_out]), book({"fittings.header": {"rows": rows or HEADERS}, "limits": limits}))


def the_header(found: Evaluation) -> FittingResult:
    return next(fitting for fitting in the_system(found).fittings if fitting.id == "H1")


@pytest.mark.parametrize(
    ("indices", "header"),
    [
        ([2, 2], "four, to 10"),  # all hold 4; the fewest ports are four, the earliest of them to 10
        ([1, 1, 1, 1], "four, to 10"),  # four ports for four units
        ([1, 1, 1, 1, 1], "six, to 10"),
        ([1, 1, 1, 1, 1, 1], "six, to 10"),  # 6 is still held by the first row, which has more ports
        ([2, 2, 2, 2, 1, 1], "six, to 10"),  # 10, at the edge
        ([4, 4, 3], "four, to 20"),  # 11
        ([1, 1, 1, 1, 1, 1, 1], ""),  # seven units on 7: the one with eight ports ends at 6
        ([4, 4, 1, 1, 1], ""),  # five units on 11: those to 20 have four ports
        ([6, 6, 6, 5], ""),  # 23
    ],
)
def test_of_the_rows_that_hold_index_and_units_the_fewest_ports_are_taken(indices: list[int], header: str) -> None:
    found = headed(indices)
    assert the_header(found).model == header
    assert ("fitting:H1" in subjects(found)) is (not header)
    if not header:
        assert the_check(found, "fitting:H1").standing is Standing.OVER


def test_unused_ports_are_counted_as_caps() -> None:
    found = headed([2, 2, 2])
    header = the_header(found)
    assert (header.ports, header.ports_used) == (4, 3)
    shown = {fitting["id"]: fitting for fitting in check_json(found)["systems"][0]["fittings"]}
    assert shown["H1"]["caps"] == 1


def test_a_header_that_is_the_first_branch_follows_the_outdoor_unit() -> None:
    """Units of 1 + 1 on an outdoor unit of 20."""
    runs = [run("outdoor", "H1", "9 m"), run("H1", "A", "1 m"), run("H1", "B", "1 m")]
    fittings = [{"id": "H1", "kind": "header"}]
    laid_out = system(runs, [unit("A", 1), unit("B", 1)], modules=["outdoor 20"], fittings=fittings)
    found = judge(design([laid_out]), book({"fittings.header": {"rows": HEADERS}}))
    assert the_header(found).model == "four, to 20"


def test_a_book_without_headers_serves_none() -> None:
    runs = [run("outdoor", "H1", "9 m"), run("H1", "A", "1 m"), run("H1", "B", "1 m")]
    laid_out = system(runs, [unit("A", 1), unit("B", 1)], fittings=[{"id": "H1", "kind": "header"}])
    used = book()
    del used["fittings"]["header"]
    assert the_check(judge(design([laid_out]), used), "fitting:H1").standing is Standing.OVER


def test_a_branch_after_a_header_is_a_result() -> None:
    """A joint and a header beyond the header: two branch fittings too many."""
    runs = [run("outdoor", "H1", "9 m"), run("H1", "A", "1 m"), run("H1", "J2", "1 m"), run("J2", "B", "1 m")]
    runs += [run("J2", "H3", "1 m"), run("H3", "C", "1 m"), run("H3", "D", "1 m")]
    fittings = [{"id": "H1", "kind": "header"}, {"id": "H3", "kind": "header"}]
    laid_out = system(runs, [unit(name, 1) for name in "ABCD"], fittings=fittings)
    limits = [{"measure": "header_depth", "max": 0}]
    limit = the_limit(judge(design([laid_out]), book({"limits": limits})), "header_depth")
    assert (limit.standing, limit.value) == (Standing.OVER, 2)


def test_a_coupling_after_a_header_is_no_branch() -> None:
    runs = [run("outdoor", "H1", "9 m"), run("H1", "A", "1 m"), run("H1", "C1", "1 m"), run("C1", "B", "1 m")]
    laid_out = system(runs, [unit("A", 1), unit("B", 1)], fittings=[{"id": "H1", "kind": "header"}])
    limits = [{"measure": "header_depth", "max": 0}]
    limit = the_limit(judge(design([laid_out]), book({"limits": limits})), "header_depth")
    assert (limit.standing, limit.value) == (Standing.WITHIN, 0)


@pytest.mark.parametrize(
    ("indices", "standing"),
    [([4, 3], Standing.WITHIN), ([5, 3], Standing.OVER)],
    ids=["each port carries no more than 4", "one port carries 5"],
)
def test_a_port_carries_no_more_than_its_header_says(indices: list[int], standing: Standing) -> None:
    rows: list[Doc] = [{"upto": 20, "ports": 4, "port_index": 4, "model": "four"}]
    assert headed(indices, rows=rows).standing is standing
