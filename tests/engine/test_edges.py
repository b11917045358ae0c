"""Edges of bands: `upto` holds its edge, `below` leaves it to the next row; also where the index is a sum."""

import pytest

from linewright.engine import Evaluation, Standing
from tests.engine.builders import (
    Doc,
    book,
    design,
    judge,
    model,
    run,
    subjects,
    system,
    the_check,
    the_limit,
    the_system,
    tube_mm,
    unit,
)


def on_header(indices: list[float], changes: Doc | None = None) -> Evaluation:
    """J1 with unit X of index 5 and a header H2 with units of these indices, so that J1 - H2 carries their sum."""
    names = [f"A{i}" for i in range(len(indices))]
    runs = [run("outdoor", "J1", "10 m"), run("J1", "X", "5 m"), run("J1", "H2", "5 m")]
    runs += [run("H2", name, "1 m") for name in names]
    units = [unit("X", 5), *(unit(name, index) for name, index in zip(names, indices, strict=True))]
    models = {index: model(index) for index in [*indices, 5]}
    laid_out = system(runs, units, fittings=[{"id": "H2", "kind": "header"}])
    return judge(design([laid_out]), book({"indoor.models": list(models.values()), **(changes or {})}))


TENTHS = [0.1] * 10  # 0.9999999999999999 in binary
THIRTY = [0.1] * 3  # 0.30000000000000004
SUMS = [(TENTHS, 1.0), (THIRTY, 0.3)]


def rows(edge: float, kind: str) -> Doc:
    first = {kind: edge, "gas": "15.88 mm", "liquid": "6.35 mm"}
    return {"sizing.branch": {"rows": [first, {"upto": 30, "gas": "19.05 mm", "liquid": "9.52 mm"}]}}


@pytest.mark.parametrize(("indices", "edge"), SUMS, ids=["sum from below", "sum from above"])
@pytest.mark.parametrize(("kind", "at_mm"), [("upto", 15.88), ("below", 19.05)])
def test_the_edge_of_a_size_row(indices: list[float], edge: float, kind: str, at_mm: float) -> None:
    assert sum(indices) != edge
    assert tube_mm(on_header(indices, rows(edge, kind)), "H2") == at_mm
    assert tube_mm(on_header([*indices[:-1], 0.099999], rows(edge, kind)), "H2") == 15.88
    assert tube_mm(on_header([*indices[:-1], 0.100001], rows(edge, kind)), "H2") == 19.05


@pytest.mark.parametrize(("indices", "edge"), SUMS, ids=["sum from below", "sum from above"])
def test_the_edge_of_a_tables_last_row(indices: list[float], edge: float) -> None:
    """An index no row serves is a result: no size, and the check is over."""
    last = {"sizing.branch": {"rows": [{"upto": edge, "gas": "15.88 mm", "liquid": "6.35 mm"}]}}
    assert tube_mm(on_header(indices, last), "H2") == 15.88
    found = on_header([*indices[:-1], 0.100001], last)
    assert tube_mm(found, "H2") is None
    assert the_check(found, "run:H2").standing is Standing.OVER
    excluded = {"sizing.branch": {"rows": [{"below": edge, "gas": "15.88 mm", "liquid": "6.35 mm"}]}}
    assert tube_mm(on_header(indices, excluded), "H2") is None
    assert tube_mm(on_header([*indices[:-1], 0.099999], excluded), "H2") == 15.88


@pytest.mark.parametrize(("kind", "at"), [("upto", "small"), ("below", "large")])
def test_the_edge_of_a_fitting_row(kind: str, at: str) -> None:
    """J2 carries 2 + 3 = 5."""
    table = {"rows": [{kind: 5, "model": "small"}, {"upto": 30, "model": "large"}]}
    runs = [
        run("outdoor", "J1", "9 m"),
        run("J1", "U1", "1 m"),
        run("J1", "J2", "1 m"),
        run("J2", "U2", "1 m"),
        run("J2", "U3", "1 m"),
    ]
    found = judge(
        design([system(runs, [unit("U1", 1), unit("U2", 2), unit("U3", 3)])]), book({"fittings.joint": table})
    )
    assert {fitting.id: fitting.model for fitting in the_system(found).fittings} == {"J1": "first", "J2": at}


