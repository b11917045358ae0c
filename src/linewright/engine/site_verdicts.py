"""Verdicts on what was read on site. What is missing is never a pass."""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple

from linewright.engine.pipework_reading import Allowed, Reading, ReadingResult, Tightness, judge_reading
from linewright.engine.site_targets import Stage, Vacuum
from linewright.units import over


class Outcome(StrEnum):
    """What a record shows; what is only noted is judged by nothing."""

    HOLDS = "holds"
    FAILS = "fails"
    NOT_JUDGED = "not judged"
    NOTED = "noted"


class Found(NamedTuple):
    """A verdict and what it rests on, or what is missing for one."""

    outcome: Outcome
    why: tuple[str, ...]


class Evacuated(NamedTuple):
    """What was read while the pipe was evacuated [Pa absolute, s, degC]; `None` where it was not written down."""

    reached_pa: float | None
    after_pa: float | None
    held_s: float | None
    coldest_degc: float | None


#: Below this water in the pipe freezes and does not boil off: 35 degF, [UFGS-15182].
COLDEST_DEGC = (35.0 - 32.0) / 1.8
_OUTCOMES = {
    Tightness.HOLDS: Outcome.HOLDS,
    Tightness.FALLS: Outcome.FAILS,
    Tightness.UNTOLD: Outcome.NOT_JUDGED,
}


def judge_stage(stage: Stage | None, start: Reading, now: Reading, allowed: Allowed) -> tuple[Found, ReadingResult]:
    """Whether a stage of the pressure test held, at the pressure that the book asks for; and the reading's working.

    stage : none where the book states none; then only whether the pressure held is judged
    """
    reading = judge_reading(start, now, allowed)
    return _at_stage(stage, start, reading, allowed.pressure_pa or 0.0), reading


def _at_stage(stage: Stage | None, start: Reading, reading: ReadingResult, off: float) -> Found:
    outcome, why = _OUTCOMES[reading.tightness], reading.why
    if stage is None or start.pressure_pa is None:
        return Found(outcome, why)
    if over(start.pressure_pa, stage.pressure_pa + off):
        return Found(Outcome.FAILS, (*why, "begun above the pressure of the stage: that may be more than parts bear"))
    if over(stage.pressure_pa - off, start.pressure_pa) and outcome is Outcome.HOLDS:
        return Found(Outcome.NOT_JUDGED, (*why, "begun below the pressure of the stage, which so was not tested"))
    return Found(outcome, why)


def judge_vacuum(target: Vacuum, read: Evacuated) -> Found:
    """Whether the vacuum was reached and stayed, for as long as is asked, in pipe that was warm enough."""
    if read.reached_pa is None or read.after_pa is None:
        return Found(Outcome.NOT_JUDGED, ("the pressure reached, and that after the hold, are both needed",))
    if min(read.reached_pa, read.after_pa) < 0.0:
        return Found(Outcome.NOT_JUDGED, ("a vacuum is read as absolute pressure, which is never below nought",))
    if over(read.reached_pa, target.reach_pa):
        return Found(Outcome.FAILS, ("the vacuum that is asked for was not reached",))
    if over(read.after_pa, target.after_pa):
        return Found(Outcome.FAILS, ("pressure came back while it was closed: a leak, or water that boils",))
    missing = _unheld(target, read, read.after_pa)
    if missing:
        return Found(Outcome.NOT_JUDGED, missing)
    return Found(Outcome.HOLDS, ("reached, and stayed low while it was closed",))


def _unheld(target: Vacuum, read: Evacuated, after_pa: float) -> tuple[str, ...]:
    found = []
    if read.held_s is None:
        found.append("how long it was closed is not known")
    elif over(target.hold_s, read.held_s):
        found.append("not closed for as long as is asked")
    if read.coldest_degc is None:
        found.append("the coldest temperature is not known: water in cold pipe freezes and is not seen")
    elif over(COLDEST_DEGC, read.coldest_degc):
        found.append("colder than 35 °F (1.7 °C): water in the pipe may be frozen and is not seen")
    if over(after_pa, target.reach_pa) and not target.source.startswith("["):
        found.append("above the book's vacuum after the hold: the book does not say what may be left")
    return tuple(found)


def judge_weighed(wanted_kg: float | None, weighed_kg: float | None, scale_kg: float | None) -> Found:
    """Whether what was weighed in is what the worksheet asks for, as closely as the scale tells."""
    if weighed_kg is None:
        return Found(Outcome.NOT_JUDGED, ("what was weighed in is not known",))
    if wanted_kg is None:
        return Found(Outcome.NOT_JUDGED, ("the worksheet has no charge: something in it is not known",))
    if scale_kg is None:
        return Found(Outcome.NOT_JUDGED, ("what the scale may be off by is not stated",))
    apart = weighed_kg - wanted_kg
    if over(abs(apart), scale_kg):
        return Found(Outcome.FAILS, ("more than the worksheet asks for" if apart > 0 else "less than it asks for",))
    return Found(Outcome.HOLDS, ("as the worksheet asks, as closely as the scale tells",))
