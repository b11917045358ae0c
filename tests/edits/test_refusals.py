"""Edits that cannot be made: each says why, all faults at once, and changes nothing."""

import pytest

from linewright.document.edits import edits_from_text
from linewright.errors import InputFaultsError
from linewright.model.design import Design
from linewright.model.edits import Set, apply
from linewright.model.edits.values import Kind
from tests.edits.boat_house import BOAT_HOUSE

#: Edits of the boat house, and what is said of them.
REFUSED = {
    "{edit: set, system: main, run: J9, length: 3 m}": "there is no run 'J9'",
    "{edit: set, system: east, run: J1, length: 3 m}": "there is no system 'east'",
    "{edit: set, system: main, run: J2, length: -3 m}": "the length -3.00 m is negative",
    "{edit: move, system: main, node: J1, to: J2}": "the runs go round in a loop: 'J1', 'J2', 'J1'",
    "{edit: add, system: main, runs: [{from: J2, to: U1, length: 1 m}]}": "the name 'U1' is used already",
    "{edit: add, system: main, runs: [{from: outdoor, to: J7, length: 1 m}]}": (
        "a second run leaves 'outdoor', the first is at systems[0].runs[0].from"
    ),
    "{edit: split, system: main, run: J2, node: C1, at: 7 m}": "the point is not on the run",
    "{edit: join, system: main, node: J2}": "2 runs leave 'J2'",
    "{edit: remove_room, room: store}": "units serve it: main/U3",
    "{edit: remove_level, level: ground}": "rooms are on it: workshop, office, store",
    "{edit: lock, subject: 'main/run:J9'}": "there is no thing to lock 'main/run:J9'",
    "{edit: unlock, subject: 'main/run:J1'}": "there is no lock 'main/run:J1'",
    "{edit: allow, system: main, action: long-main}": "there is no forbidden size action 'long-main'",
    "{edit: remove, system: main, node: J1}": "the system has no run",
}
NOT_UNDERSTOOD = {
    "{edit: sett, run: J2}": "there is no edit 'sett'",
    "{run: J2}": "the key 'edit' is missing",
    "[3 m]": "this is no edit",
    "{edit: set, length: 3 m}": "nothing is named that could be set",
    "{edit: set, system: main, run: J2}": "no field is set",
    "{edit: set, system: main, run: J2, lenght: 3 m}": "the key 'lenght' is not known here",
    "{edit: set, system: main, run: J2, override: {steam: none}}": "there is no 'steam' line",
    "{edit: put, in: roomes, item: {id: a, level: ground}}": "there is no list 'roomes'",
    "{edit: put, in: rooms}": "the key 'item' is missing",
    "{edit: batch}": "a batch has no edits",
    "{edit: drop, from: rooms, id: office, now: yes}": "the key 'now' is not known here",
    "{edit: set, system: main, run: J2, length: 3}": 'the unit of "3" is missing',
}


def said(design: Design, text: str) -> list[str]:
    with pytest.raises(InputFaultsError) as caught:
        apply(design, edits_from_text(text, "edits.yaml"))
    return [fault.message for fault in caught.value.faults]


@pytest.mark.parametrize("text", REFUSED)
def test_an_edit_that_cannot_apply_says_why(text: str) -> None:
    before = repr(BOAT_HOUSE)
    assert REFUSED[text] in said(BOAT_HOUSE, text)
    assert repr(BOAT_HOUSE) == before


@pytest.mark.parametrize("text", NOT_UNDERSTOOD)
def test_edits_that_are_not_understood_say_why(text: str) -> None:
    assert NOT_UNDERSTOOD[text] in said(BOAT_HOUSE, text)


def test_all_faults_are_told_at_once_with_their_places() -> None:
    text = "- {edit: sett}\n- {edit: set, system: main, run: J2, length: 3}\n- 7\n"
    with pytest.raises(InputFaultsError) as caught:
        edits_from_text(text, "edits.yaml")
    assert [(fault.line, fault.path) for fault in caught.value.faults] == [
        (1, "[0].edit"),
        (2, "[1].length"),
        (3, "[2]"),
    ]


