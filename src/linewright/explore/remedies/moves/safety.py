"""Measures in a room that refrigerant may leak into: those that the engine found by judging the room again."""

from __future__ import annotations

import math
from collections.abc import Iterator
from types import MappingProxyType

from linewright.engine.records import CheckKind
from linewright.engine.safety_records import SpaceResult
from linewright.explore.remedies.at import At
from linewright.explore.remedies.phrases import Given, Safe, phrase, plain
from linewright.explore.remedies.records import Duty, Move, MoveKind
from linewright.explore.remedies.weights import weight
from linewright.model.edits import Edit, Kind, Set
from linewright.standards.safety.cures import Cure, Part

#: Sets of measures that are tried for a room.
MOST_CURES = 6
#: To what amounts are rounded, to the safe side: openings [m2], flows [m3/s], masses [kg].
_STEPS = MappingProxyType({"openings": 0.001, "exhaust": 0.001, "circulation": 0.001, "releasable": 0.01})
_PLACES = MappingProxyType({"openings": 3, "exhaust": 1, "circulation": 1, "releasable": 2})
_WORDS = MappingProxyType(
    {
        "tight": "pipe made tight",
        "alarm": "detector with alarm",
        "exhaust": "exhaust of at least {}",
        "circulation": "circulation of at least {}",
        "openings": "two openings, high and low, of at least {} each",
        "releasable": "shut-off valves that leave at most {}",
    }
)


def safety(at: At) -> Iterator[Move]:
    """Measures for the room of the check, the fewest together first; a larger floor is no measure."""
    if at.check.kind is not CheckKind.REFRIGERANT or at.result.safety is None:
        return
    space = next((one for one in at.result.safety.spaces if one.check.subject == at.check.subject), None)
    if space is None:
        return
    done = 0
    for cure in space.cures:
        if any(part.what not in _WORDS for part in cure.parts):
            continue
        yield _move(at, space, cure)
        done += 1
        if done == MOST_CURES:
            return


def _move(at: At, space: SpaceResult, cure: Cure) -> Move:
    texts, given = [], list[Given]()
    for part in cure.parts:
        texts.append(_WORDS[part.what])
        if part.value is not None:
            safe = Safe.AT_MOST if part.what == "releasable" else Safe.AT_LEAST
            given.append(Given(value=_rounded(part), dimension=part.dimension, safe=safe, places=_PLACES[part.what]))
    where = plain(f"in room {space.room.id}: ")
    valve = f" at the beginning of run {space.valve.run}" if space.valve is not None else ""
    with_valves = any(part.what == "releasable" for part in cure.parts)
    return Move(
        kind=MoveKind.SAFETY,
        subject=f"{space.room.id}: {' '.join(sorted(part.what for part in cure.parts))}",
        edits=tuple(edit for part in cure.parts for edit in _edits(at, space, part)),
        words=phrase(f"{where}{' with '.join(texts)}{plain(valve) if with_valves else ''}", *given),
        duties=(Duty.INSTALL,),
        weight=weight(MoveKind.SAFETY, len(cure.parts)),
    )


def _edits(at: At, space: SpaceResult, part: Part) -> Iterator[Edit]:
    amount = None if part.value is None else _rounded(part)
    room = space.room.id
    values: dict[str, dict[str, object]] = {
        "alarm": {"alarm": True},
        "exhaust": {"exhaust_m3_s": amount},
        "circulation": {"circulation_m3_s": amount},
        "openings": {"opening_m2": amount, "opening_edge_m": 0.0},
    }
    if part.what in values:
        yield Set(kind=Kind.ROOM, id=room, values=values[part.what])
    elif part.what == "tight":
        yield Set(kind=Kind.SYSTEM, id=at.system.id, values={"tight": True})
    elif amount is not None:
        left = MappingProxyType({**at.system.releasable, room: amount})
        yield Set(kind=Kind.SYSTEM, id=at.system.id, values={"releasable": left})


def _rounded(part: Part) -> float:
    """An amount to the safe side: more of everything, less of what is left behind valves."""
    step, amount = _STEPS[part.what], part.value or 0.0
    steps = math.floor(amount / step + 1e-9) if part.what == "releasable" else math.ceil(amount / step - 1e-9)
    return round(steps * step, 6)
