"""Stated levels against the runs between them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from linewright.document.source import Source
from linewright.document.values import written
from linewright.model.design import ROOT, Run, System
from linewright.units import Dimension, UnitSystem, over, show

#: Levels and rises are taken off drawings, rounded, at times in different units.
_SAME_LEVEL_M = 0.05


def check_rises(system: System, path: str, source: Source, *, units: UnitSystem) -> None:
    """Note runs whose stated ends are farther apart in level than the run is long, and rises that contradict them."""
    outdoor = system.outdoor
    indoor = {unit.id: unit.elevation_m for unit in system.units}
    fittings = {fitting.id: fitting.elevation_m for fitting in system.fittings}
    modules = {module.id or f"M{i + 1}": module.elevation_m for i, module in enumerate(outdoor.modules)}
    root = {ROOT: outdoor.elevation_m}
    _check(system.runs, f"{path}.runs", {**fittings, **indoor, **root}, source=source, units=units)
    _check(outdoor.pipes, f"{path}.outdoor.pipes", {**modules, **root}, source=source, units=units)


def _check(
    runs: Sequence[Run], path: str, stated: Mapping[str, float | None], *, source: Source, units: UnitSystem
) -> None:
    """Walk outward with the levels that are stated, or follow from a stated one by stated rises."""
    leaving: dict[str, list[int]] = {}
    for i, run in enumerate(runs):
        leaving.setdefault(run.from_, []).append(i)
    stack: list[tuple[str, float | None]] = [(ROOT, stated.get(ROOT))]
    seen = {ROOT}
    while stack:
        node, low = stack.pop()
        for i in leaving.get(node, ()):
            run = runs[i]
            high = stated.get(run.to)
            if low is not None and high is not None:
                _check_run(run, high - low, f"{path}[{i}]", source=source, units=units)
            elif low is not None and run.rise_m is not None:
                high = low + run.rise_m
            if run.to not in seen:
                seen.add(run.to)
                stack.append((run.to, high))


def _check_run(run: Run, rise_m: float, path: str, *, source: Source, units: UnitSystem) -> None:
    """One run between two known levels; a rise that is longer than its run was noted already."""
    length_m = run.length_m
    apart = show(abs(rise_m), Dimension.LENGTH, units, places=2)
    if run.rise_m is not None:
        too_long = length_m is not None and over(abs(run.rise_m), length_m)
        if not too_long and abs(run.rise_m - rise_m) > _SAME_LEVEL_M:
            message = f"the rise {written(f'{path}.rise', source)} is not that of the stated levels"
            source.derive(
                f"{path}.rise", message, f"{show(rise_m, Dimension.LENGTH, units, places=2)}, or other levels"
            )
    elif length_m is not None and length_m >= 0 and over(abs(rise_m), length_m):
        length = written(f"{path}.length", source)
        message = f"the levels of the ends are {apart} apart: the rise is longer than the run of {length}"
        source.derive(f"{path}.length", message, f"at least {apart}, or other levels")
