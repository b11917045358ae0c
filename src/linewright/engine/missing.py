"""What a measure lacks, by name, so that the reader knows what to supply."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.book.measures import MeasureName
from linewright.book.schema import InOut, Lengths, MeasureUse, Origin
from linewright.engine.figures import Series
from linewright.engine.state import State
from linewright.model.tree import NO_PARENT

REACHES = {
    MeasureName.FARTHEST_ACTUAL,
    MeasureName.FARTHEST_EQUIVALENT,
    MeasureName.NEAREST_FARTHEST_DIFFERENCE,
}
FROM_LAST_FITTING = {MeasureName.LAST_JOINT_TO_UNIT, MeasureName.JOINT_SPACING}
MODULE_PIPES = "lengths of module pipes"


def missing_of(state: State, use: MeasureUse, series: Series) -> tuple[str, ...]:
    """Name what a series lacks: as it says itself, else lengths or allowances on the way to what is incomplete."""
    if series.missing:
        return tuple(sorted(series.missing))
    return tuple(sorted({name for subject in series.incomplete for name in _lacking_to(state, use, subject)}))


def _lacking_to(state: State, use: MeasureUse, subject: str) -> Iterator[str]:
    tree, node = state.ground.tree, state.ground.tree.at.get(subject)
    if node is None:
        yield MODULE_PIPES
        return
    equivalent = use.measure is MeasureName.FARTHEST_EQUIVALENT or use.lengths is Lengths.EQUIVALENT
    lines, start = state.lines(equivalent=equivalent), _start(state, use, node)
    while node not in (start, NO_PARENT):
        if any(line.run_missing[node] for line, _ in lines):
            yield f"{'length' if state.ground.unknown[node] else 'allowances'} of run {tree.ids[node]}"
        node = tree.parent[node]
    if start == NO_PARENT and use.measure in REACHES:
        if any(state.before_root(state.origin(use), role)[1] for _, role in lines):
            yield MODULE_PIPES
    elif use.first_branch_allowance is InOut.IN and any(parts[start].far_m is None for parts in state.lengths.parts):
        yield f"allowances of run {tree.ids[start]}"


def _start(state: State, use: MeasureUse, node: int) -> int:
    """The node from which a measure counts outward."""
    tree = state.ground.tree
    if use.measure in FROM_LAST_FITTING:
        return tree.last_fitting[node]
    from_branch = use.measure in REACHES and state.origin(use) is Origin.FIRST_BRANCH
    if tree.first_branch is not None and (from_branch or use.measure is MeasureName.AFTER_FIRST_BRANCH):
        return tree.first_branch
    return NO_PARENT
