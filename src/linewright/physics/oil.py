"""The least flow of gas that carries oil up a tube."""

from __future__ import annotations

import numpy as np

from linewright.physics.flow import GRAVITY_M_S2, mass_flux
from linewright.physics.network import Forest, Gas
from linewright.physics.series import Array

#: Density of ester oil [kg/m3] with suction gas and with hot gas: an estimate.
OIL_COLD_KG_M3, OIL_HOT_KG_M3 = 960.0, 930.0
#: Flooding form j*^0.5 = 0.85 of Jacobs et al. (ASHRAE Transactions 1976; from memory).
_JACOBS = 0.7225


def oil_flux(gas_kg_m3: Array, oil_kg_m3: float, bore_m: Array) -> Array:
    """Least mass flux that carries oil up a tube [kg/(m2 s)] (Jacobs et al. 1976; from memory).

    Scatter of real systems is perhaps 20 to 30 %: a judgement, no source.
    """
    found: Array = _JACOBS * np.sqrt(gas_kg_m3 * GRAVITY_M_S2 * bore_m * (oil_kg_m3 - gas_kg_m3))
    return found


def oil_margin(gas: Gas, forest: Forest, least_flow_kg_s: Array, *, hot: bool) -> Array:
    """Least flow that each run sees over the least that carries oil up it; NaN where gas does not rise.

    Cold gas flows inward, so it rises where the units hang lower; hot gas where they hang higher.
    """
    oil = OIL_HOT_KG_M3 if hot else OIL_COLD_KG_M3
    pipe = forest.gas_pipe(hot=hot)
    needed = oil_flux(gas.density_kg_m3, oil, pipe.bore_m)
    return np.where(pipe.rise_m > 0, mass_flux(least_flow_kg_s, pipe.bore_m) / needed, np.nan)
