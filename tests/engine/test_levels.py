"""Where a node stands: as stated, over a stated rise, or assumed and said so."""

import pytest

from linewright.engine import Evaluation, Standing
from tests.engine.builders import Doc, book, design, judge, run, system, the_limit, the_system, unit


def judged(runs: list[Doc], units: list[Doc], *, fittings: tuple[Doc, ...] = (), elevation: str = "8 m") -> Evaluation:
    laid_out = system(runs, units, fittings=fittings, elevation=elevation)
    limits = [{"measure": "level_outdoor_above", "max": "20 m"}, {"measure": "level_between_indoor", "max": "20 m"}]
    return judge(design([laid_out]), book({"limits": limits}))


def levels(found: Evaluation) -> dict[str, float | None]:
    result = the_system(found)
    of_units = {item.id: item.elevation_m for item in result.units}
    return of_units | {item.id: item.elevation_m for item in result.fittings}


def assumed(found: Evaluation) -> set[str]:
    return {fitting.id for fitting in the_system(found).fittings if fitting.assumed_elevation}


def test_levels_are_carried_outward_over_stated_rises() -> None:
    """8 - 5 = 3 m; 3 + 1 = 4 m; 3 - 0.5 = 2.5 m."""
    runs = [run("outdoor", "J1", "10 m", rise="-5 m"), run("J1", "U1", "5 m", rise="1 m")]
    runs.append(run("J1", "U2", "5 m", rise="-0.5 m"))
    found = judged(runs, [unit("U1", 2, elevation=""), unit("U2", 2, elevation="")])
    assert levels(found) == pytest.approx({"J1": 3, "U1": 4, "U2": 2.5})
    assert assumed(found) == set()
    assert the_limit(found, "level_outdoor_above").value == pytest.approx(5.5)


def test_a_fitting_takes_its_level_from_a_child_before_it_is_assumed() -> None:
    """3 - 1 = 2 m; that it is not 3 m is known, not assumed."""
    runs = [run("outdoor", "J1", "10 m"), run("J1", "U1", "5 m", rise="1 m"), run("J1", "U2", "1 m")]
    found = judged(runs, [unit("U1", 2, elevation="3 m"), unit("U2", 2, elevation="2 m")])
    assert levels(found)["J1"] == pytest.approx(2)
    assert assumed(found) == set()


def test_a_level_known_from_one_arm_carries_a_stated_rise_of_the_other() -> None:
    """J1 stands at 3 - 1 = 2 m, known over its stated rise, so U2 stands at 2 + 0.5 m."""
    runs = [run("outdoor", "J1", "10 m"), run("J1", "U1", "5 m", rise="1 m"), run("J1", "U2", "5 m", rise="0.5 m")]
    found = judged(runs, [unit("U1", 2, elevation="3 m"), unit("U2", 2, elevation="")])
    assert levels(found) == {"J1": pytest.approx(2), "U1": 3, "U2": pytest.approx(2.5)}
    assert the_limit(found, "level_outdoor_above").standing is Standing.WITHIN


def test_without_rises_a_fitting_is_assumed_at_the_unit_nearest_along_the_pipe() -> None:
    """J2's units are 4 and 6 m off; J1's nearest is U1 at 3 m of pipe, not U2 at 2 + 4."""
    runs = [run("outdoor", "J1", "10 m"), run("J1", "U1", "3 m"), run("J1", "J2", "2 m")]
    runs += [run("J2", "U2", "4 m"), run("J2", "U3", "6 m")]
    units = [unit("U1", 2, elevation="1 m"), unit("U2", 2, elevation="2 m"), unit("U3", 2, elevation="3 m")]
    found = judged(runs, units)
    assert (levels(found)["J1"], levels(found)["J2"]) == (1, 2)
    assert assumed(found) == {"J1", "J2"}


def test_of_two_units_equally_near_the_first_by_name_is_taken() -> None:
    runs = [run("outdoor", "J1", "10 m"), run("J1", "U2", "3 m"), run("J1", "U1", "3 m")]
    found = judged(runs, [unit("U2", 2, elevation="2 m"), unit("U1", 2, elevation="1 m")])
    assert levels(found)["J1"] == 1


def test_a_stated_level_of_a_fitting_is_no_assumption() -> None:
    runs = [run("outdoor", "J1", "10 m"), run("J1", "U1", "5 m"), run("J1", "U2", "5 m")]
    fittings = ({"id": "J1", "elevation": "4 m"},)
    found = judged(runs, [unit("U1", 2, elevation="1 m"), unit("U2", 2, elevation="2 m")], fittings=fittings)
    assert levels(found)["J1"] == 4
    assert assumed(found) == set()


def test_an_assumption_that_makes_a_rise_longer_than_its_run_is_a_note_and_no_fault() -> None:
    """J1 is taken at 0 m, 8 m below the outdoor unit on 5 m of pipe."""
    runs = [run("outdoor", "J1", "5 m"), run("J1", "U1", "3 m"), run("J1", "U2", "3 m")]
    found = judged(runs, [unit("U1", 2), unit("U2", 2)])
    assert [note.subject for note in the_system(found).notes if "more than its length" in note.text] == ["main/run:J1"]
    assert found.standing is Standing.WITHIN
