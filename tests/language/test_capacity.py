"""Capacity in kilowatts and the power taken up, worked by hand; tables that contradict each other."""

import math
from typing import Any

import pytest

from linewright.engine import Evaluation
from linewright.engine.capacity_records import SystemCapacity
from linewright.engine.working import replay, working
from linewright.errors import InputFaultsError
from tests.engine.builders import SITE, Doc, book, design, judge, module, system, the_system, two_units

AXES = {"outdoor_db": ["30 C", "40 C"], "indoor_wb": ["18 C", "20 C"]}


def judged(cooling: Doc, *, modules: list[Doc] | None = None, **more: Any) -> Evaluation:  # noqa: ANN401
    changes: Doc = {"capacity": {"cooling": cooling}} | ({"outdoor.modules": modules} if modules else {})
    return judge(design([system(*two_units("5 m", "5 m"), **more)], site=SITE), book(changes))


def cooled(evaluation: Evaluation) -> SystemCapacity:
    found = the_system(evaluation).cooling
    assert found is not None
    return found


def replayed(evaluation: Evaluation, subject: str) -> float | None:
    """Result of the last step; every step replays."""
    steps = working(evaluation, subject).steps
    for step in steps:
        assert isinstance(step.result, float)
        assert math.isclose(replay(step), step.result, rel_tol=1e-12), step
    result = steps[-1].result
    return result if isinstance(result, float) else None


def at_ratio(percent: int, capacity: list[list[str]], used: list[list[str]] | None = None, **more: object) -> Doc:
    return {"ratio": f"{percent} %", **AXES, "capacity": capacity} | ({"input": used} if used else {}) | more


def test_rule_27_capacity_and_input_between_temperatures_and_ratios() -> None:
    # 35 C and 19 C lie in the middle of each table: (10 + 11 + 8 + 9)/4 = 9.5 kW at 120 %, (6 + 6 + 5 + 5)/4 = 5.5 kW
    # at 80 %; 100 % lies half way: 7.5 kW. Input 2.8 and 1.8 kW: 2.3 kW.
    tables = [
        at_ratio(120, [["10 kW", "11 kW"], ["8 kW", "9 kW"]], [["2.4 kW", "2.6 kW"], ["3.0 kW", "3.2 kW"]]),
        at_ratio(80, [["6 kW", "6 kW"], ["5 kW", "5 kW"]], [["1.6 kW", "1.6 kW"], ["2.0 kW", "2.0 kW"]]),
    ]
    evaluation = judged({"table": tables})
    found = cooled(evaluation)
    assert found.capacity_w == pytest.approx(7500)
    assert found.used is not None
    assert found.used.input_w == pytest.approx(2300)
    assert replayed(evaluation, "main/capacity.cooling.input") == pytest.approx(2300)


def test_an_input_that_only_one_of_two_tables_states_is_none() -> None:
    tables = [
        at_ratio(120, [["10 kW", "11 kW"], ["8 kW", "9 kW"]], [["2.4 kW", "2.6 kW"], ["3.0 kW", "3.2 kW"]]),
        at_ratio(80, [["6 kW", "6 kW"], ["5 kW", "5 kW"]]),
    ]
    found = cooled(judged({"table": tables}))
    assert found.capacity_w == pytest.approx(7500)
    assert found.used is None


MODULES = [module(10) | {"cooling_input": "3 kW"}, module(20)]
TEMPERATURE: Doc = {**AXES, "factor": [[1.0, 1.0], [1.0, 1.0]]}
RATIO: Doc = {"ratio": ["50 %", "100 %"], "factor": [0.5, 1.0]}


def test_rated_input_times_its_own_factors() -> None:
    # The mean of 0.8, 0.9, 1.1 and 1.2 is 1.0, and at 100 % 1.05: 3 kW x 1.0 x 1.05 = 3.15 kW.
    cooling = {
        "temperature": TEMPERATURE | {"input": [[0.8, 0.9], [1.1, 1.2]]},
        "ratio": RATIO | {"input": [0.6, 1.05]},
    }
    evaluation = judged(cooling, modules=MODULES)
    found = cooled(evaluation).used
    assert found is not None
    assert found.input_w == pytest.approx(3150)
    assert replayed(evaluation, "main/capacity.cooling.input") == pytest.approx(3150)


def test_a_table_that_counts_and_has_no_factor_of_input_leaves_it_unknown() -> None:
    cooling = {"temperature": TEMPERATURE | {"input": [[0.8, 0.9], [1.1, 1.2]]}, "ratio": RATIO}
    found = cooled(judged(cooling, modules=MODULES)).used
    assert found is not None
    assert (found.input_w, found.missing) == (None, "factors of the input by connection ratio")


def test_the_input_of_a_group_is_the_sum_of_its_modules_where_each_states_it() -> None:
    twin = ["outdoor 10", "outdoor 10"]
    found = cooled(judged({}, modules=MODULES)).used
    assert found is not None
    assert found.input_w == 3000
    changes: Doc = {"outdoor.modules": MODULES}
    pair = judge(design([system(*two_units("5 m", "5 m"), modules=twin)], site=SITE), book(changes))
    assert (used := cooled(pair).used) is not None
    assert used.input_w == 6000
    mixed = [{"modules": ["outdoor 10", "outdoor 20"], "index": 30}]
    lacking = judge(
        design([system(*two_units("5 m", "5 m"), modules=["outdoor 10", "outdoor 20"])], site=SITE),
        book(changes | {"outdoor.groups": mixed}),
    )
    assert cooled(lacking).used is None


KW = [["10 kW", "11 kW"], ["8 kW", "9 kW"]]


@pytest.mark.parametrize(
    ("cooling", "path", "said"),
    [
        (
            {"table": at_ratio(100, KW), "ratio": RATIO},
            "capacity.cooling.ratio",
            "the table gives capacity by temperature and ratio already: these factors would not be used",
        ),
        (
            {"table": [at_ratio(100, KW, groups=["twin"]), at_ratio(100, KW, groups=["twin"])]},
            "capacity.cooling.table[1].ratio",
            "a second table for the group 'twin' is at 100 %",
        ),
        (
            {"table": [at_ratio(100, KW, groups=["twin"]), {**AXES, "capacity": KW, "groups": ["twin"]}]},
            "capacity.cooling.table[1]",
            "one of several tables for the group 'twin' is at no ratio",
        ),
        (
            {"table": [at_ratio(100, KW, defrost_included="yes"), at_ratio(50, KW)]},
            "capacity.cooling.table",
            "some of these tables include defrost and some do not",
        ),
    ],
)
def test_tables_that_contradict_each_other_are_faults(cooling: Doc, path: str, said: str) -> None:
    with pytest.raises(InputFaultsError) as error:
        judged(cooling)
    assert [(fault.path, fault.message) for fault in error.value.faults] == [(path, said)]
