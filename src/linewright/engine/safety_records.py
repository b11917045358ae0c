"""What an evaluation holds of refrigerant in rooms; only where the design chose a standard."""

from __future__ import annotations

from typing import NamedTuple

from linewright.engine.records import Check, Deferred
from linewright.engine.valves import Valve
from linewright.model.design import Room
from linewright.model.safety import Profile, Space
from linewright.standards.environment import Footprint
from linewright.standards.refrigerants.data import Datum
from linewright.standards.safety.case import Case, Verdict
from linewright.standards.safety.cures import Cure


class SpaceResult(NamedTuple):
    """One room in which parts of a system stand, judged alone or with the rooms that are joined to it.

    joined : the space that counts with it, where the verdict rests on that; parts : ids of units and fittings there
    assumed : what is not stated and was taken at its worst
    """

    check: Check
    room: Room
    rooms: tuple[Room, ...]
    joined: Space | None
    parts: tuple[str, ...]
    case: Case
    verdict: Verdict
    assumed: tuple[str, ...]
    deferred_cures: Deferred[Cure]
    deferred_valve: Deferred[Valve]

    @property
    def cures(self) -> tuple[Cure, ...]:
        """What would make it pass, each proven by judging again."""
        return self.deferred_cures.rows

    @property
    def valve(self) -> Valve | None:
        """Where shut-off valves may stand for that, as far as the book's masses tell."""
        return next(iter(self.deferred_valve.rows), None)


class SafetyResult(NamedTuple):
    """Refrigerant of one system in the rooms where it stands; `others` are what is not about one room.

    values : what the standard says of the refrigerant, as it is used here
    """

    profile: Profile
    title: str
    edition: str
    refrigerant: str
    charge_kg: float | None
    values: tuple[Datum, ...]
    spaces: tuple[SpaceResult, ...]
    others: tuple[Check, ...]
    footprint: Footprint

    @property
    def tightest(self) -> SpaceResult | None:
        """The room that takes least; none where that is not known of one."""
        if any(space.check.bound is None for space in self.spaces):
            return None
        return min(self.spaces, key=lambda space: space.check.bound or 0.0, default=None)

    @property
    def checks(self) -> tuple[Check, ...]:
        """All verdicts."""
        return (*(space.check for space in self.spaces), *self.others)
