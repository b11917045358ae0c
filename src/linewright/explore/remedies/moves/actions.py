"""What costs a word: elective size actions allowed, declarations and options that a wider bound needs."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.engine.records import CheckKind
from linewright.explore.remedies.at import At
from linewright.explore.remedies.phrases import phrase, plain
from linewright.explore.remedies.records import Duty, Move, MoveKind
from linewright.explore.remedies.weights import weight
from linewright.model.edits import AllowAction, Declare, Edit, ForbidAction, Kind, Set


def actions(at: At) -> Iterator[Move]:
    """Allow what is forbidden; declarations and options that a wider bound needs; off with what may not be on."""
    for action in at.system.forbidden_actions:
        yield _move(
            at, MoveKind.ACTION, AllowAction(system=at.system.id, action=action), f"size action {action} allowed"
        )
    for need in at.needs:
        if need.declared and need.declared not in at.system.declared:
            edit = Declare(system=at.system.id, declaration=need.declared)
            yield _move(at, MoveKind.DECLARATION, edit, f"declared and carried out: {need.declared}", Duty.CARRY_OUT)
        if need.option and need.option not in at.system.options:
            yield _option(at, need.option, on=True)
    yield from _options(at)


def less_action(at: At) -> Iterator[Move]:
    """Forbid elective actions that were chosen: smaller tubes hold less refrigerant."""
    for action in at.result.actions:
        if action.chosen and not action.mandatory:
            edit = ForbidAction(system=at.system.id, action=action.id)
            yield _move(at, MoveKind.ACTION, edit, f"size action {action.id} not carried out")


def _options(at: At) -> Iterator[Move]:
    """Options of the book that change the limit which fails, and those that are on where they may not be."""
    if at.check.kind is CheckKind.OPTION:
        yield _option(at, at.check.subject.partition("option:")[2], on=False)
        return
    for option in at.book.book.options:
        named = {limit.measure.value for limit in option.limits}
        wanted = at.check.measure in named or at.check.kind is CheckKind.OPERATION
        if wanted and option.id not in at.system.options:
            yield _option(at, option.id, on=True)


def _option(at: At, option: str, *, on: bool) -> Move:
    options = (*at.system.options, option) if on else tuple(name for name in at.system.options if name != option)
    edit = Set(kind=Kind.SYSTEM, id=at.system.id, values={"options": options})
    duty = (Duty.SELECT,) if on else ()
    return _move(at, MoveKind.OPTION, edit, f"option {option} {'on' if on else 'off'}", *duty)


def _move(at: At, kind: MoveKind, edit: Edit, words: str, *duties: Duty) -> Move:
    text = f"{plain(words)} (system {plain(at.system.id)})"
    return Move(kind=kind, subject=text, edits=(edit,), words=phrase(text), duties=duties, weight=weight(kind))
