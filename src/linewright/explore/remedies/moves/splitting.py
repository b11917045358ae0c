"""A system in two: what hangs on one arm of the first branch gets an outdoor group of its own."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from linewright.engine.proposals import Proposal, Wanted, propose_groups
from linewright.explore.remedies.at import At
from linewright.explore.remedies.moves.outdoor import with_modules
from linewright.explore.remedies.moves.pieces import without_arm
from linewright.explore.remedies.phrases import phrase, plain
from linewright.explore.remedies.records import Duty, Move, MoveKind
from linewright.explore.remedies.weights import weight
from linewright.model.design import ROOT, System
from linewright.model.edits import AddSystem, RemoveSubtree, SetOutdoor

#: Arms of the first branch that are tried.
MOST_ARMS = 3


def splits(at: At) -> Iterator[Move]:
    """Give each arm of the first branch a system of its own, the smallest group of the book for either part."""
    first = at.tree.first_branch
    if first is None or at.book.recovery or len(at.system.units) < 4:
        return
    arms = [arm for arm in at.tree.children[first] if at.tree.unit_at[arm] < 0]
    for arm in arms[:MOST_ARMS]:
        move = _split(at, first, arm)
        if move is not None:
            yield move


def _split(at: At, first: int, arm: int) -> Move | None:
    beyond = list(at.beyond_node(arm))
    names = {at.tree.ids[run] for run in beyond}
    gone = [unit for unit in at.system.units if unit.id in names]
    kept = [unit for unit in at.system.units if unit.id not in names]
    one, other = (_group(at, [unit.model for unit in units]) for units in (kept, gone))
    added = None if other is None else _added(at, first, beyond, other)
    if one is None or other is None or added is None or len(kept) < 2 or len(gone) < 2:
        return None
    words = f"system {at.system.id} in two: {', '.join(unit.id for unit in gone)} in a new system {added.id}"
    return Move(
        kind=MoveKind.SPLIT,
        subject=at.system.id,
        edits=(
            RemoveSubtree(system=at.system.id, node=at.tree.ids[arm]),
            *without_arm(at, first),
            SetOutdoor(system=at.system.id, outdoor=with_modules(at, one.modules)),
            AddSystem(added=added),
        ),
        words=phrase(plain(f"{words} with group {other.group}; group {one.group} stays; two mains on one way")),
        duties=(Duty.SELECT, Duty.BUILD, Duty.MEASURE),
        weight=weight(MoveKind.SPLIT),
    )


def _group(at: At, models: Sequence[str]) -> Proposal | None:
    index = sum(at.book.models[model].index for model in models)
    if not models:
        return None
    found = propose_groups(at.book, Wanted(index, len(models)))
    return next((one for one in found if one.serves), None)


def _added(at: At, first: int, beyond: Sequence[int], group: Proposal) -> System | None:
    """The new system: its main takes the way of the old main and of the arm; unknown lengths stay unknown."""
    name = next(
        word
        for number in range(2, 1000)
        if (word := f"{at.system.id}-{number}") not in {system.id for system in at.design.systems}
    )
    names = {at.tree.ids[run] for run in beyond}
    way = [*at.path(first), beyond[0]]
    lengths = [at.length_m(run) for run in way]
    runs = [at.tree.runs[run] for run in way]
    length_m = sum(metres for metres in lengths if metres is not None) if None not in lengths else None
    rises = [run.rise_m for run in runs]
    main = replace(
        runs[-1],
        from_=ROOT,
        length_m=length_m,
        rise_m=None if None in rises else sum(rise for rise in rises if rise is not None),
        bends=sum(run.bends for run in runs),
        items=tuple(item for run in runs for item in run.items),
    )
    inside = {at.tree.ids[run]: at.tree.runs[run] for run in beyond[1:]}
    return replace(
        at.system,
        id=name,
        name="",
        outdoor=with_modules(at, group.modules),
        units=tuple(unit for unit in at.system.units if unit.id in names),
        runs=(main, *(run for run in at.system.runs if run.to in inside)),
        fittings=tuple(fitting for fitting in at.system.fittings if fitting.id in names),
        block=None,
    )
