"""Everything that is stated of refrigerant in rooms is set by edits, undone by them, written back beside comments."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from linewright.cli.main import cli

ROOT = Path(__file__).parents[2]
TERMINAL = ROOT / "examples" / "ferry-terminal" / "ferry-terminal.design.yaml"

#: An edit as it goes in a file, and what then stands in the design.
EDITS = [
    ("{edit: set, project: , refrigerant: {profile: ashrae-15, occupancy: commercial}}", "profile: ashrae-15"),
    ("{edit: set, project: , refrigerant: unknown}", ""),
    ("{edit: set, room: staff, exhaust: 180 m3/h}", "exhaust: 50 L/s"),
    ("{edit: set, room: staff, opening: 0.02 m2, opening_edge: 0.1 m}", "opening_edge: 0.1 m"),
    ("{edit: set, room: staff, alarm: yes, access: supervised, restricted: yes}", "access: supervised"),
    ("{edit: set, room: staff, circulation: 400 m3/h, occupancy: industrial}", "occupancy: industrial"),
    ("{edit: set, level: cellar, underground: no}", "underground: no"),
    ("{edit: set, system: main, tight: no}", ""),
    ("{edit: set, system: main, leak_detection: no}", ""),
    ("{edit: set, system: main, releasable: {staff: 2 kg, luggage: 4 kg}}", "staff: 2 kg"),
    ("{edit: set, system: main, run: U5, crosses: [tickets]}", "crosses: [tickets]"),
    ("{edit: set, system: main, unit: U5, mounting: ceiling}", "mounting: ceiling"),
    ("{edit: set, system: main, fitting: J5, room: staff, location: indoors}", "location: indoors"),
    (
        "{edit: set, project: , spaces: [{id: back, rooms: [tickets, staff], joined_by: duct, least_airflow: 30 %}]}",
        "least_airflow: 30 %",
    ),
]


@pytest.mark.parametrize(("edit", "written"), EDITS)
def test_it_is_set_and_undone(tmp_path: Path, edit: str, written: str) -> None:
    path, edits, back = tmp_path / "a.design.yaml", tmp_path / "edits.yaml", tmp_path / "back.json"
    before = TERMINAL.read_text(encoding="utf-8")
    path.write_text(before, encoding="utf-8", newline="\n")
    edits.write_text(edit, encoding="utf-8")
    done = CliRunner().invoke(cli, ["edit", str(path), str(edits), "--json"])
    assert done.exit_code in (0, 1, 3), done.output
    after = path.read_text(encoding="utf-8")
    assert after != before
    assert written in after
    assert "# A small ferry terminal" in after, "comments stay"
    back.write_text(_inverse(done.output), encoding="utf-8")
    undone = CliRunner().invoke(cli, ["edit", str(path), str(back), "--json"])
    assert undone.exit_code in (0, 1, 3), undone.output
    first = CliRunner().invoke(cli, ["check", str(TERMINAL), "--json"]).output
    assert CliRunner().invoke(cli, ["check", str(path), "--json"]).output == first


def _inverse(output: str) -> str:
    return json.dumps(json.loads(output)["inverse"])
