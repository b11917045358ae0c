"""The least flow of gas that carries oil up a tube."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from linewright.physics.flow import GRAVITY_M_S2, mass_flux
from linewright.physics.network import Forest, Gas
from linewright.physics.series import Array


class OilDensity(NamedTuple):
    """Density of oil with suction gas and with hot gas [kg/m3]."""

    cold_kg_m3: float
    hot_kg_m3: float


#: By kind of oil: an estimate, from memory. From 900 to 1000 kg/m3 the least flux changes by 5.6 %.
OILS = {
    "ester": OilDensity(960.0, 930.0),
    "ether": OilDensity(920.0, 890.0),
    "mineral": OilDensity(900.0, 870.0),
    "alkylbenzene": OilDensity(860.0, 830.0),
}
USUAL = "ester"
#: Flooding form j*^0.5 = 0.85 of Jacobs et al. (ASHRAE Transactions 1976; from memory).
_JACOBS = 0.7225


def oil_flux(gas_kg_m3: Array, oil_kg_m3: float, bore_m: Array) -> Array:
    """Least mass flux that carries oil up a tube [kg/(m2 s)] (Jacobs et al. 1976; from memory).

    Scatter of real systems is perhaps 20 to 30 %: a judgement, no source.
    """
    found: Array = _JACOBS * np.sqrt(gas_kg_m3 * GRAVITY_M_S2 * bore_m * (oil_kg_m3 - gas_kg_m3))
    return found


def oil_margin(gas: Gas, forest: Forest, least_flow_kg_s: Array, oil: OilDensity, *, hot: bool) -> Array:
    """Least flow that each run sees over the least that carries oil up it; NaN where gas does not rise.

    Cold gas flows inward, so it rises where the units hang lower; hot gas where they hang higher.
    """
    pipe = forest.gas_pipe(hot=hot)
    needed = oil_flux(gas.density_kg_m3, oil.hot_kg_m3 if hot else oil.cold_kg_m3, pipe.bore_m)
    return np.where(pipe.rise_m > 0, mass_flux(least_flow_kg_s, pipe.bore_m) / needed, np.nan)
