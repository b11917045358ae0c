"""From a plan to pieces: which part of which run comes off which length."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice, permutations
from typing import NamedTuple

from linewright.takeoff.cutting import Plan

#: Orders of one group that are tried to avoid short pieces.
MOST_ORDERS = 200


class Laid(NamedTuple):
    """A piece: position and size of its length, position of its run, its own size [mm]."""

    length: int
    stock_mm: int
    run: int
    piece_mm: int


def lay(plan: Plan, runs_mm: Sequence[int], least_mm: int) -> list[Laid]:
    """Lay the runs of each group on its lengths, with as few pieces shorter than the least as can be found."""
    found: list[Laid] = []
    bought = 0
    for runs, lengths in plan.groups:
        best = min(
            (_laid(order, lengths, runs_mm, least_mm) for order in islice(permutations(runs), MOST_ORDERS)),
            key=lambda pieces: sum(piece.piece_mm < least_mm for piece in pieces if _joined(piece, runs_mm)),
        )
        found += [piece._replace(length=piece.length + bought) for piece in best]
        bought += len(lengths)
    return found


def _joined(piece: Laid, runs_mm: Sequence[int]) -> bool:
    return piece.piece_mm < runs_mm[piece.run]


def _laid(order: Sequence[int], lengths: Sequence[int], runs_mm: Sequence[int], least_mm: int) -> list[Laid]:
    return list(_pieces(order, lengths, runs_mm, least_mm))


def _pieces(order: Sequence[int], lengths: Sequence[int], runs_mm: Sequence[int], least_mm: int) -> Iterator[Laid]:
    slack = sum(lengths) - sum(runs_mm[run] for run in order)
    at, room = 0, lengths[0]
    for run in order:
        left = runs_mm[run]
        while left > 0:
            if room == 0:
                at, room = at + 1, lengths[at + 1]
            piece = min(left, room)
            if piece < left:
                piece = _shorter(piece, left, slack, least_mm)
                slack -= room - piece
                room = piece
            if piece:
                yield Laid(at, lengths[at], run, piece)
            left, room = left - piece, room - piece


def _shorter(piece: int, left: int, slack: int, least_mm: int) -> int:
    """Leave some of a length over where that avoids a short piece and something is left over anyway."""
    if piece < least_mm:
        return 0 if piece <= slack else piece
    short_of = least_mm - (left - piece)
    return piece - short_of if 0 < short_of <= slack and piece - short_of >= least_mm else piece
