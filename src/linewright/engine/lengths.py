"""Actual and equivalent lengths along the tree, for each line that the book judges."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

from linewright.book.allowances import allowance, sum_items, times
from linewright.book.schema import AllowanceAt, AllowanceLine, UpCounts, UpLine, UpsizedMain
from linewright.engine.formulas import equivalent_length
from linewright.engine.ground import Ground
from linewright.engine.sides import Sizes, main_role, side_sizes
from linewright.engine.sizing import MOST_SIZED, Sized, TableSizes, steps_up
from linewright.engine.still import Still
from linewright.model.design import Item
from linewright.model.same import Same
from linewright.model.tree import NO_PARENT, is_branch
from linewright.model.values import NodeKind, Role


class Line(NamedTuple):
    """Lengths [m] of every run along one line, and reach from the root; flags mark lower bounds."""

    run_m: tuple[float, ...]
    run_missing: tuple[bool, ...]
    reach_m: tuple[float, ...]
    reach_missing: tuple[bool, ...]
    complete: bool


class RunParts(NamedTuple):
    """The allowances of a run [m]; `None` where the book gives none for what is there."""

    bends_m: float | None
    items_m: float | None
    far_m: float | None
    near_m: float | None

    @property
    def fitting_m(self) -> float | None:
        """Allowance of the fittings at both ends as far as this run carries it [m]."""
        return None if self.far_m is None or self.near_m is None else self.far_m + self.near_m


class Lengths(NamedTuple):
    """The actual line, the equivalent lines with their parts, and their sides: the gas or the liquid line."""

    actual: Line
    equivalent: tuple[Line, ...]
    parts: tuple[tuple[RunParts, ...], ...]
    roles: tuple[Role, ...]


def actual_line(ground: Ground) -> Line:
    """Actual lengths along the tree."""
    return _line(ground, ground.length_m, ground.unknown)


def find_lengths(ground: Ground, sized: Sized, actual: Line) -> Lengths:
    """Equivalent lengths for the sizes at hand."""
    roles = judged_lines(ground)
    lines, parts = [], []
    for role in roles:
        found = _allowances(Same(ground.still), Same(sized), role)
        pairs = zip(ground.length_m, found.known_m, strict=True)
        lengths = [equivalent_length(length, *known) for length, known in pairs]
        missing = [unknown or lacking for unknown, lacking in zip(ground.unknown, found.lacking, strict=True)]
        lines.append(_line(ground, lengths, missing))
        parts.append(found.parts)
    return Lengths(actual, tuple(lines), tuple(parts), roles)


def judged_lines(ground: Ground) -> tuple[Role, ...]:
    """Sides whose tubes decide the allowances by their diameter."""
    line = ground.book.book.fittings.allowance_line
    if line is AllowanceLine.BOTH:
        return (Role.GAS, Role.LIQUID)
    return (Role.LIQUID,) if line is AllowanceLine.LIQUID else (Role.GAS,)


def main_factors(
    ground: Ground, table: TableSizes, sized: Sized, upsized: UpsizedMain | None
) -> tuple[tuple[int, float], ...]:
    """Give each main run whose equivalent length is multiplied, with its factor."""
    if upsized is None:
        return ()
    ups = [(i, _main_steps(ground, table, sized, i, line=upsized.line)) for i in ground.tree.main]
    if upsized.counts is UpCounts.WHOLE:
        least = min(up for _, up in ups)
        ups = [(i, least) for i, _ in ups]
    return tuple((i, _factor(upsized.factors, up)) for i, up in ups if up)


def _main_steps(ground: Ground, table: TableSizes, sized: Sized, i: int, *, line: UpLine) -> int:
    def up(side: Role) -> int:
        role = main_role(ground.frame, side)
        return steps_up(ground.book.ladders[role], sized.by_role[role][i], table.by_role[role][i])

    if line is UpLine.BOTH:
        return min(up(Role.GAS), up(Role.LIQUID))
    return up(Role.LIQUID if line is UpLine.LIQUID else Role.GAS)


def _factor(factors: Mapping[int, float], up: int) -> float:
    """Factor for so many steps; beyond the last the book names, the last one holds."""
    reached = [steps for steps in factors if steps <= up]
    return factors[max(reached)] if reached else 1.0


Known = tuple[float, float, float]


class _Allowances(NamedTuple):
    """Parts of every run; bends, items and fittings as far as they are known [m]; which runs lack any."""

    parts: tuple[RunParts, ...]
    known_m: tuple[Known, ...]
    lacking: tuple[bool, ...]


@lru_cache(maxsize=MOST_SIZED)
def _allowances(of: Same[Still], of_sizes: Same[Sized], role: Role) -> _Allowances:
    still, sized = of.value, of_sizes.value
    found = _parts(still, side_sizes(still.frame, sized.by_role, role))
    parts, known_m, lacking = zip(*found, strict=True)
    return _Allowances(parts, known_m, lacking)


class _Bare(NamedTuple):
    """What decides the allowances of a run: the nodes at its far and near ends, a tube [m], bends and items."""

    kind: NodeKind
    near: NodeKind | None
    od_m: float | None
    bends: int
    items: tuple[Item, ...]


def _parts(still: Still, sizes: Sizes) -> list[tuple[RunParts, Known, bool]]:
    """Allowances of every run by the diameter of one of its tubes."""
    fittings, tree = still.frame.book.book.fittings, still.frame.tree
    table, at = fittings.allowance, fittings.allowance_at
    by_size: dict[tuple[str, float | None], float | None] = {}

    def allow(kind: str, od_m: float | None) -> float | None:
        key = (kind, od_m)
        if key not in by_size:
            by_size[key] = allowance(table, kind, od_m)
        return by_size[key]

    def parts(of: _Bare) -> RunParts:
        kind, near, od_m, bends, items = of
        of_items = {item.kind: allow(item.kind, od_m) for item in items}
        return RunParts(
            times(allow("bend", od_m), bends) if bends else 0.0,
            sum_items(items, of_items) if items else 0.0,
            _far(kind, at, allow(kind, od_m), listed=kind in table),
            0.0 if at is AllowanceAt.ENTERS or near is None else _near(near, at, allow(near, od_m)),
        )

    found = []
    seen: dict[tuple[object, ...], tuple[RunParts, Known, bool]] = {}
    nears = [None if before == NO_PARENT else tree.kind[before] for before in tree.parent]
    for key in zip(tree.kind, nears, sizes, still.bare.bends, still.bare.items, strict=True):
        part = seen.get(key)
        if part is None:
            part = seen[key] = _counted(parts(_Bare(*key)))
        found.append(part)
    return found


def _counted(parts: RunParts) -> tuple[RunParts, Known, bool]:
    bends, items, far, near = parts
    return parts, (bends or 0.0, items or 0.0, (far or 0.0) + (near or 0.0)), None in parts


def _far(kind: NodeKind, at: AllowanceAt, allowance_m: float | None, *, listed: bool) -> float | None:
    """Allowance of the fitting at the far end, as far as the entering run carries it [m]."""
    if kind is NodeKind.COUPLING:
        return allowance_m if listed else 0.0
    if not is_branch(kind) or at is AllowanceAt.LEAVES:
        return 0.0
    return _half(allowance_m, at)


def _near(kind: NodeKind, at: AllowanceAt, allowance_m: float | None) -> float | None:
    """Allowance of the fitting at the near end, as far as the leaving run carries it [m]."""
    return _half(allowance_m, at) if is_branch(kind) else 0.0


def _half(length_m: float | None, at: AllowanceAt) -> float | None:
    return length_m / 2 if length_m is not None and at is AllowanceAt.SPLIT else length_m


def _line(ground: Ground, lengths: Sequence[float], missing: Sequence[bool]) -> Line:
    reach: list[float] = []
    for length, before in zip(lengths, ground.tree.parent, strict=True):
        reach.append(length if before == NO_PARENT else length + reach[before])
    if True not in missing:
        return Line(tuple(lengths), tuple(missing), tuple(reach), tuple(missing), complete=True)
    reach_missing: list[bool] = []
    for flag, before in zip(missing, ground.tree.parent, strict=True):
        reach_missing.append(flag or (before != NO_PARENT and reach_missing[before]))
    return Line(tuple(lengths), tuple(missing), tuple(reach), tuple(reach_missing), complete=False)
