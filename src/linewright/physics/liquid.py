"""Liquid on its way: to the units in cooling, back from them in heating, and what is left of its subcooling."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from linewright.physics.compressor import CoolingAt
from linewright.physics.flow import liquid_drop
from linewright.physics.network import Forest
from linewright.physics.series import Array
from linewright.physics.states import States


class Liquid(NamedTuple):
    """Liquid in each run: fall of pressure going outward [Pa]; at its far end pressure, subcooling left [K].

    left_k : subcooling left at each unit [K]
    vapour : share by mass of what arrives at each unit that has boiled on the way
    """

    drop_pa: Array
    far_pa: Array
    far_left_k: Array
    left_k: Array
    vapour: Array


def supply(states: States, forest: Forest, at: CoolingAt, *, unit_flow: Array) -> Liquid:
    """Liquid from the outdoor group to the units: what is left of its subcooling at each."""
    t_degc, flow = np.array(at.liquid_degc), forest.beyond(unit_flow)
    drop = liquid_drop(states, t_degc, flow, forest.liquid_pipe(inward=False))
    far = float(states.bubble_pressure(at.condensing_degc)) - forest.along(drop)
    left = states.bubble_temperature(far) - t_degc
    vapour = boiled(states, forest.at_units(far), t_degc)
    return Liquid(drop, far, left, forest.at_units(left), vapour)


def boiled(states: States, p_pa: Array, t_degc: Array) -> Array:
    """Share by mass that boils when liquid of that temperature is throttled to that pressure: none while it is liquid.

    Enthalpy stays. Of a pressure that such a line falls to, too little: vapour in it loses more than liquid would.
    """
    at_bubble = states.liquid_enthalpy(states.bubble_temperature(p_pa))
    share = (states.liquid_enthalpy(t_degc) - at_bubble) / (states.dew_enthalpy(p_pa) - at_bubble)
    found: Array = np.maximum(share, 0.0)
    return found


def returned(
    states: States, forest: Forest, *, unit_pa: Array, unit_degc: Array, flow_kg_s: Array
) -> tuple[Array, Array]:
    """Liquid from the units to the root of each tree: fall of pressure by run going inward [Pa], subcooling left [K].

    Of pipes that meet, the one with the least pressure counts: valves at the other units take up the rest. So what
    arrives at the root is the least, over the units, of a unit's pressure less all falls on its way; a unit through
    which nothing flows does not count. One mean temperature for all liquid of a tree.
    """
    warm = forest.whole(unit_degc) / forest.whole(np.ones(len(unit_degc)))
    drop = liquid_drop(states, forest.by_run(warm), flow_kg_s, forest.liquid_pipe(inward=True))
    flowing = forest.at_units(flow_kg_s) > 0
    at_root = np.where(flowing | np.isnan(unit_pa), unit_pa - forest.at_units(forest.along(drop)), np.inf)
    arriving = np.minimum.reduceat(at_root, forest.unit_start)
    return drop, states.bubble_temperature(arriving) - warm
