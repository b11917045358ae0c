"""Every run of a resolved system with its lengths and tubes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache
from operator import attrgetter
from typing import NamedTuple

from linewright.book.schema import Book
from linewright.engine.actions import Scope
from linewright.engine.frame import MOST_KNOWN
from linewright.engine.lengths import Lengths, RunParts
from linewright.engine.records import RunResult, TubeSize
from linewright.engine.sizing import Sized, TableSizes
from linewright.engine.still import Still
from linewright.engine.variants import Variant
from linewright.model.design import Run
from linewright.model.kept import KeptEach
from linewright.model.same import Same
from linewright.model.tree import NO_PARENT
from linewright.model.values import Role


def run_results(variant: Variant) -> tuple[RunResult, ...]:
    """Every run with its lengths and tubes, sorted by id."""
    state, ground = variant.state, variant.state.ground
    tree = ground.tree
    acting = tuple([(scope.action.id, scope.runs) for scope in _acting(variant)])
    fixed = _fixed(Same(ground.still), Same(state.table), Same(state.sized), acting)
    rows = list(zip(tree.runs, *_equivalent(state.lengths), fixed, strict=True))
    return tuple(sorted(_RUNS(ground.system.id, rows), key=attrgetter("id")))


def _equivalent(lengths: Lengths) -> tuple[Sequence[float | None], Sequence[RunParts]]:
    """Give the equivalent length of every run [m], of two judged lines the longer, and its allowances."""
    lines, parts = lengths.equivalent, lengths.parts
    if len(lines) == 1 and lines[0].complete:
        return lines[0].run_m, parts[0]
    runs = range(len(parts[0]))
    longest = [max(range(len(lines)), key=lambda n: lines[n].run_m[i]) for i in runs]
    known = [not any(line.run_missing[i] for line in lines) for i in runs]
    equivalent = [lines[longest[i]].run_m[i] if known[i] else None for i in runs]
    return equivalent, [parts[longest[i]][i] for i in runs]


class _Fixed(NamedTuple):
    """What of a run no length changes."""

    rise_m: float | None
    assumed_rise: bool
    downstream_index: float
    is_main: bool
    tubes: Mapping[Role, TubeSize]
    ports: tuple[int, ...]


def _run(run: Run, equivalent_m: float | None, parts: RunParts, fixed: _Fixed) -> RunResult:
    return RunResult(
        run.to,
        run.from_,
        run.to,
        run.length_m,
        equivalent_m,
        fixed.rise_m,
        fixed.assumed_rise,
        fixed.downstream_index,
        fixed.is_main,
        parts.bends_m,
        parts.items_m,
        parts.fitting_m,
        fixed.tubes,
        fixed.ports,
    )


#: The rows of the evaluation before, by system.
_RUNS: KeptEach[RunResult] = KeptEach(_run)


def _acting(variant: Variant) -> list[Scope]:
    """Actions that ask for sizes, the one that asks for most last."""
    active = [s for s in variant.scopes if s in variant.chosen or (s.mandatory and s.due and not s.forbidden)]
    return sorted(active, key=lambda scope: scope.action.steps)


@lru_cache(maxsize=MOST_KNOWN)
def _fixed(
    of: Same[Still], of_table: Same[TableSizes], of_sizes: Same[Sized], acting: tuple[tuple[str, tuple[int, ...]], ...]
) -> tuple[_Fixed, ...]:
    still, sized = of.value, of_sizes.value
    frame, rises = still.frame, still.levels.rise_m
    asked = _asked(frame.book.book, acting)
    tubes = {role: _tubes(still, of_table.value, sized, role, asked=asked) for role in sized.by_role}
    ports = {outlet.run: outlet.ports for box in still.boxes for outlet in box.outlets}
    return tuple(
        [
            _Fixed(
                rises[i],
                _is_assumed(still, i),
                frame.downstream[i],
                frame.tree.is_main[i],
                {role: of_role[i] for role, of_role in tubes.items() if frame.carries(i, role)},
                ports.get(i, ()),
            )
            for i in range(len(rises))
        ]
    )


def _is_assumed(still: Still, i: int) -> bool:
    """Say whether the rise of a run rests on an assumed elevation."""
    before, assumed = still.frame.tree.parent[i], still.levels.assumed
    return still.bare.rise_m[i] is None and (assumed[i] or (before != NO_PARENT and assumed[before]))


def _asked(book: Book, acting: Iterable[tuple[str, tuple[int, ...]]]) -> dict[tuple[Role, int], str]:
    """Which action asks for the size of each touched tube."""
    lines = {action.id: action.lines for action in book.sizing.actions}
    return {(role, run): name for name, runs in acting for role in lines[name] for run in runs}


def _tubes(
    still: Still, table: TableSizes, sized: Sized, role: Role, *, asked: Mapping[tuple[Role, int], str]
) -> list[TubeSize]:
    """Give how the tubes of one role came to their sizes, as if all runs carried it."""
    sizes, found = sized.by_role[role], []
    for i, (of_table, row) in enumerate(zip(table.by_role[role], table.rows, strict=True)):
        override, action = still.overrides(i).get(role), asked.get((role, i), "")
        source = "override" if override is not None else "action" if action else "table"
        steps = sized.steps[role][i] if action else 0
        capped_at_m = sizes[i] if (role, i) in sized.capped else None
        found.append(TubeSize(role, of_table, row, source, steps, action, override, capped_at_m, sizes[i]))
    return found
