"""Measures of the outdoor modules and their pipes."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from itertools import pairwise

from linewright.book.measures import MeasureName
from linewright.book.schema import Lengths
from linewright.model.values import Role
from tests.oracle.naive_lengths import module_length
from tests.oracle.naive_numbers import ZERO, Known, exact, over
from tests.oracle.naive_pipes import module_ids, module_levels, module_rises, module_way
from tests.oracle.naive_series import NOT_APPLICABLE, Items, Measured, Sense, by_sense, single, spread
from tests.oracle.naive_tree import Facts

M = MeasureName


def pipes_to_modules(facts: Facts, *, lengths: Lengths, line: Role) -> Items | None:
    """Length to each module, none where its pipe is not stated; nothing with one module."""
    if not _several(facts):
        return None
    return {
        module: module_length(facts, module, lengths=lengths, line=line) if module_way(facts, module) else None
        for module in module_ids(facts)
    }


def _rise(facts: Facts, sense: Sense) -> Measured:
    if not _several(facts):
        return NOT_APPLICABLE
    rises = zip(module_ids(facts), module_rises(facts), strict=True)
    return by_sense({module: None if rise is None else Known(max(ZERO, rise)) for module, rise in rises}, sense)


def _between(facts: Facts, _sense: Sense) -> Measured:
    if not _several(facts):
        return NOT_APPLICABLE
    levels = zip(module_ids(facts), module_levels(facts), strict=True)
    return spread({module: None if level is None else Known(level) for module, level in levels})


def _order(facts: Facts, _sense: Sense) -> Measured:
    """How many modules are larger than the one before, going outward along the module pipes."""
    pipes = pipes_to_modules(facts, lengths=Lengths.ACTUAL, line=Role.GAS)
    if pipes is None:
        return NOT_APPLICABLE
    if any(pipe is None or not pipe.whole for pipe in pipes.values()):
        return single(None)
    order: list[tuple[Decimal, int]] = sorted(
        (pipe.value, position) for position, pipe in enumerate(pipes.values()) if pipe is not None
    )
    names = list(pipes)
    seen = [(exact(facts.modules()[position].index), names[position]) for _, position in order]
    wrong = [later[1] for before, later in pairwise(seen) if over(later[0], before[0])]
    return single(Decimal(len(wrong)), governs=tuple(sorted(wrong)))


def _several(facts: Facts) -> bool:
    return len(facts.modules()) > 1


MODULES: dict[MeasureName, Callable[[Facts, Sense], Measured]] = {
    M.MODULE_PIPE_RISE: _rise,
    M.LEVEL_BETWEEN_MODULES: _between,
    M.MODULE_ORDER: _order,
}
