"""Rows of a sweep against arithmetic by hand, and the situations in which a row has something else to say."""

from __future__ import annotations

from pathlib import Path

import pytest

from linewright.app.sweeps import prepare
from linewright.errors import InputFaultsError
from linewright.explore.sweeps import NO_DESIGN, Bench, Row, judge_row
from tests.explore.boat import book_text, design_text

HEAD = "linewright: sweep/1\n"


def bench(folder: Path, sweep: str, *changes: tuple[str, str], books: dict[str, str] | None = None) -> Bench:
    """The boat house that holds, in a folder of its own, and a sweep of it."""
    (folder / "boat.design.yaml").write_text(design_text(*changes), encoding="utf-8", newline="\n")
    (folder / "s.yaml").write_text(HEAD + sweep, encoding="utf-8", newline="\n")
    for name, text in (books or {"minimal.book.yaml": book_text()}).items():
        (folder / name).write_text(text, encoding="utf-8", newline="\n")
    return prepare(folder / "boat.design.yaml", folder / "s.yaml", ()).bench


def rows(made: Bench) -> list[Row]:
    return [judge_row(made, row) for row in range(made.sweep.rows)]


def cells(made: Bench, row: Row) -> dict[str, object]:
    return dict(zip([column.key for column in made.plan.columns], row.cells, strict=True))


MAIN = "  - {name: main, edit: {edit: set, system: main, run: J1, length: $}, values: [24 m, 30 m, 54 m]}\n"


def test_a_length_is_swept(tmp_path: Path) -> None:
    """Reach 17 m behind the main; charge (main + 15) x 0.05 + 16 x 0.02 + 0.4 + 0.2 + 0.1, to 0.1 kg.

    With 54 m the equivalent reach is over 60 m: the main goes one step up, to 12.7 mm with 0.095 kg/m:
    54 x 0.095 + 15 x 0.05 + 0.32 + 0.7 = 6.9 kg. Its 71 m are over 70 m by 1 / 70.
    """
    made = bench(tmp_path, "vary:\n" + MAIN + 'show: ["main/limit:farthest_actual"]\n')
    found = rows(made)
    assert [row.standing for row in found] == ["on conditions", "on conditions", "over"]
    values = [cells(made, row) for row in found]
    assert [v["main/limit:farthest_actual:value"] for v in values] == [pytest.approx(n) for n in (41.0, 47.0, 71.0)]
    assert [v["main/limit:farthest_actual:margin"] for v in values] == [pytest.approx(n) for n in (29.0, 23.0, -1.0)]
    assert [v["main/limit:farthest_actual:standing"] for v in values] == ["within", "within", "over"]
    assert [v["main/additional_charge"] for v in values] == [pytest.approx(n) for n in (3.0, 3.3, 6.9)]
    assert [v["main/total_charge"] for v in values] == [pytest.approx(n) for n in (7.2, 7.5, 11.1)]
    assert values[2]["main/worst"] == "main/limit:farthest_actual"
    assert values[2]["main/worst_margin"] == pytest.approx(-1.0 / 70.0)
    # The store gets 15.232 x 3.6 / 16.3 kW of 3.0 kW: the least share of all rooms and modes.
    assert values[0]["main/shortest"] == "store cooling"
    assert values[0]["main/shortest_share"] == pytest.approx(15.232 * 3.6 / 16.3 / 3.0, rel=1e-4)


def test_what_a_unit_delivers_is_swept_and_not_what_it_has_to_spare(tmp_path: Path) -> None:
    made = bench(tmp_path, "vary:\n" + MAIN + 'show: ["main/unit:*.cooling"]\n')
    values = cells(made, judge_row(made, 0))
    assert [values[f"main/unit:{name}.cooling"] for name in ("U1", "U2", "U3")] == [
        pytest.approx(15232.0 * index / 16.3, rel=1e-4) for index in (7.1, 5.6, 3.6)
    ]


def test_an_unsound_value_is_told_in_its_row_and_the_sweep_goes_on(tmp_path: Path) -> None:
    axis = "vary:\n  - {name: rise, edit: {edit: set, system: main, run: U3, rise: $}, values: [1 m, 20 m, 2 m]}\n"
    made = bench(tmp_path, axis)
    found = rows(made)
    assert [row.standing for row in found] == ["on conditions", NO_DESIGN, "on conditions"]
    assert "the rise 20.00 m is longer than the run" in found[1].fault
    assert set(found[1].cells) == {None}


def test_units_may_be_mixed(tmp_path: Path) -> None:
    axis = "vary:\n  - {name: main, edit: {edit: set, system: main, run: J1, length: $}, values: [30.48 m, 100 ft]}\n"
    first, second = rows(bench(tmp_path, axis + 'show: ["main/limit:farthest_actual"]\n'))
    assert first.cells == second.cells


def test_an_unknown_length_is_no_pass(tmp_path: Path) -> None:
    axis = "vary:\n  - {name: U3, edit: {edit: set, system: main, run: U3, length: $}, values: [11 m, unknown, 80 m]}\n"
    made = bench(tmp_path, axis + 'show: ["main/limit:farthest_actual", "main/charge"]\n')
    found = rows(made)
    assert [row.standing for row in found] == ["on conditions", "unjudged", "over"]
    values = cells(made, found[1])
    assert values["main/limit:farthest_actual:standing"] == "unjudged"
    assert values["main/limit:farthest_actual:margin"] is None
    assert (values["main/worst_margin"], values["main/additional_charge"]) == (None, None)


