"""Every move and every pair of moves, one after the other, nothing left out: slow, and sure."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.engine.library import Library
from linewright.explore.remedies.asking import asked
from linewright.explore.remedies.checks import against, failing
from linewright.explore.remedies.records import Key, Move
from linewright.explore.remedies.trials import Trial, Trials
from linewright.explore.remedies.wanted import Wanted
from linewright.model.design import Design


def cure_of_two(design: Design, library: Library, most: int = 10**6) -> tuple[Move, ...] | None:
    """The first cure of all that is over by at most two moves; none where there is none, or not within so many."""
    trials = Trials(design, library, most)
    targets = failing(trials.base.checks)
    once = []
    for trial in _after(trials, trials.base, library, targets):
        once.append(trial)
        if _cures(trials, trial, targets):
            return trial.moves
    for first in once:
        for trial in _after(trials, first, library, targets):
            if _cures(trials, trial, targets):
                return trial.moves
    return None


def _after(trials: Trials, trial: Trial, library: Library, targets: tuple[Key, ...]) -> Iterator[Trial]:
    stands = against(trials.base.checks, trial.checks, targets)
    for move in asked(trial, (*stands.unmet, *stands.worse), library, Wanted()):
        found = trials.after(trial, move)
        if found is not None:
            yield found


def _cures(trials: Trials, trial: Trial, targets: tuple[Key, ...]) -> bool:
    stands = against(trials.base.checks, trial.checks, targets)
    return not stands.unmet and not stands.worse
