"""How faults look: in text on the error stream, in JSON on the other; and the exit code."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

from linewright.cli.common import Exit
from tests.documents.program import checked, linewright
from tests.documents.texts import BOOK, DESIGN, DESIGN_FILE, damaged


def two_faults(tmp_path: Path, *options: str) -> tuple[int, str, str]:
    design, _ = damaged(DESIGN, ("length: 9 m", "lenght: 9 m"), ("bends: 4", "bends: 4.5"))
    return checked(tmp_path, design, BOOK, *options)


def test_faults_in_text(tmp_path: Path) -> None:
    code, output, error = two_faults(tmp_path)
    path = tmp_path / "boat.design.yaml"
    assert code == Exit.NOT_UNDERSTOOD
    assert output == ""
    assert error == (
        f"{path}:27:54: systems[0].runs[0].bends\n"
        "    '4.5' is not a whole number\n"
        "    expected a whole number, 0 or more\n"
        f"{path}:28:28: systems[0].runs[1].lenght\n"
        "    the key 'lenght' is not known here\n"
        "    expected 'length'\n"
        "2 faults: nothing was judged.\n"
    )


def test_a_value_that_is_not_in_the_message_is_shown_beside_it(tmp_path: Path) -> None:
    book, _ = damaged(BOOK, ("sensible: 2.7 kW", "sensible: 3.7 kW"))
    error = checked(tmp_path, DESIGN, book).error.splitlines()
    assert error[1] == "    the sensible capacity is more than the total, of which it is a part"
    assert error[2:] == ["    found 3.7 kW", "    expected less", "1 fault: nothing was judged."]


def test_faults_in_json(tmp_path: Path) -> None:
    code, output, error = two_faults(tmp_path, "--json")
    path = str(tmp_path / "boat.design.yaml")
    assert code == Exit.NOT_UNDERSTOOD
    assert error == ""
    assert json.loads(output) == {
        "schema": "linewright/faults/1",
        "faults": [
            {
                "file": path,
                "line": 27,
                "column": 54,
                "path": "systems[0].runs[0].bends",
                "value": "4.5",
                "message": "'4.5' is not a whole number",
                "expected": "a whole number, 0 or more",
            },
            {
                "file": path,
                "line": 28,
                "column": 28,
                "path": "systems[0].runs[1].lenght",
                "value": "lenght",
                "message": "the key 'lenght' is not known here",
                "expected": "'length'",
            },
        ],
    }


def test_more_faults_than_are_shown(tmp_path: Path) -> None:
    rooms = "".join(f"  - {{id: r{i}, level: nowhere}}\n" for i in range(1_500))
    design = DESIGN.replace("systems:\n", rooms + "systems:\n")
    error = checked(tmp_path, design, BOOK).error.splitlines()
    assert error[-2:] == ["and 1,300 more.", "1,500 faults: nothing was judged."]
    assert len(error) == 3 * 200 + 2
    got = json.loads(checked(tmp_path, design, BOOK, "--json").output)
    assert (len(got["faults"]), got["more"]) == (200, 1_300)


def test_text_is_readable_in_80_columns_though_a_path_may_be_long(tmp_path: Path) -> None:
    design = DESIGN.replace("{id: store, level: ground", "{id: a/b, level: grund").replace("book: minimal", "book: x")
    for line in checked(tmp_path, design, BOOK).error.splitlines():
        assert len(line) <= 80 or line.startswith(str(tmp_path))


def test_nothing_of_a_design_is_shown_when_it_is_not_understood(tmp_path: Path) -> None:
    done = linewright("check", tmp_path / "none.yaml")
    assert (done.code, done.output) == (Exit.NOT_UNDERSTOOD, "")
    assert done.error.splitlines()[1:] == [
        "    there is no such file",
        "    expected a file that exists",
        "1 fault: nothing was judged.",
    ]


def test_a_book_has_faults_too(tmp_path: Path) -> None:
    path = tmp_path / "some.book.yaml"
    path.write_text(BOOK.replace("max: 120 m", "max: 120 kg"), encoding="utf-8")
    for options in ((), ("--json",)):
        done = linewright("book", "check", path, *options)
        assert done.code == Exit.NOT_UNDERSTOOD
        assert "this is a mass, not a length" in done.output + done.error


FULL = Path("/dev/full")


@pytest.mark.skipif(sys.platform != "linux", reason="only Linux is sure to have a device that is always full")
@pytest.mark.parametrize("arguments", [["check"], ["check", "--json"], ["why"], ["draw"]], ids=" ".join)
def test_an_output_that_cannot_be_written_is_said_in_a_line(arguments: list[str]) -> None:
    command = [sys.executable, "-m", "linewright", *arguments, str(DESIGN_FILE)]
    with FULL.open("w", encoding="utf-8") as full:
        done = subprocess.run(command, stdout=full, stderr=subprocess.PIPE, encoding="utf-8", check=False)
        assert done.returncode == Exit.NOT_UNDERSTOOD
        assert done.stderr == "the output cannot be written: No space left on device\n"
        assert subprocess.run(command, stdout=full, stderr=full, check=False).returncode == Exit.NOT_UNDERSTOOD


def test_a_place_that_cannot_be_written_is_named_as_it_was_given(tmp_path: Path) -> None:
    path = tmp_path / "none" / "sheet.svg"
    done = linewright("draw", DESIGN_FILE, "-o", path)
    assert (done.code, done.output) == (Exit.NOT_UNDERSTOOD, "")
    assert done.error.splitlines()[0] == f"{path}:"
    assert done.error.splitlines()[2] == "    expected a place that can be written"
