"""Pipes between outdoor modules: what they lose, by a march along them, and what is said where something is missing."""

from pathlib import Path

import numpy as np
import pytest

from linewright.app.project import open_project
from linewright.engine.hydraulics import hydraulics
from linewright.engine.records import SystemResult
from linewright.model.values import Role
from linewright.physics import fluid
from linewright.physics.flow import Ends, Pipe, gas_far_pressure
from linewright.report.hydraulics_out import hydraulics_json
from tests.house.files import ROOT

CLINIC = ROOT / "examples" / "harbour-clinic" / "harbour-clinic.design.yaml"


def systems(path: Path) -> dict[str, SystemResult]:
    return {one.id: one for one in open_project(path).evaluate().systems}


def marched_k(result: SystemResult, module: str) -> float:
    """Loss of saturation from where the pipes meet to a module [K], pipe after pipe."""
    found, book = hydraulics(result), result.state.ground.book.book
    used = fluid(book.refrigerant)
    assert used is not None
    assert found.shares is not None
    pipes = {pipe.id: pipe for pipe in result.outdoor.pipes}
    total = sum(pipe.served_index for pipe in pipes.values() if pipe.from_ == "outdoor")
    way = [pipes[module]]
    while way[-1].from_ != "outdoor":
        way.append(pipes[way[-1].from_])
    rated = sum(model.cooling_w for model in result.state.ground.models)
    most = result.state.ground.group.cooling_w or sum(one.data.cooling_w for one in result.state.ground.modules)
    at = found.conditions.cooling
    h_coil, _ = used.coil(used.dew_pressure(at.evaporating_degc), at.superheat_k)
    whole = min(rated, most) * found.shares.tree / float(h_coil - used.liquid_enthalpy(at.liquid_degc))
    p = np.array([found.shares.suction_pa])
    for pipe in reversed(way):
        size = pipe.tubes[Role.GAS]
        assert size is not None
        assert pipe.equivalent_m is not None
        bore = size - 2 * book.tubes.wall_m[size]
        run = Pipe(np.array([bore]), np.array([pipe.equivalent_m]), np.array([pipe.rise_m or 0.0]))
        flow = np.array([whole * pipe.served_index / total])
        p = gas_far_pressure(used, Ends(p, p, flow, h_coil), run, upstream=False)
    return found.shares.suction_degc - float(used.dew_temperature(p)[0])


@pytest.mark.parametrize("name", ["quay", "upper"])
def test_they_lose_what_a_march_loses(name: str) -> None:
    """Heat of evaporation differs by unit, so that the flow here is near that of the balance: 5 %."""
    result = systems(CLINIC)[name]
    found = hydraulics(result).modules
    if len(result.state.ground.modules) == 1:
        assert found is None
        return
    assert found is not None
    assert found.loss_k == pytest.approx(marched_k(result, found.id), rel=0.05)
    assert found.loss_k is not None
    for module in result.system.outdoor.modules:
        if module.id != found.id:
            assert marched_k(result, module.id) <= found.loss_k * 1.05


def test_the_clinic_has_such_a_group() -> None:
    assert any(len(one.state.ground.modules) > 1 for one in systems(CLINIC).values())


def test_what_is_missing_is_not_made_up(tmp_path: Path) -> None:
    text = CLINIC.read_text(encoding="utf-8")
    assert "to: M1, length: 1.5 m, " in text
    (tmp_path / "a.design.yaml").write_text(
        text.replace("to: M1, length: 1.5 m, ", "to: M1, length: unknown, "), encoding="utf-8"
    )
    shown = [hydraulics_json(hydraulics(one)) for one in systems(tmp_path / "a.design.yaml").values()]
    assert any(one["module"] is None and one["module_loss_k"] is None for one in shown)
