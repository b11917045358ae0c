"""What moves write, so that no two of one remedy say two things of the same field."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from linewright.explore.remedies.records import Move, MoveKind
from linewright.model.edits import ChangeKind, ChangeModel, Edit, OverrideSize, Set, SetOutdoor

#: Moves that build on one another: each may change again what another one changed.
_TREES = (MoveKind.SHIFT, MoveKind.REHANG, MoveKind.FITTING)
#: Of these, those that are done to one element once.
_ONCE = (MoveKind.SHIFT, MoveKind.REHANG)


def clash(made: Sequence[Move], move: Move) -> bool:
    """Say whether a move would say anew what an earlier one said."""
    if move.kind in _TREES:
        return move.kind in _ONCE and any((one.kind, one.subject) == (move.kind, move.subject) for one in made)
    earlier = {field for one in made for edit in one.edits for field in fields_of(edit)}
    return any(field in earlier for edit in move.edits for field in fields_of(edit))


def fields_of(edit: Edit) -> Iterator[tuple[str, str, str]]:
    """System, element and field of what an edit sets."""
    if isinstance(edit, Set):
        for field in edit.values:
            yield edit.system or edit.id, f"{edit.kind}:{edit.id}", field
    elif isinstance(edit, OverrideSize):
        yield edit.system, f"run:{edit.run}", f"override.{edit.role}"
    elif isinstance(edit, ChangeModel):
        yield edit.system, f"unit:{edit.id}", "model"
    elif isinstance(edit, ChangeKind):
        yield edit.system, f"fitting:{edit.fitting}", "kind"
    elif isinstance(edit, SetOutdoor):
        yield edit.system, "outdoor", "modules"
