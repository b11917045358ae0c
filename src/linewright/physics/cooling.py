"""Cooling: compressors and coils that agree over the pipe between them, coils linear in their difference to the air."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from linewright.physics.compressor import Compressors, Control, CoolingAt
from linewright.physics.flow import Ends, square_loss
from linewright.physics.liquid import Liquid, supply
from linewright.physics.network import SWEEPS, TOLERANCE, Forest, Gas, gas_state
from linewright.physics.series import Array
from linewright.physics.states import States

#: Steps of the secant method in one pass over the trees: fewer cost more passes, more gain nothing.
_STEPS = 2
#: Where the search for the suction pressure begins, as a share of the pressure in the coils.
_FIRST_SHARE = 0.97
#: Steps of ln p and of ln flow over which slopes are taken.
_NEARBY, _STEP = 1e-5, 1e-4


class Cooled(NamedTuple):
    """Cooling: gas, liquid, capacity of each unit [W]; state of the gas at each compressor."""

    gas: Gas
    liquid: Liquid
    capacity_w: Array
    suction_pa: Array
    suction_degc: Array
    suction_j_kg: Array
    superheat_k: Array


class _Balance(NamedTuple):
    """Of each tree ln of suction pressure and of flow; of each unit flow, its coil's gas [J/kg], share of capacity."""

    ln_suction: Array
    ln_flow: Array
    flow: Array
    h_gas: Array
    share: Array


class _Draw(NamedTuple):
    """What each compressor draws near a suction pressure: ln of that, ln of the flow, the slope of one in the other.

    most : the greatest of what p^2 at a coil is above that at the compressor, over the square of the whole flow
    fixed : whether the control fixes the dew point of the coils; ln_held : ln of the pressure that it holds, or NaN
    """

    ln_suction: Array
    ln_flow: Array
    steepness: Array
    most: Array
    fixed: NDArray[np.bool_]
    ln_held: Array

    def suction(self, ln_flow: Array, coldest_pa: float) -> Array:
        """Give ln of the suction pressure that goes with ln of a flow; coldest_pa : in the coil that loses most."""
        floating = self.ln_suction + (ln_flow - self.ln_flow) / self.steepness
        fixed = 0.5 * np.log(coldest_pa**2 - self.most * np.exp(2.0 * ln_flow))
        return np.where(self.fixed, fixed, np.where(np.isnan(self.ln_held), floating, self.ln_held))

    def flow(self, ln_suction: Array) -> Array:
        """Give ln of the flow that is drawn at ln of a suction pressure."""
        found: Array = self.ln_flow + self.steepness * (ln_suction - self.ln_suction)
        return found


class _Coils(NamedTuple):
    """What coils are: rated capacity [W] at the conditions, pressure there [Pa], enthalpy of the liquid [J/kg]."""

    rated_w: Array
    at: CoolingAt
    rated_pa: float
    h_liquid: float


@np.errstate(invalid="ignore", divide="ignore")
def cool(
    states: States,
    forest: Forest,
    rated_w: Array,
    at: CoolingAt,
    *,
    compressors: Compressors,
    tolerance: float = TOLERANCE,
) -> Cooled:
    """Work out trees in cooling.

    rated_w : capacity of each unit at the stated evaporating temperature
    tolerance : share by which pressures and flows may still change

    NaN in a whole tree where a pressure leaves the tables of the fluid or no balance is found.
    """
    at_rating = float(states.dew_pressure(at.evaporating_degc))
    coils = _Coils(rated_w, at, at_rating, float(states.liquid_enthalpy(at.liquid_degc)))
    ends, now = _first(states, forest, coils)
    slope: Array | None = None
    moved = np.full(len(now.ln_flow), np.inf)
    for _ in range(SWEEPS):
        flow = forest.beyond(now.flow)
        ends = ends._replace(flow_kg_s=flow, h_j_kg=forest.beyond(now.flow * now.h_gas) / flow)
        loss = square_loss(states, ends, forest.gas_pipe(hot=False))
        path = forest.along(loss)
        far = forest.by_run(np.exp(2.0 * now.ln_suction)) + path
        ends = ends._replace(far_pa=np.sqrt(far), near_pa=np.sqrt(far - loss))
        square = forest.at_units(path) * forest.by_unit(np.exp(-2.0 * now.ln_flow))
        before = now
        now, slope = _balanced(states, forest, now, coils, compressors=compressors, square=square, slope=slope)
        moved = np.maximum(np.abs(now.ln_suction - before.ln_suction), np.abs(now.ln_flow - before.ln_flow))
        if not np.any(moved > tolerance):
            break
    return _found(states, forest, ends, now, coils=coils, balanced=moved <= tolerance)


