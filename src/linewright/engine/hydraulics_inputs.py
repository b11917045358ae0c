"""What physics needs of a system: its pipe, its loads, and what is missing of either."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import cache

import numpy as np

from linewright.book.roles import GAS_SIDE, outer_roles
from linewright.book.walls import wall_of
from linewright.engine.records import RunResult, SystemResult
from linewright.model.values import Role
from linewright.physics import Fluid
from linewright.physics.network import Tubes, shape_of
from linewright.physics.series import Array

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
    if all(_only_cools(result)):
        yield "a unit that heats"
    walls = _walls(result)
    for run in result.runs:
        if run.equivalent_m is None:
            yield f"equivalent length of run {run.id}"
        for role in dict.fromkeys(carriers(tuple(run.tubes))):
            yield from _missing_of_tube(run, role, walls)


def _missing_of_tube(run: RunResult, role: Role, walls: Mapping[float, float | None]) -> Iterator[str]:
    tube = run.tubes.get(role)
    if tube is None or tube.od_m is None:
        yield f"{role} size of run {run.id}"
    elif walls[tube.od_m] is None:
        yield f"wall of {tube.od_m * 1000:g} mm tube in the book"


@cache
def carriers(roles: tuple[Role, ...]) -> tuple[Role, ...]:
    """Which of the tubes of a run carry cold gas, hot gas and liquid; where none does, what one would be called."""
    return tuple(next((role for role in options if role in roles), options[0]) for options in (COLD, HOT, LIQUID))


def without_level(result: SystemResult) -> tuple[str, ...]:
    """Runs whose change of level nobody knows."""
    return tuple(run.id for run in result.runs if run.rise_m is None)


def tubes_of(result: SystemResult) -> Tubes:
    """The pipe of a system that lacks nothing; a change of level that nobody knows counts as none."""
    runs = {run.id: run for run in result.runs}
    ordered = [runs[name] for name in result.tree.ids]
    walls = _walls(result)
    cold_m, hot_m, liquid_m = (_bores(ordered, walls, which) for which in range(3))
    return Tubes(
        shape_of(result.tree.parent, result.tree.unit_runs),
        np.array([run.equivalent_m or 0.0 for run in ordered]),
        cold_m,
        hot_m,
        liquid_m,
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


def _bores(runs: Sequence[RunResult], walls: Mapping[float, float | None], which: int) -> Array:
    """Bore of each run for cold gas, hot gas or liquid."""
    sizes = [run.tubes[carriers(tuple(run.tubes))[which]].od_m or 0.0 for run in runs]
    return np.array([size - 2.0 * (walls[size] or 0.0) for size in sizes])


def _walls(result: SystemResult) -> dict[float, float | None]:
    """Wall of every size that the system has, as the book states it."""
    return walls_of(result, [tube.od_m for run in result.runs for tube in run.tubes.values() if tube.od_m is not None])


def walls_of(result: SystemResult, sizes_m: Iterable[float]) -> dict[float, float | None]:
    """Wall of each size as the book states it [m]."""
    book = result.state.ground.book.book
    return {od_m: wall_of(book, od_m) for od_m in set(sizes_m)}
