"""The search: single moves on what fails, then combinations of those that brought it nearest, within a budget.

Deterministic: the same design, books, wishes and budget give the same outcome, whatever the machine.
"""

from __future__ import annotations

from collections.abc import Callable, Generator, Iterator, Sequence
from types import MappingProxyType
from typing import NamedTuple

from linewright.engine.library import Library
from linewright.engine.records import Check, CheckKind
from linewright.explore.remedies.at import At
from linewright.explore.remedies.checks import (
    Against,
    against,
    cured,
    effects,
    failing,
    targets_named,
    traded,
)
from linewright.explore.remedies.moves import moves_for
from linewright.explore.remedies.records import Effect, Key, Move, Outcome, Progress, Reached, Remedy
from linewright.explore.remedies.trials import SpentError, Trial, Trials
from linewright.explore.remedies.wanted import FEW_MOVES, MOST_MOVES, Wanted
from linewright.model.design import Design

#: What a search is sent to stop it.
STOP = True
#: Trials that are carried on to one more move.
BEAM = 6
#: Moves tried on one of them, beyond the first.
MOST_TRIED = 24
#: Remedies that make something else worse which are kept.
MOST_TRADES = 4


class Node(NamedTuple):
    """A trial and how it stands."""

    trial: Trial
    stands: Against

    @property
    def cost(self) -> float:
        """Weight of its moves."""
        return sum(move.weight for move in self.trial.moves)


def find(
    design: Design,
    library: Library,
    wanted: Wanted | None = None,
    *,
    go_on: Callable[[Progress], bool] | None = None,
) -> Outcome:
    """Search for remedies and rank them; `go_on` is told how far it is and stops it by saying no.

    Raises UnknownSubjectError where no check has the subject, KeyError for a book that the library lacks.
    """
    steps = search(design, library, wanted or Wanted())
    try:
        while True:
            progress = next(steps)
            if go_on is not None and not go_on(progress):
                steps.send(STOP)
    except StopIteration as end:
        outcome: Outcome = end.value
        return outcome


def search(design: Design, library: Library, wanted: Wanted) -> Generator[Progress, bool | None, Outcome]:
    """Give progress after every trial; a remedy is told as soon as it is proven. Send true to stop.

    The value of the generator is the outcome. Raises as `find` does.
    """
    trials = Trials(design, library, wanted.budget)
    return (yield from Search(trials, library, wanted).run())


