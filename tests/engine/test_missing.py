"""What is unjudged names what it lacks: all of it, and nothing that it does not need."""

import pytest

from linewright.engine import Standing
from tests.engine.builders import Doc, book, design, judge, run, system, the_limit, unit


def test_no_metres_are_left_for_an_elevation() -> None:
    """U1 is 8 m below the outdoor unit; that 12 m are left of 20 says nothing of U2."""
    runs = [run("outdoor", "J1", "10 m"), run("J1", "U1", "5 m"), run("J1", "U2", "5 m")]
    laid_out = system(runs, [unit("U1", 5), unit("U2", 5, elevation="")], elevation="8 m")
    limits = [{"measure": "level_outdoor_above", "max": "20 m"}]
    limit = the_limit(judge(design([laid_out]), book({"limits": limits})), "level_outdoor_above")
    assert (limit.standing, limit.value, limit.left) == (Standing.UNJUDGED, 8, None)
    assert limit.missing == ("elevation of U2",)


def test_charge_per_length_names_the_length_that_it_lacks() -> None:
    """A book that charges no length knows the charge all the same."""
    limits = [{"measure": "charge_per_length", "max": "1 kg/m"}]
    runs = [run("outdoor", "U1", "unknown")]
    used = book({"charge": {"constant": "2 kg"}, "limits": limits})
    limit = the_limit(judge(design([system(runs, [unit("U1", 5)])]), used), "charge_per_length")
    assert (limit.standing, limit.missing) == (Standing.UNJUDGED, ("length of run U1",))


@pytest.mark.parametrize(
    ("variant", "missing"),
    [
        ({}, ("length of run U1",)),
        ({"lengths": "equivalent"}, ("allowances of run U2", "length of run U1")),
        ({"origin": "first-branch"}, ("length of run U1",)),
        ({"module_pipes": "in"}, ("length of run U1", "lengths of module pipes")),
    ],
)
def test_a_total_names_the_lengths_and_the_allowances_that_it_lacks(variant: Doc, missing: tuple[str, ...]) -> None:
    """U2 is 25 m away over a bend for which the book has no allowance."""
    runs = [run("outdoor", "J1", "30 m"), run("J1", "U1", "unknown"), run("J1", "U2", "25 m", bends=1)]
    laid_out = system(runs, [unit("U1", 5), unit("U2", 5)], modules=["outdoor 10", "outdoor 10"])
    limits = [{"measure": "total_length", "max": "99 m", **variant}]
    limit = the_limit(judge(design([laid_out]), book({"limits": limits})), "total_length")
    assert (limit.standing, limit.missing) == (Standing.UNJUDGED, missing)


@pytest.mark.parametrize(
    ("limit", "missing"),
    [
        ({"measure": "farthest_actual"}, ("length of run J1", "length of run U1", "lengths of module pipes")),
        ({"measure": "farthest_actual", "origin": "first-branch"}, ("length of run U1",)),
        ({"measure": "after_first_branch"}, ("length of run U1",)),
        ({"measure": "after_first_branch", "lengths": "equivalent"}, ("allowances of run J2", "length of run U1")),
        (
            {"measure": "after_first_branch", "lengths": "equivalent", "first_branch_allowance": "in"},
            ("allowances of run J1", "allowances of run J2", "length of run U1"),
        ),
        ({"measure": "last_joint_to_unit", "lengths": "equivalent"}, ("length of run U1",)),
        ({"measure": "main_length"}, ("length of run J1",)),
    ],
)
def test_only_what_a_measure_needs_is_named_as_missing(limit: Doc, missing: tuple[str, ...]) -> None:
    """The main and the run to U1 have no length; the book has no allowance of a joint, and no pipes are stated."""
    runs = [run("outdoor", "J1", "unknown"), run("J1", "U1", "unknown"), run("J1", "J2", "5 m")]
    runs += [run("J2", "U2", "5 m"), run("J2", "U3", "5 m")]
    laid_out = system(runs, [unit(f"U{i}", 2) for i in (1, 2, 3)], modules=["outdoor 10", "outdoor 10"])
    used = book({"limits": [{"max": "99 m", **limit}], "fittings.allowance": {}})
    found = the_limit(judge(design([laid_out]), used), limit["measure"])
    assert (found.standing, found.missing) == (Standing.UNJUDGED, missing)
