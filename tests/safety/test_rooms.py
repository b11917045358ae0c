"""Which rooms are judged, with what charge, and what is missing: on a book of 3 kg factory charge and no more."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from linewright.cli.main import cli
from linewright.engine import Evaluation
from linewright.engine.records import Check, Standing
from linewright.engine.working import working
from tests.engine.builders import Doc, book, design, judge, run, system, unit
from tests.safety.clinic import ROOT

LEVELS = [
    {"id": "cellar", "elevation": "-3 m", "underground": "yes"},
    {"id": "ground", "elevation": "0 m", "underground": "no"},
]
SITE = {"levels": LEVELS}
EN: Doc = {"profile": "en-378", "access": "general"}


def room(name: str, area: str = "", height: str = "", **stated: object) -> Doc:
    sizes = {"area": area, "height": height}
    made: Doc = {"id": name, "level": "ground", "cooling": "0 W", "sensible": "0 W", "heating": "0 W"}
    return made | {key: value for key, value in sizes.items() if value} | stated


def pair(
    rooms: list[Doc], chosen: Doc | None, *, of: Doc | None = None, fittings: list[Doc] | None = None, **more: object
) -> Doc:
    """Two units on one joint in rooms `a` and `b`; the joint stands in room `a` unless something else is stated."""
    runs = [run("outdoor", "J1", "10 m"), run("J1", "U1", "5 m"), run("J1", "U2", "5 m")]
    placed = [{"id": "J1", "room": "a"}] if fittings is None else fittings
    made = system(runs, [unit("U1", 5, room="a"), unit("U2", 5, room="b")], fittings=placed) | (of or {})
    found = design([made], rooms=rooms, site=SITE) | more
    return found if chosen is None else found | {"refrigerant": chosen}


def checks(evaluation: Evaluation) -> dict[str, Check]:
    """Checks of refrigerant by what stands behind the system's name."""
    of = {f"{result.id}/{c.subject.partition('/')[2]}": c for result in evaluation.systems for c in result.checks}
    return {name.removeprefix("main/"): check for name, check in of.items() if "refrigerant" in name}


BIG, SMALL = room("a", "60 m2", "3 m"), room("b", "10 m2", "3 m")


def test_each_room_with_a_unit_is_judged_by_the_whole_charge() -> None:
    # R-32, wall units: 2.5 x 0.228517 x 1.8 x sqrt(60) = 7.97 kg; sqrt(10): 3.25 kg. The charge is 3 kg.
    found = checks(judge(pair([BIG, SMALL], EN)))
    assert set(found) == {"refrigerant:a", "refrigerant:b"}
    assert found["refrigerant:a"].bound == pytest.approx(7.965, abs=0.001)
    assert found["refrigerant:b"].bound == pytest.approx(3.252, abs=0.001)
    assert {check.value for check in found.values()} == {3.0}
    assert {check.standing for check in found.values()} == {Standing.WITHIN}


@pytest.mark.parametrize(
    ("stated", "need"),
    [
        (room("b", "", "3 m"), "area of b"),
        (room("b", "10 m2"), "height of b"),
        (room("b", "unknown", "3 m"), "area of b"),
    ],
)
def test_a_room_without_sizes_is_unjudged(stated: Doc, need: str) -> None:
    found = judge(pair([BIG, stated], EN))
    check = checks(found)["refrigerant:b"]
    assert check.standing is Standing.UNJUDGED
    assert need in check.missing
    assert found.standing is Standing.UNJUDGED


@pytest.mark.parametrize(("profile", "need"), [("en-378", "access of b"), ("ashrae-15", "occupancy of b")])
def test_a_room_whose_use_is_not_stated_is_unjudged(profile: str, need: str) -> None:
    check = checks(judge(pair([BIG, SMALL], {"profile": profile})))["refrigerant:b"]
    assert check.standing is Standing.UNJUDGED
    assert check.missing == (need,)


def test_a_rooms_own_use_comes_before_that_of_the_design() -> None:
    # 0.077 x 30 = 2.31 kg, half of it 1.155; m1 = 1.836 kg.
    own = SMALL | {"occupancy": "institutional"}
    found = checks(judge(pair([BIG, own], {"profile": "ashrae-15", "occupancy": "commercial"})))
    assert found["refrigerant:b"].bound == pytest.approx(1.836)
    other = checks(judge(pair([BIG, SMALL], {"profile": "ashrae-15", "occupancy": "commercial"})))
    assert other["refrigerant:b"].bound == pytest.approx(2.31)


