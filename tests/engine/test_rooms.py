"""Rooms: one unit, two units, units of two systems, none; units in no room."""

import pytest

from linewright.engine import Evaluation, Standing
from tests.engine.builders import (
    SITE,
    Doc,
    book,
    design,
    judge,
    room,
    room_checks,
    run,
    system,
    the_check,
    the_system,
    the_unit,
    unit,
)

KW = 1000.0


def two_in_hall(load: str, *, second_room: str = "hall") -> Evaluation:
    """Ratings 2 and 4 kW on 10 kW: each delivers its rating."""
    runs = [run("outdoor", "J1", "10 m"), run("J1", "U1", "5 m"), run("J1", "U2", "5 m")]
    units = [unit("U1", 2, room="hall"), unit("U2", 4, room=second_room)]
    rooms = [room("hall", load, sensible="3 kW", heating=load)]
    return judge(design([system(runs, units)], rooms=rooms, site=SITE), book())


def test_two_units_share_the_need_of_their_room_by_rating_and_serve_it_together() -> None:
    """4.5 kW on 2 + 4: 1.5 and 3 kW; together they deliver 6."""
    found = two_in_hall("4.5 kW")
    assert [the_unit(found, name).cooling.needed_w for name in ("U1", "U2")] == pytest.approx([1.5 * KW, 3 * KW])
    check = room_checks(found, "hall")["cooling"]
    assert (check.value, check.bound, check.margin) == pytest.approx((6 * KW, 4.5 * KW, 1.5 * KW))
    assert check.standing is Standing.WITHIN
    assert found.rooms[0].units == ("main/U1", "main/U2")


@pytest.mark.parametrize(
    ("load", "standing"),
    [("6 kW", Standing.WITHIN), ("6.000001 kW", Standing.OVER), ("5.999999 kW", Standing.WITHIN)],
)
def test_a_room_is_short_just_above_what_its_units_deliver(load: str, standing: Standing) -> None:
    """6 kW total, 1 + 2 = 3 kW sensible, which is just what is needed."""
    checks = room_checks(two_in_hall(load), "hall")
    assert checks["cooling"].standing is standing
    assert checks["heating"].standing is standing
    assert checks["sensible"].standing is Standing.WITHIN
    assert checks["sensible"].margin == pytest.approx(0)


def test_a_unit_in_no_room_needs_nothing_and_takes_nothing_when_it_is_capped() -> None:
    """At full demand it delivers its rating all the same; of a coincident load it takes none."""
    found = two_in_hall("2 kW", second_room="")
    alone = the_unit(found, "U2")
    assert alone.room == ""
    assert alone.cooling.needed_w is None
    assert alone.cooling.delivered_w == pytest.approx(4 * KW)
    assert alone.cooling.coincident_w == pytest.approx(0)
    assert the_unit(found, "U1").cooling.coincident_w == pytest.approx(2 * KW)
    assert found.rooms[0].units == ("main/U1",)
    assert any("U2" in note.text and "no room" in note.text for note in the_system(found).notes)
    # It is judged in no room, and the system's block load is that of the other's room.
    assert the_check(found, "capacity.cooling").bound == pytest.approx(2 * KW)


def test_a_room_that_no_unit_serves_is_short_of_all_it_needs() -> None:
    rooms = [room("hall", "2 kW"), room("attic", "1 kW", sensible="0.5 kW", heating="0 W")]
    runs, units = [run("outdoor", "U1", "5 m")], [unit("U1", 2, room="hall")]
    found = judge(design([system(runs, units)], rooms=rooms, site=SITE), book())
    checks = room_checks(found, "attic")
    assert checks["cooling"].standing is Standing.OVER
    assert (checks["cooling"].value, checks["cooling"].margin) == pytest.approx((0, -1 * KW))
    assert checks["sensible"].standing is Standing.OVER
    # It needs no heating, so there is nothing to judge.
    assert checks["heating"].standing is Standing.NOT_APPLICABLE
    assert found.standing is Standing.OVER


def test_units_of_two_systems_serve_one_room_together() -> None:
    """Ratings 2 and 4, one in each system: 4.5 kW are 1.5 and 3; 6 kW are delivered."""
    one = system([run("outdoor", "U1", "5 m")], [unit("U1", 2, room="hall")], name="a")
    two = system([run("outdoor", "U2", "5 m")], [unit("U2", 4, room="hall")], name="b")
    found = judge(design([one, two], rooms=[room("hall", "4.5 kW", heating="4.5 kW")], site=SITE), book())
    assert the_unit(found, "U1", of="a").cooling.needed_w == pytest.approx(1.5 * KW)
    assert the_unit(found, "U2", of="b").cooling.needed_w == pytest.approx(3 * KW)
    assert room_checks(found, "hall")["cooling"].value == pytest.approx(6 * KW)
    assert found.rooms[0].units == ("a/U1", "b/U2")
    blocks = [capacity.block_w for system_ in found.systems if (capacity := system_.cooling)]
    assert blocks == pytest.approx([1.5 * KW, 3 * KW])


def test_a_load_that_nobody_states_leaves_the_room_and_the_block_unjudged() -> None:
    runs = [run("outdoor", "J1", "10 m"), run("J1", "U1", "5 m"), run("J1", "U2", "5 m")]
    units = [unit("U1", 2, room="hall"), unit("U2", 4, room="den")]
    den: Doc = {"id": "den", "level": "ground", "sensible": "1 kW", "heating": "1 kW"}
    found = judge(design([system(runs, units)], rooms=[room("hall", "1 kW"), den], site=SITE), book())
    check = room_checks(found, "den")["cooling"]
    assert check.standing is Standing.UNJUDGED
    assert check.missing == ("cooling load of the room",)
    assert room_checks(found, "den")["heating"].standing is Standing.WITHIN
    assert the_check(found, "capacity.cooling").standing is Standing.UNJUDGED
    assert the_unit(found, "U1").cooling.coincident_w is None


def test_a_site_without_conditions_leaves_its_rooms_unjudged() -> None:
    runs, units = [run("outdoor", "U1", "5 m")], [unit("U1", 2, room="hall")]
    bare = {"levels": SITE["levels"], "cooling": SITE["cooling"]}
    rooms = [room("hall", "1 kW", heating="1 kW")]
    checks = room_checks(judge(design([system(runs, units)], rooms=rooms, site=bare), book()), "hall")
    assert checks["cooling"].standing is Standing.WITHIN
    assert checks["heating"].standing is Standing.UNJUDGED
    assert checks["heating"].missing == ("design conditions of the site in this mode",)
