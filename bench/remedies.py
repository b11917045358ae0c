"""A large design with something over, for timing the search for remedies."""

from __future__ import annotations

from dataclasses import replace

from bench.designs import tree_of
from linewright.engine import Library
from linewright.explore.remedies import Outcome, Wanted, find
from linewright.model.design import Design

#: A unit whose run was measured anew, and what came of it [m]: then it is too far from the first branch.
UNIT, MEASURED_M = "U20", 46.0
WANTED = Wanted(subject="main/limit:after_first_branch")


def too_far() -> Design:
    """Give 64 units, one of which is too far."""
    design = tree_of(64)
    system = design.systems[0]
    runs = tuple(replace(run, length_m=MEASURED_M) if run.to == UNIT else run for run in system.runs)
    return replace(design, systems=(replace(system, runs=runs),))


def first(design: Design, library: Library) -> Outcome:
    """Search until there is one remedy.

    Raises ValueError where none is found.
    """
    found = find(design, library, WANTED, go_on=lambda progress: progress.newest is None)
    if not found.remedies:
        raise ValueError("no remedy was found")
    return found


def ranked(design: Design, library: Library) -> Outcome:
    """Search with the budget that is used where nobody says another."""
    return find(design, library, WANTED)
