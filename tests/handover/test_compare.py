"""Two designs side by side: what differs is told, and how a file is written does not count."""

import json
from pathlib import Path
from random import Random
from typing import Any

import pytest
import yaml
from click.testing import CliRunner

from linewright.cli.main import cli
from tests.handover.cases import BOAT_HOUSE, CLINIC, EXAMPLES


def compared(before: Path, after: Path) -> dict[str, Any]:
    done = CliRunner().invoke(cli, ["compare", str(before), str(after), "--json"])
    assert done.exit_code == 0, done.output
    found: dict[str, Any] = json.loads(done.stdout)
    return found


def checked(path: Path) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(CliRunner().invoke(cli, ["check", str(path), "--json"]).stdout)
    return found


def changed(tmp_path: Path, path: Path, before: str, after: str) -> Path:
    text = path.read_text(encoding="utf-8")
    assert before in text
    other = tmp_path / "other.design.yaml"
    other.write_text(text.replace(before, after), encoding="utf-8")
    return other


def shuffled(tmp_path: Path, path: Path, seed: int) -> Path:
    """The same design as JSON, rooms, systems, units, runs, fittings and keys in another order."""
    random, design = Random(seed), yaml.safe_load(path.read_text(encoding="utf-8"))  # noqa: S311 - a shuffle

    def mixed(value: Any, key: str = "") -> Any:  # noqa: ANN401 - a document
        if isinstance(value, dict):
            names = list(value)
            random.shuffle(names)
            return {name: mixed(value[name], name) for name in names}
        if isinstance(value, list):
            items = [mixed(item) for item in value]
            if key in ("rooms", "systems", "units", "runs", "fittings", "levels", "pipes", "items", "confirmed", "at"):
                random.shuffle(items)
            return items
        return str(value) if not isinstance(value, bool | int) else value

    other = tmp_path / f"{seed}.design.json"
    other.write_text(json.dumps(mixed(design)), encoding="utf-8")
    return other


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
@pytest.mark.parametrize("seed", [1, 2])
def test_order_and_formatting_do_not_count(tmp_path: Path, path: Path, seed: int) -> None:
    found = compared(path, shuffled(tmp_path, path, seed))
    assert (found["fields"], found["verdicts"], found["charges"]) == ([], [], [])
    assert found["same"]
    assert found["before"]["sha256"] != found["after"]["sha256"]


def test_a_length_that_changes_is_told_with_what_comes_of_it(tmp_path: Path) -> None:
    other = changed(tmp_path, BOAT_HOUSE, "to: J2, length: 6 m", "to: J2, length: 26 m")
    found, before, after = compared(BOAT_HOUSE, other), checked(BOAT_HOUSE), checked(other)
    assert found["fields"] == [{"element": "main/run:J2", "field": "length", "before": "6 m", "after": "26 m"}]
    (charge,) = found["charges"]
    assert charge["additional_before_kg"] == before["systems"][0]["charge"]["rounded_kg"]
    assert charge["total_after_kg"] == after["systems"][0]["charge"]["total_kg"]
    total = next(one for one in found["verdicts"] if one["subject"] == "main/limit:total_length")
    # 20 m more of a length that is bounded leaves 20 m less.
    assert total["before"]["margin"] - total["after"]["margin"] == pytest.approx(20.0)
    limits = {one["measure"]: one for one in after["systems"][0]["limits"]}
    for one in found["verdicts"]:
        name = one["subject"].partition("limit:")[2]
        if name:
            assert one["after"]["standing"] == limits[name]["standing"]
    text = CliRunner().invoke(cli, ["compare", str(BOAT_HOUSE), str(other)]).stdout
    assert "26 m" in text
    assert "standings changed" in text


def test_what_does_not_change_is_not_told(tmp_path: Path) -> None:
    """The name of the project is a field, and changes no verdict."""
    other = changed(tmp_path, BOAT_HOUSE, "project: ", "project: Another ")
    found = compared(BOAT_HOUSE, other)
    assert [one["field"] for one in found["fields"]] == ["project"]
    assert (found["verdicts"], found["charges"]) == ([], [])


def test_another_design_is_compared_as_well() -> None:
    found = compared(BOAT_HOUSE, CLINIC)
    assert not found["same"]
    gone = [one for one in found["charges"] if one["additional_after_kg"] is None]
    assert [one["system"] for one in gone] == ["main"]


def test_a_design_that_is_not_understood_is_refused(tmp_path: Path) -> None:
    done = CliRunner().invoke(cli, ["compare", str(BOAT_HOUSE), str(tmp_path / "none.design.yaml")])
    assert done.exit_code == 2
    assert "there is no such file" in done.stderr


def said(before: Path, after: Path) -> list[str]:
    done = CliRunner().invoke(cli, ["compare", str(before), str(after)])
    assert done.exit_code == 0, done.output
    return [" ".join(line.split()) for line in done.stdout.splitlines()]


