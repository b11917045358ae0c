"""The minimal design on the minimal book: every number and every text of the check that was worked by hand."""

import json

import pytest

from tests.contract.containing import Json, count_of_leaves, lacks, read_json, spoiled
from tests.contract.program import DATA, MINIMAL, Done, linewright

WANTED: Json = json.loads((DATA / "minimal.check.json").read_text(encoding="utf-8"))


@pytest.fixture(scope="module")
def done() -> Done:
    return linewright("check", MINIMAL, "--json")


@pytest.fixture(scope="module")
def got(done: Done) -> Json:
    return read_json(done.stdout)


def test_the_output_contains_every_number_and_text(got: Json) -> None:
    assert list(lacks(WANTED, got)) == []


def test_a_short_room_gives_exit_code_1(done: Done) -> None:
    assert done.code == 1
    assert done.stderr == ""


@pytest.mark.parametrize("part", ["runs", "fittings", "units"])
def test_nothing_stands_beside_what_is_wanted(got: Json, part: str) -> None:
    wanted = [entry["id"] for entry in WANTED["systems"][0][part]]
    assert [entry["id"] for entry in got["systems"][0][part]] == wanted


def test_the_terms_of_the_charge_are_exactly_those(got: Json) -> None:
    terms = [term["term"] for term in got["systems"][0]["charge"]["terms"]]
    assert terms == [term["term"] for term in WANTED["systems"][0]["charge"]["terms"]]


def test_series_hold_exactly_the_subjects_that_are_wanted(got: Json) -> None:
    found = {measure["name"]: measure for measure in got["systems"][0]["measures"]}
    series = [measure for measure in WANTED["systems"][0]["measures"] if "by_subject" in measure]
    assert len(series) == 5
    for measure in series:
        assert set(found[measure["name"]]["by_subject"]) == set(measure["by_subject"])


def test_assumed_elevations_say_so(got: Json) -> None:
    fittings = {fitting["id"]: fitting for fitting in got["systems"][0]["fittings"]}
    assert {name: fitting["elevation_assumed"] for name, fitting in fittings.items()} == {"J1": True, "J2": True}
    assert any("J1" in note["text"] and "assumed" in note["text"] for note in got["systems"][0]["notes"])


def test_the_rooms_that_are_short_are_the_ones_that_were_worked_out(got: Json) -> None:
    """Workshop: 5.78 of 6.0 kW heating, and 6.63 x 5.3 / 7.1 = 4.95 of 5.0 kW sensible; store: 3.36 of 3.5 kW."""
    short = {
        (room["id"], check["measure"])
        for room in got["rooms"]
        for check in room["checks"]
        if check["standing"] == "over"
    }
    assert short == {("workshop", "heating"), ("workshop", "sensible"), ("store", "cooling")}


def test_every_single_number_and_text_is_really_compared() -> None:
    assert list(lacks(WANTED, WANTED)) == []
    copies = list(spoiled(WANTED))
    assert len(copies) > count_of_leaves(WANTED) > 200
    assert [copy for copy in copies if not list(lacks(copy, WANTED))] == []
