"""What is found when a design that holds is let grow until something gives. Every value is SI."""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple

from linewright.engine.records import Check, Standing
from linewright.model.edits import Edit
from linewright.units import Dimension


class GrowthKind(StrEnum):
    """What grows."""

    LENGTH = "length"
    LEVEL = "level"
    COUNT = "count"
    LOAD = "load"


class Growth(NamedTuple):
    """How far one thing may grow before something gives.

    subject : what grows, such as `main/run:J1.length`; words : the same for people
    stated : its value now; step : the tolerance to which it was found; scan : how coarsely it was scanned
    holds_to : the last value that holds; fails_at : the next step, which does not; both `None` where unknown
    tried_to : the last value of the scan; with `fails_at` of `None`, nothing gave up to there
    gives : what is over, or no longer judged, at `fails_at`; faults : why it is no design there
    """

    subject: str
    kind: GrowthKind
    words: str
    dimension: Dimension
    down: bool
    stated: float
    step: float
    scan: float
    holds_to: float
    fails_at: float | None
    tried_to: float
    gives: tuple[Check, ...] = ()
    faults: tuple[str, ...] = ()

    @property
    def room(self) -> float:
        """How much may be added, or taken off where it goes down."""
        return abs(self.holds_to - self.stated)


class LeftOut(NamedTuple):
    """Something that could not grow, and why."""

    subject: str
    why: str


class TighteningKind(StrEnum):
    """What could be less."""

    GROUP = "group"
    UNIT = "unit"
    TUBE = "tube"
    ACTION = "action"


class Tightening(NamedTuple):
    """Something smaller with which the system still holds, proven by judging it again.

    before, after : figures of what becomes smaller, in `dimension`; none where it has none
    charge_before_kg, charge_after_kg : additional charge
    """

    kind: TighteningKind
    subject: str
    words: str
    edit: Edit
    dimension: Dimension
    before: float | None
    after: float | None
    charge_before_kg: float | None
    charge_after_kg: float | None


class Headroom(NamedTuple):
    """What one system has to spare.

    standing : how the system and the rooms that it serves stand now
    broken, open : what is over, and what is unjudged or to confirm, now
    claimed : whether any headroom is claimed at all
    beside : with `claimed`, whether it was found with what is open left out of the judgement
    tried : how many evaluations it took
    """

    system: str
    standing: Standing
    broken: tuple[Check, ...]
    open: tuple[Check, ...]
    claimed: bool
    beside: bool
    growths: tuple[Growth, ...]
    left_out: tuple[LeftOut, ...]
    tightenings: tuple[Tightening, ...]
    not_tightened: tuple[LeftOut, ...]
    tried: int
