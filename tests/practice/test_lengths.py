"""Equivalent lengths as the trade counts them. Common practice, no source."""

import pytest

from tests.engine.builders import Doc, book, design, judge, one_unit, run, system, the_limit, the_run, two_units, unit

FT = 0.3048


def farthest(**limit: object) -> Doc:
    return {"measure": "farthest_equivalent", "max": "1000 ft", **limit}


# Common practice, no source: 300 ft of tube with 4 fittings at 1.5 ft each is 306 ft equivalent.
@pytest.mark.parametrize("lengths", [["300 ft"], ["100 ft", "200 ft"]], ids=["one run", "two runs"])
def test_300_ft_with_4_bends_at_1_5_ft_each_is_306_ft(lengths: list[str]) -> None:
    used = book({"fittings.allowance": {"bend": "1.5 ft"}, "limits": [farthest()]})
    bends = 4 // len(lengths)
    nodes = ["outdoor", *(f"C{i}" for i in range(1, len(lengths))), "U1"]
    runs = [run(nodes[i], nodes[i + 1], length, bends=bends) for i, length in enumerate(lengths)]
    found = judge(design([system(runs, [unit("U1", 5)])]), used)
    assert the_limit(found, "farthest_equivalent").value == pytest.approx(306 * FT, rel=1e-9)


# Common practice, no source: the same, where the fittings are joints on the way.
def test_300_ft_through_4_joints_at_1_5_ft_each_is_306_ft() -> None:
    used = book({"fittings.allowance": {"joint": "1.5 ft"}, "limits": [farthest()]})
    nodes = ["outdoor", "J1", "J2", "J3", "J4", "U0"]
    runs = [run(nodes[i], nodes[i + 1], "60 ft") for i in range(5)]
    runs += [run(f"J{i}", f"U{i}", "1 ft") for i in range(1, 5)]
    found = judge(design([system(runs, [unit(f"U{i}", 1) for i in range(5)])]), used)
    limit = the_limit(found, "farthest_equivalent")
    assert limit.value == pytest.approx(306 * FT, rel=1e-9)
    assert limit.governs == ("U0",)


# Common practice, no source: other fittings of a run count by their kind, each with its own allowance.
def test_bends_and_other_fittings_of_a_run_add_to_its_length() -> None:
    used = book({"fittings.allowance": {"bend": "1.5 ft", "valve": "3 ft"}})
    runs = [run("outdoor", "U1", "300 ft", bends=2, items=[{"kind": "valve", "count": 2}])]
    found = judge(design([system(runs, [unit("U1", 5)])]), used)
    assert the_run(found, "U1").equivalent_m == pytest.approx((300 + 2 * 1.5 + 2 * 3) * FT, rel=1e-9)


# Common practice, no source: a main counted at 0.5 when it is upsized turns 200 ft + 100 ft into 200 ft.
@pytest.mark.parametrize(
    ("gas", "liquid", "feet"),
    [
        ("25.4 mm", "12.7 mm", 200),
        ("", "", 300),
        ("25.4 mm", "", 300),  # both lines must be up
        ("", "12.7 mm", 300),
        ("28.58 mm", "12.7 mm", 200),  # two steps and one step: the lesser counts, which is one
    ],
    ids=["both up", "as the table says", "gas only", "liquid only", "gas two up"],
)
def test_an_upsized_main_of_200_ft_counts_half(gas: str, liquid: str, feet: float) -> None:
    used = book(
        {"limits": [farthest(upsized_main={1: 0.5}), farthest(), {"measure": "farthest_actual", "max": "1000 m"}]}
    )
    runs = [
        run("outdoor", "J1", "200 ft", gas=gas, liquid=liquid),
        run("J1", "U1", "100 ft"),
        run("J1", "U2", "50 ft"),
    ]
    found = judge(design([system(runs, [unit("U1", 5), unit("U2", 5)])]), used)
    assert the_limit(found, "farthest_equivalent").value == pytest.approx(feet * FT, rel=1e-9)
    assert the_limit(found, "farthest_equivalent", nth=1).value == pytest.approx(300 * FT, rel=1e-9)
    assert the_limit(found, "farthest_actual").value == pytest.approx(300 * FT, rel=1e-9)


# Common practice, no source: the main is made one step up because it is long, and then counts half.
@pytest.mark.parametrize(("due_over", "feet"), [("250 ft", 200), ("300 ft", 300)], ids=["due", "just not due"])
def test_a_long_main_that_goes_one_step_up_counts_half(due_over: str, feet: float) -> None:
    due = {"measure": "farthest_equivalent", "over": due_over}
    action = {"id": "long", "when": due, "runs": "main", "lines": ["gas", "liquid"], "steps": 1}
    used = book({"sizing.actions": [action], "limits": [farthest(upsized_main={1: 0.5})]})
    runs, units = two_units("100 ft", "50 ft", main="200 ft")
    found = judge(design([system(runs, units)]), used)
    assert the_limit(found, "farthest_equivalent").value == pytest.approx(feet * FT, rel=1e-9)


# Common practice, no source: the same halving where a book's capacity table counts the upsized main.
@pytest.mark.parametrize(("liquid", "factor"), [("12.7 mm", 0.9), ("", 0.8)], ids=["both up", "gas only"])
def test_the_capacity_of_an_upsized_main_is_read_at_200_ft(liquid: str, factor: float) -> None:
    """The table falls by 0.1 for each 100 ft beyond 100 ft: 0.9 at 200 ft, 0.8 at 300 ft."""
    table = {"equivalent": ["100 ft", "400 ft"], "factor": [[1.0], [0.7]], "upsized_main": {1: 0.5}}
    used = book({"capacity.cooling": {"length": table}})
    runs, units = two_units("100 ft", "50 ft", main="200 ft")
    runs[0] = run("outdoor", "J1", "200 ft", gas="25.4 mm", liquid=liquid)
    site = {"cooling": {"outdoor_db": "35 C", "indoor_wb": "19 C"}}
    found = judge(design([system(runs, units)], site=site), used)
    capacity = found.systems[0].cooling
    assert capacity is not None
    assert capacity.capacity_w == pytest.approx(10_000 * factor, rel=1e-9)


# Common practice, no source: with one unit there is no branch, and the run to it is the main.
def test_the_run_to_a_single_unit_is_the_main() -> None:
    used = book({"limits": [{"measure": "main_length", "max": "100 ft"}]})
    found = judge(design([system(*one_unit("100 ft"))]), used)
    assert the_run(found, "U1").is_main
    assert the_limit(found, "main_length").value == pytest.approx(100 * FT, rel=1e-9)
