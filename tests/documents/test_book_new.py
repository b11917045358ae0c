"""A new book: what is blank in it is what the check lists, and filled in it is a book."""

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from linewright.cli.main import cli
from linewright.document.files import book_from_text

#: A value for every blank, by its key; invented.
VALUES = {
    "title": "A family",
    "edition": '"1"',
    "date": "2026-01-01",
    "typed_by": "tests",
    "refrigerant": "R-32",
    "unit": "kW",
    "origin": "outdoor",
    "page": "1",
    "allowance_page": "1",
    "model": "A",
    "kind": "wall",
    "index": "10",
    "cooling": "10 kW",
    "heating": "11 kW",
    "sensible": "7 kW",
    "factory_charge": "4 kg",
    "modules": "[A]",
    "ports": "4",
    "upto": "20",
    "max": "50 m",
    "bend": "0.5 m",
    "joint": "0.5 m",
    "outdoor_db": "[25 C, 35 C]",
    "indoor_wb": "[17 C, 19 C]",
    "factor": "[[1, 1], [1, 1]]",
}
SIZES = {"gas": "15.88 mm", "suction": "22.22 mm", "high_low": "19.05 mm", "liquid": "9.52 mm"}
LADDERS = {role: f"[{size}]" for role, size in SIZES.items()}
RATES = {"liquid": "{9.52 mm: 0.05 kg/m}"}
BLANK = re.compile(r"([a-z_]+):(?= *(?:[,}]|$))")


def made(tmp_path: Path, *more: str) -> Path:
    path = tmp_path / "new.book.yaml"
    done = CliRunner().invoke(cli, ["book", "new", "new", "-o", str(path), *more])
    assert done.exit_code == 0, done.output
    return path


def lines_with_blanks(text: str) -> list[tuple[str, str, bool]]:
    """Each line without its comment, the section it is in, and whether it only heads the lines below it."""
    lines = [line.partition("#")[0].rstrip() for line in text.splitlines()]
    lines = [line for line in lines if line]
    found, section = [], ""
    for line, below in zip(lines, [*lines[1:], ""], strict=True):
        section = line.removesuffix(":") if re.fullmatch(r"[a-z]+:", line) else section
        found.append((line, section, line.endswith(":") and depth(below) > depth(line)))
    return found


def depth(line: str) -> int:
    return len(line) - len(line.lstrip())


@pytest.mark.parametrize("kind", ["heat-pump", "heat-recovery"])
@pytest.mark.parametrize("units", ["si", "ip"])
def test_what_is_blank_is_what_the_check_lists(kind: str, units: str, tmp_path: Path) -> None:
    path = made(tmp_path, "--kind", kind, "--units", units)
    done = CliRunner().invoke(cli, ["book", "check", str(path), "--json"])
    assert done.exit_code == 2
    faults = json.loads(done.output)["faults"]
    assert {fault["message"] for fault in faults} == {"nothing is written here", "nothing is written"}
    lines = lines_with_blanks(path.read_text(encoding="utf-8"))
    blanks = [key for line, _, heads in lines if not heads for key in BLANK.findall(line)]
    assert [fault["path"].rpartition(".")[2] for fault in faults] == blanks
    assert len(faults) > 50


@pytest.mark.parametrize("kind", ["heat-pump", "heat-recovery"])
def test_filled_in_it_is_a_book(kind: str, tmp_path: Path) -> None:
    filled = []
    for line, section, heads in lines_with_blanks(made(tmp_path, "--kind", kind).read_text(encoding="utf-8")):
        values = VALUES | {"tubes": LADDERS, "charge": RATES}.get(section, SIZES)
        filled.append(line if heads else BLANK.sub(lambda at, of=values: f"{at[0]} {of[at[1]]}", line))  # type: ignore[misc]
    book = book_from_text("\n".join(filled), "filled.book.yaml").compiled.book
    assert (book.id, book.kind) == ("new", kind)
    assert len(book.limits) == (10 if kind == "heat-pump" else 15)


def test_the_refrigerant_is_written_and_what_may_be_left_out_is_named(tmp_path: Path) -> None:
    text = made(tmp_path, "--refrigerant", "R-32").read_text(encoding="utf-8")
    assert "\nrefrigerant: R-32\n" in text
    words = ("options", "requirements", "operation", "pressures", "notes", "temper", "wall", "header", "actions")
    for word in (*words, "electrical", "condensate", "min_circuit_current", "lift"):
        assert word in text


def test_no_file_is_written_over(tmp_path: Path) -> None:
    path = made(tmp_path)
    before = path.read_text(encoding="utf-8")
    done = CliRunner().invoke(cli, ["book", "new", "other", "-o", str(path)])
    assert done.exit_code == 2
    assert "'new.book.yaml' is there already, and no file is written over" in done.output
    assert path.read_text(encoding="utf-8") == before


def test_an_id_that_none_can_be_is_refused_and_nothing_is_written(tmp_path: Path) -> None:
    path = tmp_path / "x.book.yaml"
    done = CliRunner().invoke(cli, ["book", "new", "a/b", "-o", str(path)])
    assert done.exit_code == 2
    assert "the id 'a/b' holds '/'" in done.output
    assert not path.exists()


def test_an_id_that_looks_like_a_number_stays_a_name(tmp_path: Path) -> None:
    path = tmp_path / "x.book.yaml"
    assert CliRunner().invoke(cli, ["book", "new", "1.0", "-o", str(path)]).exit_code == 0
    faults = json.loads(CliRunner().invoke(cli, ["book", "check", str(path), "--json"]).output)["faults"]
    assert "\nid: 1.0\n" in path.read_text(encoding="utf-8")
    assert "id" not in [fault["path"] for fault in faults]
