"""What `linewright edit` says of a change, in words."""

from pathlib import Path

import pytest
from click.testing import CliRunner

from linewright.cli.main import cli
from tests.house.files import ROOT

PILOT = ROOT / "examples" / "pilot-station" / "pilot-station.design.yaml"
ADD = "- {edit: add, system: station, runs: [{from: B4, to: X9, length: 3 m}]}\n"
REMOVE = "- {edit: remove, system: station, node: X9}\n"


@pytest.mark.parametrize(
    ("edits", "told", "untold"),
    [(ADD, "station/run:X9: added", "run:B4"), (ADD + REMOVE, "Standing: ", "X9")],
)
def test_a_run_below_one_that_is_there_is_told_and_written(edits: str, told: str, untold: str, tmp_path: Path) -> None:
    """The node that it hangs on has one arm more, which is no field of its own."""
    design, before = tmp_path / "pilot.design.yaml", PILOT.read_text(encoding="utf-8")
    design.write_text(before, encoding="utf-8", newline="\n")
    done = CliRunner().invoke(cli, ["edit", str(design), "-"], input=edits)
    assert done.exit_code == 0, done.output
    changes = done.output.split("Standing: ")[0]
    assert told in done.output
    assert untold not in changes
    assert ("to: X9" in design.read_text(encoding="utf-8")) == (edits == ADD)
