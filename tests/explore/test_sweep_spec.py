"""The file of a sweep: what it says, and everything that can be wrong with it, each fault at its place."""

from __future__ import annotations

import pytest

from linewright.document.sweeps import Combine, Sweep, sweep_from_text
from linewright.errors import Fault, InputFaultsError
from linewright.model.edits import Batch, Kind, Set, SetOutdoor
from linewright.units import Dimension

HEAD = "linewright: sweep/1\n"
MAIN = "  - {name: main, edit: {edit: set, system: main, run: J1, length: $}, "
TWO = HEAD + "vary:\n" + MAIN + "values: [20 m, 80 ft, unknown]}\n"


def read(text: str) -> Sweep:
    return sweep_from_text(text, "s.yaml")


def faults(text: str) -> tuple[Fault, ...]:
    with pytest.raises(InputFaultsError) as raised:
        read(text)
    return raised.value.faults


def test_a_value_takes_the_place_that_is_kept_for_it_in_whatever_unit() -> None:
    (axis,) = read(TWO).axes
    assert [case.label for case in axis.cases] == ["20 m", "80 ft", "unknown"]
    lengths = [case.edit.values["length_m"] for case in axis.cases if isinstance(case.edit, Set)]
    assert lengths == [20.0, pytest.approx(80 * 0.3048), None]
    assert [case.place.line for case in axis.cases] == [3, 3, 3]


def test_one_value_may_stand_in_several_edits() -> None:
    text = (
        HEAD + "vary:\n  - name: rooms\n    edit:\n"
        "      - {edit: set, room: office, cooling: $}\n      - {edit: set, room: store, cooling: $}\n"
        "    values: [4 kW]\n"
    )
    (case,) = read(text).axes[0].cases
    assert isinstance(case.edit, Batch)
    assert [edit.values["cooling_w"] for edit in case.edit.edits if isinstance(edit, Set)] == [4000.0, 4000.0]


def test_a_value_may_be_a_mapping() -> None:
    text = (
        HEAD + "vary:\n  - name: group\n    edit: {edit: set_outdoor, system: main, outdoor: $}\n"
        "    values: [{modules: [outdoor 16], elevation: 8 m}, {modules: [outdoor 16], elevation: 20 m}]\n"
    )
    cases = read(text).axes[0].cases
    assert [case.edit.outdoor.elevation_m for case in cases if isinstance(case.edit, SetOutdoor)] == [8.0, 20.0]
    assert [case.label for case in cases] == ["", ""]


RANGES = [
    ("{from: 20 m, to: 21 m, step: 0.1 m}", [f"20.{i} m" for i in range(10)] + ["21.0 m"]),
    ("{from: 20 m, to: 24.9 m, step: 2.5 m}", ["20.0 m", "22.5 m"]),
    ("{from: 60 ft, to: 40 ft, step: -10 ft}", ["60 ft", "50 ft", "40 ft"]),
]


@pytest.mark.parametrize(("written", "labels"), RANGES)
def test_a_range_is_counted_in_decimal(written: str, labels: list[str]) -> None:
    axis = read(HEAD + "vary:\n" + MAIN + f"range: {written}" + "}\n").axes[0]
    assert [case.label for case in axis.cases] == labels
    assert axis.cases[0].amount is not None
    assert axis.cases[0].amount.dimension is Dimension.LENGTH


GRID = (
    HEAD
    + "vary:\n"
    + MAIN
    + "values: [20 m, 30 m]}\n"
    + "  - {name: office, edit: {edit: set, room: office, cooling: $}, values: [1 kW, 2 kW]}\n"
)


def test_in_a_grid_the_last_axis_changes_fastest() -> None:
    found = read(GRID)
    picked = [tuple(case.label for case in found.picked(row)) for row in range(found.rows)]
    assert picked == [("20 m", "1 kW"), ("20 m", "2 kW"), ("30 m", "1 kW"), ("30 m", "2 kW")]


def test_zipped_lists_go_along_together() -> None:
    found = read(GRID + "combine: zip\n")
    assert found.combine is Combine.ZIP
    assert [tuple(case.label for case in found.picked(row)) for row in range(found.rows)] == [
        ("20 m", "1 kW"),
        ("30 m", "2 kW"),
    ]


def test_cases_are_named_edits() -> None:
    text = (
        HEAD + "vary:\n  - name: layout\n    cases:\n      - {name: as drawn, edits: []}\n"
        "      - {name: short, edits: [{edit: set, system: main, run: J2, length: 4 m}]}\n"
    )
    first, second = read(text).axes[0].cases
    assert first.edit == Batch(edits=())
    assert second.edit == Set(kind=Kind.RUN, id="J2", system="main", values={"length_m": 4.0})