def _first(states: States, forest: Forest, coils: _Coils) -> tuple[Ends, _Balance]:
    """Where the search begins: nothing lost yet."""
    coil_pa, runs = coils.rated_pa, len(forest.tree_of_run)
    h_gas, _ = states.coil(np.full(len(coils.rated_w), coil_pa), coils.at.superheat_k)
    flow = coils.rated_w / (h_gas - coils.h_liquid)
    whole = np.log(forest.whole(flow))
    suction = np.full(len(whole), np.log(coil_pa * _FIRST_SHARE))
    pressure, nothing = np.full(runs, coil_pa), np.full(runs, np.nan)
    return Ends(pressure, pressure, nothing, nothing), _Balance(suction, whole, flow, h_gas, np.ones(len(flow)))


def _balanced(
    states: States,
    forest: Forest,
    now: _Balance,
    coils: _Coils,
    *,
    compressors: Compressors,
    square: Array,
    slope: Array | None,
) -> tuple[_Balance, Array]:
    """Come nearer to the flow at which coils and compressors agree, losses growing with its square.

    square : what p^2 at each coil is above that at the compressor, over the square of the whole flow
    slope : of what is missed over ln of the flow; looked for where it is not known yet
    """
    draw = _draw(states, forest, now, compressors=compressors, most=np.maximum.reduceat(square, forest.unit_start))
    fixed = forest.by_unit(draw.fixed)
    at = coils.at

    def tried(ln_flow: Array) -> tuple[_Balance, Array]:
        ln_suction = draw.suction(ln_flow, coils.rated_pa)
        whole = np.exp(2.0 * ln_flow)
        coil = np.sqrt(forest.by_unit(np.exp(2.0 * ln_suction)) + square * forest.by_unit(whole))
        h_gas, dew_degc = states.coil(coil, at.superheat_k)
        share = np.where(fixed, 1.0, (at.coil_air_degc - dew_degc) / (at.coil_air_degc - at.evaporating_degc))
        flow = coils.rated_w * share / (h_gas - coils.h_liquid)
        ln_given = np.log(forest.whole(flow))
        part = forest.by_unit(np.where(draw.fixed, np.exp(ln_flow - ln_given), 1.0))
        missed = np.where(draw.fixed, draw.flow(ln_suction), ln_given) - ln_flow
        return _Balance(ln_suction, ln_flow, flow * part, h_gas, share * part), missed

    ln_flow = now.ln_flow
    found, missed = tried(ln_flow)
    if slope is None:
        slope = (tried(ln_flow + _STEP)[1] - missed) / _STEP
    for _ in range(_STEPS):
        before, change = missed, np.clip(-missed / slope, -0.2, 0.2)
        ln_flow = ln_flow + change
        found, missed = tried(ln_flow)
        slope = np.where(np.abs(change) > _NEARBY, (missed - before) / change, slope)
    return found, slope


def _draw(states: States, forest: Forest, now: _Balance, *, compressors: Compressors, most: Array) -> _Draw:
    """Look at the gas that each compressor draws now."""
    whole, count = forest.whole(now.flow), len(most)
    mixed = forest.whole(now.flow * now.h_gas) / whole
    pressure = np.exp(np.concatenate((now.ln_suction, now.ln_suction + _NEARBY)))
    density, _ = states.gas_of_enthalpy(pressure, np.concatenate((mixed, mixed)))
    ln_density, rated, control = np.log(density), compressors.rating, compressors.control
    return _Draw(
        ln_suction=now.ln_suction,
        ln_flow=ln_density[:count] + np.log(rated.volume_m3_s),
        steepness=(ln_density[count:] - ln_density[:count]) / _NEARBY,
        most=most,
        fixed=control == Control.FIXED_COILS,
        ln_held=np.where(control == Control.HELD_SUCTION, np.log(rated.suction_pa), np.nan),
    )


def _found(
    states: States, forest: Forest, ends: Ends, now: _Balance, *, coils: _Coils, balanced: NDArray[np.bool_]
) -> Cooled:
    """Put together what was found; nothing of a tree that is out of balance."""
    known = np.where(balanced & np.isfinite(now.ln_flow), 1.0, np.nan)
    suction, flow = np.exp(now.ln_suction) * known, now.flow * forest.by_unit(known)
    mixed = forest.whole(flow * now.h_gas) / forest.whole(flow)
    dew = states.dew_temperature(suction)
    return Cooled(
        gas=gas_state(states, forest, ends._replace(far_pa=ends.far_pa * forest.by_run(known)), hot=False),
        liquid=supply(states, forest, coils.at, unit_flow=flow),
        capacity_w=coils.rated_w * now.share * forest.by_unit(known),
        suction_pa=suction,
        suction_degc=dew,
        suction_j_kg=mixed,
        superheat_k=states.gas_temperature_of_enthalpy(suction, mixed) - dew,
    )
