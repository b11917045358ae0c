"""What the network asks of a refrigerant: one set of questions, whoever answers them."""

from __future__ import annotations

from typing import Protocol

from linewright.physics.series import Array


class States(Protocol):
    """Answers by arrays; NaN where there is none. Units as in `linewright.physics.properties`."""

    def dew_pressure(self, t_degc: Array | float, /) -> Array:
        """Pressure of condensing vapour [Pa]."""

    def bubble_pressure(self, t_degc: Array | float, /) -> Array:
        """Pressure of boiling liquid [Pa]."""

    def dew_temperature(self, p_pa: Array | float, /) -> Array:
        """Temperature of condensing vapour [degC]."""

    def bubble_temperature(self, p_pa: Array | float, /) -> Array:
        """Temperature of boiling liquid [degC]."""

    def dew_enthalpy(self, p_pa: Array | float, /) -> Array:
        """Enthalpy of saturated vapour [J/kg]."""

    def liquid_density(self, t_degc: Array | float, /) -> Array:
        """Density of saturated liquid [kg/m3]."""

    def liquid_viscosity(self, t_degc: Array | float, /) -> Array:
        """Viscosity of saturated liquid [Pa s]."""

    def liquid_enthalpy(self, t_degc: Array | float, /) -> Array:
        """Enthalpy of saturated liquid [J/kg]."""

    def gas_of_enthalpy(self, p_pa: Array | float, h_j_kg: Array | float, /) -> tuple[Array, Array]:
        """Density [kg/m3] and viscosity [Pa s] of vapour."""

    def gas_temperature_of_enthalpy(self, p_pa: Array | float, h_j_kg: Array | float, /) -> Array:
        """Temperature of vapour [degC]."""

    def coil(self, p_pa: Array | float, superheat_k: float, /) -> tuple[Array, Array]:
        """Enthalpy of vapour at one superheat [J/kg] and dew point [degC]."""

    def hot_gas(self, condensing_degc: float, t_degc: float, /) -> float:
        """Enthalpy of vapour of that temperature at the pressure of that dew point [J/kg]."""