def clinic(tmp_path: Path, *changes: tuple[str, str]) -> Path:
    text = CLINIC.read_text(encoding="utf-8")
    for before, after in changes:
        assert before in text
        text = text.replace(before, after)
    other = tmp_path / "clinic.design.yaml"
    other.write_text(text, encoding="utf-8")
    return other


UPPER = "outdoor: {modules: [outdoor 22.4], elevation: 12.2 m}"
EMPTIED = [
    # an id that only one side states
    (
        UPPER,
        "outdoor: {modules: [{model: outdoor 22.4, id: M1}], elevation: 12.2 m}",
        ("upper/module:M1", "id", "not given", "M1"),
    ),
    # a list from which all is gone
    ("bends: 4, items: [valve, sleeve]}", "bends: 4}", ("upper/run:J31", "items", "[sleeve, valve]", "none")),
    # a length that nobody knows
    ("to: U28, length: 5 m", "to: U28, length: unknown", ("upper/run:U28", "length", "5 m", "unknown")),
    # a quantity that is left out
    (", elevation: 12.2 m}", "}", ("upper/outdoor", "elevation", "12.2 m", "not given")),
    # a text that is left out, and one that is written and empty
    ("    name: Second floor east\n", "", ("system:upper", "name", "Second floor east", "not given")),
    ("name: Second floor east", 'name: ""', ("system:upper", "name", "Second floor east", "not given")),
]


@pytest.mark.parametrize(("before", "after", "row"), EMPTIED, ids=[f"{row[0]} {row[1]}" for *_, row in EMPTIED])
def test_what_is_taken_away_or_empty_is_told_in_words(
    tmp_path: Path, before: str, after: str, row: tuple[str, str, str, str]
) -> None:
    other = clinic(tmp_path, (before, after))
    assert " ".join(row) in said(CLINIC, other)
    element, field, one, two = row
    assert f"{element} {field} {two} {one}" in said(other, CLINIC)
    stated = [one for one in compared(CLINIC, other)["fields"] if one["element"] == element]
    assert '""' not in [one[side] for one in stated for side in ("before", "after")]


def without_upper(tmp_path: Path, *changes: tuple[str, str]) -> Path:
    other = clinic(tmp_path, *changes)
    text = other.read_text(encoding="utf-8")
    shorter = tmp_path / "shorter.design.yaml"
    shorter.write_text(text[: text.index("  - id: upper")], encoding="utf-8")
    return shorter


def test_the_charge_of_a_system_that_one_side_lacks_says_which(tmp_path: Path) -> None:
    other = without_upper(tmp_path)
    kg = checked(CLINIC)["systems"][2]["charge"]
    stated = f"{kg['rounded_kg']:.2f} kg", f"{kg['total_kg']:.2f} kg"
    assert f"upper {stated[0]} not in B {stated[1]} not in B" in said(CLINIC, other)
    assert f"upper not in A {stated[0]} not in A {stated[1]}" in said(other, CLINIC)
    (charge,) = compared(CLINIC, other)["charges"]
    assert (charge["in_before"], charge["in_after"]) == (True, False)
    assert charge["additional_after_kg"] is None


def test_a_charge_that_is_not_known_is_not_a_system_that_is_not_there(tmp_path: Path) -> None:
    """A system is told as gone also where its charge was never known."""
    unknown = ("to: U28, length: 5 m", "to: U28, length: unknown")
    assert any(line.startswith("upper 8.40 kg ? ") for line in said(CLINIC, clinic(tmp_path, unknown)))
    shorter = without_upper(tmp_path, unknown)
    assert "upper ? not in B ? not in B" in said(tmp_path / "clinic.design.yaml", shorter)


def test_what_exists_on_one_side_only_is_yes_and_no(tmp_path: Path) -> None:
    lines = said(CLINIC, without_upper(tmp_path))
    assert "system:upper exists yes no" in lines
    assert any(line.startswith("upper/limit:total_length within") and line.endswith("none -") for line in lines)


def test_marked_up_sheets_use_the_same_words(tmp_path: Path) -> None:
    other = clinic(tmp_path, EMPTIED[0][:2], EMPTIED[1][:2])
    done = CliRunner().invoke(cli, ["compare", str(CLINIC), str(other), "-o", str(tmp_path / "set")])
    assert done.exit_code == 0, done.output
    sheet = (tmp_path / "set" / "sheets" / "upper.svg").read_text(encoding="utf-8")
    assert ">not given<" in sheet
    assert ">none<" in sheet
    shorter = without_upper(tmp_path)
    done = CliRunner().invoke(cli, ["compare", str(CLINIC), str(shorter), "-o", str(tmp_path / "gone")])
    assert ">not in B<" in (tmp_path / "gone" / "sheets" / "upper.svg").read_text(encoding="utf-8")
