"""`linewright reading`: the verdict on a gauge, as an installer asks for it."""

from __future__ import annotations

import json
from typing import Any

import pytest
from click.testing import CliRunner, Result

from linewright.cli.main import cli
from tests.house.files import ROOT

PRINT_WORKS = ROOT / "examples" / "print-works" / "print-works.design.yaml"
BOAT_HOUSE = ROOT / "examples" / "boat-house" / "boat-house.design.yaml"
#: 600 psi at 84 degF; at 55 degF a tight pipe at 700 ft shows 567.2 psi by the gas law, nitrogen 564.2.
START = ("--start", "600 psi, 84 F")


def asked(*arguments: str, design: object = PRINT_WORKS) -> Result:
    return CliRunner().invoke(cli, ["reading", str(design), "main", *arguments])


@pytest.mark.parametrize(
    ("now", "more", "code", "word"),
    [
        ("566 psi, 55 F", ("--within", "5 psi", "--held", "24 h"), 0, "The reading holds"),
        ("500 psi, 55 F", ("--within", "5 psi", "--held", "1 h"), 1, "The reading falls"),
        ("566 psi, 55 F", ("--within", "5 psi", "--held", "20 h"), 3, "not held as long as the book asks"),
        ("566 psi, 55 F", ("--within", "5 psi"), 3, "how long it was held is not known"),
        ("566 psi, 55 F", ("--held", "24 h"), 3, "how far the readings may be off is not stated"),
        ("600 psi, 55 F", ("--within", "5 psi", "--held", "24 h"), 3, "higher than the temperature explains"),
        ("566 psi, unknown", ("--within", "5 psi"), 3, "the temperature of the pipe now is not known"),
    ],
)
def test_the_exit_code_says_how_the_test_stands(now: str, more: tuple[str, ...], code: int, word: str) -> None:
    done = asked(*START, "--now", now, *more)
    assert done.exit_code == code
    assert word in " ".join(done.stdout.split())
    assert "never test with oxygen" in " ".join(done.stdout.split())


def data(*arguments: str, design: object = PRINT_WORKS) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(asked(*arguments, "--json", design=design).stdout)
    return found


def test_the_stage_is_that_of_the_book_at_this_pressure() -> None:
    low = data("--start", "150 psi, 70 F", "--now", "150 psi, 70 F", "--within", "2 psi", "--held", "3 min")
    assert (low["stage"], low["asked_s"], low["passed"]) == (1, 180.0, True)
    between = data("--start", "250 psi, 70 F", "--now", "250 psi, 70 F", "--within", "2 psi", "--held", "24 h")
    assert (between["stage"], between["verdict"], between["passed"]) == (None, "holds", False)
    assert between["note"] == "the book has no stage at this pressure: how long to hold it is not judged"


def test_a_book_without_a_test_passes_nothing() -> None:
    arguments = ("--start", "4 MPa, 20 C", "--now", "4 MPa, 20 C", "--within", "20 kPa", "--held", "24 h")
    assert asked(*arguments, design=BOAT_HOUSE).exit_code == 3


def test_the_altitude_is_that_of_the_site() -> None:
    """700 ft: 98.79 kPa. (4136.85 + 98.79) x 285.93 / 302.04 - 98.79 = 3910.9 kPa."""
    found = data(*START, "--now", "566 psi, 55 F")
    assert found["altitude_m"] == pytest.approx(213.36)
    assert found["expected_pa"] == pytest.approx(3910.9e3, abs=200)


@pytest.mark.parametrize(
    "wrong", ["40 bar", "40 bar, 20 degC, 3", "40, 20 degC", "20 degC, 40 bar", "much, 20 degC", "40 bar, 20 K"]
)
def test_what_is_no_reading_is_refused_with_what_would_be_one(wrong: str) -> None:
    done = asked("--start", wrong, "--now", "40 bar, 20 degC")
    assert done.exit_code == 2
    assert "--start" in done.stderr
    assert "Traceback" not in done.stderr


def test_a_system_that_is_none_is_refused_by_name() -> None:
    done = CliRunner().invoke(cli, ["reading", str(PRINT_WORKS), "roof", *START, "--now", "1 bar, 2 C"])
    assert done.exit_code == 2
    assert "no system 'roof' expected one of main" in done.stderr
