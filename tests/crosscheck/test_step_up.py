"""One step up on the gas main counts as roughly half its length: common practice, no source.

What a metre of the wider tube loses over what a metre of the narrower one loses, at the flow at which the narrower one
loses 0.04 K/m, for usual metric gas mains. Walls as commonly sold (from memory).
"""

from itertools import pairwise
from statistics import median

import numpy as np
import pytest

from linewright.physics import Fluid, fluid
from linewright.physics.compressor import CoolingAt
from linewright.physics.flow import Ends, Pipe, square_loss

WALL_MM = {15.88: 1.0, 19.05: 1.0, 22.22: 1.0, 25.4: 1.0, 28.58: 1.0, 31.75: 1.1, 34.92: 1.2, 38.1: 1.35}
#: Ladders with and without the sizes that some makers leave out.
LADDERS = {
    "every size": (15.88, 19.05, 22.22, 25.4, 28.58, 31.75, 34.92, 38.1),
    "without 25.4": (15.88, 19.05, 22.22, 28.58, 31.75, 34.92, 38.1),
}
AT, LOSS_K_M = CoolingAt(), 0.04


def lost(used: Fluid, od_mm: float, flow_kg_s: float) -> float:
    """What p2 falls by in a metre of suction gas [Pa2]."""
    p = used.dew_pressure(np.array([AT.evaporating_degc]))
    ends = Ends(p, p, np.array([flow_kg_s]), used.gas_enthalpy_at(AT.superheat_k)(np.log(p)))
    bore = np.array([(od_mm - 2 * WALL_MM[od_mm]) / 1000])
    return float(square_loss(used, ends, Pipe(bore, np.ones(1), np.zeros(1)))[0])


def flow_at(used: Fluid, od_mm: float) -> float:
    """Flow that loses so much in a metre [kg/s], by bisection."""
    p, farther = (float(used.dew_pressure(t)) for t in (AT.evaporating_degc, AT.evaporating_degc - LOSS_K_M))
    low, high = 1e-4, 5.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if lost(used, od_mm, middle) < p**2 - farther**2 else (low, middle)
    return low


@pytest.mark.parametrize("name", ["R-410A", "R-32", "R-454B"])
@pytest.mark.parametrize("ladder", LADDERS)
def test_one_step_up_counts_as_roughly_half(name: str, ladder: str) -> None:
    used = fluid(name)
    assert used is not None
    shares = {}
    for narrow, wide in pairwise(LADDERS[ladder]):
        flow = flow_at(used, narrow)
        shares[f"{narrow:g} to {wide:g}"] = lost(used, wide, flow) / lost(used, narrow, flow)
    listed = (f"{step}: {share:.2f}" for step, share in shares.items())
    print(name, ladder, *listed, sep="; ")  # noqa: T201 - the list is wanted, `pytest -s` shows it
    assert 0.4 <= median(shares.values()) <= 0.6
    assert all(0.2 < share < 0.75 for share in shares.values())
