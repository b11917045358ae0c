"""Nitrogen of the pressure test: the bore of all tube, raised to the highest stage of the book, in cylinders."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil
from typing import NamedTuple

from linewright.engine.records import Evaluation, SystemResult
from linewright.standards.pipework.formulas import BeyondError
from linewright.standards.pipework.nitrogen import bore_volume, free_volume
from linewright.takeoff.records import Gap, Kind, Line
from linewright.takeoff.settings import Settings
from linewright.takeoff.tubes import all_tubes
from linewright.takeoff.wanted import wanted

#: The pressure at which gas is free [Pa]: that of the standard atmosphere.
_FREE_PA = 101_325.0
#: At 20 MPa a cylinder holds 5 % less than the gas law has it (cross-check: compressibility 1.05 by CoolProp 8.0.0).
_HELD = 0.95
_PURGE = "counted for one test of the pipe alone: not for units, brazing with nitrogen flowing, or a test again"


class _Filled(NamedTuple):
    """Bore of a system [m3] and the highest stage of its test [Pa]; free gas that fills it [m3]."""

    volume_m3: float
    pressure_pa: float
    free_m3: float


def nitrogen_lines(evaluation: Evaluation, settings: Settings, gaps: dict[Gap, None]) -> Iterator[Line]:
    """Count cylinders; what is not known of the bore is added to the gaps."""
    found = [one for result in evaluation.systems if (one := _filled(result, settings, gaps)) is not None]
    if not found:
        return
    highest, free = max(one.pressure_pa for one in found), sum(one.free_m3 for one in found)
    # A cylinder gives only what is above the pressure of the pipe that it fills.
    each = _HELD * free_volume(settings.nitrogen_m3, settings.nitrogen_pa - highest, _FREE_PA)
    if each <= 0.0:
        said = "the pressure of the cylinder is not above that of the test: none are counted"
        gaps[Gap("nitrogen", said, left_out=True)] = None
        return
    gaps[Gap("nitrogen", _PURGE)] = None
    count = ceil(free * (1.0 + settings.waste) / each - 1e-9)
    yield Line(
        Kind.NITROGEN,
        volume_m3=settings.nitrogen_m3,
        pressure_pa=settings.nitrogen_pa,
        counted=count,
        count=count,
        net=free,
    )


def _filled(result: SystemResult, settings: Settings, gaps: dict[Gap, None]) -> _Filled | None:
    pressures = result.state.ground.book.book.pressures
    if pressures is None or not pressures.test:
        gaps[Gap(f"{result.id}/nitrogen", "the book states no pressure test: no nitrogen is counted")] = None
        return None
    highest, volume = max(stage.pressure_pa for stage in pressures.test), 0.0
    for tube in all_tubes(result, as_built=settings.as_built):
        if tube.od_m is None or tube.length_m is None:
            # The run is a gap of the take-off already; its bore is left out of this as well.
            continue
        wall = wanted(result, tube.od_m).material.wall_m
        try:
            volume += 0.0 if wall is None else bore_volume(tube.od_m, wall, tube.length_m)
        except BeyondError:
            wall = None
        if wall is None:
            said = f"no wall of {tube.od_m * 1000:.6g} mm tube: its bore is not in the nitrogen"
            gaps[Gap(f"{result.id}/nitrogen", said, left_out=True)] = None
    return _Filled(volume, highest, free_volume(volume, highest, _FREE_PA))