FAULTY = [
    ("vary: []\n", ["nothing is varied"]),
    ("title: x\n", ["the key 'vary' is missing"]),
    ("vary: [3]\n", ["this is not a mapping of keys to values"]),
    ("vary:\n  - {name: a}\n", ["nothing is varied"]),
    ("vary:\n  - {edit: {edit: set, room: a, cooling: $}, values: [1 kW]}\n", ["the key 'name' is missing"]),
    (
        "vary:\n  - {name: a, edit: {edit: set, room: a, cooling: $}, cases: []}\n",
        ["edit and cases stand together"],
    ),
    ("vary:\n" + MAIN + "values: []}\n", ["no value is listed"]),
    ("vary:\n" + MAIN + "files: [a]}\n", ["files does not go with edit", "no values are given"]),
    ("vary:\n" + MAIN + "values: [1 m], range: {}}\n", ["values and range stand together"]),
    ("vary:\n  - {name: a, edit: {edit: forbid, system: m, action: x}, values: [1]}\n", ["the edit has no $"]),
    ("vary:\n" + MAIN + "range: 3}\n", ["this is no range"]),
    ("vary:\n" + MAIN + "range: {from: 1 m, to: 2 m}}\n", ["the key 'step' is missing"]),
    ("vary:\n" + MAIN + "range: {from: 1 m, to: 2 m, step: 1 ft}}\n", ["the range is in several units"]),
    ("vary:\n" + MAIN + "range: {from: 1 m, to: 2 m, step: -1 m}}\n", ["steps of -1 m do not lead from 1 to 2"]),
    ("vary:\n" + MAIN + "range: {from: 1 m, to: 2 m, step: 0 m}}\n", ["steps of 0 m do not lead from 1 to 2"]),
    (
        "vary:\n" + MAIN + "range: {from: 1 m, to: 2 m, step: 0.000001 m}}\n",
        ["the range has 1,000,001 values"],
    ),
    (
        "vary:\n" + MAIN + "range: {from: 12'-6\", to: far, step: 1 m, by: 2}}\n",
        [
            "'12\\'-6\"' is no number with one unit",
            "'far' is no number with one unit",
            "the key 'by' is not known here",
        ],
    ),
    ("vary:\n  - {name: a, book: minimal}\n", ["the key 'files' is missing"]),
    (
        "vary:\n  - name: a\n    cases: [{name: x, edits: []}, {name: x, edits: []}, {name: y}, 3]\n",
        [
            "the name 'x' is used twice, first in vary[0].cases[0]",
            "the key 'edits' is missing",
            "this is not a mapping of keys to values",
        ],
    ),
    (
        "vary:\n" + MAIN + "values: [1 m]}\n" + MAIN + "values: [1 m]}\n",
        ["the name 'main' is used twice, first in vary[0]"],
    ),
    (
        "vary:\n" + MAIN + "values: [1 m]}\nchart: {across: mian}\n",
        ["nothing that is varied is called 'mian'"],
    ),
    (
        GRID.removeprefix(HEAD).replace("[1 kW, 2 kW]", "[1 kW]") + "combine: zip\n",
        ["the lists that are zipped are not equally long: main 2, office 1"],
    ),
    (
        "vary:\n" + MAIN + "range: {from: 0 m, to: 1000 m, step: 1 m}}\n"
        "  - {name: b, edit: {edit: set, room: a, cooling: $}, range: {from: 1 kW, to: 100 kW, step: 1 kW}}\n",
        ["the sweep has 100,100 rows"],
    ),
]


@pytest.mark.parametrize(("text", "messages"), FAULTY, ids=[messages[0][:50] for _, messages in FAULTY])
def test_what_is_wrong_is_said(text: str, messages: list[str]) -> None:
    found = faults(HEAD + text)
    assert sorted(fault.message.replace("\\", "") for fault in found) == sorted(m.replace("\\", "") for m in messages)
    assert all(fault.file == "s.yaml" and fault.expected for fault in found)


def test_every_fault_is_listed_with_its_place_and_what_would_be_right() -> None:
    text = (
        HEAD
        + "vary:\n"
        + MAIN.replace("length: $", "lenght: $")
        + "values: [3 m]}\n"
        + "  - {name: office, edit: {edit: set, room: office, cooling: $}, values: [4 kW, 3 m, 5]}\n"
        + "shw: [main/charge]\n"
    )
    found = {(fault.line, fault.column, fault.path, fault.value) for fault in faults(text)}
    third, fourth = text.splitlines()[2:4]
    assert found == {
        (3, third.index("lenght") + 1, "vary[0].edit.lenght", "lenght"),
        (4, fourth.index("3 m") + 1, "vary[1].edit.cooling", "3 m"),
        (4, fourth.index("5]") + 1, "vary[1].edit.cooling", "5"),
        (5, 1, "shw", "shw"),
    }


def test_a_design_is_not_taken_for_a_sweep_nor_a_sweep_for_a_design() -> None:
    assert [fault.message for fault in faults("linewright: design/1\nproject: x\n")] == [
        "this is a design, not a sweep"
    ]
