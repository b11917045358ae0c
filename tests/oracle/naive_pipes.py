"""Module pipes: the pipes between the root and the outdoor modules, their ways, sizes and levels."""

from __future__ import annotations

from decimal import Decimal

from linewright.model.design import ROOT, Run
from linewright.model.values import Role
from tests.oracle.naive_numbers import ZERO, exact, find_band
from tests.oracle.naive_tree import Facts


def module_ids(facts: Facts) -> list[str]:
    return [module.id for module in facts.system.outdoor.modules]


def module_way(facts: Facts, module: str) -> list[Run] | None:
    """Module pipes from the root to a module; none where they are not stated."""
    pipe = {run.to: run for run in facts.system.outdoor.pipes}
    way: list[Run] = []
    node = module
    while node != ROOT:
        if node not in pipe:
            return None
        way.insert(0, pipe[node])
        node = pipe[node].from_
    return way


def served(facts: Facts, pipe: Run) -> Decimal:
    """Sum of the indices of the modules that a pipe leads to."""
    indices = zip(module_ids(facts), facts.modules(), strict=True)
    return sum((exact(m.index) for module, m in indices if pipe in (module_way(facts, module) or [])), ZERO)


def pipe_size(facts: Facts, pipe: Run, role: Role) -> Decimal | None:
    """The override, else the table for modules, else the port of the module at the end."""
    table = facts.book.sizing.module
    ports = {module: model.ports for module, model in zip(module_ids(facts), facts.modules(), strict=True)}
    size = pipe.override.get(role)
    if size is None and table is not None:
        row = find_band(table.rows, served(facts, pipe))
        size = None if row is None else row.sizes.get(role)
    elif size is None:
        size = ports.get(pipe.to, {}).get(role)
    return None if size is None else exact(size)


def module_levels(facts: Facts) -> list[Decimal | None]:
    """Stated, else the group's plus the stated rises of its pipes, else the group's."""
    group = facts.system.outdoor.elevation_m
    levels: list[Decimal | None] = []
    for module in facts.system.outdoor.modules:
        if module.elevation_m is not None:
            levels.append(exact(module.elevation_m))
        else:
            levels.append(None if group is None else exact(group) + above_group(facts, module.id))
    return levels


def module_rises(facts: Facts) -> list[Decimal | None]:
    """How far each module stands above the root: by the stated rises of its pipes, else by levels."""
    group = facts.system.outdoor.elevation_m
    found: list[Decimal | None] = []
    for module, level in zip(facts.system.outdoor.modules, module_levels(facts), strict=True):
        rises = [pipe.rise_m for pipe in module_way(facts, module.id) or []]
        if rises and None not in rises:
            found.append(above_group(facts, module.id))
        else:
            found.append(None if group is None or level is None else level - exact(group))
    return found


def above_group(facts: Facts, module: str) -> Decimal:
    """Rises of the module's pipes where all are stated, else nothing."""
    rises = [pipe.rise_m for pipe in module_way(facts, module) or []]
    known = [exact(rise) for rise in rises if rise is not None]
    return sum(known, ZERO) if len(known) == len(rises) else ZERO
