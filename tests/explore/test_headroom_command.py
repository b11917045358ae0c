"""`linewright headroom` as a user starts it."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from linewright.report.headroom_text import bounded
from linewright.units import Dimension, UnitSystem, parse_as
from tests.documents.program import Done, linewright
from tests.explore.boat import book_text, design_text
from tests.house.files import ROOT


def run(folder: Path, *options: str, change: tuple[tuple[str, str], ...] = ()) -> Done:
    design = folder / "boat.design.yaml"
    design.write_text(design_text(*change), encoding="utf-8", newline="\n")
    (folder / "minimal.book.yaml").write_text(book_text(), encoding="utf-8", newline="\n")
    return linewright("headroom", design, *options)


UNKNOWN = (("to: U2, length: 5 m", "to: U2, length: unknown"),)


def test_what_gives_first_is_printed_first(tmp_path: Path) -> None:
    done = run(tmp_path, "--only", "length")
    assert done.code == 0
    lines = [line.split() for line in done.output.splitlines() if line.startswith("run ")]
    assert lines[0] == ["run", "J2", "-", "U3", "11.000", "m", "15.000", "m", "4.000", "m", *lines[0][10:]]
    assert lines[-1][:7] == ["run", "outdoor", "-", "J1", "24.000", "m", "53.000"]
    assert "Scanned in steps of 2.000 m, then found to 0.001 m." in done.output
    assert "Caution: headroom is what the book" in done.output


def test_the_exit_code_says_how_the_system_stands(tmp_path: Path) -> None:
    assert run(tmp_path, change=UNKNOWN).code == 3
    assert run(tmp_path, "--beside", "--only", "level", change=UNKNOWN).code == 3
    over = (("to: U3, length: 11 m", "to: U3, length: 111 m"),)
    done = run(tmp_path, change=over)
    assert done.code == 1
    assert "No headroom is claimed: the system does not hold." in done.output
    assert "Caution: headroom" not in done.output


def test_what_is_unjudged_is_named_above_what_was_found_without_it(tmp_path: Path) -> None:
    done = run(tmp_path, "--beside", "--only", "length", change=UNKNOWN)
    said = " ".join(done.output.split())
    assert "Left out of every verdict below, and not known to hold: main/limit:farthest_actual," in said
    assert "What is judged of it holds (unjudged)." in said
    assert "Not let grow, as its length is unknown: main/run:U2.length." in said


def test_a_system_that_is_not_there_is_told(tmp_path: Path) -> None:
    done = run(tmp_path, "--system", "annex")
    assert done.code == 2
    assert "there is no system 'annex'" in done.error


def test_a_design_without_a_system_is_no_pass(tmp_path: Path) -> None:
    path = tmp_path / "empty.design.yaml"
    path.write_text("linewright: design/1\nproject: Empty\nsite: {}\n", encoding="utf-8")
    done = linewright("headroom", path)
    assert done.code == 3
    assert "Nothing was judged: the design has no system." in done.output


def test_json_gives_every_row_in_si(tmp_path: Path) -> None:
    data = json.loads(run(tmp_path, "--json", "--only", "length", "--units", "ip").output)
    (system,) = data["systems"]
    found = {row["subject"]: (row["holds_to"], row["unit"]) for row in system["growths"]}
    assert found["main/run:U3.length"] == (15.0, "m")
    assert system["tightenings"][0]["edits"][0]["edit"] == "change_model"


@pytest.mark.parametrize("millimetres", [1, 999, 1234, 15_000, 53_001])
def test_no_printed_bound_is_beyond_what_was_found_to_hold(millimetres: int) -> None:
    length_m = millimetres / 1000
    for system in UnitSystem:
        assert parse_as(bounded(length_m, Dimension.LENGTH, system), Dimension.LENGTH) <= length_m + 1e-9
        assert parse_as(bounded(-length_m, Dimension.LENGTH, system, up=True), Dimension.LENGTH) >= -length_m - 1e-9


def test_long_lists_are_cut_and_say_so() -> None:
    design = ROOT / "examples" / "foundry-lofts" / "foundry-lofts.design.yaml"
    done = linewright("headroom", design, "--system", "west", "--only", "load")
    assert "more with as much room or more (--all)" in done.output
    assert done.output.count("it is short") <= 12
