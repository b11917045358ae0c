"""The reference library asked state by state, with the questions that the network asks.

For evidence only: the same network on the library itself shows what the tables cost in accuracy and gain in time.
Pure fluids and pseudo-pure ones.
"""

from __future__ import annotations

from collections.abc import Callable

import CoolProp
import numpy as np
from CoolProp.CoolProp import AbstractState

from linewright.physics.series import Array
from tools.properties.reference import ZERO_C


class PerState:
    """Answers like `linewright.physics.states.States`, one call of the library for each element."""

    def __init__(self, known_as: str) -> None:
        """Open the fluid under the library's own name."""
        self.state = AbstractState("HEOS", known_as)

    def dew_pressure(self, t_degc: Array | float) -> Array:
        """Pressure of condensing vapour [Pa]."""
        return _each(lambda t: self._warm(1.0, t).p(), t_degc)

    def bubble_pressure(self, t_degc: Array | float) -> Array:
        """Pressure of boiling liquid [Pa]."""
        return _each(lambda t: self._warm(0.0, t).p(), t_degc)

    def dew_temperature(self, p_pa: Array | float) -> Array:
        """Temperature of condensing vapour [degC]."""
        return _each(lambda p: self._pressed(1.0, p).T() - ZERO_C, p_pa)

    def bubble_temperature(self, p_pa: Array | float) -> Array:
        """Temperature of boiling liquid [degC]."""
        return _each(lambda p: self._pressed(0.0, p).T() - ZERO_C, p_pa)

    def dew_enthalpy(self, p_pa: Array | float) -> Array:
        """Enthalpy of saturated vapour [J/kg]."""
        return _each(lambda p: self._pressed(1.0, p).hmass(), p_pa)

    def liquid_density(self, t_degc: Array | float) -> Array:
        """Density of saturated liquid [kg/m3]."""
        return _each(lambda t: self._warm(0.0, t).rhomass(), t_degc)

    def liquid_viscosity(self, t_degc: Array | float) -> Array:
        """Viscosity of saturated liquid [Pa s]."""
        return _each(lambda t: self._warm(0.0, t).viscosity(), t_degc)

    def liquid_enthalpy(self, t_degc: Array | float) -> Array:
        """Enthalpy of saturated liquid [J/kg]."""
        return _each(lambda t: self._warm(0.0, t).hmass(), t_degc)

    def gas_of_enthalpy(self, p_pa: Array | float, h_j_kg: Array | float) -> tuple[Array, Array]:
        """Density [kg/m3] and viscosity [Pa s] of vapour."""
        p, h = np.broadcast_arrays(np.asarray(p_pa, dtype=float), np.asarray(h_j_kg, dtype=float))
        found = np.empty((2, p.size))
        for i, (pressure, enthalpy) in enumerate(zip(p.flat, h.flat, strict=True)):
            self.state.update(CoolProp.HmassP_INPUTS, float(enthalpy), float(pressure))
            found[:, i] = self.state.rhomass(), self.state.viscosity()
        return found[0].reshape(p.shape), found[1].reshape(p.shape)

    def gas_temperature_of_enthalpy(self, p_pa: Array | float, h_j_kg: Array | float) -> Array:
        """Temperature of vapour [degC]."""

        def one(p: float, h: float) -> float:
            self.state.update(CoolProp.HmassP_INPUTS, h, p)
            return float(self.state.T() - ZERO_C)

        return _each(one, p_pa, h_j_kg)

    def coil(self, p_pa: Array | float, superheat_k: float) -> tuple[Array, Array]:
        """Enthalpy of vapour at one superheat [J/kg] and dew point [degC]."""
        dew = self.dew_temperature(p_pa)
        return _each(lambda p, t: self._gas(p, t + superheat_k), p_pa, dew), dew

    def hot_gas(self, condensing_degc: float, t_degc: float) -> float:
        """Enthalpy of vapour of that temperature at the pressure of that dew point [J/kg]."""
        return self._gas(float(self.dew_pressure(condensing_degc)), t_degc)

    def _warm(self, quality: float, t_degc: float) -> AbstractState:
        self.state.update(CoolProp.QT_INPUTS, quality, t_degc + ZERO_C)
        return self.state

    def _pressed(self, quality: float, p_pa: float) -> AbstractState:
        self.state.update(CoolProp.PQ_INPUTS, p_pa, quality)
        return self.state

    def _gas(self, p_pa: float, t_degc: float) -> float:
        self.state.update(CoolProp.PT_INPUTS, p_pa, t_degc + ZERO_C)
        return float(self.state.hmass())


def _each(one: Callable[..., float], *values: Array | float) -> Array:
    arrays = np.broadcast_arrays(*(np.asarray(value, dtype=float) for value in values))
    found = [one(*(float(part) for part in parts)) for parts in zip(*(array.flat for array in arrays), strict=True)]
    return np.array(found).reshape(arrays[0].shape)
