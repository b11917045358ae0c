"""From a resolved system to its records: runs, units, measures and notes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple, TypeAlias

from linewright.book.measures import FACTS, MeasureName
from linewright.book.schema import Book, LevelReference, MeasureUse
from linewright.engine.box_notes import box_notes
from linewright.engine.figures import TableRow
from linewright.engine.ground import Ground
from linewright.engine.lengths import RunParts
from linewright.engine.measures import measure, variant_words
from linewright.engine.proposals import Wanted, propose, propose_groups
from linewright.engine.records import (
    MeasureResult,
    Note,
    RunResult,
    SystemFigures,
    TubeSize,
    UnitResult,
)
from linewright.engine.state import State
from linewright.engine.variants import Variant
from linewright.model.design import ROOT, Run
from linewright.model.kept import Kept, itself
from linewright.model.tree import NO_PARENT
from linewright.model.values import NodeKind, Role

EXPECTED = (
    MeasureName.FARTHEST_ACTUAL,
    MeasureName.FARTHEST_EQUIVALENT,
    MeasureName.TOTAL_LENGTH,
    MeasureName.AFTER_FIRST_BRANCH,
    MeasureName.LAST_JOINT_TO_UNIT,
    MeasureName.LEVEL_OUTDOOR_ABOVE,
    MeasureName.LEVEL_OUTDOOR_BELOW,
    MeasureName.LEVEL_BETWEEN_INDOOR,
    MeasureName.HEADER_DEPTH,
    MeasureName.INDOOR_COUNT,
    MeasureName.CONNECTION_RATIO,
)


def run_results(variant: Variant) -> tuple[RunResult, ...]:
    """Every run with its lengths and tubes, sorted by id."""
    state, system = variant.state, variant.state.ground.system.id
    ground, tree, lines = state.ground, state.ground.tree, state.lengths.equivalent
    actions = _actions(variant)
    sizes = {role: _sizes(state, role, actions) for role in state.sized.by_role}
    ports = {outlet.run: outlet.ports for box in ground.boxes for outlet in box.outlets}
    found = []
    for i, (name, run) in enumerate(zip(tree.ids, tree.runs, strict=True)):
        longest = 0 if len(lines) == 1 else max(range(len(lines)), key=lambda n: lines[n].run_m[i])
        missing = any(line.run_missing[i] for line in lines)
        figures = _Figures(
            None if missing else lines[longest].run_m[i],
            ground.levels.rise_m[i],
            _is_assumed(ground, i),
            ground.downstream[i],
            ground.is_main[i],
        )
        tubes = tuple([of_role[i] for role, of_role in sizes.items() if ground.carries(i, role)])
        parts = state.lengths.parts[longest][i]
        found.append(_RUNS((system, name), run, figures, parts, tubes, ports.get(i, ())))
    return tuple(sorted(found, key=_id_of))


def _is_assumed(ground: Ground, i: int) -> bool:
    """Say whether the rise of a run rests on an assumed elevation."""
    before, assumed = ground.tree.parent[i], ground.levels.assumed
    return ground.tree.runs[i].rise_m is None and (assumed[i] or (before != NO_PARENT and assumed[before]))


def _id_of(row: RunResult | UnitResult) -> str:
    return row.id


def measure_results(state: State) -> tuple[MeasureResult, ...]:
    """Every measure that the book's limits, conditions and needs name, once in each variant, in book order."""
    found: dict[str, MeasureResult] = {}
    for use in _uses(state.ground.book.book):
        words = variant_words(use)
        key = f"{use.measure}[{words}]" if words else use.measure.value
        if key not in found:
            dimension = FACTS[use.measure].dimension
            found[key] = MeasureResult(use.measure.value, key, words, dimension, measure(state, use))
    return tuple(found.values())


def _uses(book: Book) -> Iterator[MeasureUse]:
    for limit in book.limits:
        yield limit
    for limit in book.limits:
        yield from (condition for condition in limit.when if condition.measure is not None)
        yield from (need for relaxed in limit.relaxed for need in relaxed.needs if need.measure is not None)
    whens = (action.when for action in book.sizing.actions)
    yield from (when for when in whens if when is not None and when.measure is not None)


def unstated(state: State) -> tuple[str, ...]:
    """Measures that are usually bounded and that this book bounds nowhere."""
    named = {limit.measure for limit in state.ground.book.book.limits}
    return tuple(sorted(name.value for name in EXPECTED if name not in named))


def unit_results(state: State, figures: SystemFigures) -> tuple[UnitResult, ...]:
    """Every unit with where it is and what it delivers, sorted by id."""
    ground = state.ground
    actual = measure(state, _ACTUAL)
    equivalent = measure(state, _EQUIVALENT)
    units = []
    for i, unit in enumerate(ground.system.units):
        model = ground.models[i]
        row = UnitResult(
            unit.id,
            unit.model,
            model.kind,
            unit.room,
            model.index,
            None if unit.id in actual.incomplete else actual.values[unit.id],
            None if unit.id in equivalent.incomplete else equivalent.values[unit.id],
            ground.levels.node_m[ground.tree.unit_runs[i]],
            figures.cooling.of(i),
            figures.sensible.of(i),
            figures.heating.of(i),
        )
        units.append(_UNITS((ground.system.id, unit.id), row))
    return tuple(sorted(units, key=_id_of))


