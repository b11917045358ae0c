"""Cooling: a compressor of fixed displacement, coils linear in their temperature difference, liquid to each of them."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import numpy as np

from linewright.physics.flow import Ends, liquid_drop, mass_flux, square_loss
from linewright.physics.network import SWEEPS, TOLERANCE, Gas, Paths, Tubes, gas_state, one_pipe, paths
from linewright.physics.properties import Fluid
from linewright.physics.series import Array

#: Steps of Newton's method in one pass over the tree: fewer cost more passes, more gain nothing.
_STEPS = 4
#: Where the search for the suction pressure begins, and a heat of evaporation [J/kg] for the first flow.
_FIRST_SHARE, _FIRST_J_KG = 0.97, 180e3
#: Step of ln p over which the slope of density at the compressor is taken.
_NEARBY = 1e-5


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
    """Liquid in each run: fall of pressure going outward [Pa], velocity; subcooling left at each unit [K].

    vapour : share by mass of what arrives at each unit that has boiled on the way
    """

    drop_pa: Array
    velocity_m_s: Array
    left_k: Array
    vapour: Array


class Cooled(NamedTuple):
    """Cooling: gas, liquid, capacity of each unit [W], pressure and dew point at the compressor."""

    gas: Gas
    liquid: Liquid
    capacity_w: Array
    suction_pa: float
    suction_degc: float


class _Balance(NamedTuple):
    """Suction pressure [Pa]; of each unit flow [kg/s], pressure in the coil [Pa] and its gas [J/kg]; inverse slope."""

    suction_pa: float
    flow: Array
    coil: Array
    h_gas: Array
    inverse: Array | None = None


class _Draws(NamedTuple):
    """What the compressor draws: a volume [m3/s], or whatever keeps a pressure [Pa]."""

    volume_m3_s: float
    held_pa: float | None


class Rating(NamedTuple):
    """A compressor where it gives its rated capacity: volume flow [m3/s], pressure [Pa]."""

    volume_m3_s: float
    suction_pa: float


def displacement(fluid: Fluid, rated_w: float, at: CoolingAt, *, bore_m: float, length_m: float = 7.5) -> float:
    """Volume flow of a compressor that gives the rated capacity at the end of a plain main [m3/s]."""
    return rating(fluid, rated_w, at, bore_m=bore_m, length_m=length_m).volume_m3_s


@np.errstate(invalid="ignore", divide="ignore")
def rating(fluid: Fluid, rated_w: float, at: CoolingAt, *, bore_m: float, length_m: float = 7.5) -> Rating:
    """The compressor that gives the rated capacity at the end of a plain main; NaN where none does."""
    pipe = one_pipe(length_m, gas_bore_m=bore_m, liquid_bore_m=bore_m).gas_pipe(inward=True)
    coil = np.array([float(fluid.dew_pressure(at.evaporating_degc))])
    h_gas = _coil_gas(fluid, coil, at)
    flow = np.array([rated_w]) / (h_gas - _coil_liquid(fluid, at))
    suction = coil
    for _ in range(SWEEPS):
        before, suction = suction, np.sqrt(coil**2 - square_loss(fluid, Ends(suction, coil, flow, h_gas), pipe))
        if not abs(float(suction[0] - before[0])) > TOLERANCE * float(before[0]):
            break
    density, _ = fluid.gas_of_enthalpy(suction, h_gas)
    return Rating(float((flow / density)[0]), float(suction[0]))


@np.errstate(invalid="ignore", divide="ignore")
def cool(
    fluid: Fluid,
    tubes: Tubes,
    rated_w: Array,
    at: CoolingAt,
    *,
    volume_m3_s: float,
    held_pa: float | None = None,
    ways: Paths | None = None,
) -> Cooled:
    """Work out the tree in cooling.

    rated_w : capacity of each unit at the stated evaporating temperature; volume_m3_s : see `displacement`
    held_pa : suction pressure that a control holds, whatever volume that takes; then the volume does not count

    NaN where a pressure leaves the tables of the fluid, and everywhere where no balance is found.
    """
    ways, pipe, count = paths(tubes) if ways is None else ways, tubes.gas_pipe(inward=True), len(tubes.parent)
    first = float(fluid.dew_pressure(at.evaporating_degc))
    coil = np.full(len(rated_w), first)
    now = _Balance(first * _FIRST_SHARE, rated_w / _FIRST_J_KG, coil, _coil_gas(fluid, coil, at))
    ends = Ends(*(np.full(count, one) for one in (first, first, np.nan, np.nan)))
    for _ in range(SWEEPS):
        flow = ways.units @ now.flow
        enthalpy = (ways.units @ (now.flow * now.h_gas)) / flow
        ends = ends._replace(flow_kg_s=flow, h_j_kg=enthalpy)
        far = np.sqrt(now.suction_pa**2 + ways.to @ square_loss(fluid, ends, pipe))
        ends = ends._replace(far_pa=far, near_pa=tubes.near(far, now.suction_pa))
        square = (far[tubes.unit_run] ** 2 - now.suction_pa**2) / np.sum(now.flow) ** 2
        draws = _Draws(volume_m3_s, held_pa)
        before, now = now, _balanced(fluid, now, at, square=square, rated_w=rated_w, draws=draws)
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
    fluid: Fluid, state: _Balance, at: CoolingAt, *, square: Array, rated_w: Array, draws: _Draws
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
        _, flow, _ = flows(x)
        drawn = ln_drawn[0] + steepness * (x[0] - start[0])
        off = x[1] - drawn if draws.held_pa is None else x[0] - np.log(draws.held_pa)
        return np.array([np.log(np.sum(flow)) - x[1], off])

    start = np.log(np.array([state.suction_pa, np.sum(state.flow)]))
    mixed = np.sum(state.flow * state.h_gas) / np.sum(state.flow)
    density, _ = fluid.gas_of_enthalpy(state.suction_pa * np.exp([0.0, _NEARBY]), np.full(2, mixed))
    ln_drawn = np.log(density * draws.volume_m3_s)
    steepness = (ln_drawn[1] - ln_drawn[0]) / _NEARBY
    inverse = _inverse_slope(miss, start) if state.inverse is None else state.inverse
    found = _root(miss, start, inverse)
    if not np.all(np.isfinite(found)):
        return _unknown(state)
    coil, flow, h_gas = flows(found)
    return _Balance(float(np.exp(found[0])), flow, coil, h_gas, inverse)


def _inverse_slope(miss: Callable[[Array], Array], x: Array) -> Array:
    """Inverse of the slope of two equations; NaN where they have no value."""
    here, step = miss(x), 1e-6
    slope = np.stack([(miss(x + step * axis) - here) / step for axis in np.eye(2)], axis=1)
    if not np.all(np.isfinite(slope)):
        return np.full((2, 2), np.nan)
    found: Array = np.asarray(np.linalg.inv(slope), dtype=np.float64)
    return found


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
    nothing = np.full_like(state.flow, np.nan)
    return _Balance(np.nan, nothing, nothing, nothing)


def boiled(fluid: Fluid, p_pa: Array, t_degc: Array) -> Array:
    """Share by mass that boils when liquid of that temperature is throttled to that pressure: none while it is liquid.

    Enthalpy stays. Of a pressure that such a line falls to, too little: vapour in it loses more than liquid would.
    """
    at_bubble = fluid.liquid_enthalpy(fluid.bubble_temperature(p_pa))
    share = (fluid.liquid_enthalpy(t_degc) - at_bubble) / (fluid.dew_enthalpy(p_pa) - at_bubble)
    found: Array = np.maximum(share, 0.0)
    return found


def _supply(fluid: Fluid, tubes: Tubes, at: CoolingAt, *, ways: Paths, unit_flow: Array) -> Liquid:
    """Liquid from the outdoor group to the units: what is left of its subcooling at each."""
    t = np.full(len(tubes.parent), at.condensing_degc - at.subcooling_k)
    flow = ways.units @ unit_flow
    drop = liquid_drop(fluid, t, flow, tubes.liquid_pipe(inward=False))
    at_units = float(fluid.bubble_pressure(at.condensing_degc)) - (ways.to @ drop)[tubes.unit_run]
    velocity = mass_flux(flow, tubes.liquid_bore_m) / fluid.liquid_density(t)
    left = fluid.bubble_temperature(at_units) - t[0]
    return Liquid(drop, velocity, left, boiled(fluid, at_units, t[0]))
