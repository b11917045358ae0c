"""Module pipes: what hangs on the other side of the first outdoor joint, sized and measured once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from linewright.book.allowances import allowance, sum_items, times
from linewright.book.compiled import CompiledBook
from linewright.book.roles import outer_roles
from linewright.book.schema import OutdoorModule
from linewright.model.design import ROOT, Module, Outdoor, Run
from linewright.model.values import Role

Length = tuple[float, bool]


class ModulePipe(NamedTuple):
    """One module: id, data, level, rise above the root, and the runs (positions in `outdoor.pipes`) that lead to it."""

    id: str
    data: OutdoorModule
    elevation_m: float | None
    rise_m: float | None
    path: tuple[int, ...]


class Pipes(NamedTuple):
    """All modules; sizes of the pipes by role; their lengths [m], actual (no role) or equivalent by side, with flags.

    A flag marks a lower bound.
    """

    modules: tuple[ModulePipe, ...]
    stated: bool
    sizes: Mapping[Role, tuple[float | None, ...]]
    length_m: Mapping[Role | None, tuple[Length, ...]]
    farthest_m: Mapping[Role | None, Length]


def find_pipes(outdoor: Outdoor, book: CompiledBook) -> Pipes:
    """Size and measure the module pipes of an outdoor group."""
    runs = outdoor.pipes
    modules = _modules(outdoor, book)
    stated = bool(runs) or len(modules) == 1
    sizes = {
        role: tuple(_size(book, modules, i, run=run, role=role) for i, run in enumerate(runs))
        for role in (outer_roles(book.book) if book.recovery else book.ladders)
    }
    names = {module.id for module in modules}
    lengths: dict[Role | None, tuple[Length, ...]] = {
        None: tuple((run.length_m or 0.0, run.length_m is None) for run in runs)
    }
    for side, role in (book.sides if book.recovery else {role: role for role in sizes}).items():
        lengths[side] = tuple(
            _equivalent(book, run, od_m, is_module=run.to in names) for run, od_m in zip(runs, sizes[role], strict=True)
        )
    farthest = {role: _farthest(modules, items, stated=stated) for role, items in lengths.items()}
    return Pipes(modules, stated, sizes, lengths, farthest)


def module_id(module: Module, position: int) -> str:
    """Id of a module: its own, else M1, M2, ... in the order of the list."""
    return module.id or f"M{position + 1}"


def _modules(outdoor: Outdoor, book: CompiledBook) -> tuple[ModulePipe, ...]:
    runs = outdoor.pipes
    into = {run.to: i for i, run in enumerate(runs)}
    found = []
    for i, module in enumerate(outdoor.modules):
        name = at = module_id(module, i)
        path: list[int] = []
        while at in into and at != ROOT and len(path) <= len(runs):
            path.append(into[at])
            at = runs[into[at]].from_
        level, rise = _level(module, outdoor, path)
        found.append(ModulePipe(name, book.modules[module.model], level, rise, tuple(reversed(path))))
    return tuple(found)


def _level(module: Module, outdoor: Outdoor, path: Sequence[int]) -> tuple[float | None, float | None]:
    """Level of a module and its rise above the root [m].

    The level is stated, or the root's plus the stated rises of its pipes, or the root's. The rise is that of the
    pipes where they state it, else the difference of levels.
    """
    root, stated = outdoor.elevation_m, module.elevation_m
    rises = [outdoor.pipes[i].rise_m for i in path]
    known = sum(item for item in rises if item is not None) if rises and None not in rises else None
    level = stated if stated is not None else None if root is None else root + (known or 0.0)
    if known is not None:
        return level, known
    return level, None if root is None or level is None else level - root


def _size(book: CompiledBook, modules: Sequence[ModulePipe], at: int, *, run: Run, role: Role) -> float | None:
    """Override, else the module-pipe table by the index served, else the ports of the module at the end."""
    if role in run.override:
        return run.override[role]
    served = [module for module in modules if at in module.path]
    if book.module_pipe is not None:
        found = book.module_pipe.find(sum(module.data.index for module in served))
        return None if found is None else found.row.sizes.get(role)
    end = next((module for module in served if module.id == run.to), None)
    return None if end is None else end.data.ports.get(role)


def _equivalent(book: CompiledBook, run: Run, od_m: float | None, *, is_module: bool) -> Length:
    table = book.book.fittings.allowance
    pieces = [
        times(allowance(table, "bend", od_m), run.bends),
        sum_items(run.items, {item.kind: allowance(table, item.kind, od_m) for item in run.items}),
        0.0 if is_module else allowance(table, "outdoor_joint", od_m),
    ]
    length = (run.length_m or 0.0) + sum(piece for piece in pieces if piece is not None)
    return length, run.length_m is None or None in pieces


def _farthest(modules: Sequence[ModulePipe], lengths: Sequence[Length], *, stated: bool) -> Length:
    if len(modules) == 1:
        return 0.0, False
    if not stated:
        return 0.0, True
    longest = max(sum(lengths[i][0] for i in module.path) for module in modules)
    return longest, any(lengths[i][1] for module in modules for i in module.path)
