"""From a resolved system to its records: units, measures and notes."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from operator import attrgetter
from typing import TypeAlias

from linewright.book.measures import FACTS, MeasureName
from linewright.book.schema import Book, IndoorModel, LevelReference, MeasureUse
from linewright.engine.box_notes import box_notes
from linewright.engine.frame import MOST_KNOWN
from linewright.engine.ground import Ground
from linewright.engine.measures import measure, variant_words
from linewright.engine.proposals import Wanted, propose, propose_groups
from linewright.engine.records import (
    MeasureResult,
    ModeFigures,
    Note,
    SystemFigures,
    UnitResult,
)
from linewright.engine.state import State
from linewright.model.design import ROOT, Unit
from linewright.model.kept import KeptEach
from linewright.model.same import Same
from linewright.model.values import NodeKind
from linewright.units import Dimension

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


def measure_results(state: State) -> tuple[MeasureResult, ...]:
    """Every measure that the book's limits, conditions and needs name, once in each variant, in book order."""
    return tuple([MeasureResult(*named, measure(state, use)) for use, named in _named(Same(state.ground.book.book))])


@lru_cache(maxsize=MOST_KNOWN)
def _named(book: Same[Book]) -> tuple[tuple[MeasureUse, tuple[str, str, str, Dimension]], ...]:
    """Each measure that a book names, with its name, its key, its variant in words and its dimension."""
    found: dict[str, tuple[MeasureUse, tuple[str, str, str, Dimension]]] = {}
    for use in _uses(book.value):
        words = variant_words(use)
        key = f"{use.measure}[{words}]" if words else use.measure.value
        found.setdefault(key, (use, (use.measure.value, key, words, FACTS[use.measure].dimension)))
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
    return _unstated(Same(state.ground.book.book))


@lru_cache(maxsize=MOST_KNOWN)
def _unstated(book: Same[Book]) -> tuple[str, ...]:
    named = {limit.measure for limit in book.value.limits}
    return tuple(sorted(name.value for name in EXPECTED if name not in named))


def unit_results(state: State, figures: SystemFigures) -> tuple[UnitResult, ...]:
    """Every unit with where it is and what it delivers, sorted by id."""
    ground, node_m = state.ground, state.ground.levels.node_m
    actual, equivalent = measure(state, _ACTUAL), measure(state, _EQUIVALENT)
    ids = [unit.id for unit in ground.system.units]
    rows = zip(
        ground.system.units,
        ground.models,
        [None if name in actual.incomplete else actual.values[name] for name in ids],
        [None if name in equivalent.incomplete else equivalent.values[name] for name in ids],
        [node_m[run] for run in ground.tree.unit_runs],
        *[zip(*mode, strict=True) for mode in figures],
        strict=True,
    )
    return tuple(sorted(_UNITS(ground.system.id, list(rows)), key=attrgetter("id")))


_Figures: TypeAlias = tuple[float | None, float | None, float | None, float | None]


def _unit(  # noqa: PLR0917 - kept by these
    unit: Unit,
    model: IndoorModel,
    reach_m: float | None,
    equivalent_m: float | None,
    node_m: float | None,
    *modes: _Figures,
) -> UnitResult:
    of_modes = [ModeFigures(*mode) for mode in modes]
    return UnitResult(unit.id, unit.model, model.kind, unit.room, model.index, reach_m, equivalent_m, node_m, *of_modes)


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


#: The rows of the evaluation before, by system.
_UNITS: KeptEach[UnitResult] = KeptEach(_unit)


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
    without = sorted([unit.id for unit in system.units if not unit.room])
    if without:
        yield Note(system.id, f"in no room, so judged in none: {', '.join(without)}")
    if len(ground.modules) > 1 and not ground.pipes.stated:
        yield Note(system.id, f"no module pipes are stated; lengths are taken from '{ROOT}', the first outdoor joint")
    if any(kind is NodeKind.JOINT for kind in tree.kind):
        yield Note(system.id, "reducers are not counted: this book gives no port sizes of fittings")
