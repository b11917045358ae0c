"""Trying moves on a design: each trial is judged by the engine and counted against the budget."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace
from typing import NamedTuple

from linewright.engine import evaluate
from linewright.engine.library import Library
from linewright.engine.records import CheckKind, RoomResult, SystemResult
from linewright.explore.remedies.checks import Checks, checks_of, crowd
from linewright.explore.remedies.records import Key, Move, MoveKind
from linewright.model.design import Design
from linewright.model.edits import Batch, EditRefusedError, apply

LOCKED = "it is locked by "


class SpentError(Exception):
    """The budget of evaluations is used up."""


class Trial(NamedTuple):
    """A design after moves, with the records of every system and room and its checks by key.

    names : of all nodes that there are or were on the way here, none of which is given anew
    """

    moves: tuple[Move, ...]
    design: Design
    systems: Mapping[str, SystemResult]
    rooms: Mapping[str, RoomResult]
    checks: Checks
    names: frozenset[str]

    def crowd(self, key: Key) -> float:
        """Give the share of those measured that would have to change for a limit to be kept."""
        check = self.checks.get(key)
        result = None if check is None else self.systems.get(check.subject.partition("/")[0])
        if check is None or result is None or check.kind is not CheckKind.LIMIT:
            return 0.0
        return crowd(check, result.measured(check))

    @property
    def batch(self) -> Batch:
        """Every edit as one gesture on the design that was searched."""
        return Batch(edits=tuple(edit for move in self.moves for edit in move.edits))


class Trials:
    """Makes trials and keeps count: evaluations, moves by kind, refusals, the locks behind them."""

    def __init__(self, design: Design, library: Library, budget: int, *, physics: bool = False) -> None:
        """Judge the design as it stands, which counts as one evaluation; with `physics` what flows as well."""
        self._library, self.budget, self._physics = library, budget, physics
        self.evaluations, self.refused = 0, 0
        self._more: Callable[[], int] = lambda: 0
        self.tried: Counter[MoveKind] = Counter()
        self.locks: set[str] = set()
        self._names = _names(design)
        self.base = self._whole(design, ())

    def go_on_by(self, more: Callable[[], int]) -> None:
        """Ask `more` for further evaluations when the budget is used up, before the search ends of it."""
        self._more = more

    def _check_budget(self) -> None:
        if self.evaluations >= self.budget:
            self.budget += self._more()
        if self.evaluations >= self.budget:
            raise SpentError

    def after(self, trial: Trial, move: Move) -> Trial | None:
        """Make a move; none where it cannot be made. Raises SpentError when the budget is used up."""
        made = self._applied(trial.design, Batch(edits=move.edits))
        if made is None:
            return None
        self._check_budget()
        self.tried[move.kind] += 1
        return self._partly(trial, made, (*trial.moves, move))

    def anew(self, moves: tuple[Move, ...]) -> Trial | None:
        """Make moves on the design that was searched, as one gesture, and judge all of it; likewise."""
        batch = Batch(edits=tuple(edit for move in moves for edit in move.edits))
        made = self._applied(self.base.design, batch)
        if made is None:
            return None
        self._check_budget()
        return self._whole(made, moves)

    def _applied(self, design: Design, batch: Batch) -> Design | None:
        try:
            return apply(design, batch).design
        except EditRefusedError as error:
            self.refused += 1
            for fault in error.faults:
                if fault.message.startswith(LOCKED):
                    self.locks.add(fault.message.removeprefix(LOCKED).strip("'\""))
            return None

    def _whole(self, design: Design, moves: tuple[Move, ...]) -> Trial:
        self.evaluations += 1
        found = evaluate(design, self._library)
        systems = {result.id: result for result in found.systems}
        rooms = {room.id: room for room in found.rooms}
        names = _names(design) | self._names
        checks = checks_of(systems.values(), rooms.values(), physics=self._physics)
        return Trial(moves, design, systems, rooms, checks, names)

    def _partly(self, trial: Trial, design: Design, moves: tuple[Move, ...]) -> Trial | None:
        """Judge only the systems that changed and those that serve a room with them; the others stand as they stood.

        None where nothing changed.
        """
        changed = _changed(trial.design, design)
        if changed is not None and not changed:
            return None
        if changed is None or len(changed) == len(design.systems):
            whole = self._whole(design, moves)
            return whole._replace(names=whole.names | trial.names)
        self.evaluations += 1
        part = replace(design, systems=tuple(system for system in design.systems if system.id in changed))
        found = evaluate(part, self._library)
        there = {system.id for system in design.systems}
        systems = {name: result for name, result in trial.systems.items() if name in there - changed}
        systems |= {result.id: result for result in found.systems}
        served = {unit.room for system in design.systems if system.id not in changed for unit in system.units}
        rooms = {room.id: room if room.id not in served else trial.rooms[room.id] for room in found.rooms}
        names = trial.names | _names(part)
        checks = checks_of(systems.values(), rooms.values(), physics=self._physics)
        return Trial(moves, design, systems, rooms, checks, names)


def _names(design: Design) -> frozenset[str]:
    return frozenset(run.to for system in design.systems for run in system.runs)


def _changed(before: Design, after: Design) -> set[str] | None:
    """Systems that differ, with all that share a room with one that does; none where more than systems differs."""
    if replace(before, systems=()) != replace(after, systems=()):
        return None
    old = {system.id: system for system in before.systems}
    found = {system.id for system in after.systems if old.get(system.id) is not system}
    gone = [system for system in before.systems if system.id not in {one.id for one in after.systems}]
    rooms_of = {system.id: _rooms([system]) for system in after.systems}
    rooms = _rooms(old[name] for name in found if name in old) | _rooms(gone)
    while True:
        rooms |= {room for name in found for room in rooms_of[name]}
        more = {name for name, its in rooms_of.items() if its & rooms} - found
        if not more:
            return found
        found |= more


def _rooms(systems: Iterable[object]) -> set[str]:
    return {unit.room for system in systems for unit in system.units if unit.room}  # type: ignore[attr-defined]


def key_order(keys: Iterable[Key]) -> tuple[Key, ...]:
    """Sort keys."""
    return tuple(sorted(keys))
