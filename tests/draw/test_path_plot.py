"""The plot along the pipe to a unit: true to the figures, readable, and honest where there are none."""

import json
from itertools import combinations
from pathlib import Path

import pytest
from click.testing import CliRunner

from linewright.app.project import open_project
from linewright.cli.main import cli
from linewright.draw import Scene
from linewright.draw.path_panels import PANEL
from linewright.draw.path_plot import path_scene
from linewright.draw.primitives import Line, Text
from linewright.engine.hydraulics import hydraulics
from linewright.engine.hydraulics_records import Hydraulics
from linewright.engine.records import SystemResult
from linewright.units import UnitSystem
from tests.draw.geometry import box, overlaps
from tests.house.files import ROOT

EXAMPLES = {path.parent.name: path for path in sorted((ROOT / "examples").rglob("*.design.yaml"))}


def worked_out(path: Path, system: str) -> tuple[SystemResult, Hydraulics]:
    evaluation = open_project(path).evaluate()
    result = next(one for one in evaluation.systems if one.id == system)
    return result, hydraulics(result)


def plotted(example: str, system: str, unit: str, units: UnitSystem = UnitSystem.SI) -> tuple[Scene, Hydraulics]:
    result, found = worked_out(EXAMPLES[example], system)
    return path_scene(result, found, unit, project="A project", system=units), found


def curve(scene: Scene, name: str) -> list[Line]:
    wanted = [one for one in scene.primitives if isinstance(one, Line) and one.id.startswith(f"plot:{name}/")]
    return [one for one in wanted if one.role in ("run", "run-beyond")]


@pytest.mark.parametrize("units", UnitSystem)
def test_every_run_of_the_way_stands_at_its_figures(units: UnitSystem) -> None:
    scene, found = plotted("harbour-clinic", "quay", "U25", units)
    runs = {run.id: run for run in found.runs}
    for name, value in (("liquid", "liquid_at_pa"), ("subcooling", "subcooling_at_k"), ("gas", "gas_at_pa")):
        lines = curve(scene, name)
        assert [one.id.split("/")[1] for one in lines] == ["K2", "J11", "J21", "J22", "J23", "U25"]
        figures = [getattr(runs[one.id.split("/")[1]], value) for one in lines]
        # heights are linear in the figures: the slope between any two ends is the same
        slopes = [
            (b.y2 - a.y2) / (figures[j] - figures[i])
            for (i, a), (j, b) in combinations(enumerate(lines), 2)
            if abs(figures[j] - figures[i]) > 1e-3 * max(map(abs, figures))
        ]
        assert slopes
        assert slopes == pytest.approx([slopes[0]] * len(slopes), rel=1e-6)
        assert slopes[0] < 0
        for one in lines:
            assert one.x1_m is not None
            assert one.x2 == pytest.approx(scene.axis.x(one.x1_m))
    assert curve(scene, "gas")[0].y1 - curve(scene, "gas")[-1].y2 <= PANEL


@pytest.mark.parametrize("units", UnitSystem)
@pytest.mark.parametrize("example", [name for name in EXAMPLES if name != "foundry-lofts"])
def test_every_unit_of_every_example_has_a_plot_without_words_on_words(example: str, units: UnitSystem) -> None:
    evaluation = open_project(EXAMPLES[example]).evaluate()
    for result in evaluation.systems:
        found = hydraulics(result)
        for unit in result.units:
            scene = path_scene(result, found, unit.id, project=evaluation.design.project, system=units)
            texts = [one for one in scene.primitives if isinstance(one, Text)]
            assert overlaps(texts) == []
            assert len({one.id for one in scene.primitives}) == len(scene.primitives)


