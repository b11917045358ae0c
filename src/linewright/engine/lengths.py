"""Actual and equivalent lengths along the tree, for each line that the book judges."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple

from linewright.book.allowances import allowance, sum_items, times
from linewright.book.schema import AllowanceAt, AllowanceLine, UpCounts, UpLine, UpsizedMain
from linewright.engine.formulas import equivalent_length
from linewright.engine.ground import Ground
from linewright.engine.sizing import Sized, Sizes, TableSizes, steps_up
from linewright.model.tree import NO_PARENT, is_branch
from linewright.model.values import NodeKind, Role

Allow = Callable[[str], float | None]


class Line(NamedTuple):
    """Lengths [m] of every run along one line, and reach from the root; flags mark lower bounds."""

    run_m: tuple[float, ...]
    run_missing: tuple[bool, ...]
    reach_m: tuple[float, ...]
    reach_missing: tuple[bool, ...]


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
    """The actual line, the equivalent lines with their parts, and the roles of their tubes."""

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
        found = _parts(ground, sized.by_role[role])
        lengths, missing = [], []
        for i, part in enumerate(found):
            missing.append(ground.unknown[i] or part.bends_m is None or part.items_m is None or part.fitting_m is None)
            lengths.append(
                equivalent_length(ground.length_m[i], part.bends_m or 0.0, part.items_m or 0.0, part.fitting_m or 0.0)
            )
        lines.append(_line(ground, lengths, missing))
        parts.append(found)
    return Lengths(actual, tuple(lines), tuple(parts), roles)


def judged_lines(ground: Ground) -> tuple[Role, ...]:
    """Roles of the tubes whose diameter decides the allowances."""
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
    def up(role: Role) -> int:
        return steps_up(ground.book.ladders[role], sized.by_role[role][i], table.by_role[role][i])

    if line is UpLine.BOTH:
        return min(up(Role.GAS), up(Role.LIQUID))
    return up(Role.LIQUID if line is UpLine.LIQUID else Role.GAS)


def _factor(factors: Mapping[int, float], up: int) -> float:
    """Factor for so many steps; beyond the last the book names, the last one holds."""
    reached = [steps for steps in factors if steps <= up]
    return factors[max(reached)] if reached else 1.0


def _parts(ground: Ground, sizes: Sizes) -> tuple[RunParts, ...]:
    table, at = ground.book.book.fittings.allowance, ground.book.book.fittings.allowance_at
    by_size: dict[tuple[str, float | None], float | None] = {}

    def allow(kind: str, od_m: float | None) -> float | None:
        key = (kind, od_m)
        if key not in by_size:
            by_size[key] = allowance(table, kind, od_m)
        return by_size[key]

    return tuple(
        RunParts(
            bends_m=times(allow("bend", sizes[i]), run.bends),
            items_m=sum_items(run.items, {item.kind: allow(item.kind, sizes[i]) for item in run.items}),
            far_m=_far(ground, i, at, allow=lambda kind, od_m=sizes[i]: allow(kind, od_m)),
            near_m=_near(ground, i, at, allow=lambda kind, od_m=sizes[i]: allow(kind, od_m)),
        )
        for i, run in enumerate(ground.tree.runs)
    )


def _far(ground: Ground, i: int, at: AllowanceAt, *, allow: Allow) -> float | None:
    """Allowance of the fitting at the far end, as far as the entering run carries it [m]."""
    kind = ground.tree.kind[i]
    if kind is NodeKind.COUPLING:
        return allow(kind.value) if kind.value in ground.book.book.fittings.allowance else 0.0
    if not is_branch(kind) or at is AllowanceAt.LEAVES:
        return 0.0
    return _half(allow(kind.value), at)


def _near(ground: Ground, i: int, at: AllowanceAt, *, allow: Allow) -> float | None:
    """Allowance of the fitting at the near end, as far as the leaving run carries it [m]."""
    before = ground.tree.parent[i]
    if at is AllowanceAt.ENTERS or before == NO_PARENT or not is_branch(ground.tree.kind[before]):
        return 0.0
    return _half(allow(ground.tree.kind[before].value), at)


def _half(length_m: float | None, at: AllowanceAt) -> float | None:
    return length_m / 2 if length_m is not None and at is AllowanceAt.SPLIT else length_m


def _line(ground: Ground, lengths: Sequence[float], missing: Sequence[bool]) -> Line:
    reach: list[float] = []
    reach_missing: list[bool] = []
    for i, before in enumerate(ground.tree.parent):
        reach.append(lengths[i] + (reach[before] if before != NO_PARENT else 0.0))
        reach_missing.append(missing[i] or (before != NO_PARENT and reach_missing[before]))
    return Line(tuple(lengths), tuple(missing), tuple(reach), tuple(reach_missing))

