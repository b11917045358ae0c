"""An edit that was made on an older revision, made at the head; or where the two meet, with both versions."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from linewright.errors import quoted
from linewright.model.design import Design
from linewright.model.edits.apply import Applied, apply
from linewright.model.edits.places import MissingError, element_named
from linewright.model.edits.steps import field_of
from linewright.model.edits.touches import EXISTS, Touch, Touched, meeting
from linewright.model.edits.values import Edit


class Conflict(NamedTuple):
    """One field on which an edit and later ones meet, as it was, as the edit would have it and as it is at the head.

    A value of `None` is not stated, or its element is not there. Where `field` says whether an element is there
    (`exists`), the values are the element itself.
    """

    element: str
    field: str
    base: object
    mine: object
    theirs: object


class EditConflictError(Exception):
    """An edit of an older revision that meets later ones; nothing was changed. Carries every conflict."""

    def __init__(self, conflicts: Iterable[Conflict]) -> None:
        """Keep the conflicts in the order of their names."""
        self.conflicts = tuple(sorted(conflicts, key=lambda one: one[:2]))
        super().__init__(
            "; ".join(f"{one.element}: {quoted(one.field)} was changed meanwhile" for one in self.conflicts)
        )


def rebase(edit: Edit, *, base: Design, head: Design, later: Iterable[Touched]) -> Applied:
    """Make at the head an edit that was made on an older revision; to undo one, give its inverse and what it had made.

    base : the revision that the edit was made on
    later : what the edits between that revision and the head touch

    Raises EditConflictError where it meets one of them, EditRefusedError where it cannot be made.
    """
    mine = apply(base, edit)
    met = meeting(mine.touched, later)
    if met:
        raise EditConflictError(conflict_at(touch, base, mine.design, head) for touch in met)
    return apply(head, edit)


def conflict_at(touch: Touch, base: Design, mine: Design, head: Design) -> Conflict:
    """Give one field in the revision that an edit was made on, as it would have it, and at the head."""
    return Conflict(*touch, *(_value(design, touch) for design in (base, mine, head)))


def _value(design: Design, touch: Touch) -> object:
    """What a touch stands for; a place in a list or an arm of a node has no value of its own."""
    try:
        found = element_named(design, touch.element)
    except (MissingError, ValueError):
        return None
    return found if touch.field == EXISTS else field_of(found, touch.field)
