"""What physics needs of a system: its pipe, its loads, and what is missing of either."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from linewright.engine.records import RunResult, SystemResult
from linewright.model.values import Role
from linewright.physics import Fluid
from linewright.physics.network import Tubes
from linewright.physics.series import Array
from linewright.units import same_tube


def missing_for_physics(result: SystemResult, used: Fluid | None) -> Iterator[str]:
    """Name what a system lacks."""
    ground = result.state.ground
    if used is None:
        yield f"properties of {ground.book.book.refrigerant}"
    if ground.zones:
        yield "flow in three tubes: mode boxes are not worked out yet"
        return
    for run in result.runs:
        if run.equivalent_m is None:
            yield f"equivalent length of run {run.id}"
        for role in (Role.GAS, Role.LIQUID):
            yield from _missing_of_tube(result, run, role)


def _missing_of_tube(result: SystemResult, run: RunResult, role: Role) -> Iterator[str]:
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
        np.array(result.tree.parent),
        np.array(result.tree.unit_runs),
        np.array([run.equivalent_m or 0.0 for run in ordered]),
        _bores(result, ordered, Role.GAS),
        _bores(result, ordered, Role.LIQUID),
        np.array([run.rise_m or 0.0 for run in ordered]),
    )


def loads_of(result: SystemResult, mode: str) -> Array:
    """Rated capacity of each unit (`cooling_w`, `heating_w`), together no more than that of the group [W]."""
    ground = result.state.ground
    watts = [float(getattr(model, mode)) for model in ground.models]
    stated: float | None = getattr(ground.group, mode)
    most = stated if stated is not None else sum(getattr(module.data, mode) for module in ground.modules)
    return np.array(watts) * min(1.0, most / sum(watts))


def _bores(result: SystemResult, runs: Sequence[RunResult], role: Role) -> Array:
    sizes = [run.tubes[role].od_m or 0.0 for run in runs]
    bores = {size: size - 2.0 * (_wall(result, size) or 0.0) for size in set(sizes)}
    return np.array([bores[size] for size in sizes])


def _wall(result: SystemResult, od_m: float) -> float | None:
    walls = result.state.ground.book.book.tubes.wall_m
    return next((wall for size, wall in walls.items() if same_tube(size, od_m)), None)
