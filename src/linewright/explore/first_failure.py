"""The first whole step at which something no longer holds: a coarse scan, then halving between its last two steps."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import NamedTuple

from linewright.explore.verdicts import Verdict


class Failure(NamedTuple):
    """Steps that hold, counted from none, and what gives at the next; `verdict` of `None`: nothing up to `tried`."""

    holds: int
    verdict: Verdict | None
    tried: int


def first_failure(judge: Callable[[int], Verdict], *, scan: int, most: int) -> Failure:
    """Find the first failure from 0 steps upward.

    judge : what gives after so many steps; 0 holds
    scan : steps of the scan, at least 1; most : the last step that is tried

    The very first step is tried before the scan: what stands at its bound now is always found.
    Nothing is taken to be monotone beyond one step of the scan: a design that fails and holds again within it is
    found at one of its failures, and one that does so between two steps that hold is missed. What is found always
    holds, and the next step always fails.
    """
    held = 0
    for step in _steps(scan, most):
        found = judge(step)
        if not found.holds:
            return _halve(judge, held, step, found)
        held = step
    return Failure(held, None, held)


def _steps(scan: int, most: int) -> Iterator[int]:
    yield 1
    yield from (step for step in range(scan, most, scan) if step > 1)
    if most > 1:
        yield most


def _halve(judge: Callable[[int], Verdict], held: int, failed: int, found: Verdict) -> Failure:
    tried = failed
    while failed - held > 1:
        middle = (held + failed) // 2
        here = judge(middle)
        if here.holds:
            held = middle
        else:
            failed, found = middle, here
    return Failure(held, found, tried)