def test_the_first_fitting_is_looked_up_by_the_outdoor_index_to_its_edge() -> None:
    table = {"rows": [{"below": 10, "model": "under 10"}, {"upto": 10, "model": "ten"}]}
    runs, units = [run("outdoor", "J1", "9 m"), run("J1", "U1", "1 m"), run("J1", "U2", "1 m")], [1, 2]
    found = judge(design([system(runs, [unit(f"U{i}", i) for i in units])]), book({"fittings.first": table}))
    assert the_system(found).fittings[0].model == "ten"


@pytest.mark.parametrize(
    ("kind", "indices", "added"),
    [
        ("upto", [5, 5], 0.1),  # exactly 100 %
        ("below", [5, 5], 0.2),
        ("upto", [5, 6], 0.2),
        ("below", [4, 5], 0.1),
    ],
)
def test_the_edge_of_a_charge_band(kind: str, indices: list[int], added: float) -> None:
    bands = [{kind: "100 %", "add": "0.1 kg"}, {"upto": "130 %", "add": "0.2 kg"}]
    runs = [run("outdoor", "J1", "9 m"), run("J1", "U0", "1 m"), run("J1", "U1", "1 m")]
    units = [unit(f"U{i}", index) for i, index in enumerate(indices)]
    found = judge(design([system(runs, units)]), book({"charge": {"connection_ratio": bands}}))
    assert the_system(found).charge.rounded_kg == pytest.approx(added)


def test_a_ratio_outside_the_charge_bands_leaves_the_charge_unknown() -> None:
    bands = [{"upto": "100 %", "add": "0.1 kg"}, {"upto": "120 %", "add": "0.2 kg"}]
    runs = [run("outdoor", "J1", "9 m"), run("J1", "U0", "1 m"), run("J1", "U1", "1 m")]
    laid_out = system(runs, [unit("U0", 10), unit("U1", 3)])
    limit = {"measure": "additional_charge", "max": "5 kg"}
    found = judge(design([laid_out]), book({"charge": {"connection_ratio": bands}, "limits": [limit]}))
    assert the_system(found).charge.rounded_kg is None
    assert the_limit(found, "additional_charge").standing is Standing.UNJUDGED
    assert the_check(found, "charge").standing is Standing.UNJUDGED


@pytest.mark.parametrize(("kind", "bound"), [("upto", 30), ("below", 40)])
def test_the_edge_of_a_bound_that_another_measure_decides(kind: str, bound: float) -> None:
    """Up to (or below) 2 units 30 m, beyond 40 m; there are 2."""
    table = {"by": "indoor_count", "rows": [{kind: 2, "bound": "30 m"}, {"upto": 9, "bound": "40 m"}]}
    runs = [run("outdoor", "J1", "30 m"), run("J1", "U0", "5 m"), run("J1", "U1", "5 m")]
    laid_out = system(runs, [unit("U0", 5), unit("U1", 3)])
    found = judge(design([laid_out]), book({"limits": [{"measure": "farthest_actual", "max": table}]}))
    limit = the_limit(found, "farthest_actual")
    assert limit.bound == bound
    assert limit.standing is (Standing.OVER if bound == 30 else Standing.WITHIN)


def test_a_measure_that_no_row_of_a_bounds_table_holds_is_unjudged() -> None:
    table = {"by": "indoor_count", "rows": [{"upto": 1, "bound": "40 m"}]}
    runs = [run("outdoor", "J1", "30 m"), run("J1", "U0", "5 m"), run("J1", "U1", "5 m")]
    laid_out = system(runs, [unit("U0", 5), unit("U1", 3)])
    found = judge(design([laid_out]), book({"limits": [{"measure": "farthest_actual", "max": table}]}))
    assert the_limit(found, "farthest_actual").standing is Standing.UNJUDGED


