"""`apply(design, edit)`: the only way in which anything changes a design."""

from __future__ import annotations

from typing import NamedTuple

from linewright.model.design import Design
from linewright.model.edits.expand import expand
from linewright.model.edits.faults import EditRefusedError, Found, fault, missing
from linewright.model.edits.locks import binding
from linewright.model.edits.places import MissingError
from linewright.model.edits.steps import take
from linewright.model.edits.touches import NOTHING, Touch, Touched
from linewright.model.edits.values import Batch, Edit, Table
from linewright.model.soundness import check_structure


class Applied(NamedTuple):
    """A design after an edit, the edit that undoes it, and what it touches."""

    design: Design
    inverse: Edit
    touched: Touched


def apply(design: Design, edit: Edit) -> Applied:
    """Change a sound design; pure. What a book says against it is a result, not a fault.

    Raises EditRefusedError, with every fault, for an edit that names what is not there, breaks a lock, or makes a
    design that none can be; the design stays as it is.
    """
    try:
        found = _apply(design, edit)
    except MissingError as error:
        raise missing(error) from None
    _check_locks(design, found.touched)
    notes = Found(found.design)
    check_structure(found.design, notes)
    if notes.faults:
        raise EditRefusedError(notes.faults)
    return found


def draft(design: Design, edit: Edit) -> Design:
    """Give what would come of an edit, sound or not: to find in it what a fault is about.

    Raises EditRefusedError where not even that can be made.
    """
    try:
        return _apply(design, edit).design
    except MissingError as error:
        raise missing(error) from None


def _apply(design: Design, edit: Edit) -> Applied:
    if isinstance(edit, Batch):
        return _batch(design, edit)
    expanded = expand(design, edit)
    touched, inverse = Touched(expanded.reads, frozenset()), []
    for step in expanded.steps:
        done = take(design, step)
        design, touched = done.design, touched.together(done.touched)
        inverse.append(done.inverse)
    undo = inverse[0] if len(inverse) == 1 else Batch(edits=tuple(reversed(inverse)))
    return Applied(design, undo, touched)


def _batch(design: Design, batch: Batch) -> Applied:
    touched, inverse = NOTHING, []
    for edit in batch.edits:
        done = _apply(design, edit)
        design, touched = done.design, touched.together(done.touched)
        inverse.append(done.inverse)
    return Applied(design, Batch(edits=tuple(reversed(inverse))), touched)


def _check_locks(design: Design, touched: Touched) -> None:
    """A lock that is taken off in the same batch still holds: unlocking is an edit of its own."""
    broken = sorted({(lock, touch) for touch in touched.writes if (lock := _lock(design, touch)) is not None})
    if broken:
        raise EditRefusedError(
            fault(touch.element, f"it is locked by {lock!r}", "unlock it first", touch.field) for lock, touch in broken
        )


def _lock(design: Design, touch: Touch) -> str | None:
    is_lock = touch.element.startswith(f"/{Table.LOCKS}")
    return None if is_lock else binding(design, touch)