def test_a_fitting_of_which_nobody_says_where_it_stands_is_unjudged() -> None:
    found = judge(pair([BIG, SMALL], EN, fittings=[]))
    check = checks(found)["refrigerant.places"]
    assert (check.standing, check.missing) == (Standing.UNJUDGED, ("room of J1",))
    assert found.standing is Standing.UNJUDGED


@pytest.mark.parametrize("location", ["outdoors", "shaft"])
def test_a_fitting_outdoors_or_in_a_shaft_harms_nobody(location: str) -> None:
    found = checks(judge(pair([BIG, SMALL], EN, fittings=[{"id": "J1", "location": location}])))
    assert set(found) == {"refrigerant:a", "refrigerant:b"}


def test_a_corridor_with_a_joint_is_judged_at_the_floor() -> None:
    # No unit hangs there: h0 0.6 m; 2.5 x 0.228517 x 0.6 x sqrt(16) = 1.371, no check up to 1.842 kg.
    corridor = room("c", "16 m2", "3 m")
    found = checks(judge(pair([BIG, SMALL, corridor], EN, fittings=[{"id": "J1", "room": "c"}])))
    assert found["refrigerant:c"].bound == pytest.approx(1.842)
    assert found["refrigerant:c"].standing is Standing.OVER


def test_a_run_with_a_joint_in_a_room_brings_that_room_in() -> None:
    corridor = room("c", "16 m2", "3 m")
    made = pair([BIG, SMALL, corridor], EN)
    made["systems"][0]["runs"][2]["crosses"] = ["c", "b"]
    found = judge(made)
    assert checks(found)["refrigerant:c"].standing is Standing.OVER
    safety = found.systems[0].safety
    assert safety is not None
    assert {one.room.id: one.parts for one in safety.spaces} == {"a": ("J1", "U1"), "b": ("U2",), "c": ("U2",)}


def test_two_systems_in_one_room_are_judged_each_by_its_own_charge() -> None:
    made = pair([BIG, SMALL], EN)
    second = json.loads(json.dumps(made["systems"][0]))
    second |= {"id": "other", "outdoor": {"modules": ["outdoor 10", "outdoor 10"], "elevation": "0 m"}}
    found = checks(judge(made | {"systems": [made["systems"][0], second]}))
    assert (found["refrigerant:b"].value, found["other/refrigerant:b"].value) == (3.0, 6.0)
    assert found["refrigerant:b"].standing is Standing.WITHIN
    assert found["other/refrigerant:b"].standing is Standing.OVER


def test_with_a_charge_that_is_not_known_every_room_is_unjudged() -> None:
    lines = book({"charge": {"liquid": {"9.52 mm": "0.05 kg/m", "6.35 mm": "0.02 kg/m"}}})
    made = pair([BIG, SMALL], EN)
    made["systems"][0]["runs"][0]["length"] = "unknown"
    check = checks(judge(made, lines))["refrigerant:b"]
    assert check.standing is Standing.UNJUDGED
    assert check.missing
    assert check.bound == pytest.approx(3.252, abs=0.001), "what it may hold is known all the same"


def test_a_length_as_built_counts() -> None:
    # 0.05 x (10 + 5 + 5) of 9.52 and 6.35 mm alike: 1.0 kg; 60 m as built instead of 10 m: 3.5 kg.
    lines = book({"charge": {"liquid": {"9.52 mm": "0.05 kg/m", "6.35 mm": "0.05 kg/m"}}})
    made = pair([BIG, SMALL | {"area": "25 m2"}], EN)
    assert checks(judge(made, lines))["refrigerant:b"].value == pytest.approx(4.0)
    assert checks(judge(made, lines))["refrigerant:b"].standing is Standing.WITHIN
    made["systems"][0]["runs"][0]["as_built"] = "60 m"
    assert checks(judge(made, lines))["refrigerant:b"].value == pytest.approx(6.5)
    assert checks(judge(made, lines))["refrigerant:b"].standing is Standing.OVER


LITTLE = room("b", "4 m2", "2.5 m")
DUCT = {"id": "both", "rooms": ["a", "b"], "joined_by": "duct"}


