"""What is tabulated of a whole system: how it stands, its worst margin, its shortest room, its charge."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from linewright.engine import Evaluation
from linewright.engine.records import Check, RoomResult, Standing
from linewright.explore.verdicts import OPEN, checks_of


class Worst(NamedTuple):
    """The least share, and of what; "" and `None` where it is not known."""

    name: str
    share: float | None


_UNKNOWN = Worst("", None)


def worst_margin(evaluation: Evaluation, system: str) -> Worst:
    """Give the check of a system with the least margin as a share of its bound, rooms left out.

    A bound of 0 counts as 1, and only where it is broken. Where something is unjudged the worst is known only if it is
    over already.
    """
    found = [check for check in checks_of(evaluation, system) if not check.subject.startswith("room:")]
    shares = ((share, check.subject) for check in found if (share := _share(check)) is not None)
    share, subject = min(shares, default=(None, ""))
    if share is None or (share >= 0 and any(check.standing in OPEN for check in found)):
        return _UNKNOWN
    return Worst(subject, share)


def _share(check: Check) -> float | None:
    if check.margin is None or check.bound is None or check.standing in OPEN:
        return None
    if check.bound == 0:
        return check.margin if check.margin < 0 else None
    return check.margin / abs(check.bound)


def shortest_room(evaluation: Evaluation, system: str) -> Worst:
    """Give the room and mode with the least of what is delivered over what is needed, of the rooms a system serves.

    Where a room is unjudged the shortest is known only if it is short already.
    """
    result = next(item for item in evaluation.systems if item.id == system)
    served = {unit.room for unit in result.system.units}
    checks = [check for room in evaluation.rooms if room.id in served for check in room.checks]
    shares = [
        (value / need, f"{room.id} {mode}")
        for room in evaluation.rooms
        if room.id in served
        for mode, value, need in _delivered(room)
    ]
    share, name = min(shares, default=(None, ""))
    if share is None or (share >= 1 and any(check.standing in OPEN for check in checks)):
        return _UNKNOWN
    return Worst(name, share)


def _delivered(room: RoomResult) -> Iterator[tuple[str, float, float]]:
    for check in room.checks:
        if check.value is not None and check.bound and check.standing in (Standing.WITHIN, Standing.OVER):
            yield check.measure, check.value, check.bound
