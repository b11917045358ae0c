"""Stated levels against the runs between them."""

from __future__ import annotations

from collections.abc import Mapping

from linewright.model.design import ROOT, Run, System
from linewright.model.soundness.notes import Notes
from linewright.units import Dimension, UnitSystem, over, show

#: Levels and rises are taken off drawings, rounded, at times in different units.
_SAME_LEVEL_M = 0.05


def check_rises(system: System, path: str, notes: Notes, *, units: UnitSystem) -> None:
    """Note runs whose stated ends are farther apart in level than the run is long, and rises that contradict them."""
    outdoor, stated = system.outdoor, stated_levels(system)
    for i, run in enumerate(system.runs):
        check_levels(run, stated, f"{path}.runs[{i}]", notes=notes, units=units)
    modules = {module.id or f"M{i + 1}": module.elevation_m for i, module in enumerate(outdoor.modules)}
    modules[ROOT] = outdoor.elevation_m
    for i, run in enumerate(outdoor.pipes):
        rise_m = _rise(run, modules)
        if rise_m is not None:
            _check_length(run, rise_m, f"{path}.outdoor.pipes[{i}]", notes=notes, units=units)


def stated_levels(system: System) -> Mapping[str, float | None]:
    """Give the stated level of every point on the units' side, by name [m]."""
    fittings = {fitting.id: fitting.elevation_m for fitting in system.fittings}
    indoor = {unit.id: unit.elevation_m for unit in system.units}
    return {**fittings, **indoor, ROOT: system.outdoor.elevation_m}


def check_levels(run: Run, stated: Mapping[str, float | None], path: str, *, notes: Notes, units: UnitSystem) -> None:
    """Check a run against the stated levels of its ends."""
    rise_m = _rise(run, stated)
    if rise_m is not None:
        _check_rise(run, rise_m, path, notes=notes, units=units)
        _check_length(run, rise_m, path, notes=notes, units=units)


def _rise(run: Run, stated: Mapping[str, float | None]) -> float | None:
    """Difference of the stated levels of a run's ends [m]."""
    low, high = stated.get(run.from_), stated.get(run.to)
    return None if low is None or high is None else high - low


def _check_rise(run: Run, rise_m: float, path: str, *, notes: Notes, units: UnitSystem) -> None:
    """Note a stated rise that is another; one that is longer than its run was noted already."""
    if run.rise_m is None or (run.length_m is not None and over(abs(run.rise_m), run.length_m)):
        return
    if abs(run.rise_m - rise_m) > _SAME_LEVEL_M:
        right = show(rise_m, Dimension.LENGTH, units, places=2)
        message = f"the rise {notes.written(f'{path}.rise')} is not that of the stated levels"
        notes.derive(f"{path}.rise", message, f"{right}, or other levels")


def _check_length(run: Run, rise_m: float, path: str, *, notes: Notes, units: UnitSystem) -> None:
    if run.rise_m is None and run.length_m is not None and run.length_m >= 0 and over(abs(rise_m), run.length_m):
        apart = show(abs(rise_m), Dimension.LENGTH, units, places=2)
        length = notes.written(f"{path}.length")
        message = f"the levels of the ends are {apart} apart: the rise is longer than the run of {length}"
        notes.derive(f"{path}.length", message, f"at least {apart}, or other levels")
