"""Flow in one run of tube: friction, and pressure along gas and liquid.

Everything is an array over runs; SI units. Formulas from memory, each named; they are held to the reference library
and to another library in tests/crosscheck.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from linewright.physics.series import Array
from linewright.physics.states import States

#: Drawn copper (Moody 1944; from memory).
ROUGHNESS_M = 1.5e-6
GRAVITY_M_S2 = 9.80665
_PASSES = 6


class Pipe(NamedTuple):
    """Runs of tube: bore and equivalent length [m]; change of level in the direction of flow, upward positive [m]."""

    bore_m: Array
    length_m: Array
    rise_m: Array


class Ends(NamedTuple):
    """Gas between the ends of runs: pressures [Pa], flow [kg/s], enthalpy [J/kg]."""

    near_pa: Array
    far_pa: Array
    flow_kg_s: Array
    h_j_kg: Array


def friction_factor(reynolds: Array, relative_roughness: Array) -> Array:
    """Darcy friction factor after Churchill (1977; from memory): laminar, turbulent and between."""
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        a = _sixteenth(2.457 * np.log((7.0 / reynolds) ** 0.9 + 0.27 * relative_roughness))
        both = a + _sixteenth(37530.0 / reynolds)
        found: Array = 8.0 * np.cbrt(np.sqrt(np.sqrt(_twelfth(8.0 / reynolds) + 1.0 / (both * np.sqrt(both)))))
    return np.where(reynolds > 0, found, 0.0)


def _sixteenth(x: Array) -> Array:
    return np.square(np.square(np.square(np.square(x))))


def _twelfth(x: Array) -> Array:
    cube: Array = x * x * x
    return np.square(np.square(cube))


def mass_flux(flow_kg_s: Array, bore_m: Array) -> Array:
    """Mass flow over the free section [kg/(m2 s)]."""
    found: Array = flow_kg_s / (np.pi / 4.0 * bore_m**2)
    return found


def liquid_drop(states: States, t_degc: Array, flow_kg_s: Array, pipe: Pipe) -> Array:
    """Fall of pressure along liquid that keeps its temperature [Pa]: Darcy-Weisbach and the static head."""
    rho, flux = states.liquid_density(t_degc), mass_flux(flow_kg_s, pipe.bore_m)
    factor = friction_factor(flux * pipe.bore_m / states.liquid_viscosity(t_degc), ROUGHNESS_M / pipe.bore_m)
    friction = factor * pipe.length_m / pipe.bore_m * flux**2 / (2.0 * rho)
    found: Array = friction + rho * GRAVITY_M_S2 * pipe.rise_m
    return found


def square_loss(states: States, ends: Ends, pipe: Pipe) -> Array:
    """What p^2 falls by along gas whose enthalpy stays [Pa2].

    p1^2 - p2^2 = 2 G^2 K [f L / 2D + ln(p1/p2)] + 2 p rho g dz, K = p v at the mean pressure and that enthalpy (flow of
    a real gas at constant enthalpy, with acceleration).
    """
    mean, flux = (ends.near_pa + ends.far_pa) / 2.0, mass_flux(ends.flow_kg_s, pipe.bore_m)
    density, viscosity = states.gas_of_enthalpy(mean, ends.h_j_kg)
    factor = friction_factor(flux * pipe.bore_m / viscosity, ROUGHNESS_M / pipe.bore_m)
    ratio = np.abs(np.log(ends.near_pa / ends.far_pa))
    friction = 2.0 * flux**2 * mean / density * (factor * pipe.length_m / (2.0 * pipe.bore_m) + ratio)
    found: Array = friction + 2.0 * mean * density * GRAVITY_M_S2 * pipe.rise_m
    return found


@np.errstate(invalid="ignore", divide="ignore")
def gas_far_pressure(states: States, near: Ends, pipe: Pipe, *, upstream: bool) -> Array:
    """Pressure at the far end of runs of gas [Pa]; NaN where it would choke or leave the tables.

    near : what is known at the near end; its far pressure is where the search begins
    upstream : whether the far end is where the gas comes from
    """
    ends, sign = near, 1.0 if upstream else -1.0
    for _ in range(_PASSES):
        squared = near.near_pa**2 + sign * square_loss(states, ends, pipe)
        ends = ends._replace(far_pa=np.sqrt(np.where(squared > 0, squared, np.nan)))
    return ends.far_pa
