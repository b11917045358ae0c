"""How much of a change a move is: the order in which remedies are listed where no prices are wanted.

Assumed by us, no source: what costs a word in a file is light, what changes a building is heavy.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

from linewright.explore.remedies.records import MoveKind

WEIGHTS: Mapping[MoveKind, float] = MappingProxyType(
    {
        MoveKind.ACTION: 1.0,
        MoveKind.OVERRIDE_OFF: 1.0,
        MoveKind.OPTION: 2.0,
        MoveKind.DECLARATION: 2.0,
        MoveKind.SIZE: 2.0,
        MoveKind.MODULE_ORDER: 2.0,
        MoveKind.FITTING: 3.0,
        MoveKind.UNIT_SIZE: 4.0,
        MoveKind.PIPEWORK: 4.0,
        MoveKind.UNIT_KIND: 6.0,
        MoveKind.SHIFT: 6.0,
        MoveKind.REHANG: 7.0,
        MoveKind.GROUP: 8.0,
        MoveKind.SAFETY: 8.0,
        MoveKind.OUTDOOR_PLACE: 9.0,
        MoveKind.LENGTH: 10.0,
        MoveKind.MOVE_UNIT: 12.0,
        MoveKind.SPLIT: 40.0,
    }
)
#: For every further run, unit or step of one move, as a share of its weight.
FURTHER = 0.25


def weight(kind: MoveKind, count: int = 1) -> float:
    """Weight of a move that touches so many runs, units or steps."""
    return WEIGHTS[kind] * (1.0 + FURTHER * (max(1, count) - 1))
