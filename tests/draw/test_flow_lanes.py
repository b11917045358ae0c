"""Flow on the lanes: the figures of the records, on every case, and nothing over anything else."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from linewright.app.project import open_project
from linewright.cli.main import cli
from linewright.draw import Axis, Scene, layout, sheet_scene
from linewright.draw.columns import FLOW
from linewright.draw.plan import SheetLayout
from linewright.engine.records import SystemResult
from linewright.units import Dimension, UnitSystem, show_number
from tests.draw.cases import ALL, drawn
from tests.draw.geometry import of_role, overlaps, text, texts

EXAMPLES = Path(__file__).parents[2] / "examples"
HOSTEL = EXAMPLES / "ridge-hostel/ridge-hostel.design.yaml"
LOFTS = EXAMPLES / "foundry-lofts/foundry-lofts.design.yaml"
K = Dimension.TEMPERATURE_DIFFERENCE


def with_flow(name: str, units: UnitSystem, width: float) -> tuple[SheetLayout, Scene]:
    case = drawn(name)
    sheet = layout(case.evaluation, case.result, axis=Axis.ACTUAL, book=case.sheet.book, with_flow=True)
    return sheet, sheet_scene(sheet, units, width=width)


@pytest.mark.parametrize("name", ALL)
@pytest.mark.parametrize(("units", "width"), [(UnitSystem.SI, 1600.0), (UnitSystem.IP, 1280.0)])
def test_every_lane_has_its_figures_and_nothing_overlaps(name: str, units: UnitSystem, width: float) -> None:
    sheet, scene = with_flow(name, units, width)
    table = texts(scene, "cell", "cell-more", "column-head", "column-span")
    assert overlaps(table) == []
    assert all(item.x <= scene.width for item in table)
    for lane in sheet.lanes:
        unit = lane.unit.id
        cells = {column: text(scene, f"unit:{unit}/{column}") for column in FLOW}
        assert all(cell.x == text(scene, f"lanes/{column}").x for column, cell in cells.items())
        if sheet.result.hydraulics.shares is None:
            assert {cell.text for cell in cells.values()} == {"?"}
    edge = text(scene, "lanes/room").x
    assert all(getattr(item, "x2", 0.0) < edge for item in of_role(scene, "run", "run-beyond"))


def hostel() -> SystemResult:
    return open_project(HOSTEL).evaluate().systems[0]


def test_the_figures_are_those_of_the_records() -> None:
    """Loss is the difference of dew points between unit and compressor, whatever lies between."""
    result = hostel()
    found, dew = result.hydraulics, {run.id: run for run in result.hydraulics.runs}
    sheet = layout(open_project(HOSTEL).evaluate(), result, with_flow=True)
    scene = sheet_scene(sheet, UnitSystem.SI)
    assert found.shares is not None
    for unit in found.units:
        way = [result.tree.ids[i] for i in result.tree.path_to(result.tree.at[unit.id])]
        loss = sum(dew[run].cooling_loss_k for run in way)
        margins = [m for run in way for m in (dew[run].cooling_oil, dew[run].heating_oil) if m is not None]
        assert text(scene, f"unit:{unit.id}/loss").text == show_number(loss, K, UnitSystem.SI)
        assert text(scene, f"unit:{unit.id}/left").text == show_number(unit.subcooling_left_k, K, UnitSystem.SI)
        words = text(scene, f"unit:{unit.id}/oil").text
        assert words.split()[-1] == f"{min(margins):.2f}"
        assert words.startswith("!! ") == (min(margins) < 1)
    foot = " ".join(item.text for item in texts(scene))
    assert f"the pipe leaves {found.shares.tree:.3f} of the cooling" in foot
    assert "judged by nothing" in foot


def test_a_plain_sheet_has_no_such_columns() -> None:
    case = drawn("boat-house")
    assert not any(item.id == f"lanes/{column}" for item in case.scene.primitives for column in FLOW)


def test_the_command_line_draws_it_and_says_what_is_wanting(tmp_path: Path) -> None:
    place = tmp_path / "lodge.svg"
    done = CliRunner().invoke(cli, ["draw", str(HOSTEL), "--physics", "-o", str(place)])
    assert done.exit_code == 0, done.output
    assert "first principles" in place.read_text(encoding="utf-8")
    done = CliRunner().invoke(cli, ["draw", str(LOFTS), "east", "--physics"])
    assert done.exit_code == 0
    assert "not worked out, for want of" in done.output
    done = CliRunner().invoke(cli, ["draw", str(HOSTEL), "--physics", "--path", "U1"])
    assert done.exit_code == 2
    assert "--physics goes with the sheet" in done.output
