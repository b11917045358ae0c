"""Trees of runs with refrigerant in them: their shape, and what flows in each run.

A forest is many trees laid end to end, so that one evaluation and a thousand are the same work; arrays are over all
runs, or over all units, of all trees. Adiabatic single-phase runs. Gas of cooling is worked out from the compressor up
to the units, where it cannot fail on large losses; hot gas from the root outward. Liquid keeps its temperature.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple, TypeAlias, TypeVar

import numpy as np
from numpy.typing import NDArray

from linewright.physics.flow import Ends, Pipe, mass_flux
from linewright.physics.series import Array
from linewright.physics.states import States

Places: TypeAlias = NDArray[np.intp]
T = TypeVar("T", np.float64, np.bool_)

#: Passes over all trees, and the share by which pressures and flows may still change: about a millikelvin.
SWEEPS, TOLERANCE = 30, 1e-6


class Shape(NamedTuple):
    """How the runs of one tree hang together, as a walk that enters and leaves each run once.

    parent : the run before each run (-1: none); it stands before it
    unit_run : the run that ends at each unit
    walk : what is met on the walk: i where run i is entered, i + number of runs where it is left
    enter : when each run is entered
    by_walk : units in the order in which the walk meets them; first, last : which of these are beyond each run
    """

    parent: Places
    unit_run: Places
    walk: Places
    enter: Places
    by_walk: Places
    first: Places
    last: Places


class Tubes(NamedTuple):
    """One tree of pipe: its shape, lengths, bores, rises.

    length_m : equivalent length of each run; rise_m : change of level outward, upward positive
    hot_bore_m : what carries hot gas in heating; in two tubes the same as `gas_bore_m`
    """

    shape: Shape
    length_m: Array
    gas_bore_m: Array
    hot_bore_m: Array
    liquid_bore_m: Array
    rise_m: Array


class Forest(NamedTuple):
    """Trees laid end to end. `run_start`, `unit_start`: where each begins; `tree_of_run`, `tree_of_unit` back."""

    tubes: Tubes
    run_start: Places
    unit_start: Places
    tree_of_run: Places
    tree_of_unit: Places

    def gas_pipe(self, *, hot: bool) -> Pipe:
        """The gas line, its rises in the direction of flow: hot gas flows outward, cold gas inward."""
        tubes = self.tubes
        if hot:
            return Pipe(tubes.hot_bore_m, tubes.length_m, tubes.rise_m)
        return Pipe(tubes.gas_bore_m, tubes.length_m, -tubes.rise_m)

    def liquid_pipe(self, *, inward: bool) -> Pipe:
        """The liquid line likewise."""
        return Pipe(self.tubes.liquid_bore_m, self.tubes.length_m, -self.tubes.rise_m if inward else self.tubes.rise_m)

    def along(self, of_run: Array) -> Array:
        """Sum over the runs from the root to each run, itself included; NaN all over a tree where it has one."""
        shape, unknown = self.tubes.shape, np.isnan(of_run)
        if unknown.any():
            return self.along(np.where(unknown, 0.0, of_run)) + self.by_run(self._lost(self.tree_of_run[unknown]))
        found: Array = np.cumsum(np.concatenate((of_run, -of_run)).take(shape.walk)).take(shape.enter)
        return found

    def beyond(self, of_unit: Array) -> Array:
        """Sum over the units beyond each run; NaN all over a tree where it has one."""
        shape, unknown = self.tubes.shape, np.isnan(of_unit)
        if unknown.any():
            return self.beyond(np.where(unknown, 0.0, of_unit)) + self.by_run(self._lost(self.tree_of_unit[unknown]))
        summed = np.zeros(len(of_unit) + 1)
        np.cumsum(of_unit.take(shape.by_walk), out=summed[1:])
        found: Array = summed.take(shape.last) - summed.take(shape.first)
        return found

    def least_beyond(self, of_unit: Array) -> Array:
        """Least value among the units beyond each run."""
        shape = self.tubes.shape
        bounds = np.stack([shape.first, shape.last], axis=1).ravel()
        padded = np.append(of_unit.take(shape.by_walk), np.inf)
        found: Array = np.minimum.reduceat(padded, bounds)[::2]
        return found

    def _lost(self, trees: Places) -> Array:
        """Nothing to add to most trees, NaN to these: so that what is not known of one does not reach the next."""
        found = np.zeros(len(self.run_start))
        found[trees] = np.nan
        return found

    def whole(self, of_unit: Array) -> Array:
        """Sum over the units of each tree."""
        found: Array = np.add.reduceat(of_unit, self.unit_start)
        return found

    def at_units(self, of_run: Array) -> Array:
        """What stands at the far end of the run of each unit."""
        return of_run.take(self.tubes.shape.unit_run)

    def by_run(self, of_tree: Array) -> Array:
        """What is the same in all runs of a tree."""
        return of_tree.take(self.tree_of_run)

    def by_unit(self, of_tree: NDArray[T]) -> NDArray[T]:
        """What is the same at all units of a tree."""
        return of_tree.take(self.tree_of_unit)


class Gas(NamedTuple):
    """Gas in each run: flow [kg/s], pressure at its ends [Pa], density, velocity, loss of saturation [K]."""

    flow_kg_s: Array
    near_pa: Array
    far_pa: Array
    density_kg_m3: Array
    velocity_m_s: Array
    loss_k: Array


def shape_of(parent: Sequence[int], unit_run: Sequence[int]) -> Shape:
    """Walk a tree. Every run leads to a unit, and the run before each one stands before it."""
    count = len(parent)
    size = [1] * count
    for i in range(count - 1, 0, -1):
        if parent[i] >= 0:
            size[parent[i]] += size[i]
    enter, free, top = [0] * count, [0] * count, 0
    for i, before in enumerate(parent):
        if before < 0:
            enter[i], top = top, top + 2 * size[i]
        else:
            enter[i] = free[before]
            free[before] += 2 * size[i]
        free[i] = enter[i] + 1
    entered, sizes, ends = np.array(enter), np.array(size), np.array(unit_run, dtype=np.intp)
    left = entered + 2 * sizes - 1
    walk = np.empty(2 * count, dtype=np.intp)
    walk[entered], walk[left] = np.arange(count), np.arange(count, 2 * count)
    by_walk = np.argsort(entered[ends])
    met = entered[ends][by_walk]
    first, last = np.searchsorted(met, entered), np.searchsorted(met, left)
    return Shape(np.array(parent, dtype=np.intp), ends, walk, entered, by_walk, first, last)


def one_pipe(length_m: float, *, gas_bore_m: float, liquid_bore_m: float, rise_m: float = 0.0) -> Tubes:
    """A single run to a single unit."""
    sizes = ([length_m], [gas_bore_m], [gas_bore_m], [liquid_bore_m], [rise_m])
    return Tubes(_SINGLE, *(np.array(one) for one in sizes))


_SINGLE = shape_of([-1], [0])


def forest_of(trees: Sequence[Tubes]) -> Forest:
    """Lay trees end to end."""
    runs = np.array([len(tree.length_m) for tree in trees])
    units = np.array([len(tree.shape.unit_run) for tree in trees])
    run_start, unit_start = _starts(runs), _starts(units)
    floats = (np.concatenate([tree[k] for tree in trees]) for k in range(1, len(Tubes._fields)))
    tubes = Tubes(_laid(trees, runs, units), *floats)
    number = np.arange(len(trees))
    return Forest(tubes, run_start, unit_start, np.repeat(number, runs), np.repeat(number, units))


def gas_state(states: States, forest: Forest, ends: Ends, *, hot: bool) -> Gas:
    """Density, velocity and loss of gas between known ends."""
    density, _ = states.gas_of_enthalpy((ends.near_pa + ends.far_pa) / 2.0, ends.h_j_kg)
    velocity = mass_flux(ends.flow_kg_s, forest.gas_pipe(hot=hot).bore_m) / density
    loss = np.abs(states.dew_temperature(ends.far_pa) - states.dew_temperature(ends.near_pa))
    return Gas(ends.flow_kg_s, ends.near_pa, ends.far_pa, density, velocity, loss)


def _laid(trees: Sequence[Tubes], runs: Places, units: Places) -> Shape:
    """Shapes end to end, their numbers shifted."""
    shapes = [tree.shape for tree in trees]
    if len(shapes) == 1:
        return shapes[0]
    run_shift, unit_shift = _starts(runs), _starts(units)
    total = int(np.sum(runs))

    def shifted(field: int, by: Places, counts: Places) -> Places:
        found: Places = np.concatenate([shape[field] for shape in shapes]) + np.repeat(by, counts)
        return found

    parent, walk = shifted(0, run_shift, runs), np.concatenate([shape.walk for shape in shapes])
    leaves = walk >= np.repeat(runs, 2 * runs)
    return Shape(
        parent=np.where(np.concatenate([shape.parent for shape in shapes]) < 0, -1, parent),
        unit_run=shifted(1, run_shift, units),
        walk=walk + np.repeat(run_shift, 2 * runs) + leaves * (total - np.repeat(runs, 2 * runs)),
        enter=shifted(3, 2 * run_shift, runs),
        by_walk=shifted(4, unit_shift, units),
        first=shifted(5, unit_shift, runs),
        last=shifted(6, unit_shift, runs),
    )


def _starts(counts: Places) -> Places:
    found: Places = np.concatenate(([0], np.cumsum(counts)[:-1]))
    return found
