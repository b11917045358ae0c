"""Connection ratios of some units, or counted otherwise, as a group states them; sums of module pipes."""

import pytest

from linewright.engine import Standing
from linewright.engine.working import working
from linewright.errors import InputFaultsError
from tests.engine.builders import (
    Doc,
    book,
    design,
    judge,
    model,
    room,
    run,
    system,
    the_limit,
    the_system,
    two_units,
    unit,
)

DUCTED: Doc = {"kind": ["ducted"]}
RATIOS = [{"where": DUCTED, "max": "40 %"}, {"count_by": "simultaneous", "min": "30 %", "max": "90 %"}]
GROUP: Doc = {
    "modules": ["outdoor 10"],
    "index": 10,
    "connection_ratio": {"min": "50 %", "max": "130 %"},
    "ratios": RATIOS,
}
LIMITS: list[Doc] = [
    {"measure": "connection_ratio", "min": "group", "max": "group"},
    {"measure": "connection_ratio", "where": DUCTED, "max": "group"},
    {"measure": "connection_ratio", "count_by": "simultaneous", "min": "group", "max": "group"},
]
MODELS = [model(5), model(4, kind="ducted")]


def used(group: Doc, limits: list[Doc]) -> Doc:
    return book({"outdoor.groups": [group], "limits": limits, "indoor.models": MODELS})


def test_each_limit_takes_the_ratio_of_its_own_units_and_count() -> None:
    # 5 + 4 on 10 are 90 %, the ducted unit alone 40 %; the rooms need 8 of 10 kW.
    runs = [run("outdoor", "J1", "9 m"), run("J1", "U1", "5 m"), run("J1", "U2", "5 m")]
    units = [unit("U1", 5, room="a"), unit("U2", 4, room="b")]
    made = design([system(runs, units)], rooms=[room("a", "5 kW"), room("b", "3 kW")])
    found = the_system(judge(made, used(GROUP, LIMITS))).limits
    assert [(check.sense, check.value, check.bound, check.standing) for check in found] == [
        ("min", 0.9, 0.5, Standing.WITHIN),
        ("max", 0.9, 1.3, Standing.WITHIN),
        ("max", 0.4, 0.4, Standing.WITHIN),
        ("min", 0.8, 0.3, Standing.WITHIN),
        ("max", 0.8, 0.9, Standing.WITHIN),
    ]
    steps = working(judge(made, used(GROUP, LIMITS)), "main/limit:connection_ratio").steps
    bounds = [item.from_ for step in steps for item in step.inputs if item.name == "bound"]
    assert bounds[2] == "book:plain:outdoor.groups[0].ratios[0].max"


def test_without_an_entry_of_its_own_a_limit_takes_the_plain_ratio() -> None:
    group = GROUP | {"ratios": []}
    check = the_limit(judge(design([system(*two_units("5 m", "5 m"))]), used(group, LIMITS[:2])), "connection_ratio")
    assert check.bound == 0.5


@pytest.mark.parametrize(
    ("ratios", "limits", "said"),
    [
        (RATIOS, LIMITS[:2], ["no limit puts this in force with min: group"] * 1),
        ([{"max": "40 %"}], LIMITS, ["this is the group's own ratio"]),
        ([{"where": DUCTED, "max": "4 m"}], LIMITS, ["this is a length, not a ratio"]),
        (
            [{"where": {"kind": ["duct"]}, "max": "40 %"}],
            LIMITS,
            ["there is no kind of indoor unit 'duct' in this book"],
        ),
    ],
)
def test_a_ratio_that_nobody_would_judge_is_a_fault(ratios: list[Doc], limits: list[Doc], said: list[str]) -> None:
    with pytest.raises(InputFaultsError) as error:
        judge(design([system(*two_units("5 m", "5 m"))]), used(GROUP | {"ratios": ratios}, limits))
    assert {*said} <= {fault.message for fault in error.value.faults}


def test_module_pipes_are_summed_each_once() -> None:
    # A common pipe of 2 m, then 1.5 and 4 m: 7.5 m in all, though each module has its own way.
    pipes = [run("outdoor", "D", "2 m"), run("D", "M1", "1.5 m"), run("D", "M2", "4 m")]
    limit = {"measure": "module_pipe_total", "max": "7 m"}
    modules = ["outdoor 10", "outdoor 10"]
    made = system(*two_units("5 m", "5 m"), modules=modules, pipes=pipes)
    check = the_limit(judge(design([made]), book({"limits": [limit]})), "module_pipe_total")
    assert (check.value, check.standing) == (7.5, Standing.OVER)
    bare = system(*two_units("5 m", "5 m"), modules=modules)
    unknown = the_limit(judge(design([bare]), book({"limits": [limit]})), "module_pipe_total")
    assert (unknown.standing, unknown.missing) == (Standing.UNJUDGED, ("lengths of module pipes",))
    single = the_limit(
        judge(design([system(*two_units("5 m", "5 m"))]), book({"limits": [limit]})), "module_pipe_total"
    )
    assert single.standing is Standing.NOT_APPLICABLE
