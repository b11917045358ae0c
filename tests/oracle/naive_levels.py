"""Measures of level, and the filter that says which units a measure keeps."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal

from linewright.book.measures import MeasureName
from linewright.book.schema import Below, MeasureUse, Side
from linewright.model.values import NodeKind
from tests.oracle.naive_numbers import ONE, ZERO, Known
from tests.oracle.naive_pipes import module_levels
from tests.oracle.naive_series import (
    NOT_APPLICABLE,
    Items,
    Measured,
    Sense,
    by_sense,
    spread,
)
from tests.oracle.naive_tree import Facts, rise_of

M = MeasureName


def kept_units(facts: Facts, use: MeasureUse) -> list[str]:
    """The units that `where` keeps."""
    return [unit for unit in sorted(facts.unit) if _is_kept(facts, use, unit)]


def _is_kept(facts: Facts, use: MeasureUse, unit: str) -> bool:
    where = use.where
    if where is None:
        return True
    model = facts.model(unit)
    headers = [node for node in facts.way(unit) if facts.kind[node] is NodeKind.HEADER]
    return (
        (not where.kind or model.kind in where.kind)
        and model.kind not in where.exclude_kind
        and (not where.model or model.model in where.model)
        and (where.below is not Below.HEADER or bool(headers))
        and (where.below is not Below.JOINT or not headers)
        and (where.outdoor is not Side.ABOVE or _differs(highest(facts), facts.level.get(unit)))
        and (where.outdoor is not Side.BELOW or _differs(facts.level.get(unit), lowest(facts)))
    )


def _differs(upper: Decimal | None, lower: Decimal | None) -> bool:
    """Whether one level is above the other; one that is not known may be."""
    return upper is None or lower is None or upper > lower


def is_doubtful(facts: Facts, use: MeasureUse, unit: str) -> bool:
    """Whether it takes an unknown level to say if a unit is kept."""
    if use.where is None or use.where.outdoor is None:
        return False
    outdoor = highest(facts) if use.where.outdoor is Side.ABOVE else lowest(facts)
    return outdoor is None or facts.level.get(unit) is None


def highest(facts: Facts) -> Decimal | None:
    levels = [level for level in module_levels(facts) if level is not None]
    return max(levels) if len(levels) == len(facts.modules()) else None


def lowest(facts: Facts) -> Decimal | None:
    levels = [level for level in module_levels(facts) if level is not None]
    return min(levels) if len(levels) == len(facts.modules()) else None


def _above(facts: Facts, use: MeasureUse, sense: Sense) -> Measured:
    return by_sense(_drops(facts, use, highest(facts), -ONE), sense)


def _below(facts: Facts, use: MeasureUse, sense: Sense) -> Measured:
    return by_sense(_drops(facts, use, lowest(facts), ONE), sense)


def _drops(facts: Facts, use: MeasureUse, outdoor: Decimal | None, sign: Decimal) -> Items:
    items: dict[str, Known | None] = {}
    for unit in kept_units(facts, use):
        level = facts.level.get(unit)
        known = outdoor is not None and level is not None
        items[unit] = Known(max(ZERO, sign * (level - outdoor))) if known else None  # type: ignore[operator]
    return items


def _between_indoor(facts: Facts, use: MeasureUse, _sense: Sense) -> Measured:
    return spread({unit: _known(facts.level.get(unit)) for unit in kept_units(facts, use)})


def _to_joint(facts: Facts, use: MeasureUse, sense: Sense) -> Measured:
    if facts.first_branch() is None:
        return NOT_APPLICABLE
    items: dict[str, Known | None] = {}
    for unit in kept_units(facts, use):
        level, joint = facts.level.get(unit), facts.level.get(facts.branches_on(unit)[-1])
        items[unit] = None if level is None or joint is None else Known(abs(level - joint))
    return by_sense(items, sense)


def _without_trap(facts: Facts, _use: MeasureUse, sense: Sense) -> Measured:
    return by_sense({run: _climb(facts, run)[0] for run in facts.run}, sense)


def _climb(facts: Facts, run: str) -> tuple[Known | None, Known]:
    """The highest climb since a trap within a run, and the climb at its far end."""
    near = facts.run[run].from_
    start = _climb(facts, near)[1] if near in facts.run else Known(ZERO)
    rise = rise_of(facts, run)
    if rise is None:
        return None, Known(ZERO, whole=False)
    traps = sum(item.count for item in facts.run[run].items if item.kind == "trap")
    part = rise / (traps + 1)
    climb, most = start, ZERO
    for piece in range(traps + 1):
        if piece:
            climb = Known(ZERO)
        climb = Known(max(ZERO, climb.value + part), climb.whole)
        most = max(most, climb.value)
    return Known(most, start.whole), climb


def _known(level: Decimal | None) -> Known | None:
    return None if level is None else Known(level)


LEVELS: dict[MeasureName, Callable[[Facts, MeasureUse, Sense], Measured]] = {
    M.LEVEL_OUTDOOR_ABOVE: _above,
    M.LEVEL_OUTDOOR_BELOW: _below,
    M.LEVEL_BETWEEN_INDOOR: _between_indoor,
    M.LEVEL_UNIT_TO_JOINT: _to_joint,
    M.RISE_WITHOUT_TRAP: _without_trap,
}
