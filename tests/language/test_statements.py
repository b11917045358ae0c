"""What rests on statements: requirements where little is stated, ranges of every axis, loads that nobody knows."""

import pytest

from linewright.engine import Standing
from linewright.errors import InputFaultsError
from tests.engine.builders import (
    SITE,
    Doc,
    book,
    design,
    judge,
    room,
    run,
    system,
    the_check,
    the_limit,
    the_system,
    two_units,
    unit,
)

SLOPE: Doc = {"id": "slope", "applies_to": "module-pipes", "text": "Module pipes fall toward the modules."}
TWIN = {"modules": ["outdoor 10", "outdoor 10"]}


def test_module_pipes_that_nobody_states_are_there_all_the_same() -> None:
    used = book({"requirements": [SLOPE]})
    bare = system(*two_units("5 m", "5 m"), modules=TWIN["modules"])
    check = the_check(judge(design([bare]), used), "requirement:slope")
    assert (check.standing, check.governs) == (Standing.TO_CONFIRM, ("M1", "M2"))
    half = bare | {"confirmed": [{"id": "slope", "at": ["M1"]}]}
    assert the_check(judge(design([half]), used), "requirement:slope").governs == ("M2",)
    done = bare | {"confirmed": [{"id": "slope", "at": ["M1", "M2"]}]}
    assert the_check(judge(design([done]), used), "requirement:slope").standing is Standing.WITHIN
    single = system(*two_units("5 m", "5 m"))
    assert not the_system(judge(design([single]), used)).checks


def test_what_is_confirmed_needs_no_condition() -> None:
    hood = {"id": "hood", "text": "Snow hood.", "when": {"site": "heating.outdoor_wb", "under": "-15 C"}}
    made = system(*two_units("5 m", "5 m"))
    open_ = the_check(judge(design([made]), book({"requirements": [hood]})), "requirement:hood")
    assert (open_.standing, open_.missing) == (Standing.UNJUDGED, ("heating.outdoor_wb of the site",))
    done = judge(design([made | {"confirmed": ["hood"]}]), book({"requirements": [hood]}))
    assert the_check(done, "requirement:hood").standing is Standing.WITHIN


def test_a_condition_that_is_known_is_not_said_to_be_missing() -> None:
    when = [{"site": "heating.outdoor_wb", "under": "-15 C"}, {"measure": "indoor_count", "at_least": 2}]
    hood = {"id": "hood", "text": "Snow hood.", "when": when}
    made = judge(design([system(*two_units("5 m", "5 m"))]), book({"requirements": [hood]}))
    assert the_check(made, "requirement:hood").missing == ("heating.outdoor_wb of the site",)


RANGES = {
    "cooling": {"indoor_db": {"max": "32 C"}},
    "heating": {"outdoor_db": {"min": "-18 C"}},
}


def test_a_range_of_the_other_bulb_is_judged_where_the_site_states_it() -> None:
    used = book({"operation": RANGES})
    made = system(*two_units("5 m", "5 m"))
    cooling, heating = SITE["cooling"] | {"indoor_db": "33 C"}, SITE["heating"] | {"outdoor_db": "-18 C"}
    stated = judge(design([made], site=SITE | {"cooling": cooling, "heating": heating}), used)
    assert the_check(stated, "operation.cooling.indoor_db").standing is Standing.OVER
    assert the_check(stated, "operation.heating.outdoor_db").standing is Standing.WITHIN
    silent = judge(design([made], site=SITE), used)
    for name in ("operation.cooling.indoor_db", "operation.heating.outdoor_db"):
        assert the_check(silent, name).standing is Standing.UNJUDGED
    assert silent.standing is Standing.UNJUDGED


def test_a_range_that_no_site_could_meet_is_a_fault_of_the_book() -> None:
    with pytest.raises(InputFaultsError) as error:
        judge(
            design([system(*two_units("5 m", "5 m"))]),
            book({"operation": {"heating": {"indoor_wb": {"max": "20 C"}}}}),
        )
    (fault,) = error.value.faults
    assert (fault.path, fault.message) == (
        "operation.heating.indoor_wb",
        "no site states it, so that nobody could judge it",
    )


def test_a_unit_in_no_room_leaves_the_coincident_load_unknown() -> None:
    """What it takes nobody knows, so that a ratio without it would be too small."""
    runs = [run("outdoor", "J1", "9 m"), run("J1", "U1", "5 m"), run("J1", "U2", "5 m")]
    units = [unit("U1", 5, room="x"), unit("U2", 5)]
    limit = {"measure": "connection_ratio", "count_by": "simultaneous", "max": "100 %"}
    used = book({"limits": [limit]})
    loads = [room("x", "4 kW")]
    unknown = the_limit(judge(design([system(runs, units)], rooms=loads), used), "connection_ratio")
    assert unknown.standing is Standing.UNJUDGED
    # A stated block load of 6 kW on 10 kW is 60 %.
    block = system(runs, units, block={"cooling": "6 kW"})
    known = the_limit(judge(design([block], rooms=loads), used), "connection_ratio")
    assert (known.value, known.standing) == (0.6, Standing.WITHIN)
