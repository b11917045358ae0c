"""The reference library behind the property tables: one fluid with the calls that the fit and its check need."""

from __future__ import annotations

from collections.abc import Mapping
from math import exp, log
from typing import NamedTuple

import CoolProp
from CoolProp.CoolProp import AbstractState

ZERO_C = 273.15


class Saturated(NamedTuple):
    """A saturated state: temperature [degC], pressure [Pa], density [kg/m3], enthalpy [J/kg], viscosity [Pa s]."""

    t_degc: float
    p_pa: float
    rho_kg_m3: float
    h_j_kg: float
    mu_pa_s: float


class Reference:
    """A fluid, or a blend by mass fractions, of the reference library.

    A blend's liquid viscosity is not that of the library, which is far off there, but exp(sum x_i ln mu_i) over its
    parts as saturated liquids at the same temperature, x_i by mole.
    """

    def __init__(self, parts: Mapping[str, float]) -> None:
        """Open the states that are asked again and again."""
        self.parts = dict(parts)
        self.state = AbstractState("HEOS", "&".join(parts))
        self.gas = AbstractState("HEOS", "&".join(parts))
        self.alone = [AbstractState("HEOS", part) for part in parts] if len(parts) > 1 else []
        for state in (self.state, self.gas):
            if len(parts) > 1:
                state.set_mass_fractions(list(parts.values()))
        self.gas.specify_phase(CoolProp.iphase_gas)

    def bubble(self, t_degc: float) -> Saturated:
        """Saturated liquid at a temperature."""
        self.state.update(CoolProp.QT_INPUTS, 0.0, t_degc + ZERO_C)
        found = self.state
        p_pa, rho, h = found.p(), found.rhomass(), found.hmass()
        return Saturated(t_degc, p_pa, rho, h, self._liquid_viscosity(t_degc))

    def dew(self, t_degc: float) -> Saturated:
        """Saturated vapour at a temperature."""
        self.state.update(CoolProp.QT_INPUTS, 1.0, t_degc + ZERO_C)
        return self._dew()

    def dew_at(self, p_pa: float) -> Saturated:
        """Saturated vapour at a pressure."""
        self.state.update(CoolProp.PQ_INPUTS, p_pa, 1.0)
        return self._dew()

    def bubble_at(self, p_pa: float) -> float:
        """Temperature of saturated liquid at a pressure [degC]."""
        self.state.update(CoolProp.PQ_INPUTS, p_pa, 0.0)
        return float(self.state.T() - ZERO_C)

    def superheated(self, p_pa: float, t_degc: float) -> Saturated:
        """Vapour at a pressure and a temperature above its dew point."""
        self.gas.update(CoolProp.PT_INPUTS, p_pa, t_degc + ZERO_C)
        return Saturated(t_degc, p_pa, self.gas.rhomass(), self.gas.hmass(), self.gas.viscosity())

    def at_enthalpy(self, dew: Saturated, above_j_kg: float) -> Saturated:
        """Vapour at the pressure of a dew point, so much above its enthalpy."""
        if above_j_kg <= 0:
            return dew
        t_degc, step = dew.t_degc + above_j_kg / 1200.0, above_j_kg / 1200.0
        for _ in range(40):
            found = self.superheated(dew.p_pa, t_degc)
            miss = found.h_j_kg - dew.h_j_kg - above_j_kg
            if abs(miss) < 1e-6 * above_j_kg:
                return found
            nearby = self.superheated(dew.p_pa, t_degc + 1e-3)
            step = -miss / ((nearby.h_j_kg - found.h_j_kg) / 1e-3)
            t_degc = max(t_degc + step, dew.t_degc + 1e-6)
        raise ArithmeticError(f"no state {above_j_kg:.0f} J/kg above the dew point at {dew.p_pa:.0f} Pa")

    def _dew(self) -> Saturated:
        found = self.state
        return Saturated(found.T() - ZERO_C, found.p(), found.rhomass(), found.hmass(), found.viscosity())

    def _liquid_viscosity(self, t_degc: float) -> float:
        if not self.alone:
            return float(self.state.viscosity())
        moles = self.state.get_mole_fractions()
        total = 0.0
        for fraction, state in zip(moles, self.alone, strict=True):
            state.update(CoolProp.QT_INPUTS, 0.0, t_degc + ZERO_C)
            total += fraction * log(state.viscosity())
        return exp(total)
