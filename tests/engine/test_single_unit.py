"""One unit: there is no branch, the whole way is the main, and what needs a branch does not apply."""

import pytest

from linewright.engine import Evaluation, Standing
from tests.engine.builders import (
    book,
    design,
    judge,
    run,
    system,
    the_limit,
    the_run,
    the_system,
    the_unit,
    tube_mm,
    unit,
)

NEEDS_BRANCH = [
    "after_first_branch",
    "last_joint_to_unit",
    "nearest_farthest_difference",
    "joint_spacing",
    "straight_before",
    "straight_after",
    "fitting_index",
    "header_port_index",
    "arm_index_share",
    "level_unit_to_joint",
]
NEEDS_MODULES = [
    "module_pipe",
    "module_pipe_difference",
    "module_pipe_rise",
    "level_between_modules",
    "module_order",
]
BOUNDS = {"fitting_index": "9", "header_port_index": "9", "module_order": "9", "arm_index_share": "90 %"}


def alone(measure: str = "farthest_actual", sense: str = "max") -> Evaluation:
    """30 + 12 m through a coupling to a unit whose ports are smaller than the main's tubes."""
    runs = [run("outdoor", "C1", "30 m"), run("C1", "U1", "12 m")]
    limit = {"measure": measure, sense: BOUNDS.get(measure, "1 m")}
    return judge(design([system(runs, [unit("U1", 2)])]), book({"limits": [limit]}))


@pytest.mark.parametrize("sense", ["max", "min"])
@pytest.mark.parametrize("measure", NEEDS_BRANCH + NEEDS_MODULES)
def test_what_needs_a_branch_or_several_modules_does_not_apply(measure: str, sense: str) -> None:
    found = alone(measure, sense)
    assert the_limit(found, measure).standing is Standing.NOT_APPLICABLE
    assert the_limit(found, measure).value is None
    assert found.standing is Standing.WITHIN


def test_every_run_is_the_main_and_has_the_outdoor_units_size() -> None:
    found = alone()
    for name in ("C1", "U1"):
        assert the_run(found, name).is_main
        assert (tube_mm(found, name), tube_mm(found, name, "liquid")) == (22.22, 9.52)


def test_the_coupling_is_no_branch_fitting_and_gets_no_model() -> None:
    (fitting,) = the_system(alone()).fittings
    assert (fitting.id, fitting.kind, fitting.model) == ("C1", "coupling", "")


@pytest.mark.parametrize("measure", ["farthest_actual", "main_length", "total_length"])
def test_the_way_to_the_unit_is_every_length_there_is(measure: str) -> None:
    assert the_limit(alone(measure), measure).value == pytest.approx(42)


def test_the_unit_governs_and_takes_the_whole_capacity_up_to_its_rating() -> None:
    site = {"cooling": {"outdoor_db": "35 C", "indoor_wb": "19 C"}}
    runs = [run("outdoor", "U1", "30 m")]
    found = judge(design([system(runs, [unit("U1", 2)])], site=site), book())
    assert the_unit(found, "U1").cooling.delivered_w == pytest.approx(2000)
    assert the_limit(alone(), "farthest_actual").governs == ("U1",)


def test_counts_of_branch_fittings_are_zero() -> None:
    for variant in ({}, {"in_all": "yes"}):
        limit = {"measure": "fitting_count", "max": 0, **variant}
        runs = [run("outdoor", "U1", "30 m")]
        found = judge(design([system(runs, [unit("U1", 2)])]), book({"limits": [limit]}))
        assert (the_limit(found, "fitting_count").standing, the_limit(found, "fitting_count").value) == (
            Standing.WITHIN,
            0,
        )


def test_with_the_first_branch_as_origin_and_no_branch_lengths_start_at_the_root() -> None:
    """Nothing says otherwise, and a length of zero would be a pass that nobody earned."""
    limit = {"measure": "farthest_actual", "max": "40 m", "origin": "first-branch"}
    runs = [run("outdoor", "U1", "41 m")]
    found = judge(design([system(runs, [unit("U1", 2)])]), book({"limits": [limit]}))
    assert the_limit(found, "farthest_actual").standing is not Standing.WITHIN
