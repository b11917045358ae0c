"""A tree of runs with refrigerant in it: flows, pressures, temperatures of saturation, what the liquid keeps, oil.

Arrays over runs in walking order, so that the run before each one stands before it. Adiabatic single-phase runs. Gas of
cooling is worked out from the compressor up to the units, where it cannot fail on large losses; hot gas from the root
outward. Liquid keeps its temperature.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from linewright.physics.flow import GRAVITY_M_S2, ROUGHNESS_M, friction_factor, liquid_drop, mass_flux, oil_flux
from linewright.physics.properties import Fluid
from linewright.physics.series import Array

_SWEEPS = 12
_STEPS = 30
#: Share by which pressures and flows may still change: about a millikelvin.
_TOLERANCE = 1e-6
#: Density of ester oil [kg/m3] with suction gas and with hot gas: an estimate.
OIL_COLD_KG_M3, OIL_HOT_KG_M3 = 960.0, 930.0


class Tubes(NamedTuple):
    """The pipe: the run before each run (-1: none), the run that ends at each unit, lengths, bores, rises.

    length_m : equivalent length of each run; rise_m : change of level outward, upward positive
    """

    parent: Array
    unit_run: Array
    length_m: Array
    gas_bore_m: Array
    liquid_bore_m: Array
    rise_m: Array


class CoolingAt(NamedTuple):
    """Conditions of cooling: dew point at the coils, superheat there, bubble point and subcooling of the liquid.

    coil_air_degc : temperature of air that a coil is linear in (wet bulb)
    """

    evaporating_degc: float = 6.0
    superheat_k: float = 5.0
    condensing_degc: float = 46.0
    subcooling_k: float = 5.0
    coil_air_degc: float = 19.0


class HeatingAt(NamedTuple):
    """Conditions of heating: dew point of the hot gas where it leaves, its temperature, subcooling behind the coils."""

    condensing_degc: float = 46.0
    discharge_degc: float = 80.0
    subcooling_k: float = 6.0


class Gas(NamedTuple):
    """Gas in each run: flow [kg/s], pressure at its ends [Pa], density, velocity, loss of saturation [K]."""

    flow_kg_s: Array
    near_pa: Array
    far_pa: Array
    density_kg_m3: Array
    velocity_m_s: Array
    loss_k: Array


class Liquid(NamedTuple):
    """Liquid in each run: fall of pressure in its own direction [Pa], velocity; subcooling left at each unit [K]."""

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


class Paths(NamedTuple):
    """Which runs lead to which: `to` [run, run on its way, itself included], `units` [run, unit beyond it]."""

    to: Array
    units: Array


def paths(tubes: Tubes) -> Paths:
    """Work out the incidence of a tree once; it serves every evaluation on it."""
    count = len(tubes.parent)
    to = np.zeros((count, count))
    for i, before in enumerate(tubes.parent):
        if before >= 0:
            to[i] = to[int(before)]
        to[i, i] = 1.0
    units = np.zeros((count, len(tubes.unit_run)))
    for unit, run in enumerate(tubes.unit_run):
        units[:, unit] = to[int(run)]
    return Paths(to, units)


def displacement(fluid: Fluid, rated_w: float, at: CoolingAt, *, bore_m: float, length_m: float = 7.5) -> float:
    """Volume flow of a compressor that gives the rated capacity at the end of a plain main [m3/s]."""
    whole = Tubes(*(np.array(one) for one in ([-1], [0], [length_m], [bore_m], [bore_m], [0.0])))
    p_coil = float(fluid.dew_pressure(at.evaporating_degc))
    h_gas = _coil_gas(fluid, np.array([p_coil]), at)
    flow = np.array([rated_w]) / (h_gas - _coil_liquid(fluid, at))
    near = np.array([p_coil])
    for _ in range(_SWEEPS):
        loss = _loss(fluid, whole, _Ends(near, np.array([p_coil]), flow, h_gas), np.zeros(1))
        near = np.sqrt(p_coil**2 - loss)
    density = fluid.gas_density(near, h_gas - fluid.dew_enthalpy(near))
    return float((flow / density)[0])


@np.errstate(invalid="ignore", divide="ignore")
def cool(
    fluid: Fluid, tubes: Tubes, rated_w: Array, at: CoolingAt, *, volume_m3_s: float, ways: Paths | None = None
) -> Cooled:
    """Cooling with a compressor of fixed displacement and coils linear in their temperature difference.

    rated_w : capacity of each unit at the stated evaporating temperature; volume_m3_s : see `displacement`

    Where a pressure leaves the tables of the fluid, what hangs on it is NaN.
    """
    ways = paths(tubes) if ways is None else ways
    rise = -tubes.rise_m  # gas flows inward
    p_coil = np.full(len(rated_w), float(fluid.dew_pressure(at.evaporating_degc)))
    state = _Sweep(p_suction=float(p_coil[0]) * 0.97, flow=rated_w / 180e3, coil=p_coil)
    far = near = np.full(len(tubes.parent), float(p_coil[0]))
    flow = enthalpy = np.full(len(tubes.parent), np.nan)
    for _ in range(_SWEEPS):
        h_gas = _coil_gas(fluid, state.coil, at)
        flow = ways.units @ state.flow
        enthalpy = (ways.units @ (state.flow * h_gas)) / flow
        loss = ways.to @ _loss(fluid, tubes, _Ends(near, far, flow, enthalpy), rise)
        far = np.sqrt(state.p_suction**2 + loss)
        near = np.where(tubes.parent >= 0, far[tubes.parent.astype(int)], state.p_suction)
        at_units = (far[tubes.unit_run.astype(int)] ** 2 - state.p_suction**2) / np.sum(state.flow) ** 2
        before = state
        state = _balanced(fluid, state, at, square=at_units, rated_w=rated_w, volume_m3_s=volume_m3_s)
        if abs(state.p_suction / before.p_suction - 1) < _TOLERANCE and np.allclose(
            state.flow, before.flow, rtol=_TOLERANCE
        ):
            break
    capacity = rated_w * _coil_share(fluid, state.coil, at)
    gas = _gas(fluid, tubes, _Ends(near, far, flow, enthalpy))
    liquid = _supply(fluid, tubes, at, ways=ways, unit_flow=state.flow)
    suction = state.p_suction if np.all(np.isfinite(state.flow)) else np.nan
    return Cooled(gas, liquid, capacity, suction, float(fluid.dew_temperature(suction)))


class _Sweep(NamedTuple):
    p_suction: float
    flow: Array
    coil: Array


def _coil_gas(fluid: Fluid, p_coil: Array, at: CoolingAt) -> Array:
    """Enthalpy of the gas that leaves a coil [J/kg]."""
    return fluid.gas_enthalpy_at(at.superheat_k)(np.log(p_coil))


def _coil_liquid(fluid: Fluid, at: CoolingAt) -> float:
    """Enthalpy of the liquid that enters one [J/kg]."""
    return float(fluid.liquid_enthalpy(at.condensing_degc - at.subcooling_k))


def _coil_share(fluid: Fluid, p_coil: Array, at: CoolingAt) -> Array:
    """Capacity of a coil over the rated one: linear in the difference to the air."""
    found: Array = (at.coil_air_degc - fluid.dew_temperature(p_coil)) / (at.coil_air_degc - at.evaporating_degc)
    return found


def _balanced(
    fluid: Fluid, state: _Sweep, at: CoolingAt, *, square: Array, rated_w: Array, volume_m3_s: float
) -> _Sweep:
    """Suction pressure and flow at which coils and compressor agree, losses growing with the square of the flow.

    square : what p^2 at each coil is above that at the compressor, over the square of the whole flow
    """
    h_liquid = _coil_liquid(fluid, at)

    def flows(ln_p: float, ln_q: float) -> tuple[Array, Array, Array]:
        coil = np.sqrt(np.exp(2 * ln_p) + square * np.exp(2 * ln_q))
        h_gas = _coil_gas(fluid, coil, at)
        return coil, rated_w * _coil_share(fluid, coil, at) / (h_gas - h_liquid), h_gas

    def miss(ln_p: float, ln_q: float) -> Array:
        _, flow, h_gas = flows(ln_p, ln_q)
        total = np.sum(flow)
        p = np.exp(ln_p)
        density = fluid.gas_density(p, np.sum(flow * h_gas) / total - fluid.dew_enthalpy(p))
        return np.array([np.log(total) - ln_q, ln_q - np.log(density * volume_m3_s)])

    ln_p, ln_q, step = np.log(state.p_suction), np.log(np.sum(state.flow)), 1e-6
    here = miss(ln_p, ln_q)
    slope = np.stack([miss(ln_p + step, ln_q) - here, miss(ln_p, ln_q + step) - here], axis=1) / step
    if not np.all(np.isfinite(slope)):
        return _Sweep(np.nan, np.full_like(state.flow, np.nan), np.full_like(state.coil, np.nan))
    inverse = np.linalg.inv(slope)
    for _ in range(_STEPS):
        change = np.clip(inverse @ -here, -0.1, 0.1)
        ln_p, ln_q = ln_p + change[0], ln_q + change[1]
        if np.max(np.abs(change)) < _TOLERANCE:
            break
        here = miss(ln_p, ln_q)
    coil, flow, _ = flows(ln_p, ln_q)
    return _Sweep(float(np.exp(ln_p)), flow, coil)


class _Ends(NamedTuple):
    """Gas between the ends of each run: pressures [Pa], flow [kg/s], enthalpy [J/kg]."""

    near: Array
    far: Array
    flow: Array
    enthalpy: Array


def _loss(fluid: Fluid, tubes: Tubes, ends: _Ends, rises_m: Array) -> Array:
    """What p^2 falls by along each run of gas [Pa2]; see `flow.gas_far_pressure`. Rises are those of the flow."""
    near, far, flow, enthalpy = ends
    mean, flux = (near + far) / 2.0, mass_flux(flow, tubes.gas_bore_m)
    above = enthalpy - fluid.dew_enthalpy(mean)
    density, viscosity = fluid.gas(mean, above)
    factor = friction_factor(flux * tubes.gas_bore_m / viscosity, ROUGHNESS_M / tubes.gas_bore_m)
    ratio = np.abs(np.log(near / far))
    friction = 2.0 * flux**2 * mean / density * (factor * tubes.length_m / (2.0 * tubes.gas_bore_m) + ratio)
    found: Array = friction + 2.0 * mean * density * GRAVITY_M_S2 * rises_m
    return found


def _gas(fluid: Fluid, tubes: Tubes, ends: _Ends) -> Gas:
    near, far, flow, enthalpy = ends
    mean = (near + far) / 2.0
    density = fluid.gas_density(mean, enthalpy - fluid.dew_enthalpy(mean))
    velocity = mass_flux(flow, tubes.gas_bore_m) / density
    loss = np.abs(fluid.dew_temperature(far) - fluid.dew_temperature(near))
    return Gas(flow, near, far, density, velocity, loss)


def _supply(fluid: Fluid, tubes: Tubes, at: CoolingAt, *, ways: Paths, unit_flow: Array) -> Liquid:
    """Liquid from the outdoor group to the units: what is left of its subcooling at each."""
    t = np.full(len(tubes.parent), at.condensing_degc - at.subcooling_k)
    flow = ways.units @ unit_flow
    drop = liquid_drop(fluid, t, flow, bore_m=tubes.liquid_bore_m, length_m=tubes.length_m, rise_m=tubes.rise_m)
    at_units = float(fluid.bubble_pressure(at.condensing_degc)) - (ways.to @ drop)[tubes.unit_run.astype(int)]
    velocity = mass_flux(flow, tubes.liquid_bore_m) / fluid.liquid_density(t)
    return Liquid(drop, velocity, fluid.bubble_temperature(at_units) - t[0])


class Heated(NamedTuple):
    """Heating: hot gas, the liquid that returns, dew point at each unit [degC]; subcooling left at the root [K]."""

    gas: Gas
    drop_pa: Array
    condensing_degc: Array
    left_k: float


@np.errstate(invalid="ignore", divide="ignore")
def heat(fluid: Fluid, tubes: Tubes, load_w: Array, at: HeatingAt, *, ways: Paths | None = None) -> Heated:
    """Heating of stated loads: hot gas outward, liquid back.

    Of the pipes that meet, the one with the least pressure counts: valves at the other units take up the rest. What is
    left of the subcooling at the root may be below zero: a warning, as the outdoor valve throttles too.
    """
    ways = paths(tubes) if ways is None else ways
    p_root = float(fluid.dew_pressure(at.condensing_degc))
    h_hot = float(fluid.dew_enthalpy(p_root)) + float(fluid.above_dew(p_root, at.discharge_degc - at.condensing_degc))
    far = near = np.full(len(tubes.parent), p_root)
    flow, enthalpy = np.full(len(tubes.parent), np.nan), np.full(len(tubes.parent), h_hot)
    units = tubes.unit_run.astype(int)
    t_liquid = np.full(len(units), np.nan)
    for _ in range(_SWEEPS):
        t_liquid = fluid.bubble_temperature(far[units]) - at.subcooling_k
        unit_flow = load_w / (h_hot - fluid.liquid_enthalpy(t_liquid))
        flow = ways.units @ unit_flow
        square = p_root**2 - ways.to @ _loss(fluid, tubes, _Ends(near, far, flow, enthalpy), tubes.rise_m)
        before, far = far, np.sqrt(np.where(square > 0, square, np.nan))
        near = np.where(tubes.parent >= 0, far[tubes.parent.astype(int)], p_root)
        if np.allclose(far, before, rtol=_TOLERANCE, equal_nan=True):
            break
    gas = _gas(fluid, tubes, _Ends(near, far, flow, enthalpy))
    return _returned(fluid, tubes, gas, t_liquid)


def _returned(fluid: Fluid, tubes: Tubes, gas: Gas, t_liquid: Array) -> Heated:
    """Liquid from the units to the root, the least pressure counting where pipes meet."""
    count, units = len(tubes.parent), tubes.unit_run.astype(int)
    warm = np.full(count, float(np.nanmean(t_liquid)))
    drop = liquid_drop(
        fluid, warm, gas.flow_kg_s, bore_m=tubes.liquid_bore_m, length_m=tubes.length_m, rise_m=-tubes.rise_m
    )
    arriving = np.full(count, np.inf)
    arriving[units] = gas.far_pa[units]
    at_root = np.inf
    for i in range(count - 1, -1, -1):
        inward = arriving[i] - drop[i]
        before = int(tubes.parent[i])
        if before >= 0:
            arriving[before] = min(arriving[before], inward)
        else:
            at_root = min(at_root, inward)
    left = float(fluid.bubble_temperature(at_root)) - float(warm[0])
    return Heated(gas, drop, fluid.dew_temperature(gas.far_pa[units]), left)


def oil_margin(gas: Gas, tubes: Tubes, least_flow_kg_s: Array, *, hot: bool) -> Array:
    """Least flow that each run sees over the least that carries oil up it; NaN where gas does not rise.

    Cold gas flows inward, so it rises where the units hang lower; hot gas where they hang higher.
    """
    oil = OIL_HOT_KG_M3 if hot else OIL_COLD_KG_M3
    needed = oil_flux(gas.density_kg_m3, oil, tubes.gas_bore_m)
    rises = tubes.rise_m > 0 if hot else tubes.rise_m < 0
    return np.where(rises, mass_flux(least_flow_kg_s, tubes.gas_bore_m) / needed, np.nan)
