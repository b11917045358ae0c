"""Properties of one refrigerant on even grids, linear between their points: what the network is worked out with.

They are made of the series once in a process. Between points density and viscosity are within 5e-5 of the series,
temperatures of saturation within 0.01 mK; like those they have no value outside.
"""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

import numpy as np

from linewright.model.values import value
from linewright.physics.properties import Fluid, fluids
from linewright.physics.series import Array, Curve

#: Points of a grid in one variable, and of vapour along ln p and along the enthalpy above the dew point.
_POINTS, _ALONG, _ACROSS = 4096, 384, 128
#: So much beyond an end, in steps of the grid, is the end: a value that came out of another table may miss it.
_WOBBLE = 1e-6


class Line(NamedTuple):
    """Values at even steps over a range."""

    at: Array
    values: Array

    def __call__(self, x: Array) -> Array:
        """Value at each x; NaN outside."""
        found: Array = np.interp(x, self.at, self.values, left=np.nan, right=np.nan)
        return found


class Plane(NamedTuple):
    """Values over x from `low` and y from 0, as the four terms of each cell (1, x, y, x y), by cell."""

    low: float
    x_per_step: float
    y_per_step: float
    terms: tuple[Array, ...]

    def __call__(self, cells: Cells) -> Array:
        """Value in each cell; NaN outside."""
        plain, along, across, both = (term.take(cells.number) for term in self.terms)
        found: Array = plain + cells.x * along + cells.y * (across + cells.x * both)
        return found

    def cells(self, x: Array, y: Array) -> Cells:
        """Where each pair stands."""
        x, y = (x - self.low) / self.x_per_step, y / self.y_per_step
        inside = (x >= -_WOBBLE) & (x <= _ALONG - 1 + _WOBBLE) & (y >= -_WOBBLE) & (y <= _ACROSS - 1 + _WOBBLE)
        i, j = (np.where(inside, one, 0.0).astype(np.intp) for one in (x, y))
        return Cells(i * _ACROSS + j, np.where(inside, x - i, np.nan), y - j)


class Cells(NamedTuple):
    """Cells of a plane by number, and where in each a pair stands, from 0 to 1."""

    number: np.ndarray[tuple[int, ...], np.dtype[np.intp]]
    x: Array
    y: Array


@value
class Tables:
    """One refrigerant, as `States` asks for it."""

    name: str
    of: Fluid
    t_bubble: Line
    t_dew: Line
    h_dew: Line
    h_liquid: Line
    rho_liquid: Line
    mu_liquid: Line
    work: Plane
    viscosity: Plane

    def dew_pressure(self, t_degc: Array | float) -> Array:
        """Pressure of condensing vapour [Pa]."""
        return self.of.dew_pressure(t_degc)

    def bubble_pressure(self, t_degc: Array | float) -> Array:
        """Pressure of boiling liquid [Pa]."""
        return self.of.bubble_pressure(t_degc)

    def dew_temperature(self, p_pa: Array | float) -> Array:
        """Temperature of condensing vapour [degC]."""
        return self.t_dew(_log(p_pa))

    def bubble_temperature(self, p_pa: Array | float) -> Array:
        """Temperature of boiling liquid [degC]."""
        return self.t_bubble(_log(p_pa))

    def dew_enthalpy(self, p_pa: Array | float) -> Array:
        """Enthalpy of saturated vapour [J/kg]."""
        return self.h_dew(_log(p_pa))

    def liquid_density(self, t_degc: Array | float) -> Array:
        """Density of saturated liquid [kg/m3]."""
        return self.rho_liquid(np.asarray(t_degc, dtype=np.float64))

    def liquid_viscosity(self, t_degc: Array | float) -> Array:
        """Viscosity of saturated liquid [Pa s]."""
        return self.mu_liquid(np.asarray(t_degc, dtype=np.float64))

    def liquid_enthalpy(self, t_degc: Array | float) -> Array:
        """Enthalpy of saturated liquid [J/kg]."""
        return self.h_liquid(np.asarray(t_degc, dtype=np.float64))

    def gas_of_enthalpy(self, p_pa: Array | float, h_j_kg: Array | float) -> tuple[Array, Array]:
        """Density [kg/m3] and viscosity [Pa s] of vapour."""
        ln_p = _log(p_pa)
        cells = self.work.cells(ln_p, np.asarray(h_j_kg) - self.h_dew(ln_p))
        return np.asarray(p_pa) / self.work(cells), self.viscosity(cells)

    def gas_temperature_of_enthalpy(self, p_pa: Array | float, h_j_kg: Array | float) -> Array:
        """Temperature of vapour [degC]."""
        return self.of.gas_temperature_of_enthalpy(p_pa, h_j_kg)

    def coil(self, p_pa: Array | float, superheat_k: float) -> tuple[Array, Array]:
        """Enthalpy of vapour at one superheat [J/kg] and dew point [degC]."""
        ln_p = _log(p_pa)
        return _at_superheat(self.name, superheat_k)(ln_p), self.t_dew(ln_p)

    def hot_gas(self, condensing_degc: float, t_degc: float) -> float:
        """Enthalpy of vapour of that temperature at the pressure of that dew point [J/kg]."""
        return self.of.hot_gas(condensing_degc, t_degc)


@cache
def tables(name: str) -> Tables:
    """Make the tables of a fluid that is shipped, by its name.

    Raises KeyError where none is shipped.
    """
    of = fluids()[name]
    ln_p = np.linspace(of.ln_rho_gas.low, of.ln_rho_gas.high, _ALONG)
    above = np.linspace(0.0, of.ln_rho_gas.most, _ACROSS)
    pressure = np.exp(ln_p)[:, np.newaxis]
    density, viscosity = of.gas(pressure, above[np.newaxis, :])

    def plane(values: Array) -> Plane:
        return Plane(of.ln_rho_gas.low, float(ln_p[1] - ln_p[0]), float(above[1]), _terms(values))

    return Tables(
        name=name,
        of=of,
        t_bubble=_line(of.t_bubble),
        t_dew=_line(of.t_dew),
        h_dew=_line(of.h_dew),
        h_liquid=_line(of.h_liquid),
        rho_liquid=_line(of.rho_liquid),
        mu_liquid=_exp_line(of.ln_mu_liquid),
        work=plane(pressure / density),
        viscosity=plane(viscosity),
    )


@cache
def _at_superheat(name: str, superheat_k: float) -> Line:
    return _line(fluids()[name].gas_enthalpy_at(superheat_k))


def _line(curve: Curve) -> Line:
    at = np.linspace(curve.low, curve.high, _POINTS)
    return Line(at, curve(at))


def _exp_line(curve: Curve) -> Line:
    found = _line(curve)
    return Line(found.at, np.exp(found.values))


def _terms(values: Array) -> tuple[Array, ...]:
    """Terms of every cell; past the last row and column of points there is a cell that goes on level."""
    padded = np.pad(values, ((0, 1), (0, 1)), mode="edge")
    plain, along, across, both = padded[:-1, :-1], padded[1:, :-1], padded[:-1, 1:], padded[1:, 1:]
    return tuple(term.ravel() for term in (plain, along - plain, across - plain, both - along - across + plain))


def _log(p_pa: Array | float) -> Array:
    with np.errstate(invalid="ignore", divide="ignore"):
        found: Array = np.log(p_pa)
    return found
