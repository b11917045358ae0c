"""Flow in one run of tube: friction, pressure along gas and liquid, the least flow that carries oil up.

Everything is an array over runs; SI units. Formulas from memory, each named; they are held to the reference library
and to another library in tests/crosscheck.
"""

from __future__ import annotations

import numpy as np

from linewright.physics.properties import Fluid
from linewright.physics.series import Array

#: Drawn copper (Moody 1944; from memory).
ROUGHNESS_M = 1.5e-6
GRAVITY_M_S2 = 9.80665
#: Flooding form j*^0.5 = 0.85 of Jacobs et al. (ASHRAE Transactions 1976; from memory).
_JACOBS = 0.7225
_PASSES = 6


def friction_factor(reynolds: Array, relative_roughness: Array) -> Array:
    """Darcy friction factor after Churchill (1977; from memory): laminar, turbulent and between."""
    with np.errstate(divide="ignore", invalid="ignore", over="ignore"):
        a = (2.457 * np.log(1.0 / ((7.0 / reynolds) ** 0.9 + 0.27 * relative_roughness))) ** 16
        b = (37530.0 / reynolds) ** 16
        found: Array = 8.0 * ((8.0 / reynolds) ** 12 + (a + b) ** -1.5) ** (1.0 / 12.0)
    return np.where(reynolds > 0, found, 0.0)


def mass_flux(flow_kg_s: Array, bore_m: Array) -> Array:
    """Mass flow over the free section [kg/(m2 s)]."""
    found: Array = flow_kg_s / (np.pi / 4.0 * bore_m**2)
    return found


def liquid_drop(
    fluid: Fluid, t_degc: Array, flow_kg_s: Array, *, bore_m: Array, length_m: Array, rise_m: Array
) -> Array:
    """Fall of pressure along liquid that keeps its temperature [Pa]: Darcy-Weisbach and the static head.

    length_m : equivalent length
    rise_m : change of level in the direction of flow, upward positive
    """
    rho, flux = fluid.liquid_density(t_degc), mass_flux(flow_kg_s, bore_m)
    factor = friction_factor(flux * bore_m / fluid.liquid_viscosity(t_degc), ROUGHNESS_M / bore_m)
    found: Array = factor * length_m / bore_m * flux**2 / (2.0 * rho) + rho * GRAVITY_M_S2 * rise_m
    return found


def gas_far_pressure(
    fluid: Fluid,
    p_near_pa: Array,
    h_j_kg: Array,
    flow_kg_s: Array,
    *,
    bore_m: Array,
    length_m: Array,
    rise_m: Array,
    upstream: bool,
) -> Array:
    """Pressure at the far end of a run of gas whose enthalpy stays [Pa]; NaN where it would choke or leave the tables.

    p1^2 - p2^2 = 2 G^2 K [f L / 2D + ln(p1/p2)] + 2 p rho g dz, K = p v at the mean pressure and that enthalpy (flow of
    a real gas at constant enthalpy, with acceleration).

    upstream : whether the far end is where the gas comes from
    rise_m : change of level in the direction of flow, upward positive
    """
    flux, sign = mass_flux(flow_kg_s, bore_m), 1.0 if upstream else -1.0
    far = np.array(p_near_pa, dtype=np.float64, copy=True)
    with np.errstate(invalid="ignore", divide="ignore"):
        for _ in range(_PASSES):
            mean = (p_near_pa + far) / 2.0
            above = h_j_kg - fluid.dew_enthalpy(mean)
            rho, viscosity = fluid.gas(mean, above)
            factor = friction_factor(flux * bore_m / viscosity, ROUGHNESS_M / bore_m)
            ratio = np.abs(np.log(p_near_pa / far))
            loss = 2.0 * flux**2 * mean / rho * (factor * length_m / (2.0 * bore_m) + ratio)
            squared = p_near_pa**2 + sign * (loss + 2.0 * mean * rho * GRAVITY_M_S2 * rise_m)
            far = np.sqrt(np.where(squared > 0, squared, np.nan))
    return far


def oil_flux(gas_kg_m3: Array, oil_kg_m3: float, bore_m: Array) -> Array:
    """Least mass flux that carries oil up a tube [kg/(m2 s)] (Jacobs et al. 1976; from memory).

    Scatter of real systems is perhaps 20 to 30 %: a judgement, no source.
    """
    found: Array = _JACOBS * np.sqrt(gas_kg_m3 * GRAVITY_M_S2 * bore_m * (oil_kg_m3 - gas_kg_m3))
    return found
