"""`linewright remedies`: the clinic's faulty system cured with nothing else, the list, the file, the way back."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from linewright.app.project import open_project
from linewright.cli.main import cli
from linewright.takeoff import take_off
from linewright.takeoff.naming import item_name
from linewright.units import UnitSystem
from tests.explore.loft import SOUND

ROOT = Path(__file__).parents[2]
CLINIC = ROOT / "examples" / "harbour-clinic" / "harbour-clinic.design.yaml"
LOFT = Path(__file__).parent / "data" / "six-faults.design.yaml"


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(cli, ["remedies", *map(str, arguments)])


def copy(tmp_path: Path, source: Path) -> Path:
    path = tmp_path / source.name
    path.write_text(source.read_text(encoding="utf-8"), encoding="utf-8", newline="\n")
    return path


@pytest.mark.parametrize("source", [CLINIC, LOFT])
def test_one_command_cures_all_and_its_inverse_brings_it_back(tmp_path: Path, source: Path) -> None:
    path = copy(tmp_path, source)
    before = path.read_text(encoding="utf-8")
    done = run(path, "--apply", "1", "--json")
    assert done.exit_code == 0, done.output
    made = json.loads(done.output)
    assert made["schema"] == "linewright/edits/1"
    after = path.read_text(encoding="utf-8")
    assert after.splitlines()[0] == before.splitlines()[0], "comments stay"
    assert re.findall(r"[0-9]\.[0-9]{7,}", after) == [], "nobody builds to less than a micrometre"
    checked = CliRunner().invoke(cli, ["check", str(path), "--json"])
    assert checked.exit_code == 0, checked.output[-400:]
    back = tmp_path / "back.json"
    back.write_text(json.dumps(made["inverse"]), encoding="utf-8")
    undone = CliRunner().invoke(cli, ["edit", str(path), str(back)])
    assert undone.exit_code == 0, undone.output
    found = [CliRunner().invoke(cli, ["check", str(one), "--json"]).output for one in (path, source)]
    assert json.loads(found[0]) == json.loads(found[1])


def test_the_list_is_for_people() -> None:
    done = run(CLINIC, "--check", "upper/limit:joint_spacing")
    assert done.exit_code == 0
    assert "  upper/limit:joint_spacing: 0.3 (min 0.5 m, over)" in done.output
    assert " 1  Joint J33 0.2 m further along run H3; the pipe to U30 goes back along it" in done.output
    assert "cures: upper joint spacing 0.3 (min 0.5 m, over) -> 0.5 (min 0.5 m)" in done.output
    assert "These make something else stand worse:" in done.output
    assert "proven against the books as they were typed, not on site" in done.output
    assert max(len(line) for line in done.output.splitlines()) <= 80


def test_other_units() -> None:
    done = run(CLINIC, "--check", "upper/limit:joint_spacing", "--units", "ip")
    assert "ft" in done.output
    assert not re.search(r"\d m\b", done.output)


def test_the_list_is_for_programs() -> None:
    done = run(CLINIC, "--check", "room:laboratory", "--json", "--budget", "120")
    found = json.loads(done.output)
    assert found["schema"] == "linewright/remedies/1"
    assert [target["subject"] for target in found["targets"]] == ["room:laboratory.cooling", "room:laboratory.sensible"]
    first = found["remedies"][0]
    assert first["number"] == 1
    assert first["edits"][0]["edit"] == "set_outdoor"
    assert first["moves"][0]["kind"] == "outdoor group"
    assert found["evaluations"] <= found["budget"] == 120
    assert found["cautions"]


def test_the_edits_of_a_list_can_be_applied_from_a_file(tmp_path: Path) -> None:
    path, edits = copy(tmp_path, CLINIC), tmp_path / "edits.json"
    listed = json.loads(run(path, "--check", "upper/limit:header_depth", "--json").output)
    edits.write_text(json.dumps(listed["remedies"][1]["edits"]), encoding="utf-8")
    done = CliRunner().invoke(cli, ["edit", str(path), str(edits)])
    assert done.exit_code == 0, done.output
    again = json.loads(run(path, "--check", "upper/limit:header_depth", "--json").output)
    assert again["targets"] == []


def test_a_dry_run_writes_nothing(tmp_path: Path) -> None:
    path = copy(tmp_path, LOFT)
    before = path.read_bytes()
    done = run(path, "--apply", "1", "--dry-run")
    assert done.exit_code == 0
    assert "Nothing was written." in done.output
    assert path.read_bytes() == before


def test_only_one_system(tmp_path: Path) -> None:
    path = copy(tmp_path, CLINIC)
    done = run(path, "--system", "ground")
    assert done.exit_code == 0
    assert "nothing of what was asked for is over" in done.output


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--check", "upper/limit:joint_spacings"), "nearest: upper/limit:joint_spacing"),
        (("--system", "attic"), "nearest: ground, quay, upper"),
        (("--check", "upper/limit:joint_spacing", "--apply", "900"), "there is no remedy 900"),
        (("--outdoor-place", "roof 3 m"), "is no part of a place"),
        (("--outdoor-place", "main 3 kg"), "is a mass"),
        (("--outdoor-place", "main 0 m"), "longer than nothing"),
        (("--budget", "1"), "1 is not in the range"),
        (("--prices", "no.csv"), "no.csv"),
    ],
)
def test_what_is_not_understood_is_said_with_what_would_be(arguments: tuple[str, ...], said: str) -> None:
    done = run(CLINIC, *arguments)
    assert done.exit_code == 2
    assert said in done.output
    assert "Traceback" not in done.output


def test_where_nothing_helps_it_says_what_was_tried() -> None:
    done = run(ROOT / "examples" / "boat-house" / "boat-house.design.yaml")
    assert done.exit_code == 1
    assert "No remedy was found" in done.output
    assert "Nearest that was reached:" in done.output
    assert "left: " in done.output
    assert "tried: " in done.output


def priced(tmp_path: Path, left_out: str = "") -> list[dict[str, Any]]:
    """Remedies for the store of the loft, with a price of 10 for everything that may come to be bought."""
    models = ("cassette 3.6", "cassette 4.5", "wall 2.8", "floor 2.8", "ducted 2.8")
    names = {f"indoor unit: {model}" for model in models}
    for module in ("33.5", "22.4"):
        names.add(f"outdoor module: outdoor {module}")
    for edits in (None, *(remedy["edits"] for remedy in listed(tmp_path))):
        path = short(tmp_path)
        if edits is not None:
            file = tmp_path / "edits.json"
            file.write_text(json.dumps(edits), encoding="utf-8")
            CliRunner().invoke(cli, ["edit", str(path), str(file)])
        names |= {item_name(line, UnitSystem.SI) for line in take_off(open_project(path).evaluate()).lines}
    prices = tmp_path / "prices.csv"
    rows = [f'"{name}",{25 if name == DEARER else 10}' for name in sorted(names - {left_out})]
    prices.write_text("item,price\n" + "\n".join(rows) + "\n", encoding="utf-8")
    return listed(tmp_path, "--prices", prices)


def short(tmp_path: Path) -> Path:
    """The loft without its faults, but for a store that is short."""
    path = tmp_path / "short.design.yaml"
    text = SOUND.replace("cooling: 2.4 kW, sensible: 1.6 kW", "cooling: 3.1 kW, sensible: 2.2 kW")
    path.write_text(text, encoding="utf-8")
    return path


DEARER = "indoor unit: cassette 3.6"


def listed(tmp_path: Path, *more: str | Path) -> list[dict[str, Any]]:
    done = run(short(tmp_path), "--check", "room:store", "--json", "--budget", "40", *more)
    found: list[dict[str, Any]] = json.loads(done.output)["remedies"]
    return found


def test_by_price_the_least_comes_first(tmp_path: Path) -> None:
    found = priced(tmp_path)
    prices = [remedy["price"] for remedy in found]
    assert None not in prices
    assert prices == sorted(prices)
    edit = {"edit": "change_model", "system": "loft", "id": "U5", "model": "cassette 3.6"}
    larger = next(remedy for remedy in found if remedy["edits"] == [edit])
    assert larger["price"] >= 15.0
    assert (larger["price"] - 15.0) % 10.0 == 0.0, "the unit for another, and what else its larger tube brings"


def test_without_a_price_for_what_differs_there_is_no_price(tmp_path: Path) -> None:
    found = priced(tmp_path, DEARER)
    without = [remedy for remedy in found if DEARER in remedy["unpriced"]]
    assert without
    assert {remedy["price"] for remedy in without} == {None}
    assert found[-1]["price"] is None
