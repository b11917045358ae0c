"""What rests on statements: requirements where little is stated, ranges of every axis, loads that nobody knows."""

import json

import pytest

from linewright.document.files import book_from_text
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


def test_a_density_that_no_oil_has_is_a_fault_of_the_book() -> None:
    with pytest.raises(InputFaultsError) as error:
        judge(design([system(*two_units("5 m", "5 m"))]), book({"operation": {"oil_density": "96 kg/m3"}}))
    (fault,) = error.value.faults
    assert (fault.path, fault.message, fault.expected) == (
        "operation.oil_density",
        "no oil of compressors is that light or that heavy",
        "700 to 1200 kg/m3",
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


LEAVES: Doc = {"id": "leaves", "applies_to": "unit-runs", "where": {"below": "header"}, "text": "Leaves level."}


def test_a_requirement_on_some_unit_runs() -> None:
    runs = [run("outdoor", "J1", "9 m"), run("J1", "U1", "5 m"), run("J1", "H1", "5 m")]
    runs += [run("H1", "U2", "3 m"), run("H1", "U3", "3 m")]
    units = [unit(name, 3) for name in ("U1", "U2", "U3")]
    made = system(runs, units, fittings=[{"id": "H1", "kind": "header"}])
    check = the_check(judge(design([made]), book({"requirements": [LEAVES]})), "requirement:leaves")
    assert (check.standing, check.governs) == (Standing.TO_CONFIRM, ("U2", "U3"))


def test_units_that_nobody_knows_leave_a_requirement_unjudged() -> None:
    above = LEAVES | {"where": {"outdoor": "above"}}
    made = system(*two_units("5 m", "5 m"), elevation="")
    check = the_check(judge(design([made]), book({"requirements": [above]})), "requirement:leaves")
    assert (check.standing, check.missing) == (Standing.UNJUDGED, ("elevation of the outdoor group",))


def test_only_units_are_filtered() -> None:
    with pytest.raises(InputFaultsError) as error:
        judge(
            design([system(*two_units("5 m", "5 m"))]),
            book({"requirements": [LEAVES | {"applies_to": "joints"}]}),
        )
    assert [fault.message for fault in error.value.faults] == ["a requirement on joints is asked of no units"]


def test_what_is_open_stands_in_the_result_and_on_the_sheet() -> None:
    from linewright.draw.foot_words import SEPARATOR, paragraphs  # noqa: PLC0415
    from linewright.draw.layout import layout  # noqa: PLC0415
    from linewright.report.check_text import check_text  # noqa: PLC0415
    from linewright.units import UnitSystem  # noqa: PLC0415

    plane = {"id": "plane", "applies_to": "joints", "text": "Joints lie flat.", "page": 7}
    kit = {"id": "kit", "text": "Quiet kit.", "page": 9}
    switch = {"id": "switch", "setting": "yes", "text": "Set it."}
    changes: Doc = {"requirements": [plane, switch], "options": [kit], "level_reference": "base"}
    used = book(changes | {"notes": [{"text": "Keep out of the sun.", "page": 8}]})
    found = judge(design([system(*two_units("5 m", "5 m")) | {"options": ["kit"]}]), used)
    text = check_text(found, system=UnitSystem.SI, colour=False, books={"plain": "plain"})
    flat = " ".join(text.split())
    assert "Joints lie flat.; open at J1" in flat
    assert "at start-up: Set it.; open at main" in flat
    assert flat.endswith("Test: 2 to confirm.")
    printed = (
        "Levels are those of the bases of the units.",
        "Option kit is on (page 9): Quiet kit.",
        "The maker's note (page 8): Keep out of the sun.",
    )
    foot = {item[0]: item[2] for item in paragraphs(layout(found, the_system(found)), UnitSystem.SI, unlabelled=[])}
    first, second = foot["confirm"].split(SEPARATOR)
    assert first == "plane (page 7): Joints lie flat. Open at J1"
    assert second == "at start-up, switch: Set it. Open at main"
    for line in printed:
        assert line in flat
        assert line in foot["notes"]


PRESSURES: Doc = {
    "high": "4.15 MPa",
    "test": [{"pressure": "0.5 MPa", "hold": "5 min"}, {"pressure": "600 psi", "hold": "24 h"}],
    "vacuum": "500 microns",
    "vacuum_hold": "1 h",
    "insulation": {"12.7 mm": "13 mm"},
}


def test_pressures_and_times_are_quantities_and_are_shown() -> None:
    from linewright.book.schema import PressureStage  # noqa: PLC0415
    from linewright.report.book_text import book_text  # noqa: PLC0415
    from linewright.units import UnitSystem  # noqa: PLC0415

    ground = the_system(judge(design([system(*two_units("5 m", "5 m"))]), book({"pressures": PRESSURES}))).state.ground
    found = ground.book.book.pressures
    assert found is not None
    # 500 thousandths of a torr of 133.322 Pa; 600 psi are 4.136854 MPa.
    assert found.vacuum_pa == pytest.approx(66.661, abs=5e-4)
    assert (found.vacuum_hold_s, found.test[0]) == (3600, PressureStage(pressure_pa=500_000.0, hold_s=300.0))
    assert found.test[1].pressure_pa == pytest.approx(4_136_854, abs=1)
    shown = book_text(ground.book, line="plain", system=UnitSystem.SI, colour=False)
    assert "1440 min" in shown


@pytest.mark.parametrize(
    ("key", "value", "said"),
    [
        ("insulation", {"12.7 mm": "0 mm"}, "a tube of 12.7 mm has no insulation of 0 mm"),
        ("vacuum_hold", "0 h", "'vacuum_hold' is not above zero"),
        ("test", [{"pressure": "0.5 MPa", "hold": "5 m"}], '"5 m" is a length, not a time'),
    ],
)
def test_pressures_that_cannot_be(key: str, value: object, said: str) -> None:
    with pytest.raises(InputFaultsError) as error:
        judge(design([system(*two_units("5 m", "5 m"))]), book({"pressures": {key: value}}))
    assert [fault.message for fault in error.value.faults] == [said]


def test_an_edit_that_switches_an_option_on_tells_only_what_it_changes() -> None:
    from dataclasses import replace  # noqa: PLC0415

    from linewright.document.files import design_from_text  # noqa: PLC0415
    from linewright.engine import Library, evaluate  # noqa: PLC0415
    from linewright.model.edits.touches import Touched  # noqa: PLC0415
    from linewright.report.edits_text import edits_text  # noqa: PLC0415
    from linewright.units import UnitSystem  # noqa: PLC0415

    wide = {"id": "wide", "text": "Wide.", "limits": [{"measure": "main_length", "max": "12 m"}]}
    limits = [{"measure": "main_length", "max": "9 m"}, {"measure": "total_length", "max": "90 m"}]
    compiled = book_from_text(json.dumps(book({"limits": limits, "options": [wide]})), "plain.book.yaml").compiled
    before = design_from_text(json.dumps(design([system(*two_units("5 m", "5 m"))])), "test.design.yaml").design
    after = replace(before, systems=(replace(before.systems[0], options=("wide",)),))
    found = [evaluate(made, Library.of({"plain": compiled})) for made in (before, after)]
    nothing = Touched(frozenset(), frozenset())
    text = edits_text(found[0], found[1], nothing, system=UnitSystem.SI, colour=False, dry_run=False)
    lines = [line.strip() for line in text.splitlines() if line.strip().startswith("main/")]
    # The book's bound of 9 m goes, the option's of 12 m comes; the total of 20 m is judged as before.
    assert lines == ["main/limit:main_length: over -> not judged", "main/limit:main_length: not judged -> within"]
