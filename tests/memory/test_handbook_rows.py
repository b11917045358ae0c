"""Figures that are remembered, not read: capacities of suction lines in tables of a handbook of refrigeration.

From memory, 0.04 K/m and 40 degC condensing; superheat is not told. Trials found errors of up to 4 % against them, so
that what is checked is that nothing is off by a unit or a digit.
"""

import numpy as np
import pytest

from linewright.physics import fluid
from linewright.physics.flow import Ends, Pipe, gas_far_pressure

#: Fluid, dew point [degC], bore [mm], capacity [kW], tolerance. Bores of type L copper (ASTM B280 walls).
REMEMBERED = [
    ("R-22", 5.0, 19.94, 10.31, 0.03),
    ("R-134a", 0.0, 26.04, 10.70, 0.03),
    ("R-134a", 10.0, 39.19, 46.4, 0.03),
]
GRADIENT_K_M = 0.04


@pytest.mark.parametrize(("name", "t_degc", "bore_mm", "kw", "tolerance"), REMEMBERED)
def test_a_suction_line_carries_what_is_remembered(
    name: str, t_degc: float, bore_mm: float, kw: float, tolerance: float
) -> None:
    """The flow at which 30 m cost 30 x 0.04 K, by bisection."""
    shipped = fluid(name)
    assert shipped is not None
    length = 30.0
    pipe = Pipe(np.array([bore_mm / 1000]), np.array([length]), np.zeros(1))
    p = shipped.dew_pressure(np.array([t_degc]))
    wanted = float(shipped.dew_pressure(t_degc - GRADIENT_K_M * length)[()])
    enthalpy = shipped.dew_enthalpy(p)
    heat_j_kg = float((enthalpy - shipped.liquid_enthalpy(40.0))[0])
    low, high, flow = 1e-4, 2.0, 0.0
    for _ in range(60):
        flow = (low + high) / 2
        far = gas_far_pressure(shipped, Ends(p, p, np.array([flow]), enthalpy + 500.0), pipe, upstream=False)
        low, high = (flow, high) if float(far[0]) > wanted else (low, flow)
    assert flow * heat_j_kg / 1000 == pytest.approx(kw, rel=tolerance)
