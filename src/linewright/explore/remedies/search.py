"""The search: single moves on what fails, then combinations of those that brought it nearest, within a budget.

Deterministic: the same design, books, wishes and budget give the same outcome, whatever the machine.
"""

from __future__ import annotations

from collections.abc import Callable, Generator, Iterator, Sequence
from types import MappingProxyType
from typing import NamedTuple

from linewright.engine.library import Library
from linewright.errors import UnknownSubjectError
from linewright.explore.remedies.asking import asked, systems_of
from linewright.explore.remedies.checks import (
    Against,
    effects,
    failing,
    targets_named,
)
from linewright.explore.remedies.proofs import Proofs, is_more, unlike
from linewright.explore.remedies.records import Effect, Key, Move, Outcome, Progress, Reached, Remedy
from linewright.explore.remedies.trials import SpentError, Trial, Trials
from linewright.explore.remedies.wanted import BUDGET, FEW_MOVES, LONGER, MOST_MOVES, Wanted
from linewright.explore.remedies.written import clash
from linewright.model.design import Design

#: What a search is sent to stop it.
STOP = True
#: Trials that are carried on to one more move.
BEAM = 6
#: Trials that are kept at hand until then: each holds all of its results.
MOST_KEPT = 40
#: Moves tried on one of them, beyond the first.
MOST_TRIED = 24
#: From so many targets on a first remedy is sought straight ahead; moves tried at each step of that.
MANY, DIVE_TRIED = 3, 14
#: Beginnings from which that is done.
STARTS = 3
#: Remedies that make something else worse which are kept.
MOST_TRADES = 4


Steps = Generator[Progress, bool | None, Outcome]
Walk = Generator[Progress, bool | None, None]


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


def search(design: Design, library: Library, wanted: Wanted) -> Steps:
    """Give progress after every trial; a remedy is told as soon as it is proven. Send true to stop.

    The value of the generator is the outcome. Raises as `find` does.
    """
    trials = Trials(design, library, wanted.budget or BUDGET, physics=wanted.physics)
    return (yield from Search(trials, library, wanted).run())


class _Passed(NamedTuple):
    """Moves that were not carried on, and how near they came."""

    order: tuple[float, float]
    moves: tuple[Move, ...]


