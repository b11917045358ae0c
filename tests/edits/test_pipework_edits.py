"""What is stated of pipework is set by edits, undone by them, written back beside comments."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from linewright.cli.main import cli

ROOT = Path(__file__).parents[2]
WORKS = ROOT / "examples" / "print-works" / "print-works.design.yaml"

#: An edit as it goes in a file, and what then stands in the design.
EDITS = [
    ("{edit: set, project: , pipework: {basis: listed, listed: 700 psi}}", "listed: 700 psi"),
    ("{edit: set, project: , pipework: unknown}", ""),
    (
        "{edit: set, project: , pipework: {conductivity: 0.25 Btu in/(h ft2 F), surface: 1.2 Btu/(h ft2 F)}}",
        "surface: 1.2 Btu/(h ft2 F)",
    ),
    ("{edit: set, project: , pipework: {indoor_air: {temperature: 75 F, humidity: 60 %}}}", "humidity: 60 %"),
]


@pytest.mark.parametrize(("edit", "written"), EDITS)
def test_it_is_set_and_undone(tmp_path: Path, edit: str, written: str) -> None:
    path, edits, back = tmp_path / "a.design.yaml", tmp_path / "edits.yaml", tmp_path / "back.json"
    before = WORKS.read_text(encoding="utf-8")
    path.write_text(before, encoding="utf-8", newline="\n")
    edits.write_text(edit, encoding="utf-8")
    done = CliRunner().invoke(cli, ["edit", str(path), str(edits), "--json"])
    assert done.exit_code in (0, 1, 3), done.output
    after = path.read_text(encoding="utf-8")
    assert written in after
    assert after != before
    assert "# A print works" in after, "comments stay"
    back.write_text(json.dumps(json.loads(done.output)["inverse"]), encoding="utf-8")
    again = CliRunner().invoke(cli, ["edit", str(path), str(back), "--json"])
    assert again.exit_code in (0, 1, 3), again.output
    loaded = [CliRunner().invoke(cli, ["check", str(file), "--json"]).output for file in (path, WORKS)]
    assert json.loads(loaded[0]) == json.loads(loaded[1])
