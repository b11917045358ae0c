"""Properties of refrigerants out of tables that were fitted to a reference library; the library is not needed to run.

Temperatures in degC, pressures in Pa (absolute), densities in kg/m3, viscosities in Pa s, enthalpies in J/kg. All
functions take and give numpy arrays. Outside the range of a fluid there is no value (NaN), never the value at the end:
see `Fluid.low_degc` and its neighbours, and docs/reference/properties.md.
"""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import Any

import numpy as np
from numpy.typing import ArrayLike

from linewright.model.values import value
from linewright.physics.series import Array, Curve, Surface, above, both, curve, fitted, surface, together

DATA = Path(__file__).with_name("fluids.json")
#: What is meant by a designation in any spelling.
_SPELLINGS = str.maketrans("", "", "- _")


@value
class Fluid:
    """One refrigerant. Vapour is found by pressure and its enthalpy above the dew point at that pressure."""

    name: str
    source: str
    note: str
    fit_errors: MappingProxyType[str, float]
    ln_p_bubble: Curve
    ln_p_dew: Curve
    t_bubble: Curve
    t_dew: Curve
    h_dew: Curve
    rho_liquid: Curve
    ln_mu_liquid: Curve
    h_liquid: Curve
    ln_rho_gas: Surface
    ln_mu_gas: Surface
    superheat: Surface

    @property
    def low_degc(self) -> float:
        """Lowest temperature of saturation."""
        return max(self.ln_p_dew.low, self.ln_p_bubble.low)

    @property
    def high_degc(self) -> float:
        """Highest temperature of saturation."""
        return min(self.ln_p_dew.high, self.ln_p_bubble.high)

    def bubble_pressure(self, t_degc: ArrayLike) -> Array:
        """Pressure of boiling liquid [Pa]."""
        return np.exp(self.ln_p_bubble(_array(t_degc)))

    def dew_pressure(self, t_degc: ArrayLike) -> Array:
        """Pressure of condensing vapour [Pa]."""
        return np.exp(self.ln_p_dew(_array(t_degc)))

    def bubble_temperature(self, p_pa: ArrayLike) -> Array:
        """Temperature of boiling liquid [degC]."""
        return self.t_bubble(_log(p_pa))

    def dew_temperature(self, p_pa: ArrayLike) -> Array:
        """Temperature of condensing vapour [degC]."""
        return self.t_dew(_log(p_pa))

    def liquid_density(self, t_degc: ArrayLike) -> Array:
        """Density of saturated liquid [kg/m3]."""
        return self.rho_liquid(_array(t_degc))

    def liquid_viscosity(self, t_degc: ArrayLike) -> Array:
        """Viscosity of saturated liquid [Pa s]."""
        return np.exp(self.ln_mu_liquid(_array(t_degc)))

    def liquid_enthalpy(self, t_degc: ArrayLike) -> Array:
        """Enthalpy of saturated liquid [J/kg]."""
        return self.h_liquid(_array(t_degc))

    def dew_enthalpy(self, p_pa: ArrayLike) -> Array:
        """Enthalpy of saturated vapour [J/kg]."""
        return self.h_dew(_log(p_pa))

    def gas_density(self, p_pa: ArrayLike, above_j_kg: ArrayLike) -> Array:
        """Density of vapour [kg/m3]."""
        return np.exp(self.ln_rho_gas(_log(p_pa), _array(above_j_kg)))

    def gas_viscosity(self, p_pa: ArrayLike, above_j_kg: ArrayLike) -> Array:
        """Viscosity of vapour [Pa s]."""
        return np.exp(self.ln_mu_gas(_log(p_pa), _array(above_j_kg)))

    def gas(self, p_pa: ArrayLike, above_j_kg: ArrayLike) -> tuple[Array, Array]:
        """Density [kg/m3] and viscosity [Pa s] of vapour together, which is quicker than one after the other."""
        ln_rho, ln_mu = together(_log(p_pa), _array(above_j_kg), self.ln_rho_gas, self.ln_mu_gas)
        return np.exp(ln_rho), np.exp(ln_mu)

    def gas_of_enthalpy(self, p_pa: ArrayLike, h_j_kg: ArrayLike) -> tuple[Array, Array]:
        """Density [kg/m3] and viscosity [Pa s] of vapour of so much enthalpy [J/kg]."""
        ln_rho, ln_mu = above(_log(p_pa), _array(h_j_kg), self.h_dew, self.ln_rho_gas, self.ln_mu_gas)
        return np.exp(ln_rho), np.exp(ln_mu)

    def gas_temperature(self, p_pa: ArrayLike, above_j_kg: ArrayLike) -> Array:
        """Temperature of vapour [degC]."""
        ln_p = _log(p_pa)
        return self.t_dew(ln_p) + self.superheat(ln_p, _array(above_j_kg))

    def gas_temperature_of_enthalpy(self, p_pa: ArrayLike, h_j_kg: ArrayLike) -> Array:
        """Temperature of vapour of so much enthalpy [degC]."""
        return self.gas_temperature(p_pa, _array(h_j_kg) - self.dew_enthalpy(p_pa))

    def above_dew(self, p_pa: ArrayLike, superheat_k: ArrayLike) -> Array:
        """Enthalpy above the dew point of vapour that is so much hotter than it [J/kg]."""
        ln_p, wanted = np.broadcast_arrays(_log(p_pa), _array(superheat_k))
        low, high = np.zeros_like(wanted), np.full_like(wanted, self.superheat.most)
        for _ in range(_HALVINGS):
            middle = (low + high) / 2
            colder = self.superheat(ln_p, middle) < wanted
            low, high = np.where(colder, middle, low), np.where(colder, high, middle)
        reached = (wanted >= 0) & (self.superheat(ln_p, np.full_like(wanted, self.superheat.most)) >= wanted)
        return np.where(reached, (low + high) / 2, np.nan)

    def gas_enthalpy_at(self, superheat_k: float) -> Curve:
        """Enthalpy of vapour at one superheat over ln p [J/kg], as a series: made once, then quick to ask."""
        return _at_superheat(self.name, superheat_k)

    def hot_gas(self, condensing_degc: float, t_degc: float) -> float:
        """Enthalpy of vapour of that temperature at the pressure of that dew point [J/kg]: looked for once."""
        return _hot_gas(self.name, condensing_degc, t_degc)

    def coil(self, p_pa: ArrayLike, superheat_k: float) -> tuple[Array, Array]:
        """Enthalpy of vapour at one superheat [J/kg] and dew point [degC] together."""
        return both(_log(p_pa), self.gas_enthalpy_at(superheat_k), self.t_dew)