def test_liquid_that_boils_carries_a_sign_and_a_word(tmp_path: Path) -> None:
    text = EXAMPLES["boat-house"].read_text(encoding="utf-8")
    raised = text.replace("room: office, elevation: 2.7 m", "room: office, elevation: 60 m")
    assert raised != text
    (tmp_path / "a.design.yaml").write_text(raised, encoding="utf-8")
    result, found = worked_out(tmp_path / "a.design.yaml", "main")
    scene = path_scene(result, found, "U2", project="A", system=UnitSystem.SI)
    assert [one.role for one in curve(scene, "subcooling")] == ["run", "run-beyond", "run-beyond"]
    assert any(isinstance(one, Text) and one.text.endswith("▲ boils") for one in scene.primitives)
    assert any(one.role == "zero" for one in scene.primitives)
    low = path_scene(result, found, "U1", project="A", system=UnitSystem.SI)
    assert not any(isinstance(one, Text) and "boils" in one.text for one in low.primitives)


def test_liquid_that_boils_on_the_way_is_told_though_it_arrives_below(tmp_path: Path) -> None:
    """A joint 52 m up and a unit back down: at its end nothing is short, and still plot and text say what happens."""
    text = EXAMPLES["boat-house"].read_text(encoding="utf-8")
    loose = text.replace("room: office, elevation: 2.7 m", "room: office, elevation: 3 m")
    raised = loose.replace("to: J2, length: 6 m,", "to: J2, length: 60 m, rise: 52 m,").replace(
        "to: U2, length: 5 m", "to: U2, length: 60 m, rise: -52 m"
    )
    assert raised != loose
    (tmp_path / "a.design.yaml").write_text(raised, encoding="utf-8")
    result, found = worked_out(tmp_path / "a.design.yaml", "main")
    by_id = {run.id: run.subcooling_at_k for run in found.runs}
    assert by_id["J2"] < 0 < by_id["U2"]
    scene = path_scene(result, found, "U2", project="A", system=UnitSystem.SI)
    signs = [one for one in scene.primitives if isinstance(one, Text) and one.text == "▲ boils"]
    assert [one.id for one in signs] == ["plot:subcooling/lowest"]
    assert overlaps([one for one in scene.primitives if isinstance(one, Text)]) == []
    done = CliRunner().invoke(cli, ["check", str(tmp_path / "a.design.yaml"), "--physics"])
    assert "at J2; liquid boils on the way" in " ".join(done.output.split())


def test_long_names_stay_on_the_page(tmp_path: Path) -> None:
    text = EXAMPLES["boat-house"].read_text(encoding="utf-8")
    name = "U2-" + "office-over-the-slipway-" * 2
    (tmp_path / "a.design.yaml").write_text(text.replace("U2", name), encoding="utf-8")
    result, found = worked_out(tmp_path / "a.design.yaml", "main")
    scene = path_scene(result, found, name, project="A very long name " * 8, system=UnitSystem.IP)
    texts = [one for one in scene.primitives if isinstance(one, Text)]
    assert overlaps(texts) == []
    assert all(box(one).left >= 0 and box(one).right <= scene.width for one in texts)


def drawn(*words: str) -> tuple[int, str]:
    done = CliRunner().invoke(cli, ["draw", *words])
    return done.exit_code, done.output


def test_the_command_writes_svg_and_data() -> None:
    design = str(EXAMPLES["boat-house"])
    code, text = drawn(design, "--path", "U2")
    assert code == 0
    assert text.startswith("<svg ")
    code, text = drawn(design, "--path", "U2", "--format", "scene")
    assert json.loads(text)["schema"] == "linewright/scene/1"


def test_what_cannot_be_plotted_is_told() -> None:
    code, text = drawn(str(EXAMPLES["boat-house"]), "--path", "U9")
    assert (code, text.strip()) == (2, "no unit 'U9' in system main expected one of U1, U2, U3")
    code, text = drawn(str(EXAMPLES["foundry-lofts"]), "east", "--path", "U301")
    assert code == 3
    assert text.startswith("no plot of system east: not worked out, for want of equivalent length of run D4")
    code, text = drawn(str(EXAMPLES["boat-house"]), "--path", "U2", "--axis", "actual")
    assert (code, text.startswith("--axis goes with the sheet")) == (2, True)
    result, found = worked_out(EXAMPLES["boat-house"], "main")
    with pytest.raises(ValueError, match="no unit 'U9'"):
        path_scene(result, found, "U9", project="A", system=UnitSystem.SI)
