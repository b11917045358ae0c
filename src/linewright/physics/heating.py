"""Heating: hot gas outward, liquid back; coils linear in their difference to the air of the room."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from linewright.physics.flow import Ends, square_loss
from linewright.physics.liquid import returned
from linewright.physics.network import SWEEPS, TOLERANCE, Forest, Gas, gas_state
from linewright.physics.series import Array
from linewright.physics.states import States


class HeatingAt(NamedTuple):
    """Conditions of heating: dew point of the hot gas where it leaves, its temperature, subcooling behind the coils.

    coil_air_degc : temperature of air that a coil is linear in (dry bulb)
    """

    condensing_degc: float = 46.0
    discharge_degc: float = 80.0
    subcooling_k: float = 6.0
    coil_air_degc: float = 20.0


class Heated(NamedTuple):
    """Heating: hot gas, fall of pressure of the liquid going inward [Pa]; of each unit dew point [degC], capacity [W].

    left_k : subcooling left at the root of each tree [K]; below zero some of the liquid boils on the way
    """

    gas: Gas
    drop_pa: Array
    condensing_degc: Array
    capacity_w: Array
    left_k: Array


@np.errstate(invalid="ignore", divide="ignore")
def heat(states: States, forest: Forest, rated_w: Array, at: HeatingAt, *, tolerance: float = TOLERANCE) -> Heated:
    """Work out trees in heating; the pressure of the hot gas is held where it leaves.

    rated_w : capacity of each unit were there no pipe
    tolerance : share by which pressures may still change

    What is left of the subcooling at the root may be below zero: a warning, as the outdoor valve throttles too. NaN in
    a whole tree where a pressure leaves the tables of the fluid or no balance is found.
    """
    pipe = forest.gas_pipe(hot=True)
    root = float(states.dew_pressure(at.condensing_degc))
    hot = states.hot_gas(at.condensing_degc, at.discharge_degc)
    start = np.full(len(forest.tree_of_run), root)
    ends = Ends(start, start, np.full_like(start, np.nan), np.full_like(start, hot))
    liquid_degc, share, moved = rated_w * np.nan, rated_w * np.nan, start * np.nan
    for _ in range(SWEEPS):
        at_units = forest.at_units(ends.far_pa)
        liquid_degc = states.bubble_temperature(at_units) - at.subcooling_k
        share = (states.dew_temperature(at_units) - at.coil_air_degc) / (at.condensing_degc - at.coil_air_degc)
        flow = forest.beyond(rated_w * share / (hot - states.liquid_enthalpy(liquid_degc)))
        ends = ends._replace(flow_kg_s=flow)
        loss = square_loss(states, ends, pipe)
        far = root**2 - forest.along(loss)
        before, ends = ends.far_pa, ends._replace(far_pa=np.sqrt(far), near_pa=np.sqrt(far + loss))
        moved = np.abs(ends.far_pa - before) / before
        if not np.any(moved > tolerance):
            break
    known = np.where(np.maximum.reduceat(moved, forest.run_start) <= tolerance, 1.0, np.nan)
    ends = ends._replace(far_pa=ends.far_pa * forest.by_run(known))
    gas, at_units = gas_state(states, forest, ends, hot=True), forest.at_units(ends.far_pa)
    drop, left = returned(states, forest, unit_pa=at_units, unit_degc=liquid_degc, flow_kg_s=gas.flow_kg_s)
    return Heated(gas, drop, states.dew_temperature(at_units), rated_w * share * forest.by_unit(known), left)
