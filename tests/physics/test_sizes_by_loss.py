"""Sizes by loss: the least of the ladder that loses no more, for every run, sized or not."""

from itertools import pairwise

import numpy as np
import pytest

from linewright.app.project import open_project
from linewright.engine.hydraulics import hydraulics
from linewright.engine.hydraulics_inputs import loads_of
from linewright.engine.hydraulics_sizes import LIQUID_K_M, SUCTION_K_M, sizes_by_loss
from linewright.engine.records import SystemResult
from linewright.model.values import Role
from linewright.physics import fluid
from linewright.physics.compressor import CoolingAt
from linewright.physics.flow import Ends, Pipe, gas_far_pressure, liquid_drop
from tests.house.files import ROOT

EXAMPLES = {path.parent.name: path for path in sorted((ROOT / "examples").rglob("*.design.yaml"))}
AT = CoolingAt()


def system(example: str, name: str) -> SystemResult:
    return next(one for one in open_project(EXAMPLES[example]).evaluate().systems if one.id == name)


def downstream_w(result: SystemResult) -> dict[str, float]:
    """Rated load beyond each run, by climbing from every unit."""
    found = dict.fromkeys(result.tree.ids, 0.0)
    for watts, run in zip(loads_of(result, "cooling_w"), result.tree.unit_runs, strict=True):
        for i in result.tree.path_to(run):
            found[result.tree.ids[i]] += float(watts)
    return found


def lost_k(name: str, watts: float, bore_m: float) -> tuple[float, float]:
    """Loss of suction gas and of liquid in a metre [K], by the pressure at the far end."""
    used = fluid(name)
    assert used is not None
    p = np.array([float(used.dew_pressure(AT.evaporating_degc))])
    gas, _ = used.coil(p, AT.superheat_k)
    flow = np.array([watts]) / (gas - used.liquid_enthalpy(AT.liquid_degc))
    metre = Pipe(np.array([bore_m]), np.ones(1), np.zeros(1))
    far = gas_far_pressure(used, Ends(p, p, flow, gas), metre, upstream=False)
    warm = used.bubble_pressure(AT.condensing_degc) - liquid_drop(used, np.array([AT.liquid_degc]), flow, metre)
    liquid = AT.condensing_degc - float(used.bubble_temperature(warm)[0])
    return AT.evaporating_degc - float(used.dew_temperature(far)[0]), liquid


@pytest.mark.parametrize(
    ("example", "name"), [("harbour-clinic", "quay"), ("boat-house", "main"), ("ridge-hostel", "lodge")]
)
def test_it_is_the_least_size_that_loses_no_more(example: str, name: str) -> None:
    result = system(example, name)
    book = result.state.ground.book.book
    loads, found = downstream_w(result), sizes_by_loss(result, AT)
    assert [one.id for one in found] == list(result.tree.ids)
    for one in found:
        for which, role, size, most in (
            (0, Role.GAS, one.gas_by_loss_m, SUCTION_K_M),
            (1, Role.LIQUID, one.liquid_by_loss_m, LIQUID_K_M),
        ):
            ladder = sorted(book.tubes.ladders[role])
            lost = {s: lost_k(book.refrigerant, loads[one.id], s - 2 * book.tubes.wall_m[s])[which] for s in ladder}
            enough = [s for s in ladder if lost[s] <= most * 1.001]
            assert size == (enough[0] if enough else None)


def test_more_load_never_gets_a_smaller_size() -> None:
    result = system("harbour-clinic", "quay")
    loads = downstream_w(result)
    ordered = sorted(sizes_by_loss(result, AT), key=lambda one: loads[one.id])
    for less, more in pairwise(ordered):
        assert less.gas_by_loss_m is not None
        assert more.gas_by_loss_m is not None
        assert less.gas_by_loss_m <= more.gas_by_loss_m


def test_it_is_given_where_the_rest_is_not_worked_out() -> None:
    found = hydraulics(system("foundry-lofts", "east"))
    assert found.missing
    assert found.runs == ()
    assert len(found.sizes.rows) > 40
    assert all(one.gas_by_loss_m is not None for one in found.sizes.rows)
