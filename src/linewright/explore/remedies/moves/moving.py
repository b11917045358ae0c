"""Units in another system: hung on the pipe of a unit on the same level, by a way that has to be measured."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from linewright.engine.records import CheckKind, SystemResult
from linewright.explore.remedies.at import At, fresh
from linewright.explore.remedies.moves.pieces import without_arm
from linewright.explore.remedies.phrases import length, phrase, plain
from linewright.explore.remedies.records import Duty, Move, MoveKind
from linewright.explore.remedies.weights import weight
from linewright.model.design import Run, Unit
from linewright.model.edits import AddSubtree, RemoveSubtree, SplitRun
from linewright.model.tree import NO_PARENT

#: Units that are tried, and systems for each.
MOST_UNITS, MOST_SYSTEMS = 4, 2


def move_units(at: At) -> Iterator[Move]:
    """Move what governs, else the smallest units, each alone."""
    if at.book.recovery or len(at.system.units) < 2:
        return
    for unit in _units(at)[:MOST_UNITS]:
        found = 0
        for other in sorted(at.others, key=lambda one: one.id):
            move = _move(at, unit, other)
            if move is not None and found < MOST_SYSTEMS:
                found += 1
                yield move


def _units(at: At) -> list[Unit]:
    named = set(at.check.governs)
    governing = [unit for unit in at.system.units if unit.id in named]
    short = at.check.governs[0] if at.check.kind is CheckKind.ROOM and at.check.governs else ""
    rest = [unit for unit in at.system.units if unit.id not in named and unit.room != short]
    return [*governing, *sorted(rest, key=lambda unit: (at.book.models[unit.model].index, unit.id))]


def _move(at: At, unit: Unit, other: SystemResult) -> Move | None:
    """One unit on the own run of the nearest-levelled unit there; none where its model or a place is not there."""
    run = at.tree.at[unit.id]
    near, own = at.near(run), at.tree.runs[run]
    host = _host(at, unit, other)
    taken = {one.to for one in other.system.runs}
    if host is None or near == NO_PARENT or own.length_m is None or unit.id in taken:
        return None
    if unit.model not in other.state.ground.book.models or other.state.ground.book.recovery:
        return None
    joint, half = fresh(at, "J"), (host.length_m or 0.0) / 2
    new = Run(from_=joint, to=unit.id, length_m=own.length_m, bends=own.bends, location=own.location)
    words = f"unit {unit.id} in system {other.id}, from a new joint {joint} on run {host.to}, "
    return Move(
        kind=MoveKind.MOVE_UNIT,
        subject=f"{at.system.id}/{unit.id}",
        edits=(
            RemoveSubtree(system=at.system.id, node=unit.id),
            *without_arm(at, near),
            SplitRun(system=other.id, run=host.to, node=joint, at_m=half),
            AddSubtree(system=other.id, runs=(new,), units=(replace(unit),)),
        ),
        words=phrase(plain(words) + "as long as its run was ({}): measure it", length(own.length_m)),
        duties=(Duty.BUILD, Duty.MEASURE),
        weight=weight(MoveKind.MOVE_UNIT),
    )


def _host(at: At, unit: Unit, other: SystemResult) -> Run | None:
    """Run of a unit of the other system whose room is on the same level, the first in the order of the list."""
    levels = {room.id: room.level for room in at.design.rooms}
    level = levels.get(unit.room)
    same = {one.id for one in other.system.units if level is not None and levels.get(one.room) == level}
    return next((run for run in other.system.runs if run.to in same and (run.length_m or 0.0) > at.spacing_m), None)