def notes(state: State) -> tuple[Note, ...]:
    """Assumptions and gaps that the reader must know, then what the book wants printed."""
    ground = state.ground
    of_boxes = box_notes(state) if ground.zones else ()
    return (*_notes(ground), *of_boxes, *(Note(ground.system.id, text, of_book=True) for text in _printed(ground)))


def _printed(ground: Ground) -> Iterator[str]:
    """What levels are measured to, options that are on, the maker's own notes."""
    book = ground.book.book
    if book.level_reference is not None:
        yield f"Levels are those of {_LEVEL_WORDS[book.level_reference]}."
    for option in book.options:
        if option.id in ground.system.options:
            yield f"Option {option.id} is on{_at_page(option.page)}: {option.text}"
    for printed in book.notes:
        yield f"The maker's note{_at_page(printed.page)}: {printed.text}"


def _at_page(page: int | None) -> str:
    return f" (page {page})" if page is not None else ""


_LEVEL_WORDS = {
    LevelReference.CONNECTION: "the pipe connections",
    LevelReference.BASE: "the bases of the units",
    LevelReference.TOP: "the tops of the units",
}


_ACTUAL = MeasureUse(measure=MeasureName.FARTHEST_ACTUAL)
_EQUIVALENT = MeasureUse(measure=MeasureName.FARTHEST_EQUIVALENT)


class _Figures(NamedTuple):
    """What was found of a run besides its tubes."""

    equivalent_m: float | None
    rise_m: float | None
    assumed_rise: bool
    downstream_index: float
    is_main: bool


#: A tube of a run: role, size by the table and its row, source, steps, action, override, cap, size.
_Tube: TypeAlias = tuple[Role, float | None, TableRow | None, str, int, str, float | None, float | None, float | None]


def _run(  # noqa: PLR0917 - kept by these
    run: Run, figures: _Figures, parts: RunParts, tubes: tuple[_Tube, ...], ports: tuple[int, ...]
) -> RunResult:
    return RunResult(
        run.to,
        run.from_,
        run.to,
        run.length_m,
        *figures,
        parts.bends_m,
        parts.items_m,
        parts.fitting_m,
        {tube[0]: TubeSize(*tube) for tube in tubes},
        ports,
    )


#: The rows of the evaluation before, by system and id.
_RUNS: Kept[RunResult] = Kept(_run)
_UNITS: Kept[UnitResult] = Kept(itself)


def _sizes(state: State, role: Role, actions: Mapping[tuple[Role, int], str]) -> list[_Tube]:
    """Give how the tubes of one role came to their sizes, as if all runs carried it."""
    sized, runs = state.sized, state.ground.tree.runs
    table, sizes = state.table.by_role[role], sized.by_role[role]
    found: list[_Tube] = []
    for i, (run, row) in enumerate(zip(runs, state.table.rows, strict=True)):
        at, override = (role, i), run.override.get(role) if run.override else None
        action = actions.get(at, "")
        source = "override" if override is not None else "action" if action else "table"
        steps = sized.steps[role][i] if action else 0
        capped_at_m = sizes[i] if at in sized.capped else None
        found.append((role, table[i], row, source, steps, action, override, capped_at_m, sizes[i]))
    return found


def _actions(variant: Variant) -> dict[tuple[Role, int], str]:
    """Which active action asks for the size of each touched tube."""
    active = [s for s in variant.scopes if s in variant.chosen or (s.mandatory and s.due and not s.forbidden)]
    found: dict[tuple[Role, int], str] = {}
    for scope in sorted(active, key=lambda scope: scope.action.steps):
        found |= {(role, run): scope.action.id for role in scope.action.lines for run in scope.runs}
    return found


def _other_groups(ground: Ground) -> Iterator[Note]:
    """Groups that would take the units, where this one does not."""
    wanted = Wanted(ground.index_sum, len(ground.system.units))
    if propose(ground.book, ground.group, wanted).serves:
        return
    serving = [item.group for item in propose_groups(ground.book, wanted) if item.serves]
    named = f"groups of the book that would: {', '.join(serving)}" if serving else "no group of the book would alone"
    yield Note(ground.system.id, f"the outdoor group does not take these units by count or ratio; {named}")


def _notes(ground: Ground) -> Iterator[Note]:
    system, tree = ground.system, ground.tree
    yield from _other_groups(ground)
    assumed = sorted(tree.ids[i] for i, flag in enumerate(ground.levels.assumed) if flag)
    if assumed:
        yield Note(system.id, f"elevation assumed from the nearest unit downstream: {', '.join(assumed)}")
    for i in sorted(ground.levels.too_steep, key=lambda run: tree.ids[run]):
        rise = abs(ground.levels.rise_m[i] or 0.0)
        yield Note(
            f"{system.id}/run:{tree.ids[i]}",
            f"an assumed elevation gives run {tree.ids[i]} a rise of {rise:.2f} m, more than its length: "
            "state the elevation",
        )
    unknown = sorted(tree.ids[i] for i, flag in enumerate(ground.unknown) if flag)
    if unknown:
        yield Note(system.id, f"length unknown: {', '.join(unknown)}")
    without = sorted(unit.id for unit in system.units if not unit.room)
    if without:
        yield Note(system.id, f"in no room, so judged in none: {', '.join(without)}")
    if len(ground.modules) > 1 and not ground.pipes.stated:
        yield Note(system.id, f"no module pipes are stated; lengths are taken from '{ROOT}', the first outdoor joint")
    if any(kind is NodeKind.JOINT for kind in tree.kind):
        yield Note(system.id, "reducers are not counted: this book gives no port sizes of fittings")
