"""Formulas of flow, registered beside the others: each asks the same properties and equations as the network does.

A refrigerant is named as its book names it; pressures are absolute.
"""

from __future__ import annotations

import numpy as np

from linewright.engine.formulas import formula
from linewright.physics import fluid
from linewright.physics.compressor import CoolingAt
from linewright.physics.flow import GRAVITY_M_S2, ROUGHNESS_M, Ends, Pipe, friction_factor, square_loss
from linewright.physics.flow import mass_flux as flux_of
from linewright.physics.heating import HeatingAt
from linewright.physics.oil import OILS, USUAL, oil_flux
from linewright.physics.series import Array
from linewright.physics.tables import Tables, tables

_PROPERTIES = "properties fitted to a reference library, docs/reference/properties.md"
_OWN = "definition, docs/methods.md"
_PRACTICE = "common practice, no source"
_DARCY = "Darcy and Weisbach"
_GAS = "flow of a real gas at constant enthalpy, with acceleration"
#: Passes after which a pressure no longer moves: each leaves a small share of what the one before was off by.
_PASSES, _STILL = 60, 1e-15


def _states(refrigerant: str) -> Tables:
    used = fluid(refrigerant)
    if used is None:
        raise ValueError(f"no properties of {refrigerant}")
    return tables(used.name)


def _one(values: Array) -> float:
    return float(np.asarray(values).reshape(-1)[0])


@formula("mean of the inputs", _OWN)
def mean(*values: float) -> float:
    """Mean [unit of the inputs]."""
    return sum(values) / len(values)


@formula("outside diameter less two walls", _OWN)
def bore(od_m: float, wall_m: float) -> float:
    """Bore of a tube [m]."""
    return od_m - 2.0 * wall_m


@formula("most / sum, no more than 1", _OWN)
def load_share(most_w: float, sum_w: float) -> float:
    """Share of what the coils are rated at that the outdoor group can give [1]."""
    return min(1.0, most_w / sum_w)


@formula("pressure of condensing vapour at a temperature", _PROPERTIES)
def dew_pressure(refrigerant: str, t_degc: float) -> float:
    """Pressure of condensing vapour [Pa]."""
    return _one(_states(refrigerant).dew_pressure(t_degc))


@formula("pressure of boiling liquid at a temperature", _PROPERTIES)
def bubble_pressure(refrigerant: str, t_degc: float) -> float:
    """Pressure of boiling liquid [Pa]."""
    return _one(_states(refrigerant).bubble_pressure(t_degc))


@formula("temperature of condensing vapour at a pressure", _PROPERTIES)
def dew_temperature(refrigerant: str, p_pa: float) -> float:
    """Temperature of condensing vapour [degC]."""
    return _one(_states(refrigerant).dew_temperature(p_pa))


@formula("temperature of boiling liquid at a pressure", _PROPERTIES)
def bubble_temperature(refrigerant: str, p_pa: float) -> float:
    """Temperature of boiling liquid [degC]."""
    return _one(_states(refrigerant).bubble_temperature(p_pa))


@formula("enthalpy of vapour that condenses at a pressure", _PROPERTIES)
def dew_enthalpy(refrigerant: str, p_pa: float) -> float:
    """Enthalpy of saturated vapour [J/kg]."""
    return _one(_states(refrigerant).dew_enthalpy(p_pa))


@formula("density of liquid at a temperature", _PROPERTIES)
def liquid_density(refrigerant: str, t_degc: float) -> float:
    """Density of liquid [kg/m3]."""
    return _one(_states(refrigerant).liquid_density(t_degc))


@formula("viscosity of liquid at a temperature", _PROPERTIES)
def liquid_viscosity(refrigerant: str, t_degc: float) -> float:
    """Viscosity of liquid [Pa s]."""
    return _one(_states(refrigerant).liquid_viscosity(t_degc))


@formula("enthalpy of liquid at a temperature", _PROPERTIES)
def liquid_enthalpy(refrigerant: str, t_degc: float) -> float:
    """Enthalpy of liquid [J/kg]."""
    return _one(_states(refrigerant).liquid_enthalpy(t_degc))


@formula("density of vapour at a pressure and an enthalpy", _PROPERTIES)
def gas_density(refrigerant: str, p_pa: float, h_j_kg: float) -> float:
    """Density of vapour [kg/m3]."""
    return _one(_states(refrigerant).gas_of_enthalpy(p_pa, h_j_kg)[0])


