"""Asking for moves: of everything that fails in a trial, in every system that it is about."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from linewright.engine.library import Library
from linewright.engine.records import Check, CheckKind
from linewright.explore.remedies.at import At
from linewright.explore.remedies.moves import moves_for
from linewright.explore.remedies.records import Key, Move
from linewright.explore.remedies.trials import Trial
from linewright.explore.remedies.wanted import Wanted


def asked(trial: Trial, keys: Sequence[Key], library: Library, wanted: Wanted) -> list[Move]:
    """Give moves for all that fails, one for each in turn, each once."""
    sources = [moves for key in keys for moves in _sources(trial, key, keys, library=library, wanted=wanted)]
    found: dict[tuple[str, ...], Move] = {}
    while sources:
        for source in list(sources):
            move = next(source, None)
            if move is None:
                sources.remove(source)
            else:
                found.setdefault(tuple(repr(edit) for edit in move.edits), move)
    return list(found.values())


def _sources(
    trial: Trial, key: Key, keys: Sequence[Key], *, library: Library, wanted: Wanted
) -> Iterator[Iterator[Move]]:
    check = trial.checks.get(key)
    if check is None:
        return
    failing = tuple(trial.checks[one] for one in keys if one in trial.checks)
    for name in systems_of(trial, check):
        result = trial.systems[name]
        served = {unit.room for unit in result.system.units}
        yield moves_for(
            At(
                design=trial.design,
                library=library,
                result=result,
                check=check,
                failing=failing,
                rooms=tuple(room for room in trial.rooms.values() if room.id in served),
                others=tuple(other for other in trial.systems.values() if other.id != name),
                wanted=wanted,
                names=trial.names,
            )
        )


def systems_of(trial: Trial, check: Check) -> list[str]:
    """Systems that a check is about: the one that it names, or all that serve the room."""
    if check.kind is CheckKind.ROOM:
        room = check.governs[0]
        return [one.id for one in trial.systems.values() if any(unit.room == room for unit in one.system.units)]
    name = check.subject.partition("/")[0]
    return [name] if name in trial.systems else []
