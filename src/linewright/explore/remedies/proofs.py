"""From a trial that cures to a remedy: without what is idle, no shorter than it has to be, judged as a whole."""

from __future__ import annotations

from collections.abc import Sequence

from linewright.explore.remedies.checks import Against, against, cured, effects, traded
from linewright.explore.remedies.moves.lengths import STEP_M, with_length
from linewright.explore.remedies.phrases import Phrase
from linewright.explore.remedies.records import Key, Move, MoveKind, Remedy
from linewright.explore.remedies.trials import Trial, Trials

Moves = tuple[Move, ...]
#: Trials that the search for the largest length that still does may take.
_MOST_HALVINGS = 7
#: Remedies in a list that do the same things to the same elements, each by another amount or place.
MOST_ALIKE = 2
#: Moves that change lengths or the tree, and those of them that state nothing which follows from other pipe.
OF_PIPE = frozenset(
    {
        *(MoveKind.LENGTH, MoveKind.SHIFT, MoveKind.REHANG, MoveKind.FITTING, MoveKind.OUTDOOR_PLACE),
        *(MoveKind.MOVE_UNIT, MoveKind.SPLIT),
    }
)
AS_TOLD = frozenset({MoveKind.LENGTH, MoveKind.OUTDOOR_PLACE})
#: Moves that do one thing to one element, only by an amount or at a place: a cure by one of them needs no second.
BY_AMOUNT = (MoveKind.LENGTH, MoveKind.SAFETY, MoveKind.SHIFT, MoveKind.REHANG, MoveKind.MOVE_UNIT)


class Proofs:
    """Proves remedies for one set of targets."""

    def __init__(self, trials: Trials, targets: Sequence[Key]) -> None:
        """Take what trials are made with and what is to be cured."""
        self._trials, self._targets = trials, tuple(targets)

    def stands(self, trial: Trial) -> Against:
        """How a trial stands against the design that was searched."""
        return against(self._trials.base.checks, trial.checks, self._targets, trial.crowd)

    def remedy(self, moves: Moves) -> Remedy | None:
        """Prove moves that cure: without those that are idle, lengths as large as they may be; none where it fails."""
        trial = self._cures(moves)
        if trial is None:
            return None
        lean = self._longest(self._lean(trial))
        return self._made(lean, self.stands(lean))

    def trade(self, moves: Moves) -> Remedy | None:
        """Prove moves that meet the targets and make something else stand worse."""
        trial = self._trials.anew(moves)
        if trial is None or (stands := self.stands(trial)).unmet:
            return None
        return self._made(trial, stands)

    def _cures(self, moves: Moves) -> Trial | None:
        """Judge all of the design anew with every edit as one gesture; none where it is no cure then."""
        trial = self._trials.anew(moves)
        if trial is None:
            return None
        stands = self.stands(trial)
        return None if stands.unmet or stands.worse else trial

    def _lean(self, trial: Trial) -> Trial:
        """Leave out every move without which it cures as well, the heaviest first."""
        order = sorted(range(len(trial.moves)), key=lambda i: (-trial.moves[i].weight, i))
        kept = set(range(len(trial.moves)))
        for i in order if len(trial.moves) > 1 else ():
            if not _stands_alone(trial.moves, i):
                continue
            fewer = tuple(trial.moves[n] for n in sorted(kept - {i}))
            if fewer and (without := self._cures(fewer)) is not None:
                trial, kept = without._replace(moves=trial.moves), kept - {i}
        return trial._replace(moves=tuple(trial.moves[n] for n in sorted(kept)))

    def _longest(self, trial: Trial) -> Trial:
        """Give each run that is to be built shorter the largest length that still cures, to a tenth of a metre."""
        for place, move in enumerate(trial.moves):
            may_be_longer = move.stands_for is not None and move.stands_for.shorter
            if may_be_longer and _stands_alone(trial.moves, place):
                trial = self._longer(trial, place)
        return trial

    def _longer(self, trial: Trial, place: int) -> Trial:
        stated = trial.moves[place].stands_for
        if stated is None:
            return trial
        low, high = round(stated.metres / STEP_M), round(stated.was_m / STEP_M)
        step = low + 1
        for _ in range(_MOST_HALVINGS):
            if step >= high or step <= low:
                break
            longer = with_length(trial.moves[place], step * STEP_M)
            moves = (*trial.moves[:place], longer, *trial.moves[place + 1 :])
            found = self._cures(moves)
            if found is None:
                high = step
            else:
                trial, low = found, step
            step = (low + high) // 2
        return trial

    def _made(self, trial: Trial, stands: Against) -> Remedy:
        changed = effects(self._trials.base.checks, trial.checks)
        worse = frozenset(stands.worse)
        return Remedy(
            edits=trial.batch,
            moves=trial.moves,
            cost=sum(move.weight for move in trial.moves),
            price=None,
            effects=changed,
            cured=cured(changed),
            traded=traded(changed),
            worse=tuple(effect for effect in changed if effect.key in worse),
        )


def _stands_alone(moves: Moves, place: int) -> bool:
    """Say whether a move can be left out or changed without making a later one untrue.

    A later move of a branch or fitting states lengths that follow from the pipe as the earlier ones left it.
    """
    return moves[place].kind not in OF_PIPE or all(move.kind not in OF_PIPE - AS_TOLD for move in moves[place + 1 :])


def unlike(found: Sequence[Remedy], most: int) -> tuple[Remedy, ...]:
    """Rank remedies, and keep so many: of those that do the same things to the same elements the first few."""
    kept: list[Remedy] = []
    counts: dict[tuple[object, ...], int] = {}
    told: set[frozenset[Phrase]] = set()
    for remedy in ranked(found):
        words = frozenset(move.words for move in remedy.moves)
        if words in told:
            continue
        told.add(words)
        done = tuple(sorted({(move.kind.value, move.subject) for move in remedy.moves}))
        counts[done] = counts.get(done, 0) + 1
        if counts[done] <= MOST_ALIKE and not any(is_more(remedy.moves, one.moves) for one in kept):
            kept.append(remedy)
    return tuple(kept[:most])


def is_more(moves: Moves, fewer: Moves) -> bool:
    """Say whether moves do all that fewer do, by another amount or at another place, and something besides."""
    one, other = (frozenset((move.kind, move.subject) for move in done) for done in (moves, fewer))
    return other < one and all(kind in BY_AMOUNT for kind, _ in other)


def ranked(found: Sequence[Remedy]) -> tuple[Remedy, ...]:
    """Order remedies: by price, then by weight, edits and what they trade; without a price behind those with one."""
    return tuple(
        sorted(
            found,
            key=lambda one: (one.price is None, one.price or 0.0, one.cost, len(one.edits.edits), len(one.traded)),
        )
    )