@formula("viscosity of vapour at a pressure and an enthalpy", _PROPERTIES)
def gas_viscosity(refrigerant: str, p_pa: float, h_j_kg: float) -> float:
    """Viscosity of vapour [Pa s]."""
    return _one(_states(refrigerant).gas_of_enthalpy(p_pa, h_j_kg)[1])


@formula("temperature of vapour at a pressure and an enthalpy", _PROPERTIES)
def gas_temperature(refrigerant: str, p_pa: float, h_j_kg: float) -> float:
    """Temperature of vapour [degC]."""
    return _one(_states(refrigerant).gas_temperature_of_enthalpy(p_pa, h_j_kg))


@formula("enthalpy of vapour so much hotter than its dew point at a pressure", _PROPERTIES)
def coil_enthalpy(refrigerant: str, p_pa: float, superheat_k: float) -> float:
    """Enthalpy of the gas that leaves a coil [J/kg]."""
    return _one(_states(refrigerant).coil(p_pa, superheat_k)[0])


@formula("enthalpy of vapour of a temperature at the pressure of a dew point", _PROPERTIES)
def hot_gas_enthalpy(refrigerant: str, condensing_degc: float, t_degc: float) -> float:
    """Enthalpy of hot gas [J/kg]."""
    return _states(refrigerant).hot_gas(condensing_degc, t_degc)


@formula("pressure at which a volume flow of vapour of an enthalpy has that mass flow", _PROPERTIES)
def drawn_pressure(refrigerant: str, flow_kg_s: float, h_j_kg: float, volume_m3_s: float) -> float:
    """Suction pressure of a compressor that takes a volume [Pa], looked for by the secant method."""
    states, wanted = _states(refrigerant), flow_kg_s / volume_m3_s

    def missed(p_pa: float) -> float:
        return _one(states.gas_of_enthalpy(p_pa, h_j_kg)[0]) - wanted

    now = dew_pressure(refrigerant, CoolingAt().evaporating_degc)
    before = now * 1.0001
    off_before, off = missed(before), missed(now)
    for _ in range(_PASSES):
        if off in (0.0, off_before):
            break
        before, now, off_before = now, now - off * (now - before) / (off - off_before), off
        off = missed(now)
    return now


@formula("(air - dew point of the coil) / (air - dew point it is rated at)", "coil linear in that difference")
def coil_share(air_degc: float, dew_degc: float, rated_degc: float) -> float:
    """Share of its rated capacity that a coil gives, in cooling and in heating [1]."""
    return (air_degc - dew_degc) / (air_degc - rated_degc)


@formula("rating x share / difference of enthalpy", _OWN)
def coil_flow(rated_w: float, share: float, h_first_j_kg: float, h_second_j_kg: float) -> float:
    """Mass flow through a coil [kg/s]."""
    return rated_w * share / (h_first_j_kg - h_second_j_kg)


@formula("sum of weight x value / sum of weights", _OWN)
def weighted(*weights_and_values: float) -> float:
    """Mean by weight [unit of the values]; inputs are weight and value in turn."""
    weights, values = weights_and_values[::2], weights_and_values[1::2]
    return sum(weight * one for weight, one in zip(weights, values, strict=True)) / sum(weights)


@formula("rating / difference of enthalpy", _OWN)
def rated_flow(rated_w: float, h_first_j_kg: float, h_second_j_kg: float) -> float:
    """Mass flow that carries a capacity [kg/s]."""
    return rated_w / (h_first_j_kg - h_second_j_kg)


@formula("flow / (pi/4 D^2)", _OWN)
def mass_flux(flow_kg_s: float, bore_m: float) -> float:
    """Mass flow over the free section [kg/(m2 s)]."""
    return _one(flux_of(np.array(flow_kg_s), np.array(bore_m)))


@formula("G D / viscosity", "Reynolds number")
def reynolds(flux_kg_m2_s: float, bore_m: float, viscosity_pa_s: float) -> float:
    """Reynolds number [1]."""
    return flux_kg_m2_s * bore_m / viscosity_pa_s


@formula("friction factor over the whole range of flow, from Reynolds number and roughness over bore", "Churchill 1977")
def friction(number: float, roughness_m: float, bore_m: float) -> float:
    """Darcy friction factor [1]."""
    return _one(friction_factor(np.array([number]), np.array([roughness_m / bore_m])))