@pytest.mark.parametrize(
    ("profile", "share", "standing"),
    [
        ("en-378", "25 %", Standing.WITHIN),
        ("en-378", "24 %", Standing.OVER),
        ("en-378", "", Standing.UNJUDGED),
        ("ashrae-15", "10 %", Standing.TO_CONFIRM),
        ("ashrae-15", "9 %", Standing.OVER),
    ],
)
def test_rooms_of_one_duct_count_together_as_far_as_it_stays_open(profile: str, share: str, standing: Standing) -> None:
    space = DUCT | ({"least_airflow": share} if share else {})
    chosen = {"profile": profile, "access": "general", "occupancy": "commercial"}
    check = checks(judge(pair([BIG, LITTLE], chosen, spaces=[space])))["refrigerant:b"]
    assert check.standing is standing
    if standing is Standing.UNJUDGED:
        assert check.missing == ("least airflow of both",)
    if standing is Standing.WITHIN:
        assert check.governs == ("a", "b")


def test_iec_asks_how_large_the_opening_between_rooms_is() -> None:
    space = {"id": "both", "rooms": ["a", "b"], "joined_by": "openings"}
    chosen = {"profile": "iec-60335-2-40"}
    check = checks(judge(pair([BIG, LITTLE], chosen, spaces=[space])))["refrigerant:b"]
    assert (check.standing, check.missing) == (Standing.UNJUDGED, ("opening of both",))
    # Alone: min(2.5 x 0.228517 x 1.8 x sqrt(4), 0.75 x 0.307 x 1.8 x 4) = min(2.057, 1.658) = 1.658 kg. For 3 kg
    # (3 - 1.658) / (104 x 0.307) x sqrt(4 / (9.81 x 1.658) x 52.02 / 23.02) = 0.04203 x 0.7455 = 0.0313 m2.
    for opening, standing in (("0.0315 m2", Standing.TO_CONFIRM), ("0.0311 m2", Standing.OVER)):
        stated = checks(judge(pair([BIG, LITTLE], chosen, spaces=[space | {"opening": opening}])))["refrigerant:b"]
        assert stated.standing is standing


def test_joined_rooms_have_valves_only_where_each_has() -> None:
    """A leak behind the valve of one room does not help against a leak in the other."""
    chosen = {"profile": "iec-60335-2-40"}
    both = {"id": "both", "rooms": ["a", "b"], "joined_by": "duct", "least_airflow": "100 %"}
    rooms = [room("a", "3 m2", "2.5 m"), room("b", "3 m2", "2.5 m")]
    made = pair(rooms, chosen, spaces=[both], of={"releasable": {"a": "1 kg"}})
    # 3 m2 at the wall: 0.75 x 0.307 x 1.8 x 3 = 1.243, m1 = 1.842 kg; both: 6 m2: 2.486 kg.
    found = checks(judge(made))
    assert (found["refrigerant:a"].standing, found["refrigerant:a"].value) == (Standing.TO_CONFIRM, 1.0)
    assert (found["refrigerant:b"].standing, found["refrigerant:b"].value) == (Standing.OVER, 3.0)
    made["systems"][0]["releasable"] = {"a": "1 kg", "b": "2 kg"}
    assert checks(judge(made))["refrigerant:b"].standing is Standing.TO_CONFIRM


def test_of_joined_rooms_the_strictest_counts() -> None:
    both = {"id": "both", "rooms": ["a", "b"], "joined_by": "openings"}
    chosen = {"profile": "ashrae-15", "occupancy": "commercial"}
    rooms = [room("a", "12 m2", "3 m", occupancy="institutional"), room("b", "12 m2", "3 m")]
    # b alone 0.077 x 36 = 2.772 kg, over; together 0.077 x 72 x 0.5 = 2.772 kg, since a is institutional.
    assert checks(judge(pair(rooms, chosen, spaces=[both])))["refrigerant:b"].standing is Standing.OVER
    rooms[0]["occupancy"] = "commercial"
    assert checks(judge(pair(rooms, chosen, spaces=[both])))["refrigerant:b"].standing is Standing.TO_CONFIRM


def test_an_alarm_in_one_of_joined_rooms_is_none_in_the_other() -> None:
    # Together 30 m3: 3 / 30 = 0.1, between QLMV 0.063 and QLAV 0.15: one measure; alone 0.2 is too much for one.
    low = [
        {"id": name, "model": "unit 5", "room": where, "mounting": "floor"}
        for name, where in (("U1", "a"), ("U2", "b"))
    ]
    both = {"id": "both", "rooms": ["a", "b"], "joined_by": "openings"}
    rooms = [room(name, "6 m2", "2.5 m", restricted="no") for name in ("a", "b")]
    made = pair(rooms, EN, of={"tight": "yes", "units": low}, spaces=[both])
    rooms[1]["alarm"] = "yes"
    assert checks(judge(made))["refrigerant:b"].standing is Standing.OVER
    rooms[0]["alarm"] = "yes"
    assert checks(judge(made))["refrigerant:b"].standing is Standing.WITHIN


