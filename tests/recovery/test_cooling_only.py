"""A unit without a mode box cools and does not heat: its rating, its share and its room."""

import pytest

from linewright.engine.records import Standing
from linewright.engine.working import replay, working
from tests.engine.builders import (
    SITE,
    Doc,
    design,
    judge,
    room,
    room_checks,
    system,
    the_limit,
    the_system,
    the_unit,
    unit,
)
from tests.recovery.builders import book, box, boxes, run


def laid_out(*, heating: str = "0 kW") -> Doc:
    """X of 4 without a box in room x; A of 6 behind a box in room a. Outdoor unit of 10."""
    runs = [run("outdoor", "J1"), run("J1", "X"), run("J1", "B1"), run("B1", "A")]
    units = [unit("X", 4, room="x"), unit("A", 6, room="a")]
    rooms = [room("x", "3 kW", heating=heating), room("a", "5 kW", heating="5 kW")]
    return design([system(runs, units, fittings=[box("B1")])], rooms=rooms, site=SITE)


ALLOWED = boxes({"direct": {}})


def test_it_takes_its_share_of_cooling_and_none_of_heating() -> None:
    """Cooling: 10 kW on ratings of 4 and 6. Heating: 10 kW on a rating of 6, no more than which it gives."""
    found = judge(laid_out(), book(ALLOWED))
    assert (the_unit(found, "X").cooling.delivered_w, the_unit(found, "A").cooling.delivered_w) == (4000, 6000)
    assert (the_unit(found, "X").heating.rating_w, the_unit(found, "X").heating.delivered_w) == (0, 0)
    assert the_unit(found, "A").heating.delivered_w == 6000
    heating = the_system(found).heating
    assert heating is not None
    assert heating.ratings_w == 6000


@pytest.mark.parametrize(("needed", "standing"), [("0 kW", Standing.NOT_APPLICABLE), ("1 kW", Standing.OVER)])
def test_a_room_that_wants_heating_is_short_of_all_of_it(needed: str, standing: Standing) -> None:
    found = judge(laid_out(heating=needed), book(ALLOWED))
    assert room_checks(found, "x")["heating"].standing is standing
    assert room_checks(found, "x")["cooling"].standing is Standing.WITHIN


def test_two_such_units_in_a_room_that_wants_no_heating_leave_nothing_open() -> None:
    runs = [run("outdoor", "J1"), run("J1", "X"), run("J1", "J2"), run("J2", "Y"), run("J2", "B1"), run("B1", "A")]
    units = [unit("X", 2, room="x"), unit("Y", 2, room="x"), unit("A", 6)]
    parted = system(runs, units, fittings=[box("B1")])
    found = judge(design([parted], rooms=[room("x", "3 kW")], site=SITE), book(ALLOWED))
    assert room_checks(found, "x")["heating"].standing is Standing.NOT_APPLICABLE
    assert the_unit(found, "X").heating.needed_w == 0


def test_the_ratio_by_heating_leaves_it_out() -> None:
    """Heating ratings of 6 kW on 10 kW; by cooling 10 on 10."""
    limits = [{"measure": "connection_ratio", "count_by": by, "max": "130 %"} for by in ("heating", "cooling")]
    found = judge(laid_out(), book({**ALLOWED, "limits": limits}))
    assert the_limit(found, "connection_ratio").value == pytest.approx(0.6)
    assert the_limit(found, "connection_ratio", nth=1).value == pytest.approx(1)


def test_a_system_of_such_units_only_gives_no_heating() -> None:
    runs = [run("outdoor", "X")]
    alone = design([system(runs, [unit("X", 4, room="x")])], rooms=[room("x", "3 kW", heating="1 kW")], site=SITE)
    found = judge(alone, book(ALLOWED))
    assert room_checks(found, "x")["heating"].standing is not Standing.WITHIN


def test_the_working_says_why_its_rating_is_none() -> None:
    found = judge(laid_out(), book(ALLOWED))
    step = working(found, "main/unit:X.heating_rating").steps[-1]
    assert replay(step) == 0
    assert step.inputs[0].name == "rated heating of unit 4, which without a mode box only cools"


def test_a_check_on_a_unit_without_a_box_has_a_working() -> None:
    found = judge(laid_out(), book())
    (step,) = working(found, "main/unit:X").steps
    assert (step.note, [item.name for item in step.inputs]) == ("no mode box on the way", ["J1", "X"])
