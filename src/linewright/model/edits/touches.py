"""What an edit reads and writes, and whether it may be made on a later revision."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

#: Stands for whether something is there at all.
EXISTS = "exists"


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
        found |= (mine.reads | mine.writes) & theirs.writes
        found |= mine.writes & theirs.reads
    return frozenset(found)