def test_an_opening_counts_only_with_its_edge() -> None:
    # 3 kg / 30 m3 = 0.1: one measure; 0.0032 x 3 / (0.063 x 30) = 0.00508 m2.
    floor = [
        {"id": "U1", "model": "unit 5", "room": "a"},
        {"id": "U2", "model": "unit 5", "room": "b", "mounting": "floor"},
    ]
    of = {"tight": "yes", "units": floor}
    for stated, standing in (
        ({"opening": "0.0051 m2", "opening_edge": "0.2 m"}, Standing.WITHIN),
        ({"opening": "0.0050 m2", "opening_edge": "0.2 m"}, Standing.OVER),
        ({"opening": "0.0051 m2"}, Standing.OVER),
    ):
        found = checks(judge(pair([BIG, room("b", "10 m2", "3 m", **stated)], EN, of=of)))
        assert found["refrigerant:b"].standing is standing


def test_valves_stand_where_the_pipe_beyond_is_known() -> None:
    # 5 m of 6.35 mm at 0.02 kg/m: 0.1 kg behind the run to U2.
    lines = book({"charge": {"liquid": {"9.52 mm": "0.05 kg/m", "6.35 mm": "0.02 kg/m"}}})
    found = judge(pair([BIG, room("b", "5 m2", "2.5 m")], {"profile": "iec-60335-2-40"}), lines)
    safety = found.systems[0].safety
    assert safety is not None
    valve = next(one for one in safety.spaces if one.room.id == "b").valve
    assert valve is not None
    assert (valve.run, valve.units) == ("U2", ("U2",))
    assert valve.pipe_kg == pytest.approx(0.1)
    plain = judge(pair([BIG, room("b", "5 m2", "2.5 m")], {"profile": "iec-60335-2-40"})).systems[0].safety
    assert plain is not None
    assert next(one for one in plain.spaces if one.room.id == "b").valve is None, "the book has no masses"


def test_the_lowest_unit_of_joined_rooms_counts() -> None:
    low = [BIG, LITTLE]
    made = pair(low, EN, spaces=[{"id": "both", "rooms": ["a", "b"], "joined_by": "openings"}])
    assert checks(judge(made))["refrigerant:b"].bound == pytest.approx(0.5712925 * 1.8 * 8.0, rel=1e-4)
    made["systems"][0]["units"][0]["mounting"] = "floor"
    assert checks(judge(made))["refrigerant:b"].bound == pytest.approx(0.5712925 * 0.6 * 8.0, rel=1e-4)


@given(
    st.floats(2, 80),
    st.floats(2, 80),
    st.floats(2, 5),
    st.floats(2, 5),
    st.sampled_from(["yes", "no"]),
    st.sampled_from(["en-378", "ashrae-15", "iec-60335-2-40"]),
)
def test_joined_rooms_are_never_worse_than_alone(
    first: float, second: float, high: float, low: float, tight: str, profile: str
) -> None:
    rooms = [room("a", f"{first:.3f} m2", f"{high:.3f} m"), room("b", f"{second:.3f} m2", f"{low:.3f} m")]
    chosen = {"profile": profile, "access": "general", "occupancy": "commercial"}
    space = {"id": "both", "rooms": ["a", "b"], "joined_by": "openings", "opening": "0.05 m2"}
    of = {"tight": tight}
    alone, joined = checks(judge(pair(rooms, chosen, of=of))), checks(judge(pair(rooms, chosen, of=of, spaces=[space])))
    order = {Standing.OVER: 0, Standing.UNJUDGED: 1, Standing.TO_CONFIRM: 2, Standing.WITHIN: 2}
    for name in ("refrigerant:a", "refrigerant:b"):
        assert order[joined[name].standing] >= order[alone[name].standing]


def test_an_unknown_mounting_is_asked_for_only_where_it_decides() -> None:
    # 10 m2: at the floor 1.084 (1.842 without a check), at the wall 3.252 kg; 60 m2 at the floor 2.655 kg.
    kinds = {"indoor.models": [{**book()["indoor"]["models"][4], "kind": "column"}]}
    found = checks(judge(pair([BIG, SMALL], EN), book(kinds)))
    assert (found["refrigerant:b"].standing, found["refrigerant:b"].missing) == (
        Standing.UNJUDGED,
        ("mounting of the units in b",),
    )
    huge = checks(judge(pair([room("a", "90 m2", "3 m"), SMALL], EN), book(kinds)))
    assert huge["refrigerant:a"].standing is Standing.WITHIN, "3.25 kg even at the floor"