def test_a_batch_is_all_or_nothing() -> None:
    good, bad = "{edit: set, system: main, run: J2, length: 3 m}", "{edit: remove_room, room: store}"
    assert said(BOAT_HOUSE, f"[{good}, {bad}]") == ["units serve it: main/U3"]


@pytest.mark.parametrize(
    ("lock", "edit"),
    [
        ("main/run:J2.length", "{edit: set, system: main, run: J2, length: 3 m}"),
        ("main/run:J2.length", "{edit: remove, system: main, node: J2}"),
        ("main/run:J2", "{edit: set, system: main, run: J2, bends: 3}"),
        ("main/unit:U1.model", "{edit: change_model, system: main, id: U1, model: cassette 5.6}"),
        ("main/subtree:J2", "{edit: set, system: main, unit: U3, elevation: 2 m}"),
        ("main/subtree:J2", "{edit: add, system: main, runs: [{from: J2, to: J8, length: 1 m}]}"),
        ("main/subtree:J2", "{edit: move, system: main, node: U1, to: J2}"),
        ("main", "{edit: set_outdoor, system: main, outdoor: {modules: [outdoor 16], elevation: 9 m}}"),
        ("main", "{edit: remove_system, system: main}"),
        ("main/run:J2.length", "{edit: remove_system, system: main}"),
        ("room:office.cooling", "{edit: set, room: office, cooling: 3 kW}"),
    ],
)
def test_a_lock_holds_until_it_is_taken_off(lock: str, edit: str) -> None:
    locked = apply(BOAT_HOUSE, edits_from_text(f"{{edit: lock, subject: '{lock}'}}", "lock")).design
    assert set(said(locked, edit)) == {f"it is locked by '{lock}'"}
    assert set(said(locked, f"[{{edit: unlock, subject: '{lock}'}}, {edit}]")) == {f"it is locked by '{lock}'"}
    free = apply(locked, edits_from_text(f"{{edit: unlock, subject: '{lock}'}}", "unlock")).design
    assert apply(free, edits_from_text(edit, "edit")).design != free


def test_a_lock_leaves_free_what_it_does_not_name() -> None:
    locked = apply(BOAT_HOUSE, edits_from_text("{edit: lock, subject: 'main/run:J2.length'}", "lock")).design
    assert apply(locked, edits_from_text("{edit: set, system: main, run: J2, bends: 3}", "edit"))
    assert apply(locked, edits_from_text("{edit: set, system: main, run: U3, length: 3 m}", "edit"))


@pytest.mark.parametrize(
    ("values", "message"),
    [
        ({"length_m": "long"}, "'long' is no length"),
        ({"length_m": float("nan")}, "'nan' is no length"),
        ({"bends": 1.5}, "'1.5' is no bends"),
        ({"to": "J9"}, "'to' names it"),
        ({"lenght_m": 1.0}, "there is no field 'lenght_m'"),
        ({"override.steam": 0.01}, "there is no field 'override.steam'"),
    ],
)
def test_values_from_a_program_are_checked_as_well(values: dict[str, object], message: str) -> None:
    with pytest.raises(InputFaultsError, match=message):
        apply(BOAT_HOUSE, Set(kind=Kind.RUN, system="main", id="J2", values=values))


def test_runs_with_other_sizes_set_are_not_joined() -> None:
    split = apply(
        BOAT_HOUSE, edits_from_text("{edit: split, system: main, run: J2, node: C1, at: 2 m}", "split")
    ).design
    sized = "{edit: override, system: main, run: C1, role: gas, size: 22.22 mm}"
    other = apply(split, edits_from_text(sized, "sized")).design
    assert said(other, "{edit: join, system: main, node: C1}") == ["the two runs have other sizes set"]
