"""A reading of the gauge on a system under test: its stage by the book, the air of its site, the verdict."""

from __future__ import annotations

from typing import NamedTuple

from linewright.app.project import Project
from linewright.book.schema import PressureStage
from linewright.engine.pipework_reading import Allowed, Reading, ReadingResult, Tightness, judge_reading
from linewright.model.design import System

#: A stage is told by the pressure at the start, to this share of it.
_NEAR = 0.05


class GaugeResult(NamedTuple):
    """The verdict on a system; `stage` counts from 1, none where the book has none at that pressure."""

    system: str
    stage: int | None
    stage_pa: float | None
    asked_s: float | None
    read: ReadingResult
    note: str

    @property
    def passed(self) -> bool:
        """Whether the stage is passed: the reading holds, and which stage it is is known."""
        return self.read.tightness is Tightness.HOLDS and self.stage is not None


def read_gauge(project: Project, system: System, *, start: Reading, now: Reading, allowed: Allowed) -> GaugeResult:
    """Judge a reading; the altitude is that of the site, how long to hold that of the book's stage."""
    found = _stage(project, system, start)
    stage = None if found is None else found[1]
    asked = None if stage is None else stage.hold_s
    read = judge_reading(start, now, allowed._replace(altitude_m=project.loaded.design.site.altitude_m, asked_s=asked))
    return GaugeResult(
        system.id,
        None if found is None else found[0],
        None if stage is None else stage.pressure_pa,
        asked,
        read,
        "" if found is not None else "the book has no stage at this pressure: how long to hold it is not judged",
    )


def _stage(project: Project, system: System, start: Reading) -> tuple[int, PressureStage] | None:
    """The stage of the book nearest to the pressure at the start; none where none is near."""
    pressures = project.books[system.book].compiled.book.pressures
    if pressures is None or start.pressure_pa is None:
        return None
    begun = start.pressure_pa
    stages = [
        (number, stage)
        for number, stage in enumerate(pressures.test, start=1)
        if abs(stage.pressure_pa - begun) <= _NEAR * stage.pressure_pa
    ]
    return min(stages, key=lambda one: abs(one[1].pressure_pa - begun), default=None)
