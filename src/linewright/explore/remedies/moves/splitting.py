"""A system in two: some of its units get an outdoor group of their own, each part keeps the ways of its pipe."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from linewright.book.measures import MeasureName
from linewright.engine.proposals import Proposal, Wanted, propose_groups
from linewright.explore.remedies.at import At
from linewright.explore.remedies.moves.outdoor import with_modules
from linewright.explore.remedies.phrases import phrase, plain
from linewright.explore.remedies.records import Duty, Move, MoveKind
from linewright.explore.remedies.weights import weight
from linewright.model.design import Fitting, System
from linewright.model.edits import AddSystem, Edit, JoinRuns, RemoveSubtree, SetOutdoor
from linewright.model.tree import NO_PARENT
from linewright.model.values import NodeKind

#: Ways of parting a system that are tried.
MOST_PARTS = 4
#: Units that are named of those that leave.
MOST_NAMED = 6
_BY_LEVEL = (MeasureName.LEVEL_BETWEEN_INDOOR.value, MeasureName.LEVEL_OUTDOOR_ABOVE.value, "level_outdoor_below")


def splits(at: At) -> Iterator[Move]:
    """Part by level where levels are the matter, then by the arms of each branch from the first one on."""
    if at.book.recovery or len(at.system.units) < 4:
        return
    tried: list[frozenset[str]] = []
    for gone in _parts(at):
        if gone in tried or len(tried) >= MOST_PARTS:
            continue
        tried.append(gone)
        move = _split(at, gone)
        if move is not None:
            yield move


def _parts(at: At) -> Iterator[frozenset[str]]:
    """Sets of units that may leave."""
    if at.check.measure in _BY_LEVEL:
        levels = {unit.id: at.result.state.ground.levels.node_m[at.tree.at[unit.id]] for unit in at.system.units}
        known = [metres for metres in levels.values() if metres is not None]
        if known and max(known) > min(known):
            middle = (max(known) + min(known)) / 2
            yield frozenset(name for name, metres in levels.items() if metres is not None and metres > middle)
    for node, arms in enumerate(at.tree.children):
        if len(arms) > 1:
            for arm in arms:
                yield frozenset(at.tree.ids[run] for run in at.beyond_node(arm) if at.tree.unit_at[run] >= 0)
        if node == at.tree.first_branch and len(arms) > 2:
            half = arms[: len(arms) // 2]
            yield frozenset(
                at.tree.ids[run] for arm in half for run in at.beyond_node(arm) if at.tree.unit_at[run] >= 0
            )


def _split(at: At, gone: frozenset[str]) -> Move | None:
    kept = [unit for unit in at.system.units if unit.id not in gone]
    if len(gone) < 2 or len(kept) < 2:
        return None
    one = _group(at, [unit.model for unit in kept])
    other = _group(at, [unit.model for unit in at.system.units if unit.id in gone])
    if one is None or other is None:
        return None
    added = _added(at, gone, other)
    leaving = [unit.id for unit in added.units]
    more = f" and {len(leaving) - MOST_NAMED} more" if len(leaving) > MOST_NAMED else ""
    words = f"system {at.system.id} in two: {', '.join(leaving[:MOST_NAMED])}{more} in a new system {added.id}"
    return Move(
        kind=MoveKind.SPLIT,
        subject=at.system.id,
        edits=(
            *_removed(at, gone),
            SetOutdoor(system=at.system.id, outdoor=with_modules(at, one.modules)),
            AddSystem(added=added),
        ),
        words=phrase(plain(f"{words} with group {other.group}; group {one.group} stays; two mains on one way")),
        duties=(Duty.SELECT, Duty.BUILD),
        weight=weight(MoveKind.SPLIT),
    )


def _group(at: At, models: Sequence[str]) -> Proposal | None:
    index = sum(at.book.models[model].index for model in models)
    found = propose_groups(at.book, Wanted(index, len(models)))
    return next((one for one in found if one.serves), None)


def _removed(at: At, gone: frozenset[str]) -> Iterator[Edit]:
    """Take away all pipe that leads only to units which leave; a fitting that keeps one arm is taken out."""
    leaves = _only(at, gone)
    for run in sorted(leaves):
        if at.near(run) not in leaves:
            yield RemoveSubtree(system=at.system.id, node=at.tree.ids[run])
    for node, arms in enumerate(at.tree.children):
        if node not in leaves and len(arms) > 1 and len([arm for arm in arms if arm not in leaves]) == 1:
            yield JoinRuns(system=at.system.id, node=at.tree.ids[node])


def _only(at: At, gone: frozenset[str]) -> set[int]:
    """Runs beyond which there is no unit that stays."""
    found: set[int] = set()
    for run in range(len(at.tree.ids) - 1, -1, -1):
        arms = at.tree.children[run]
        if (not arms and at.tree.ids[run] in gone) or (arms and all(arm in found for arm in arms)):
            found.add(run)
    return found


def _added(at: At, gone: frozenset[str], group: Proposal) -> System:
    """The new system: the ways to its units as they are; points that keep one arm are no fittings any more."""
    taken = {system.id for system in at.design.systems}
    name = next(word for number in range(2, 1000) if (word := f"{at.system.id}-{number}") not in taken)
    ways = {run for unit in gone for run in at.path(at.tree.at[unit])}
    names = {at.tree.ids[run] for run in ways}
    arms = {at.tree.ids[run]: sum(child in ways for child in at.tree.children[run]) for run in ways if run != NO_PARENT}
    return replace(
        at.system,
        id=name,
        name="",
        outdoor=with_modules(at, group.modules),
        units=tuple(unit for unit in at.system.units if unit.id in gone),
        runs=tuple(run for run in at.system.runs if run.to in names),
        fittings=tuple(_fitting(one, arms.get(one.id, 0)) for one in at.system.fittings if one.id in names),
        block=None,
    )


def _fitting(stated: Fitting, arms: int) -> Fitting:
    kept = stated.kind is NodeKind.COUPLING or arms > 1
    return stated if kept else replace(stated, kind=None, model="")