class Search:
    """One search: its trials, what it has found, the nearest that it has reached."""

    def __init__(self, trials: Trials, library: Library, wanted: Wanted) -> None:
        """Take the trials that it may make."""
        self._trials, self._library, self._wanted = trials, library, wanted
        self._base = trials.base
        self._targets = _targets(trials.base, wanted)
        self._proofs = Proofs(trials, self._targets)
        self._remedies: list[Remedy] = []
        self._trades: list[Remedy] = []
        self._seen: set[frozenset[str]] = set()
        self._made: dict[frozenset[str], Trial | None] = {}
        self._nearest = Node(self._base, self._proofs.stands(self._base))
        self._stopped = False
        self._passed_over: list[_Passed] = []
        if wanted.budget is None:
            trials.go_on_by(self._further)

    def _further(self) -> int:
        """Give what may be tried further when the budget is used up: once, where nothing was found by then."""
        return 0 if self._remedies or self._trials.budget > BUDGET else BUDGET * (LONGER - 1)

    def run(self) -> Steps:
        """Search until enough is found, nothing is left to try, or the budget is spent; all of it that is steps."""
        try:
            for walk in (self._dive(), self._widen(), self._go_back()) if self._targets else ():
                yield from walk
                if self._stopped:
                    break
        except SpentError:
            pass
        return self._outcome()

    def _dive(self) -> Walk:
        """Where many things fail: always on from the nearest, for a first remedy soon; then from other beginnings."""
        if len(self._targets) < MANY:
            return
        root = Node(self._base, self._proofs.stands(self._base))
        starts: list[Node] = []
        if (yield from self._step(root, starts)):
            return
        for start in _unlike_starts(starts):
            node: Node | None = start
            while node is not None and len(node.trial.moves) < self._most:
                nodes: list[Node] = []
                if (yield from self._step(node, nodes)):
                    if self._stopped:
                        return
                    break
                nearest = min(nodes, key=_order, default=None)
                node = nearest if nearest and nearest.stands.violation < node.stands.violation else None

    def _step(self, node: Node, nodes: list[Node]) -> Generator[Progress, bool | None, bool]:
        """Try the first moves on a trial; true where one cured or the search was stopped."""
        found = False
        for child in self._children(node, DIVE_TRIED):
            newest = self._take(child, nodes)
            found = found or newest is not None
            if (yield from self._told(newest)):
                return True
        return found

    def _widen(self) -> Walk:
        """Every single move, then on from the nearest few, one more move each time."""
        self._seen.clear()
        frontier = [Node(self._base, self._proofs.stands(self._base))]
        for depth in range(self._most):
            nodes: list[Node] = []
            for node in frontier:
                for child in self._children(node, None if depth == 0 else MOST_TRIED):
                    if (yield from self._told(self._take(child, nodes))):
                        return
            if len(unlike(self._remedies, self._wanted.most_listed)) >= self._wanted.most_listed:
                return
            frontier = self._nearest_of(nodes)

    def _go_back(self) -> Walk:
        """Where nothing was found: on from what was passed over, the nearest first."""
        for passed in sorted(self._passed_over, key=lambda one: one.order):
            if self._remedies:
                return
            trial = self._trials.anew(passed.moves)
            node = None if trial is None else Node(trial, self._proofs.stands(trial))
            for child in () if node is None else self._children(node, MOST_TRIED):
                if (yield from self._told(self._take(child, []))):
                    return

    def _nearest_of(self, nodes: Sequence[Node]) -> list[Node]:
        """Give the nearest few; the moves of the others are noted."""
        best = _best(nodes)
        carried = {id(node) for node in best}
        self._passed_over += [_Passed(_order(node), node.trial.moves) for node in nodes if id(node) not in carried]
        return best

    @property
    def _most(self) -> int:
        """Moves that a remedy may be made of."""
        return min(MOST_MOVES, FEW_MOVES + max(0, len(self._targets) - 1))

    def _told(self, newest: Remedy | None) -> Generator[Progress, bool | None, bool]:
        """Tell how far it is; true to stop."""
        trials = self._trials
        stop = yield Progress(trials.evaluations, trials.budget, len(self._remedies), newest)
        self._stopped = bool(stop)
        return self._stopped

    def _children(self, node: Node, most: int | None) -> Iterator[Node]:
        """Give what comes of every move, or of the first so many, that is worth trying on a trial."""
        keys = (*node.stands.unmet, *node.stands.worse)
        for move in asked(node.trial, keys, self._library, self._wanted)[:most]:
            names = frozenset(repr(edit) for made in (*node.trial.moves, move) for edit in made.edits)
            if names in self._seen or clash(node.trial.moves, move) or self._idle(names, (*node.trial.moves, move)):
                continue
            self._seen.add(names)
            trial = self._made.pop(names) if names in self._made else self._trials.after(node.trial, move)
            if most == DIVE_TRIED:
                self._made[names] = trial
            if trial is not None:
                yield Node(trial, self._proofs.stands(trial))

    def _idle(self, names: frozenset[str], moves: tuple[Move, ...]) -> bool:
        """Say whether moves do all that a remedy does which was found already, and more."""
        return any(
            is_more(moves, one.moves) or names >= {repr(edit) for edit in one.edits.edits} for one in self._remedies
        )

    def _take(self, node: Node, nodes: list[Node]) -> Remedy | None:
        """Keep a trial: as a remedy where it cures, else to be carried on."""
        if _order(node) < _order(self._nearest):
            self._nearest = node
        if not node.stands.unmet and not node.stands.worse:
            remedy = self._proofs.remedy(node.trial.moves)
            if remedy is not None and remedy.edits not in [one.edits for one in self._remedies]:
                self._remedies.append(remedy)
                return remedy
            return None
        nodes.append(node)
        if len(nodes) > MOST_KEPT:
            nodes[:] = self._nearest_of(nodes)
        if not node.stands.unmet and len(self._trades) < MOST_TRADES:
            trade = self._proofs.trade(node.trial.moves)
            self._trades += [trade] if trade is not None else []
        return None

    def _outcome(self) -> Outcome:
        trials = self._trials
        return Outcome(
            targets=tuple(self._base.checks[key] for key in self._targets),
            remedies=unlike(self._remedies, self._wanted.most_listed),
            trades=unlike(self._trades, self._wanted.most_listed),
            reached=None if self._remedies or not self._targets else self._reached(self._nearest),
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


def _unlike_starts(nodes: Sequence[Node]) -> list[Node]:
    """The nearest few after one move, each by a move of another kind or on another element."""
    kept: dict[tuple[str, str], Node] = {}
    for node in sorted(nodes, key=_order):
        kept.setdefault((node.trial.moves[-1].kind, node.trial.moves[-1].subject), node)
    return list(kept.values())[:STARTS]


def _order(node: Node) -> tuple[float, float]:
    return node.stands.violation, node.cost


def _best(nodes: Sequence[Node]) -> list[Node]:
    """The nearest to a cure, none of which stands in everything as a lighter one does."""
    kept: dict[tuple[object, ...], Node] = {}
    for node in sorted(nodes, key=_order):
        kept.setdefault((node.stands.unmet, node.stands.worse, round(node.stands.violation, 6)), node)
    return list(kept.values())[:BEAM]


def _targets(base: Trial, wanted: Wanted) -> tuple[Key, ...]:
    if wanted.system and wanted.system not in base.systems:
        raise UnknownSubjectError(wanted.system, nearest=tuple(sorted(base.systems)))
    found = targets_named(base.checks, wanted.subject) if wanted.subject else failing(base.checks)
    if wanted.system:
        found = tuple(key for key in found if wanted.system in systems_of(base, base.checks[key]))
    return found
