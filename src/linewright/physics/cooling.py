"""Cooling: a compressor of fixed displacement, coils linear in their temperature difference, liquid to each of them."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import numpy as np

from linewright.physics.flow import Ends, liquid_drop, mass_flux, square_loss
from linewright.physics.network import SWEEPS, TOLERANCE, Gas, Paths, Tubes, gas_state, one_pipe, paths
from linewright.physics.properties import Fluid
from linewright.physics.series import Array

_STEPS = 3
#: Where the search for the suction pressure begins, and a heat of evaporation [J/kg] for the first flow.
_FIRST_SHARE, _FIRST_J_KG = 0.97, 180e3


class CoolingAt(NamedTuple):
    """Conditions of cooling: dew point at the coils, superheat there, bubble point and subcooling of the liquid.

    coil_air_degc : temperature of air that a coil is linear in (wet bulb)
    """

    evaporating_degc: float = 6.0
    superheat_k: float = 5.0
    condensing_degc: float = 46.0
    subcooling_k: float = 5.0
    coil_air_degc: float = 19.0


class Liquid(NamedTuple):
    """Liquid in each run: fall of pressure going outward [Pa], velocity; subcooling left at each unit [K]."""

    drop_pa: Array
    velocity_m_s: Array
    left_k: Array


class Cooled(NamedTuple):
    """Cooling: gas, liquid, capacity of each unit [W], pressure and dew point at the compressor."""

    gas: Gas
    liquid: Liquid
    capacity_w: Array
    suction_pa: float
    suction_degc: float


class _Balance(NamedTuple):
    """Suction pressure [Pa], flow of each unit [kg/s], pressure in each coil [Pa]; inverse slope for the next step."""

    suction_pa: float
    flow: Array
    coil: Array
    inverse: Array | None = None


@np.errstate(invalid="ignore", divide="ignore")
def displacement(fluid: Fluid, rated_w: float, at: CoolingAt, *, bore_m: float, length_m: float = 7.5) -> float:
    """Volume flow of a compressor that gives the rated capacity at the end of a plain main [m3/s]."""
    pipe = one_pipe(length_m, gas_bore_m=bore_m, liquid_bore_m=bore_m).gas_pipe(inward=True)
    coil = np.array([float(fluid.dew_pressure(at.evaporating_degc))])
    h_gas = _coil_gas(fluid, coil, at)
    flow = np.array([rated_w]) / (h_gas - _coil_liquid(fluid, at))
    suction = coil
    for _ in range(SWEEPS):
        before, suction = suction, np.sqrt(coil**2 - square_loss(fluid, Ends(suction, coil, flow, h_gas), pipe))
        if not abs(float(suction[0] - before[0])) > TOLERANCE * float(before[0]):
            break
    return float((flow / fluid.gas_density(suction, h_gas - fluid.dew_enthalpy(suction)))[0])


@np.errstate(invalid="ignore", divide="ignore")
def cool(
    fluid: Fluid, tubes: Tubes, rated_w: Array, at: CoolingAt, *, volume_m3_s: float, ways: Paths | None = None
) -> Cooled:
    """Work out the tree in cooling.

    rated_w : capacity of each unit at the stated evaporating temperature; volume_m3_s : see `displacement`

    NaN where a pressure leaves the tables of the fluid, and everywhere where no balance is found.
    """
    ways, pipe, count = paths(tubes) if ways is None else ways, tubes.gas_pipe(inward=True), len(tubes.parent)
    first = float(fluid.dew_pressure(at.evaporating_degc))
    now = _Balance(first * _FIRST_SHARE, rated_w / _FIRST_J_KG, np.full(len(rated_w), first))
    ends = Ends(*(np.full(count, one) for one in (first, first, np.nan, np.nan)))
    for _ in range(SWEEPS):
        flow = ways.units @ now.flow
        enthalpy = (ways.units @ (now.flow * _coil_gas(fluid, now.coil, at))) / flow
        ends = ends._replace(flow_kg_s=flow, h_j_kg=enthalpy)
        far = np.sqrt(now.suction_pa**2 + ways.to @ square_loss(fluid, ends, pipe))
        ends = ends._replace(far_pa=far, near_pa=tubes.near(far, now.suction_pa))
        square = (far[tubes.unit_run] ** 2 - now.suction_pa**2) / np.sum(now.flow) ** 2
        before, now = now, _balanced(fluid, now, at, square=square, rated_w=rated_w, volume_m3_s=volume_m3_s)
        if np.allclose([now.suction_pa, *now.flow], [before.suction_pa, *before.flow], rtol=TOLERANCE, atol=0.0):
            break
    else:
        now = _unknown(now)
    capacity = rated_w * _coil_share(fluid, now.coil, at)
    liquid = _supply(fluid, tubes, at, ways=ways, unit_flow=now.flow)
    dew = float(fluid.dew_temperature(now.suction_pa))
    return Cooled(gas_state(fluid, tubes, ends), liquid, capacity, now.suction_pa, dew)


def _coil_gas(fluid: Fluid, coil_pa: Array, at: CoolingAt) -> Array:
    """Enthalpy of the gas that leaves a coil [J/kg]."""
    return fluid.gas_enthalpy_at(at.superheat_k)(np.log(coil_pa))


def _coil_liquid(fluid: Fluid, at: CoolingAt) -> float:
    """Enthalpy of the liquid that enters one [J/kg]."""
    return float(fluid.liquid_enthalpy(at.condensing_degc - at.subcooling_k))


def _coil_share(fluid: Fluid, coil_pa: Array, at: CoolingAt) -> Array:
    """Capacity of a coil over the rated one: linear in the difference to the air."""
    return _share(fluid.dew_temperature(coil_pa), at)


def _share(dew_degc: Array, at: CoolingAt) -> Array:
    found: Array = (at.coil_air_degc - dew_degc) / (at.coil_air_degc - at.evaporating_degc)
    return found


def _balanced(
    fluid: Fluid, state: _Balance, at: CoolingAt, *, square: Array, rated_w: Array, volume_m3_s: float
) -> _Balance:
    """Suction pressure and flow at which coils and compressor agree, losses growing with the square of the flow.

    square : what p^2 at each coil is above that at the compressor, over the square of the whole flow
    """
    h_liquid = _coil_liquid(fluid, at)

    def flows(x: Array) -> tuple[Array, Array, Array]:
        coil = np.sqrt(np.exp(2 * x[0]) + square * np.exp(2 * x[1]))
        h_gas, dew_degc = fluid.coil(coil, at.superheat_k)
        return coil, rated_w * _share(dew_degc, at) / (h_gas - h_liquid), h_gas

    def miss(x: Array) -> Array:
        _, flow, h_gas = flows(x)
        total, p = np.sum(flow), np.exp(x[0])
        density = fluid.gas_density(p, np.sum(flow * h_gas) / total - fluid.dew_enthalpy(p))
        return np.array([np.log(total) - x[1], x[1] - np.log(density * volume_m3_s)])

    start = np.log(np.array([state.suction_pa, np.sum(state.flow)]))
    inverse = _inverse_slope(miss, start) if state.inverse is None else state.inverse
    found = _root(miss, start, inverse)
    if not np.all(np.isfinite(found)):
        return _unknown(state)
    coil, flow, _ = flows(found)
    return _Balance(float(np.exp(found[0])), flow, coil, inverse)


def _inverse_slope(miss: Callable[[Array], Array], x: Array) -> Array:
    """Inverse of the slope of two equations; NaN where they have no value."""
    here, step = miss(x), 1e-6
    slope = np.stack([(miss(x + step * axis) - here) / step for axis in np.eye(2)], axis=1)
    return np.linalg.inv(slope) if np.all(np.isfinite(slope)) else np.full((2, 2), np.nan)


def _root(miss: Callable[[Array], Array], x: Array, inverse: Array) -> Array:
    """Come nearer to where two equations hold, by Newton's method with one slope for every step of every pass.

    Whether it was near enough shows from one pass over the tree to the next.
    """
    for _ in range(_STEPS):
        change = np.clip(inverse @ -miss(x), -0.1, 0.1)
        x = x + change
        if not np.max(np.abs(change)) > TOLERANCE:
            break
    return x


def _unknown(state: _Balance) -> _Balance:
    return _Balance(np.nan, np.full_like(state.flow, np.nan), np.full_like(state.coil, np.nan))


def _supply(fluid: Fluid, tubes: Tubes, at: CoolingAt, *, ways: Paths, unit_flow: Array) -> Liquid:
    """Liquid from the outdoor group to the units: what is left of its subcooling at each."""
    t = np.full(len(tubes.parent), at.condensing_degc - at.subcooling_k)
    flow = ways.units @ unit_flow
    drop = liquid_drop(fluid, t, flow, tubes.liquid_pipe(inward=False))
    at_units = float(fluid.bubble_pressure(at.condensing_degc)) - (ways.to @ drop)[tubes.unit_run]
    velocity = mass_flux(flow, tubes.liquid_bore_m) / fluid.liquid_density(t)
    return Liquid(drop, velocity, fluid.bubble_temperature(at_units) - t[0])
