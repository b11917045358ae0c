"""Which function computes which measure."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from linewright.book.measures import MeasureName
from linewright.book.schema import CountBy, InOut, Lengths, MeasureUse, UpsizedMain, Where
from linewright.engine.figures import Series
from linewright.engine.measures.boxes import BOXES
from linewright.engine.measures.heights import HEIGHTS
from linewright.engine.measures.reach import REACH
from linewright.engine.measures.series import unknown
from linewright.engine.measures.tallies import TALLIES
from linewright.engine.records import Sense
from linewright.engine.state import State
from linewright.engine.still import Seen
from linewright.model.same import Same

FUNCTIONS = {**REACH, **HEIGHTS, **TALLIES, **BOXES}
SMALLEST = {
    MeasureName.JOINT_SPACING,
    MeasureName.STRAIGHT_BEFORE,
    MeasureName.STRAIGHT_AFTER,
    MeasureName.SMALLEST_INDEX,
}

#: What reads no length of the system's runs and no size of their tubes.
STILL = {
    MeasureName.LEVEL_OUTDOOR_ABOVE,
    MeasureName.LEVEL_OUTDOOR_BELOW,
    MeasureName.LEVEL_BETWEEN_INDOOR,
    MeasureName.LEVEL_UNIT_TO_JOINT,
    MeasureName.LEVEL_BETWEEN_MODULES,
    MeasureName.MODULE_PIPE,
    MeasureName.MODULE_PIPE_TOTAL,
    MeasureName.MODULE_PIPE_DIFFERENCE,
    MeasureName.MODULE_PIPE_RISE,
    MeasureName.MODULE_ORDER,
    MeasureName.FITTING_INDEX,
    MeasureName.HEADER_PORT_INDEX,
    MeasureName.ARM_INDEX_SHARE,
    MeasureName.FITTING_COUNT,
    MeasureName.HEADER_DEPTH,
    MeasureName.STRAIGHT_BEFORE,
    MeasureName.STRAIGHT_AFTER,
    MeasureName.INDOOR_COUNT,
    MeasureName.CONNECTION_RATIO,
    MeasureName.INDEX_SHARE,
    MeasureName.SMALLEST_INDEX,
    MeasureName.LARGEST_INDEX_SHARE,
    MeasureName.LEVEL_BETWEEN_BOXES,
    MeasureName.LEVEL_WITHIN_BOX,
    MeasureName.BOX_INDEX,
    MeasureName.THROUGH_INDEX,
    MeasureName.PORT_INDEX,
    MeasureName.UNITS_PER_PORT,
    MeasureName.BOXES_IN_SERIES,
    MeasureName.BOX_COUNT,
}

#: What reads no size of a tube where it is asked for in actual lengths.
ACTUAL = {
    MeasureName.FARTHEST_ACTUAL,
    MeasureName.NEAREST_FARTHEST_DIFFERENCE,
    MeasureName.AFTER_FIRST_BRANCH,
    MeasureName.LAST_JOINT_TO_UNIT,
    MeasureName.MAIN_LENGTH,
    MeasureName.JOINT_SPACING,
    MeasureName.TOTAL_LENGTH,
    MeasureName.RISE_WITHOUT_TRAP,
    MeasureName.JOINT_TO_BOX,
    MeasureName.BOX_TO_UNIT,
}

PLAIN_USES = {name: MeasureUse(measure=name) for name in MeasureName}


def measure(state: State, use: MeasureUse, sense: Sense | None = None) -> Series:
    """Compute a measure in the variant that `use` names, or give it again if it was asked for before.

    Without a sense the aggregate is the one that the measure's definition names.
    """
    if sense is None or use.measure in SMALLEST:
        sense = _sense_of(use)
    seen = seen_of(state, use).series
    key = id(use) * 2 + (sense is Sense.MIN)
    found = seen.get(key)
    if found is None:
        found = seen[key] = use, measure_anew(state, use, sense)
    return found[1]


def measure_anew(state: State, use: MeasureUse, sense: Sense | None = None) -> Series:
    """Compute a measure of which nothing is kept, since `use` may not live on."""
    doubtful = state.ground.doubtful_units(use.where)
    return unknown(*doubtful) if doubtful else FUNCTIONS[use.measure](state, use, sense or _sense_of(use))


def _sense_of(use: MeasureUse) -> Sense:
    return Sense.MIN if use.measure in SMALLEST else Sense.MAX


def seen_of(state: State, use: MeasureUse) -> Seen:
    """Give what keeps a measure: what stands still of a system, its ground for all variants, or one variant."""
    if use.measure in STILL:
        return state.ground.still.seen
    of_ground = use.measure in ACTUAL and use.lengths is not Lengths.EQUIVALENT and not use.upsized_twice
    return state.ground.seen if of_ground else state.seen


def variant_words(use: MeasureUse) -> str:
    """Say a variant in words; empty for the measure as defined."""
    return _variant_words(Same(use))


@lru_cache(maxsize=2_000)
def _variant_words(same: Same[MeasureUse]) -> str:
    use = same.value
    words = [*_lengths_words(use), *_counting_words(use)]
    if use.where is not None:
        words.append(_where(use.where))
    return ", ".join(words)


def _lengths_words(use: MeasureUse) -> Iterator[str]:
    if use.lengths is not None:
        yield f"{use.lengths} lengths"
    if use.origin is not None:
        yield f"from {use.origin}"
    if use.upsized_main is not None:
        yield _upsized(use.upsized_main)
    if use.upsized_twice:
        yield "upsized runs twice"


def _counting_words(use: MeasureUse) -> Iterator[str]:
    if use.module_pipes is InOut.IN:
        yield "with module pipes"
    if use.each_tube:
        yield "each tube"
    if use.first_branch_allowance is InOut.IN:
        yield "with the first branch's allowance"
    if use.in_all:
        yield "in all"
    if use.count_by is not CountBy.INDEX:
        yield f"by {use.count_by} capacity"


def _upsized(upsized: UpsizedMain) -> str:
    steps = ", ".join(f"{up} up x {factor:g}" for up, factor in sorted(upsized.factors.items()))
    return f"main {steps} ({upsized.line} line, {upsized.counts})"


def _where(where: Where) -> str:
    words = [*where.kind, *where.model, *(f"not {kind}" for kind in where.exclude_kind)]
    if where.below is not None:
        words.append(f"below a {where.below}")
    if where.outdoor is not None:
        words.append(f"outdoor {where.outdoor}")
    return "where " + " ".join(words)
