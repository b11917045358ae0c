"""Heating of stated loads: hot gas outward, liquid back."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from linewright.physics.flow import Ends, liquid_drop, square_loss
from linewright.physics.network import SWEEPS, TOLERANCE, Gas, Paths, Tubes, gas_state, paths
from linewright.physics.properties import Fluid
from linewright.physics.series import Array


class HeatingAt(NamedTuple):
    """Conditions of heating: dew point of the hot gas where it leaves, its temperature, subcooling behind the coils."""

    condensing_degc: float = 46.0
    discharge_degc: float = 80.0
    subcooling_k: float = 6.0


class Heated(NamedTuple):
    """Heating: hot gas, fall of pressure of the liquid going inward [Pa], dew point at each unit [degC].

    left_k : subcooling left at the root [K]; below zero some of the liquid boils on the way
    """

    gas: Gas
    drop_pa: Array
    condensing_degc: Array
    left_k: float


@np.errstate(invalid="ignore", divide="ignore")
def heat(fluid: Fluid, tubes: Tubes, load_w: Array, at: HeatingAt, *, ways: Paths | None = None) -> Heated:
    """Work out the tree in heating.

    Of the pipes that meet, the one with the least pressure counts: valves at the other units take up the rest. What is
    left of the subcooling at the root may be below zero: a warning, as the outdoor valve throttles too. NaN where a
    pressure leaves the tables of the fluid, and everywhere where no balance is found.
    """
    ways, pipe, count = paths(tubes) if ways is None else ways, tubes.gas_pipe(inward=False), len(tubes.parent)
    root = float(fluid.dew_pressure(at.condensing_degc))
    hot = fluid.hot_gas(at.condensing_degc, at.discharge_degc)
    ends = Ends(*(np.full(count, one) for one in (root, root, np.nan, hot)))
    liquid_degc = np.full(len(load_w), np.nan)
    for _ in range(SWEEPS):
        liquid_degc = fluid.bubble_temperature(ends.far_pa[tubes.unit_run]) - at.subcooling_k
        flow = ways.units @ (load_w / (hot - fluid.liquid_enthalpy(liquid_degc)))
        ends = ends._replace(flow_kg_s=flow)
        square = root**2 - ways.to @ square_loss(fluid, ends, pipe)
        far = np.sqrt(np.where(square > 0, square, np.nan))
        before, ends = ends.far_pa, ends._replace(far_pa=far, near_pa=tubes.near(far, root))
        if np.allclose(far, before, rtol=TOLERANCE, atol=0.0):
            break
    else:
        ends = ends._replace(far_pa=np.full(count, np.nan))
    return _returned(fluid, tubes, gas_state(fluid, tubes, ends), liquid_degc)


def _returned(fluid: Fluid, tubes: Tubes, gas: Gas, liquid_degc: Array) -> Heated:
    """Liquid from the units to the root, the least pressure counting where pipes meet; one mean temperature for all."""
    warm = np.full(len(tubes.parent), np.mean(liquid_degc))
    drop = liquid_drop(fluid, warm, gas.flow_kg_s, tubes.liquid_pipe(inward=True))
    arriving = np.full(len(tubes.parent) + 1, np.inf)  # the last one stands for the root, which -1 means
    arriving[tubes.unit_run] = gas.far_pa[tubes.unit_run]
    for i in reversed(range(len(tubes.parent))):
        before = tubes.parent[i]
        arriving[before] = np.minimum(arriving[before], arriving[i] - drop[i])
    left = float(fluid.bubble_temperature(arriving[-1]) - warm[0])
    return Heated(gas, drop, fluid.dew_temperature(gas.far_pa[tubes.unit_run]), left)
