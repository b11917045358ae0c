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
