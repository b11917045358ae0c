"""A tree of runs with refrigerant in it: its shape, and what flows in each run.

Arrays over runs in walking order, so that the run before each one stands before it. Adiabatic single-phase runs. Gas of
cooling is worked out from the compressor up to the units, where it cannot fail on large losses; hot gas from the root
outward. Liquid keeps its temperature.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from linewright.physics.flow import Ends, Pipe, mass_flux
from linewright.physics.properties import Fluid
from linewright.physics.series import Array

#: Passes over the whole tree, and the share by which pressures and flows may still change: about a millikelvin.
SWEEPS, TOLERANCE = 30, 1e-6


class Tubes(NamedTuple):
    """The pipe: the run before each run (-1: none), the run that ends at each unit, lengths, bores, rises.

    length_m : equivalent length of each run; rise_m : change of level outward, upward positive
    """

    parent: NDArray[np.intp]
    unit_run: NDArray[np.intp]
    length_m: Array
    gas_bore_m: Array
    liquid_bore_m: Array
    rise_m: Array

    def gas_pipe(self, *, inward: bool) -> Pipe:
        """The gas line, its rises in the direction of flow."""
        return Pipe(self.gas_bore_m, self.length_m, -self.rise_m if inward else self.rise_m)

    def liquid_pipe(self, *, inward: bool) -> Pipe:
        """The liquid line likewise."""
        return Pipe(self.liquid_bore_m, self.length_m, -self.rise_m if inward else self.rise_m)

    def near(self, far: Array, root: float) -> Array:
        """What stands at the near end of each run: at the far end of the run before it, or at the root."""
        return np.where(self.parent >= 0, far[self.parent], root)


class Gas(NamedTuple):
    """Gas in each run: flow [kg/s], pressure at its ends [Pa], density, velocity, loss of saturation [K]."""

    flow_kg_s: Array
    near_pa: Array
    far_pa: Array
    density_kg_m3: Array
    velocity_m_s: Array
    loss_k: Array


class Paths(NamedTuple):
    """Which runs lead to which: `to` [run, run on its way, itself included], `units` [run, unit beyond it]."""

    to: Array
    units: Array


def one_pipe(length_m: float, *, gas_bore_m: float, liquid_bore_m: float, rise_m: float = 0.0) -> Tubes:
    """A single run to a single unit."""
    sizes = ([length_m], [gas_bore_m], [liquid_bore_m], [rise_m])
    return Tubes(np.array([-1]), np.array([0]), *(np.array(one) for one in sizes))


def paths(tubes: Tubes) -> Paths:
    """Work out the incidence of a tree once; it serves every evaluation on it."""
    count = len(tubes.parent)
    to = np.zeros((count, count))
    for i, before in enumerate(tubes.parent):
        if before >= 0:
            to[i] = to[before]
        to[i, i] = 1.0
    return Paths(to, to[tubes.unit_run].T.copy())


def gas_state(fluid: Fluid, tubes: Tubes, ends: Ends) -> Gas:
    """Density, velocity and loss of gas between known ends."""
    mean = (ends.near_pa + ends.far_pa) / 2.0
    density = fluid.gas_density(mean, ends.h_j_kg - fluid.dew_enthalpy(mean))
    velocity = mass_flux(ends.flow_kg_s, tubes.gas_bore_m) / density
    loss = np.abs(fluid.dew_temperature(ends.far_pa) - fluid.dew_temperature(ends.near_pa))
    return Gas(ends.flow_kg_s, ends.near_pa, ends.far_pa, density, velocity, loss)