class Search:
    """One search: its trials, what it has found, the nearest that it has reached."""

    def __init__(self, trials: Trials, library: Library, wanted: Wanted) -> None:
        """Take the trials that it may make."""
        self._trials, self._library, self._wanted = trials, library, wanted
        self._base = trials.base
        self._targets = _targets(trials.base, wanted)
        self._remedies: list[Remedy] = []
        self._trades: list[Remedy] = []
        self._seen: set[frozenset[str]] = set()
        self._nearest: Node | None = None
        self._stopped = False

    def run(self) -> Generator[Progress, bool | None, Outcome]:
        """Search until enough is found, nothing is left to try, or the budget is spent."""
        frontier = [Node(self._base, against(self._base.checks, self._base.checks, self._targets))]
        most = min(MOST_MOVES, FEW_MOVES + max(0, len(self._targets) - 1))
        try:
            for depth in range(most if self._targets else 0):
                nodes: list[Node] = []
                for node in frontier:
                    for child in self._children(node, depth):
                        newest = self._take(child, nodes)
                        stop = yield self._progress(newest)
                        if stop or len(self._remedies) >= self._wanted.most_listed:
                            self._stopped = bool(stop)
                            return self._outcome()
                frontier = _best(nodes)
        except SpentError:
            pass
        return self._outcome()

    def _progress(self, newest: Remedy | None) -> Progress:
        return Progress(self._trials.evaluations, self._trials.budget, len(self._remedies), newest)

    def _children(self, node: Node, depth: int) -> Iterator[Node]:
        """Give what comes of every move that is worth trying on a trial."""
        found = self._moves(node)
        for move in found if depth == 0 else found[:MOST_TRIED]:
            names = frozenset(repr(edit) for made in (*node.trial.moves, move) for edit in made.edits)
            if names in self._seen or any(self._holds(remedy, names) for remedy in self._remedies):
                continue
            self._seen.add(names)
            trial = self._trials.after(node.trial, move)
            if trial is not None:
                yield Node(trial, against(self._base.checks, trial.checks, self._targets))

    def _holds(self, remedy: Remedy, names: frozenset[str]) -> bool:
        """Say whether something holds all of a remedy already."""
        return {repr(edit) for edit in remedy.edits.edits} <= names

    def _moves(self, node: Node) -> list[Move]:
        """Moves for all that fails in a trial, one from each in turn."""
        keys = (*node.stands.unmet, *node.stands.worse)
        sources = [moves for key in keys for moves in self._sources(node.trial, key, keys)]
        found: dict[tuple[str, ...], Move] = {}
        while sources:
            for source in list(sources):
                move = next(source, None)
                if move is None:
                    sources.remove(source)
                else:
                    found.setdefault(tuple(repr(edit) for edit in move.edits), move)
        return list(found.values())

    def _sources(self, trial: Trial, key: Key, keys: Sequence[Key]) -> Iterator[Iterator[Move]]:
        check = trial.checks.get(key)
        if check is None:
            return
        failing_now = tuple(trial.checks[one] for one in keys if one in trial.checks)
        for name in systems_of(trial, check):
            result = trial.systems[name]
            served = {unit.room for unit in result.system.units}
            rooms = tuple(room for room in trial.rooms.values() if room.id in served)
            others = tuple(other for other in trial.systems.values() if other.id != name)
            yield moves_for(
                At(
                    design=trial.design,
                    library=self._library,
                    result=result,
                    check=check,
                    failing=failing_now,
                    rooms=rooms,
                    others=others,
                    wanted=self._wanted,
                )
            )

    def _take(self, node: Node, nodes: list[Node]) -> Remedy | None:
        """Keep a trial: as a remedy where it cures, else to be carried on."""
        if self._nearest is None or _order(node) < _order(self._nearest):
            self._nearest = node
        if node.stands.unmet:
            nodes.append(node)
            return None
        if node.stands.worse:
            nodes.append(node)
            if len(self._trades) < MOST_TRADES and (traded_off := self._proven(node)) is not None:
                self._trades.append(traded_off)
            return None
        remedy = self._proven(node)
        if remedy is not None:
            self._remedies.append(remedy)
        return remedy

    def _proven(self, node: Node) -> Remedy | None:
        """Judge all of the design anew, with every edit as one gesture; none where the targets are not met then."""
        trial = self._trials.anew(node.trial.moves)
        if trial is None:
            return None
        stands = against(self._base.checks, trial.checks, self._targets)
        if stands.unmet or (stands.worse and not node.stands.worse):
            return None
        changed = effects(self._base.checks, trial.checks)
        worse = frozenset(stands.worse)
        return Remedy(
            edits=trial.batch,
            moves=trial.moves,
            cost=node.cost,
            price=None,
            effects=changed,
            cured=cured(changed),
            traded=traded(changed),
            worse=tuple(effect for effect in changed if effect.key in worse),
        )

    def _outcome(self) -> Outcome:
        trials = self._trials
        return Outcome(
            targets=tuple(self._base.checks[key] for key in self._targets),
            remedies=ranked(self._remedies),
            trades=ranked(self._trades),
            reached=None if self._remedies or self._nearest is None else self._reached(self._nearest),
            evaluations=trials.evaluations,
            budget=trials.budget,
            tried=MappingProxyType(dict(sorted(trials.tried.items()))),
            refused=trials.refused,
            locks=tuple(sorted(trials.locks)),
            stopped=self._stopped,
        )

    def _reached(self, node: Node) -> Reached:
        changed = {effect.key: effect for effect in effects(self._base.checks, node.trial.checks)}
        left = tuple(
            changed.get(key) or Effect(key, self._base.checks.get(key), self._base.checks.get(key))
            for key in (*node.stands.unmet, *node.stands.worse)
        )
        return Reached(node.trial.batch, node.trial.moves, left, node.stands.violation)


def ranked(found: Sequence[Remedy]) -> tuple[Remedy, ...]:
    """Order remedies: by price where there is one, by weight, by the number of edits, as found."""
    return tuple(
        sorted(found, key=lambda one: (one.price if one.price is not None else 0.0, one.cost, len(one.edits.edits)))
    )


def _order(node: Node) -> tuple[float, float]:
    return node.stands.violation, node.cost


def _best(nodes: Sequence[Node]) -> list[Node]:
    """The nearest to a cure, none of which stands in everything as a lighter one does."""
    kept: dict[tuple[object, ...], Node] = {}
    for node in sorted(nodes, key=_order):
        kept.setdefault((node.stands.unmet, node.stands.worse, round(node.stands.violation, 6)), node)
    return list(kept.values())[:BEAM]


def systems_of(trial: Trial, check: Check) -> list[str]:
    """Systems that a check is about: the one that it names, or all that serve the room."""
    if check.kind is CheckKind.ROOM:
        room = check.governs[0]
        return [
            name for name, result in trial.systems.items() if any(unit.room == room for unit in result.system.units)
        ]
    name = check.subject.partition("/")[0]
    return [name] if name in trial.systems else []


def _targets(base: Trial, wanted: Wanted) -> tuple[Key, ...]:
    found = targets_named(base.checks, wanted.subject) if wanted.subject else failing(base.checks)
    if wanted.system:
        found = tuple(key for key in found if wanted.system in systems_of(base, base.checks[key]))
    return found
