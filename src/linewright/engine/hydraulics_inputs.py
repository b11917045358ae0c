"""What physics needs of a system: its pipe, its loads, and what is missing of either."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from linewright.book.roles import GAS_SIDE, outer_roles
from linewright.engine.records import RunResult, SystemResult
from linewright.model.values import Role
from linewright.physics import Fluid
from linewright.physics.network import Tubes, shape_of
from linewright.physics.series import Array
from linewright.units import same_tube

#: What carries the gas of cooling, the hot gas of heating, the liquid of both: the first that a run has. Where there is
#: only a suction tube nothing flows in heating.
COLD, HOT, LIQUID = GAS_SIDE, (Role.GAS, Role.HIGH_LOW, Role.HIGH, Role.SUCTION), (Role.LIQUID,)


def missing_for_physics(result: SystemResult, used: Fluid | None) -> Iterator[str]:
    """Name what a system lacks."""
    ground = result.state.ground
    if used is None:
        yield f"properties of {ground.book.book.refrigerant}"
    if ground.zones and Role.LIQUID not in outer_roles(ground.book.book):
        yield "flow in the two tubes to mode boxes: both phases share them, which is not worked out"
        return
    for run in result.runs:
        if run.equivalent_m is None:
            yield f"equivalent length of run {run.id}"
        for options in (COLD, HOT, LIQUID):
            yield from _missing_of_tube(result, run, options)


def _missing_of_tube(result: SystemResult, run: RunResult, options: Sequence[Role]) -> Iterator[str]:
    role = next((role for role in options if role in run.tubes), options[0])
    tube = run.tubes.get(role)
    if tube is None or tube.od_m is None:
        yield f"{role} size of run {run.id}"
    elif _wall(result, tube.od_m) is None:
        yield f"wall of {tube.od_m * 1000:g} mm tube in the book"


def without_level(result: SystemResult) -> tuple[str, ...]:
    """Runs whose change of level nobody knows."""
    return tuple(run.id for run in result.runs if run.rise_m is None)


def tubes_of(result: SystemResult) -> Tubes:
    """The pipe of a system that lacks nothing; a change of level that nobody knows counts as none."""
    runs = {run.id: run for run in result.runs}
    ordered = [runs[name] for name in result.tree.ids]
    return Tubes(
        shape_of(result.tree.parent, result.tree.unit_runs),
        np.array([run.equivalent_m or 0.0 for run in ordered]),
        _bores(result, ordered, COLD),
        _bores(result, ordered, HOT),
        _bores(result, ordered, LIQUID),
        np.array([run.rise_m or 0.0 for run in ordered]),
    )


def loads_of(result: SystemResult, mode: str) -> Array:
    """Rated capacity of each unit (`cooling_w`, `heating_w`), together no more than that of the group [W].

    None in heating for a unit that only cools.
    """
    ground = result.state.ground
    watts = [float(getattr(model, mode)) for model in ground.models]
    stated: float | None = getattr(ground.group, mode)
    most = stated if stated is not None else sum(getattr(module.data, mode) for module in ground.modules)
    if mode == "heating_w":
        watts = [0.0 if only else load for only, load in zip(_only_cools(result), watts, strict=True)]
    return np.array(watts) * min(1.0, most / sum(watts))


def _only_cools(result: SystemResult) -> list[bool]:
    """Whether no tube to a unit could bring it hot gas."""
    tubes = {run.id: run.tubes for run in result.runs}
    return [Role.GAS not in tubes[unit.id] for unit in result.system.units]


def _bores(result: SystemResult, runs: Sequence[RunResult], options: Sequence[Role]) -> Array:
    sizes = [next(run.tubes[role].od_m or 0.0 for role in options if role in run.tubes) for run in runs]
    bores = {size: size - 2.0 * (_wall(result, size) or 0.0) for size in set(sizes)}
    return np.array([bores[size] for size in sizes])


def _wall(result: SystemResult, od_m: float) -> float | None:
    walls = result.state.ground.book.book.tubes.wall_m
    return next((wall for size, wall in walls.items() if same_tube(size, od_m)), None)
