"""Trees of pipe for timing physics: one, and variants of it of which every third hangs together otherwise."""

from __future__ import annotations

from collections.abc import Callable
from random import Random
from typing import NamedTuple

import numpy as np

from linewright.physics.compressor import Compressors, Control, CoolingAt, rating
from linewright.physics.cooling import Cooled, cool
from linewright.physics.heating import Heated, HeatingAt, heat
from linewright.physics.network import Shape, Tubes, forest_of, shape_of
from linewright.physics.states import States

_AT, _UNIT_W = CoolingAt(), 2200.0
#: Bores by the number of units beyond, each twice as many as the one before [m].
_GAS_M = (0.0139, 0.0139, 0.0202, 0.0266, 0.034, 0.0504, 0.0662, 0.09, 0.12, 0.15)


class Split(NamedTuple):
    """A tree that was split again and again: its shape, and how many units are beyond each run."""

    shape: Shape
    beyond: list[int]


def split_tree(units: int, middle: Callable[[int, int], int]) -> Split:
    """Split so many units again and again where `middle` of the first and the one past the last says."""
    parent: list[int] = []
    unit_run, beyond = [0] * units, []

    def split(first: int, last: int, before: int) -> None:
        parent.append(before)
        here = len(parent) - 1
        beyond.append(last - first)
        if last - first == 1:
            unit_run[first] = here
            return
        at = middle(first, last)
        split(first, at, here)
        split(at, last, here)

    split(0, units, -1)
    return Split(shape_of(parent, unit_run), beyond)


def tree_of_pipe(units: int) -> Tubes:
    """Halve the units again and again."""
    shape, beyond = split_tree(units, lambda first, last: (first + last) // 2)
    gas = np.array([_GAS_M[int(np.log2(count))] for count in beyond])
    length = np.where(np.array(beyond) > 1, 3.0, 4.0)
    length[0] = 20.0
    rise = np.zeros(len(beyond))
    rise[0] = -7.0
    return Tubes(shape, length, gas, gas, gas * 0.6, rise)


def variants(tree: Tubes, count: int, seed: int = 1) -> list[Tubes]:
    """Change bores and lengths of a tree; hang a unit elsewhere in every third variant."""
    rng = Random(seed)  # noqa: S311 - random cases, no secrets
    found = []
    for i in range(count):
        gas, length = tree.gas_bore_m.copy(), tree.length_m.copy()
        gas[rng.randrange(len(gas))] *= 1.2
        length[rng.randrange(len(length))] += 2.0
        shape = tree.shape
        if i % 3 == 0:
            parent = shape.parent.tolist()
            run = int(shape.unit_run[rng.randrange(len(shape.unit_run) // 2, len(shape.unit_run))])
            joints = [one for one in set(parent) if 0 <= one < run and one != parent[run]]
            if parent.count(parent[run]) > 1:
                parent[run] = rng.choice(joints)
            shape = shape_of(parent, shape.unit_run.tolist())
        found.append(tree._replace(shape=shape, gas_bore_m=gas, hot_bore_m=gas, length_m=length))
    return found


def both_modes(states: States, trees: list[Tubes]) -> tuple[Cooled, Heated]:
    """Work out cooling and heating of trees whose units are all alike."""
    forest = forest_of(trees)
    rated = np.full(len(forest.tree_of_unit), _UNIT_W)
    drawn = rating(states, forest.whole(rated), _AT, bore_m=forest.tubes.gas_bore_m[forest.run_start])
    compressors = Compressors.of(drawn, [Control.FLOATING] * len(trees))
    return cool(states, forest, rated, _AT, compressors=compressors), heat(states, forest, rated, HeatingAt())