def test_access_b_and_c_leaves_open_what_was_not_read() -> None:
    # R-410A does not burn: 0.44 x 5 m3 = 2.2 kg, over by toxicity alone.
    of = book({"refrigerant": "R-410A"})
    tiny = room("b", "2 m2", "2.5 m")
    assert checks(judge(pair([BIG, tiny], EN), of))["refrigerant:b"].standing is Standing.OVER
    supervised = checks(judge(pair([BIG, tiny], EN | {"access": "supervised"}), of))["refrigerant:b"]
    assert supervised.standing is Standing.UNJUDGED
    assert "C.1" in supervised.missing[0]


CELLAR = room("c", "20 m2", "2.5 m") | {"level": "cellar"}


@pytest.mark.parametrize(("fan", "standing"), [("", Standing.WITHIN), ("100 m3/h", Standing.WITHIN)])
def test_what_falls_to_the_lowest_floor_below_ground(fan: str, standing: Standing) -> None:
    # 3 kg / 50 m3 = 0.06, not over QLMV 0.063.
    cellar = CELLAR | ({"exhaust": fan} if fan else {})
    made = pair([BIG, SMALL, cellar], EN, of={"tight": "yes"})
    assert checks(judge(made))["refrigerant.lowest"].standing is standing


def test_what_falls_into_a_small_cellar_needs_a_fan() -> None:
    # 3 kg / 25 m3 = 0.12; a fan of 10 / 0.061 = 163.9 m3/h is always large enough.
    cellar = CELLAR | {"area": "10 m2"}
    assert (
        checks(judge(pair([BIG, SMALL, cellar], EN, of={"tight": "yes"})))["refrigerant.lowest"].standing
        is Standing.OVER
    )
    fanned = cellar | {"exhaust": "165 m3/h"}
    assert (
        checks(judge(pair([BIG, SMALL, fanned], EN, of={"tight": "yes"})))["refrigerant.lowest"].standing
        is Standing.WITHIN
    )
    unsized = {key: value for key, value in cellar.items() if key != "area"}
    assert checks(judge(pair([BIG, SMALL, unsized], EN, of={"tight": "yes"})))["refrigerant.lowest"].missing
    assert "refrigerant.lowest" not in checks(judge(pair([BIG, SMALL, cellar], EN))), "a rule of C.3"


def test_a_room_below_ground_is_judged_by_the_stricter_row() -> None:
    # b: 30 m3, 3 kg / 30 = 0.1: above ground one measure, below ground two (0.1 is over QLMV 0.063, not over QLAV).
    small = room("b", "10 m2", "3 m", alarm="yes", restricted="no") | {"level": "ground"}
    floor = [
        {"id": "U1", "model": "unit 5", "room": "a"},
        {"id": "U2", "model": "unit 5", "room": "b", "mounting": "floor"},
    ]
    of = {"tight": "yes", "units": floor}
    assert checks(judge(pair([BIG, small], EN, of=of)))["refrigerant:b"].standing is Standing.WITHIN
    below = small | {"level": "cellar"}
    assert checks(judge(pair([BIG, below], EN, of=of)))["refrigerant:b"].standing is Standing.OVER
    fanned = below | {"exhaust": "165 m3/h"}
    assert checks(judge(pair([BIG, fanned], EN, of=of)))["refrigerant:b"].standing is Standing.WITHIN
    made = pair([BIG, small], EN, of=of)
    made["site"] = {"levels": [{"id": "ground", "elevation": "0 m"}]}
    check = checks(judge(made))["refrigerant:b"]
    assert (check.standing, check.missing) == (Standing.UNJUDGED, ("whether level ground is underground",))


def test_an_alarm_alone_is_no_measure_where_people_sleep() -> None:
    floor = [
        {"id": "U1", "model": "unit 5", "room": "a"},
        {"id": "U2", "model": "unit 5", "room": "b", "mounting": "floor"},
    ]
    of = {"tight": "yes", "units": floor}
    for restricted, standing in (("no", Standing.WITHIN), ("yes", Standing.OVER), ("", Standing.UNJUDGED)):
        stated = room("b", "10 m2", "3 m", alarm="yes", **({"restricted": restricted} if restricted else {}))
        assert checks(judge(pair([BIG, stated], EN, of=of)))["refrigerant:b"].standing is standing