@pytest.mark.parametrize(
    ("metres", "factor"),
    [(["0.1 m"] * 10, 1.0), (["0.1 m"] * 3, None), (["5 m"], 0.9), (["9 m"], 0.8), (["9.00001 m"], None)],
    ids=["first entry from below", "below the first", "between", "last entry", "beyond the last"],
)
def test_a_table_holds_to_its_first_and_last_entry_and_no_farther(metres: list[str], factor: float | None) -> None:
    """Entries at 1 and 9 m: 1.0 and 0.8. Ten of 0.1 m fall short of 1 m in binary and still stand on it."""
    nodes = ["outdoor", *(f"C{i}" for i in range(1, len(metres))), "U1"]
    runs = [run(nodes[i], nodes[i + 1], length) for i, length in enumerate(metres)]
    table = {"equivalent": ["1 m", "9 m"], "factor": [[1.0], [0.8]]}
    site = {"cooling": {"outdoor_db": "35 C", "indoor_wb": "19 C"}}
    found = judge(design([system(runs, [unit("U1", 5)])], site=site), book({"capacity.cooling": {"length": table}}))
    cooling = the_system(found).cooling
    assert cooling is not None
    assert cooling.capacity_w == (None if factor is None else pytest.approx(10_000 * factor))


def test_below_the_first_entry_a_book_may_hold_it() -> None:
    table = {"equivalent": ["1 m", "9 m"], "factor": [[0.95], [0.8]], "below_first": "hold"}
    site = {"cooling": {"outdoor_db": "35 C", "indoor_wb": "19 C"}}
    laid_out = system([run("outdoor", "U1", "0.3 m")], [unit("U1", 5)])
    cooling = the_system(judge(design([laid_out], site=site), book({"capacity.cooling": {"length": table}}))).cooling
    assert cooling is not None
    assert cooling.capacity_w == pytest.approx(9_500)


def test_a_joint_with_three_arms_and_a_pipe_that_ends_in_nothing_are_reported() -> None:
    runs = [run("outdoor", "J1", "9 m"), *(run("J1", f"U{i}", "1 m") for i in (1, 2, 3)), run("J1", "E1", "1 m")]
    found = judge(design([system(runs, [unit(f"U{i}", i) for i in (1, 2, 3)])]), book())
    assert the_check(found, "fitting:J1").standing is Standing.OVER
    assert the_check(found, "fitting:E1").standing is Standing.OVER
    assert subjects(found) == ["fitting:E1", "fitting:J1"]


GROUP = {"modules": ["outdoor 10"], "index": 10, "indoor_count": {"max": 2}, "connection_ratio": {"min": "50 %"}}


@pytest.mark.parametrize(
    ("limit", "standing", "bound"),
    [
        ({"measure": "indoor_count", "max": "group"}, Standing.WITHIN, 2),
        ({"measure": "indoor_count", "min": "group"}, Standing.UNSTATED, None),
        ({"measure": "connection_ratio", "min": "group"}, Standing.OVER, 0.5),
        ({"measure": "connection_ratio", "max": "group"}, Standing.UNSTATED, None),
    ],
)
def test_a_bound_from_the_group_is_judged_where_it_is_stated_and_unstated_where_not(
    limit: Doc, standing: Standing, bound: float | None
) -> None:
    """Two units on 40 %; the group states a largest count of 2 and a least ratio of 50 %."""
    runs = [run("outdoor", "J1", "9 m"), run("J1", "U0", "1 m"), run("J1", "U1", "1 m")]
    laid_out = system(runs, [unit("U0", 1), unit("U1", 3)])
    found = judge(design([laid_out]), book({"limits": [limit], "outdoor.groups": [GROUP]}))
    check = the_limit(found, str(limit["measure"]))
    assert (check.standing, check.bound) == (standing, bound)
    assert found.standing is (Standing.OVER if standing is Standing.OVER else Standing.WITHIN)
