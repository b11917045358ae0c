"""What an edit reads and writes, and whether it may be made on a later revision."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

#: Stands for whether something is there at all.
EXISTS = "exists"
#: All runs that leave a node, and the names that went into a list in their place by name.
ARMS, NAMES_IN = "arms", "names in"
#: Fields of which several edits may each write a part of their own, such as `arm J2`.
WHOLE = {"arm": ARMS, "name": NAMES_IN}


class Touch(NamedTuple):
    """One field of one element, such as `main/run:J2` and `length_m`."""

    element: str
    field: str


class Touched(NamedTuple):
    """What an edit rests on and what it changes."""

    reads: frozenset[Touch]
    writes: frozenset[Touch]

    def together(self, other: Touched) -> Touched:
        """Join with what another edit touches."""
        return Touched(self.reads | other.reads, self.writes | other.writes)


NOTHING = Touched(frozenset(), frozenset())


def meeting(mine: Touched, later: Iterable[Touched]) -> frozenset[Touch]:
    """Where an edit of an old revision meets later ones; where it meets none it may be made at the head.

    It meets them where its reads or writes are written by them, or its writes are read by them.
    """
    found: set[Touch] = set()
    for theirs in later:
        found |= mine.writes & theirs.writes
        found |= mine.reads & _covered(theirs.writes)
        found |= _covered(mine.writes) & theirs.reads
    return frozenset(found)


def _covered(writes: frozenset[Touch]) -> frozenset[Touch]:
    """Writes, and what they are parts of: who reads `arms` reads every `arm J2`."""
    return writes | {Touch(touch.element, WHOLE[part]) for touch in writes if (part := _part(touch)) in WHOLE}


def _part(touch: Touch) -> str:
    return touch.field.partition(" ")[0]