def test_a_book_that_lacks_a_model_is_told_in_its_row(tmp_path: Path) -> None:
    """Another family that has no cassette 5.6; its id is named by an edit, as a design names it."""
    other = book_text(("id: minimal\n", "id: other\n"), ("model: cassette 5.6", "model: cassette 5.8"))
    axis = "vary:\n  - {name: book, edit: {edit: set, system: main, book: $}, values: [minimal, other, none such]}\n"
    books = {"minimal.book.yaml": book_text(), "other.book.yaml": other}
    found = rows(bench(tmp_path, axis, books=books))
    assert [row.standing for row in found] == ["on conditions", NO_DESIGN, NO_DESIGN]
    assert "there is no indoor model 'cassette 5.6' in the book 'other'" in found[1].fault
    assert "there is no book 'none such'" in found[2].fault


def test_editions_of_a_book_are_swept_by_file(tmp_path: Path) -> None:
    """The new edition bounds the farthest actual length at 40 m; the reach is 41 m."""
    new = book_text(("farthest_actual, max: 70 m", "farthest_actual, max: 40 m"))
    axis = "vary:\n  - {name: edition, book: minimal, files: [minimal.book.yaml, new/minimal.book.yaml]}\n"
    (tmp_path / "new").mkdir()
    books = {"minimal.book.yaml": book_text(), "new/minimal.book.yaml": new}
    made = bench(tmp_path, axis + 'show: ["main/limit:farthest_actual"]\n', books=books)
    found = rows(made)
    assert [row.standing for row in found] == ["on conditions", "over"]
    assert cells(made, found[1])["main/limit:farthest_actual:margin"] == pytest.approx(-1.0)


def test_systems_of_different_standings_have_columns_of_their_own(tmp_path: Path) -> None:
    """A second system, the same as the first but for the room: 60 m to its unit is over, and the first still holds."""
    second = (
        "  - id: annex\n    book: minimal\n    outdoor: {modules: [outdoor 16], elevation: 8 m}\n"
        "    block: {cooling: 10 kW, heating: 10 kW}\n"
        "    units:\n      - {id: V1, model: cassette 7.1, elevation: 2.7 m}\n"
        "      - {id: V2, model: cassette 7.1, elevation: 2.7 m}\n"
        "    runs:\n      - {from: outdoor, to: K1, length: 5 m}\n      - {from: K1, to: V1, length: 5 m}\n"
        "      - {from: K1, to: V2, length: 5 m}\n"
    )
    (tmp_path / "boat.design.yaml").write_text(design_text() + second, encoding="utf-8")
    (tmp_path / "minimal.book.yaml").write_text(book_text(), encoding="utf-8")
    axis = "vary:\n  - {name: V1, edit: {edit: set, system: annex, run: V1, length: $}, values: [5 m, 60 m]}\n"
    (tmp_path / "s.yaml").write_text(HEAD + axis, encoding="utf-8")
    made = prepare(tmp_path / "boat.design.yaml", tmp_path / "s.yaml", ()).bench
    found = rows(made)
    assert [row.standing for row in found] == ["on conditions", "over"]
    values = cells(made, found[1])
    assert (values["main/standing"], values["annex/standing"]) == ("on conditions", "over")
    (tmp_path / "s.yaml").write_text(HEAD + axis + "systems: [main]\n", encoding="utf-8")
    alone = prepare(tmp_path / "boat.design.yaml", tmp_path / "s.yaml", ()).bench
    assert [row.standing for row in rows(alone)] == ["on conditions", "on conditions"]
    assert {column.key.partition("/")[0] for column in alone.plan.columns} == {"main"}


def _faults(folder: Path, sweep: str, *changes: tuple[str, str]) -> list[tuple[int, str]]:
    with pytest.raises(InputFaultsError) as raised:
        bench(folder, sweep, *changes)
    return [(fault.line, fault.message) for fault in raised.value.faults]


def test_a_locked_thing_is_not_varied(tmp_path: Path) -> None:
    lock = ("\nsystems:\n", '\nlocks: ["main/run:J1.length"]\n\nsystems:\n')
    assert _faults(tmp_path, "vary:\n" + MAIN, lock) == [(3, "it is locked by 'main/run:J1.length'")]


def test_everything_that_is_named_and_not_there_is_told_before_the_first_row(tmp_path: Path) -> None:
    sweep = (
        "vary:\n" + MAIN.replace("run: J1", "run: J7") + "  - name: layout\n    cases:\n"
        "      - {name: a, edits: []}\n"
        "      - {name: b, edits: [{edit: set, room: attic, cooling: 3 kW}]}\n"
    )
    # Each of the three lengths names it; it is told once, and not again by the axis behind.
    assert _faults(tmp_path, sweep) == [(3, "there is no run 'J7'")]
    other = sweep.replace("run: J7", "run: J1")
    assert _faults(tmp_path, other) == [(7, "there is no room 'attic'")]


def test_a_subject_that_is_not_there_is_told(tmp_path: Path) -> None:
    assert _faults(tmp_path, "vary:\n" + MAIN + 'show: ["main/limit:nothing", "main/unit:*.coolth"]\n') == [
        (4, "there is no subject 'main/limit:nothing' in this design"),
        (4, "there is no subject 'main/unit:*.coolth' in this design"),
    ]


def test_a_system_that_is_not_there_is_told(tmp_path: Path) -> None:
    assert _faults(tmp_path, "vary:\n" + MAIN + "systems: [main, annex]\n") == [(4, "there is no system 'annex'")]


def test_files_of_a_book_that_the_design_does_not_have_or_of_another_are_told(tmp_path: Path) -> None:
    axis = "vary:\n  - {name: edition, book: other, files: [minimal.book.yaml]}\n"
    assert {message for _, message in _faults(tmp_path, axis)} == {
        "no system of the design has the book 'other'",
        "the book in minimal.book.yaml is 'minimal', not 'other'",
    }