# R-410A: 2087.5 by both bases, a group of 20 kW; R-32: 675.
@pytest.mark.parametrize(
    ("name", "region", "day", "rule", "standing"),
    [
        ("R-410A", "eu", "2028-12-31", "eu-over-12-kw-750", None),
        ("R-410A", "eu", "2029-01-01", "eu-over-12-kw-750", Standing.OVER),
        ("R-32", "eu", "2032-12-31", "eu-over-12-kw-150", None),
        ("R-32", "eu", "2033-01-01", "eu-over-12-kw-150", Standing.OVER),
        ("R-410A", "us", "2025-12-31", "us-vrf-700", None),
        ("R-410A", "us", "2026-06-01", "us-vrf-700", Standing.UNJUDGED),
        ("R-410A", "us", "2028-01-01", "us-vrf-700-final", Standing.OVER),
        ("R-32", "us", "2030-01-01", "us-vrf-700-final", None),
        ("R-410A", "eu", "", "eu-over-12-kw-750", Standing.UNJUDGED),
    ],
)
def test_what_may_be_installed_on_a_day(name: str, region: str, day: str, rule: str, standing: Standing | None) -> None:
    chosen = EN | {"region": region} | ({"installed": day} if day else {})
    made = pair([BIG, SMALL], chosen, of={"outdoor": {"modules": ["outdoor 20"], "elevation": "0 m"}})
    check = checks(judge(made, book({"refrigerant": name}))).get(f"refrigerant.{rule}")
    assert (check.standing if check else None) is standing


@pytest.mark.parametrize(
    ("name", "region", "day", "rule"),
    [
        ("R-32", "eu", "2028-12-31", ""),
        ("R-32", "eu", "2029-01-01", "refrigerant.eu-up-to-12-kw-150"),
        ("R-32", "us", "2029-01-01", ""),
        ("R-410A", "us", "2024-12-31", ""),
        ("R-410A", "us", "2025-01-01", "refrigerant.us-split-700"),
        ("R-410A", "us", "2026-01-01", "refrigerant.us-split-700-final"),
    ],
)
def test_a_small_system_is_under_another_rule(name: str, region: str, day: str, rule: str) -> None:
    """The plain system has 10 kW, less than 12 kW and 65 000 Btu/h."""
    made = pair([BIG, SMALL], EN | {"region": region, "installed": day})
    found = set(checks(judge(made, book({"refrigerant": name})))) - {"refrigerant:a", "refrigerant:b"}
    assert found == ({rule} if rule else set())


@pytest.mark.parametrize(
    "chosen", [EN, {"profile": "ashrae-15", "occupancy": "commercial"}, {"profile": "iec-60335-2-40"}]
)
def test_the_working_ends_with_what_is_left(chosen: Doc) -> None:
    found = judge(pair([BIG, SMALL], chosen))
    steps = working(found, "main/refrigerant:b").steps
    check = checks(found)["refrigerant:b"]
    assert steps[-1].result == pytest.approx(check.margin)
    assert working(found, "main/refrigerant:a").steps
    places = judge(pair([BIG, SMALL], chosen, fittings=[]))
    assert "room of J1" in working(places, "main/refrigerant.places").steps[-1].note


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("level: ground, area: 14 m2", "level: ground, area: 80 m2", 0),
        ("level: ground, area: 14 m2", "level: ground, area: 14 m2", 1),
        ("level: ground, area: 14 m2", "level: ground, area: unknown", 3),
        ("profile: en-378", "profile: en-999", 2),
        ("profile: en-378, edition: 2016+A1:2020, access: general", "profile: iec-60335-2-40", 3),
    ],
)
def test_the_exit_code_says_how_it_stands(tmp_path: Path, old: str, new: str, code: int) -> None:
    text = (ROOT / "examples" / "ferry-terminal" / "ferry-terminal.design.yaml").read_text(encoding="utf-8")
    assert old in text
    large = text.replace(old, new)
    if code == 3 and "iec" in new:
        large = large.replace("area: 14 m2", "area: 500 m2").replace("area: 12 m2", "area: 500 m2")
        large = large.replace("area: 16 m2", "area: 500 m2").replace("area: 60 m2", "area: 500 m2")
        large = large.replace("area: 110 m2", "area: 900 m2")
    path = tmp_path / "terminal.design.yaml"
    path.write_text(large, encoding="utf-8")
    assert CliRunner().invoke(cli, ["check", str(path)]).exit_code == code