@formula("f L/D G^2/(2 rho) + rho g rise", _DARCY)
def liquid_fall(  # noqa: PLR0917 - the equation's own symbols
    factor: float, length_m: float, bore_m: float, flux_kg_m2_s: float, density_kg_m3: float, rise_m: float = 0.0
) -> float:
    """Fall of pressure along liquid [Pa]; the rise in the direction of flow."""
    lost = factor * length_m / bore_m * flux_kg_m2_s**2 / (2.0 * density_kg_m3)
    return lost + density_kg_m3 * GRAVITY_M_S2 * rise_m


@formula("f L/D G^2/(2 rho) - rho g rise", _DARCY)
def liquid_fall_back(  # noqa: PLR0917 - the equation's own symbols
    factor: float, length_m: float, bore_m: float, flux_kg_m2_s: float, density_kg_m3: float, rise_m: float = 0.0
) -> float:
    """Fall of pressure along liquid that flows inward [Pa]; the rise outward."""
    return liquid_fall(factor, length_m, bore_m, flux_kg_m2_s, density_kg_m3, -rise_m)


@formula("sqrt(p1^2 + 2 G^2 (p/rho) (f L/2D + ln(p2/p1)) - 2 p rho g rise), p the mean", _GAS)
def gas_above(  # noqa: PLR0917 - the equation's own symbols
    near_pa: float,
    far_pa: float,
    density_kg_m3: float,
    flux_kg_m2_s: float,
    factor: float,
    length_m: float,
    bore_m: float,
    rise_m: float = 0.0,
) -> float:
    """Pressure at the far end of a run of cold gas, from which it flows inward [Pa]; the rise outward."""
    fall = _fall((near_pa, far_pa), (density_kg_m3, flux_kg_m2_s), factor * length_m / (2.0 * bore_m), -rise_m)
    return float(np.sqrt(near_pa**2 + fall))


@formula("sqrt(p1^2 - 2 G^2 (p/rho) (f L/2D + ln(p1/p2)) - 2 p rho g rise), p the mean", _GAS)
def gas_below(  # noqa: PLR0917 - the equation's own symbols
    near_pa: float,
    far_pa: float,
    density_kg_m3: float,
    flux_kg_m2_s: float,
    factor: float,
    length_m: float,
    bore_m: float,
    rise_m: float = 0.0,
) -> float:
    """Pressure at the far end of a run of gas that flows outward [Pa]; the rise outward."""
    fall = _fall((near_pa, far_pa), (density_kg_m3, flux_kg_m2_s), factor * length_m / (2.0 * bore_m), rise_m)
    return float(np.sqrt(near_pa**2 - fall))


def _fall(ends_pa: tuple[float, float], gas: tuple[float, float], rubbed: float, rise_m: float) -> float:
    """What p^2 falls by between two ends, for density and mass flux, f L/2D, and the rise in the direction of flow."""
    density, flux = gas
    mean_pa = sum(ends_pa) / 2.0
    bracket = rubbed + abs(np.log(ends_pa[0] / ends_pa[1]))
    return float(2.0 * flux**2 * mean_pa / density * bracket + 2.0 * mean_pa * density * GRAVITY_M_S2 * rise_m)


_SOLVED = "the pressure that solves the equation of the run, found by passes; the steps that follow show it"


@formula(_SOLVED, _GAS)
def gas_upstream(  # noqa: PLR0917 - what a run of gas is
    refrigerant: str,
    near_pa: float,
    flow_kg_s: float,
    h_j_kg: float,
    length_m: float,
    bore_m: float,
    rise_m: float = 0.0,
) -> float:
    """Pressure at the far end of a run from which cold gas flows inward [Pa]; the rise outward."""
    pipe = Pipe(*(np.array([one]) for one in (bore_m, length_m, -rise_m)))
    return _far(_states(refrigerant), _known(near_pa, flow_kg_s, h_j_kg), pipe, sign=1.0)


@formula(_SOLVED, _GAS)
def gas_downstream(  # noqa: PLR0917 - what a run of gas is
    refrigerant: str,
    near_pa: float,
    flow_kg_s: float,
    h_j_kg: float,
    length_m: float,
    bore_m: float,
    rise_m: float = 0.0,
) -> float:
    """Pressure at the far end of a run into which gas flows from the known end [Pa]; the rise that way."""
    pipe = Pipe(*(np.array([one]) for one in (bore_m, length_m, rise_m)))
    return _far(_states(refrigerant), _known(near_pa, flow_kg_s, h_j_kg), pipe, sign=-1.0)


