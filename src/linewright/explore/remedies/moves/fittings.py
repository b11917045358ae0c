"""Joints and headers: one for the other, two that are merged into one, ends that lead nowhere."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.engine.records import CheckKind
from linewright.explore.remedies.at import At
from linewright.explore.remedies.moves.pieces import (
    Values,
    fitting_word,
    is_fitting,
    level,
    set_run,
    with_rise,
    without_arm,
)
from linewright.explore.remedies.phrases import phrase, plain
from linewright.explore.remedies.records import Duty, Move, MoveKind
from linewright.explore.remedies.weights import weight
from linewright.model.edits import ChangeKind, ChangeModel, Edit, MoveSubtree, RemoveSubtree
from linewright.model.tree import NO_PARENT
from linewright.model.values import NodeKind


def fittings(at: At) -> Iterator[Move]:
    """Change the kind of what the check is about, merge it with the fitting before it, take away a dead end."""
    for node in _nodes(at):
        yield from _kinds(at, node)
        near = at.near(node)
        if not at.book.recovery and is_fitting(at, node) and is_fitting(at, near):
            yield from merged(at, near, node)
        if at.check.kind is CheckKind.FITTING and not at.tree.children[node]:
            yield from _dead_end(at, node)


def _nodes(at: At) -> list[int]:
    """What governs and the fitting before it."""
    found = [node for run in at.governing for node in (run, at.near(run))]
    return list(dict.fromkeys(node for node in found if node != NO_PARENT))


def _kinds(at: At, node: int) -> Iterator[Move]:
    kind, arms, name = at.tree.kind[node], len(at.tree.children[node]), at.tree.ids[node]
    if kind is NodeKind.JOINT and arms > 1:
        yield _changed(at, node, NodeKind.HEADER)
    if kind is NodeKind.HEADER and arms == 2:
        yield _changed(at, node, None)
    stated = next((one for one in at.system.fittings if one.id == name and one.model), None)
    if stated is not None and kind is NodeKind.HEADER:
        yield Move(
            kind=MoveKind.FITTING,
            subject=f"{at.system.id}/{at.tree.ids[node]}",
            edits=(ChangeModel(system=at.system.id, id=name, model=""),),
            words=phrase(plain(f"{fitting_word(at, node)}: the model left to the book instead of {stated.model}")),
            duties=(Duty.SELECT,),
            weight=weight(MoveKind.FITTING),
        )


def _changed(at: At, node: int, kind: NodeKind | None) -> Move:
    other = "a joint" if kind is None else f"a {kind.value}"
    return Move(
        kind=MoveKind.FITTING,
        subject=f"{at.system.id}/{at.tree.ids[node]}",
        edits=(ChangeKind(system=at.system.id, fitting=at.tree.ids[node], kind=kind),),
        words=phrase(plain(f"{other} instead of {fitting_word(at, node)}")),
        duties=(Duty.SELECT,),
        weight=weight(MoveKind.FITTING),
    )


def merged(at: At, near: int, node: int) -> Iterator[Move]:
    """One header in place of two fittings: the arms of the second begin at the first and pass where it was."""
    own, runs = at.length_m(node), at.tree.runs
    if own is None:
        return
    edits: list[Edit] = []
    for arm in at.tree.children[node]:
        metres = at.length_m(arm)
        if metres is None:
            return
        stated: Values = {"length_m": round(metres + own, 6), "bends": runs[arm].bends + runs[node].bends}
        values = with_rise(at, arm, level(at, near), stated)
        if values is None:
            return
        edits.append(MoveSubtree(system=at.system.id, node=at.tree.ids[arm], to=at.tree.ids[near]))
        edits.append(set_run(at, arm, values))
    edits.append(RemoveSubtree(system=at.system.id, node=at.tree.ids[node]))
    if at.tree.kind[near] is not NodeKind.HEADER:
        edits.append(ChangeKind(system=at.system.id, fitting=at.tree.ids[near], kind=NodeKind.HEADER))
    words = f"one header at {at.tree.ids[near]} for {fitting_word(at, near)} and {fitting_word(at, node)}"
    arms = ", ".join(at.tree.ids[arm] for arm in at.tree.children[node])
    yield Move(
        kind=MoveKind.FITTING,
        subject=f"{at.system.id}/{at.tree.ids[node]}",
        edits=tuple(edits),
        words=phrase(plain(f"{words}; pipe to {arms} from there")),
        duties=(Duty.SELECT, Duty.BUILD),
        weight=weight(MoveKind.FITTING, len(at.tree.children[node]) + 1),
    )


def _dead_end(at: At, node: int) -> Iterator[Move]:
    if at.near(node) == NO_PARENT:
        return
    yield Move(
        kind=MoveKind.FITTING,
        subject=f"{at.system.id}/{at.tree.ids[node]}",
        edits=(RemoveSubtree(system=at.system.id, node=at.tree.ids[node]), *without_arm(at, at.near(node))),
        words=phrase(plain(f"the run to {at.tree.ids[node]}, which leads to no unit, taken away")),
        duties=(Duty.BUILD,),
        weight=weight(MoveKind.FITTING),
    )
