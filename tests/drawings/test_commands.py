"""Drawings by command: the riser, paper, DXF, revisions, and what does not go together."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

import ezdxf
import pytest
from click.testing import CliRunner, Result

from linewright.cli.main import cli

ROOT = Path(__file__).parents[2]
CLINIC = ROOT / "examples" / "harbour-clinic" / "harbour-clinic.design.yaml"
BOAT_HOUSE = ROOT / "examples" / "boat-house" / "boat-house.design.yaml"


def run(*arguments: str | Path) -> Result:
    return CliRunner().invoke(cli, [*map(str, arguments)])


def test_each_sheet_gets_a_file_with_its_number(tmp_path: Path) -> None:
    done = run("draw", CLINIC, "quay", "--kind", "riser", "--paper", "A3", "-o", tmp_path / "quay.svg")
    assert done.exit_code == 0
    assert sorted(path.name for path in tmp_path.iterdir()) == ["quay-1.svg", "quay-2.svg"]


def test_several_sheets_need_a_place() -> None:
    done = run("draw", CLINIC, "quay", "--kind", "riser")
    assert done.exit_code == 2
    assert "the drawing has 2 sheets" in done.stderr


def test_dxf_can_be_read(tmp_path: Path) -> None:
    done = run("draw", BOAT_HOUSE, "--kind", "riser", "--format", "dxf", "-o", tmp_path / "one.dxf")
    assert done.exit_code == 0
    document = ezdxf.readfile(tmp_path / "one-1.dxf")  # type: ignore[attr-defined]
    assert len(document.modelspace().query('INSERT[name=="LW-UNIT"]')) == 3


def test_revisions_are_told(tmp_path: Path) -> None:
    options = ("--revision", "A, 2026-11-02, for comment", "--revision", "B, 2026-11-20, for tender")
    done = run("draw", BOAT_HOUSE, "--paper", "A3", *options, "-o", tmp_path / "sheet.svg")
    assert done.exit_code == 0
    assert ">2026-11-20</text>" in (tmp_path / "sheet.svg").read_text(encoding="utf-8")


@pytest.mark.parametrize("wrong", ["A", "A, soon, x", "A, 2026-02-30, x"])
def test_a_revision_that_is_none_is_refused(wrong: str) -> None:
    done = run("draw", BOAT_HOUSE, "--revision", wrong)
    assert done.exit_code == 2
    assert "is no revision" in done.stderr


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (("--path", "U1", "--paper", "A3"), "--path is not drawn on paper"),
        (("--kind", "riser", "--physics"), "--axis and --physics go with the sheet"),
        (("--kind", "riser", "--format", "scene"), "--format scene is the sheet alone"),
    ],
)
def test_what_does_not_go_together_is_refused(options: tuple[str, ...], said: str) -> None:
    done = run("draw", BOAT_HOUSE, *options)
    assert done.exit_code == 2
    assert said in done.stderr


def test_a_paper_that_is_too_small_leaves_nothing_behind(tmp_path: Path) -> None:
    done = run("draw", CLINIC, "quay", "--paper", "A4", "-o", tmp_path / "quay.svg")
    assert done.exit_code == 2
    assert "the sheet of system 'quay' has no room on 'A4' with letters of 2 mm" in done.stderr
    assert list(tmp_path.iterdir()) == []


def test_the_set_has_every_drawing_in_both_formats_and_lists_them(tmp_path: Path) -> None:
    done = run("report", CLINIC, "-o", tmp_path / "set", "--paper", "A2", "--revision", "A, 2026-11-02, for comment")
    assert done.exit_code == 0
    listed = json.loads((tmp_path / "set" / "contents.json").read_text(encoding="utf-8"))["files"]
    names = [name for name in listed if name.startswith("drawings/")]
    for system in ("ground", "quay", "upper"):
        for kind in ("riser", "sheet"):
            mine = [name for name in names if name.startswith(f"drawings/{system}-{kind}")]
            assert {Path(name).suffix for name in mine} == {".svg", ".dxf"}
    for name in names:
        assert hashlib.sha256((tmp_path / "set" / name).read_bytes()).hexdigest() == listed[name]