def _known(near_pa: float, flow_kg_s: float, h_j_kg: float) -> Ends:
    near = np.array([near_pa])
    return Ends(near, near, np.array([flow_kg_s]), np.array([h_j_kg]))


def _far(states: Tables, ends: Ends, pipe: Pipe, *, sign: float) -> float:
    near = ends.near_pa
    for _ in range(_PASSES):
        before = ends.far_pa
        ends = ends._replace(far_pa=np.sqrt(near**2 + sign * square_loss(states, ends, pipe)))
        if abs(_one(ends.far_pa) - _one(before)) <= _STILL * _one(near):
            break
    return _one(ends.far_pa)


@formula("(h - h of boiling liquid) / (h of condensing vapour - h of boiling liquid), never below 0", _OWN)
def boiled(h_j_kg: float, h_bubble_j_kg: float, h_dew_j_kg: float) -> float:
    """Share by mass that has boiled [1]."""
    return max((h_j_kg - h_bubble_j_kg) / (h_dew_j_kg - h_bubble_j_kg), 0.0)


@formula("flow / share x greater of (smallest, lesser of (least, share))", _OWN)
def least_flow(flow_kg_s: float, share: float, smallest: float, least: float) -> float:
    """Least flow that a run sees [kg/s]: of the system's least share, or of the smallest unit beyond it alone."""
    return flow_kg_s / share * max(smallest, min(least, share))


@formula("0.7225 sqrt(rho_gas g D (rho_oil - rho_gas))", "Jacobs et al., ASHRAE Transactions 1976, from memory")
def oil_needs(gas_kg_m3: float, bore_m: float, oil_kg_m3: float) -> float:
    """Least mass flux that carries oil up a tube [kg/(m2 s)]."""
    return _one(oil_flux(np.array(gas_kg_m3), oil_kg_m3, np.array(bore_m)))


@formula("dew point at the coils where capacities are rated, in cooling", _PRACTICE)
def evaporating() -> float:
    """Dew point at the coils [degC]."""
    return CoolingAt().evaporating_degc


@formula("superheat of the gas that leaves a coil", _PRACTICE)
def superheat() -> float:
    """Superheat [K]."""
    return CoolingAt().superheat_k


@formula("bubble point of the liquid that leaves the outdoor group, in cooling", _PRACTICE)
def condensing() -> float:
    """Bubble point of the leaving liquid [degC]."""
    return CoolingAt().condensing_degc


@formula("subcooling of the liquid that leaves the outdoor group, where the book states none", _PRACTICE)
def leaving_subcooling() -> float:
    """Subcooling of the leaving liquid [K]."""
    return CoolingAt().subcooling_k


@formula("wet bulb of the air that a coil is linear in, in cooling", _PRACTICE)
def cooling_air() -> float:
    """Wet bulb of the air of the coils [degC]."""
    return CoolingAt().coil_air_degc


@formula("equivalent length at which capacities are rated", _PRACTICE)
def rated_length() -> float:
    """Equivalent length of the rating [m]."""
    return 7.5


@formula("dew point of the hot gas where it leaves, in heating", _PRACTICE)
def heating_condensing() -> float:
    """Dew point of the hot gas [degC]."""
    return HeatingAt().condensing_degc


@formula("temperature of the hot gas where it leaves, in heating", _PRACTICE)
def discharge() -> float:
    """Temperature of the hot gas [degC]."""
    return HeatingAt().discharge_degc


@formula("subcooling of the liquid that leaves a coil, in heating", _PRACTICE)
def coil_subcooling() -> float:
    """Subcooling behind the coils [K]."""
    return HeatingAt().subcooling_k


@formula("temperature of the air that a coil is linear in, in heating", _PRACTICE)
def heating_air() -> float:
    """Dry bulb of the air of the coils [degC]."""
    return HeatingAt().coil_air_degc


@formula("roughness of drawn copper", "Moody 1944, from memory")
def roughness() -> float:
    """Roughness of tube [m]."""
    return ROUGHNESS_M


@formula("density of a kind of oil with suction gas; ester oil where none is named", "an estimate, from memory")
def oil_cold(kind: str = USUAL) -> float:
    """Density of oil with suction gas [kg/m3]."""
    return OILS[kind].cold_kg_m3


@formula("density of a kind of oil with hot gas; ester oil where none is named", "an estimate, from memory")
def oil_hot(kind: str = USUAL) -> float:
    """Density of oil with hot gas [kg/m3]."""
    return OILS[kind].hot_kg_m3