#: Halvings of the range of enthalpies: to better than a hundredth of a joule.
_HALVINGS = 36


@cache
def _at_superheat(name: str, superheat_k: float) -> Curve:
    one = fluids()[name]

    def values(ln_p: Array) -> Array:
        p_pa = np.exp(ln_p)
        found: Array = one.dew_enthalpy(p_pa) + one.above_dew(p_pa, np.full_like(p_pa, superheat_k))
        return found

    return fitted(values, one.t_dew.low, one.t_dew.high, len(one.t_dew.series) - 1)


@cache
def _hot_gas(name: str, condensing_degc: float, t_degc: float) -> float:
    one = fluids()[name]
    p_pa = one.dew_pressure(condensing_degc)
    return float(one.dew_enthalpy(p_pa) + one.above_dew(p_pa, t_degc - condensing_degc))


@cache
def fluids() -> MappingProxyType[str, Fluid]:
    """Every fluid that is shipped, by designation."""
    stored = json.loads(DATA.read_text(encoding="utf-8"))
    return MappingProxyType({one["name"]: _fluid(one) for one in stored})


def fluid(name: str) -> Fluid | None:
    """The fluid of a designation in any spelling (`R32`, `r-32`); none where it is not shipped."""
    wanted = name.upper().translate(_SPELLINGS)
    return next((one for known, one in fluids().items() if known.upper().translate(_SPELLINGS) == wanted), None)


def _fluid(stored: dict[str, object]) -> Fluid:
    curves, surfaces, errors = (stored[key] for key in ("curves", "surfaces", "fit_errors"))
    if not isinstance(curves, dict) or not isinstance(surfaces, dict) or not isinstance(errors, dict):
        raise TypeError(f"{DATA.name} is damaged")
    series: dict[str, Any] = {name: curve(one) for name, one in curves.items()}
    series |= {name: surface(one) for name, one in surfaces.items()}
    return Fluid(
        name=str(stored["name"]),
        source=str(stored["source"]),
        note=str(stored["note"]),
        fit_errors=MappingProxyType(errors),
        **series,
    )


def _array(values: ArrayLike) -> Array:
    return np.asarray(values, dtype=np.float64)


def _log(p_pa: ArrayLike) -> Array:
    with np.errstate(invalid="ignore", divide="ignore"):
        return np.log(_array(p_pa))
