"""Random limits, conditions and needs, with every variant that a measure has."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from linewright.book.measures import FACTS, MeasureName, Over
from linewright.book.schema import (
    Below,
    BoundRow,
    BoundTable,
    Condition,
    CountBy,
    FromGroup,
    InOut,
    Lengths,
    Limit,
    Need,
    Origin,
    Paths,
    Relaxed,
    Side,
    SizeAction,
    UpCounts,
    UpLine,
    UpsizedMain,
    Where,
)
from linewright.units import Amount, Dimension
from tests.oracle.generate_dice import Dice, amount, edges_of

M = MeasureName
LEAST = (M.JOINT_SPACING, M.STRAIGHT_BEFORE, M.STRAIGHT_AFTER, M.SMALLEST_INDEX)
FILTERED = tuple(name for name, facts in FACTS.items() if facts.over is Over.UNITS)
TYPICAL = {
    Dimension.LENGTH: (2, 60),
    Dimension.NUMBER: (0, 30),
    Dimension.RATIO: (0, 2),
    Dimension.MASS: (1, 20),
    Dimension.LINEAR_MASS: (0, 1),
}
DECLARED = ("high-lift setting made", "oil balance checked")


@dataclass
class Names:
    """What limits of one book may name."""

    kinds: Sequence[str]
    models: Sequence[str]
    actions: Sequence[SizeAction]


def variant(dice: Dice, name: MeasureName, names: Names) -> dict[str, Any]:
    """Keys of a measure's variant."""
    keys: dict[str, Any] = {}
    if name in VARIANTS:
        keys |= VARIANTS[name](dice)
    if name in FILTERED and not keys.get("in_all") and dice.maybe(0.25):
        keys["where"] = _where(dice, names)
    return keys


def _where(dice: Dice, names: Names) -> Where:
    filters: list[dict[str, Any]] = [
        {"kind": dice.some(names.kinds)},
        {"exclude_kind": (dice.pick(names.kinds),)},
        {"model": dice.some(names.models)},
        {"below": dice.pick(tuple(Below))},
        {"outdoor": dice.pick(tuple(Side))},
    ]
    kept = dice.some(filters)[: dice.pick((1, 1, 1, 2))]
    return Where(**{key: value for one in kept for key, value in one.items()})


def _lengths(dice: Dice) -> dict[str, Any]:
    return {"lengths": dice.pick((None, Lengths.ACTUAL, Lengths.EQUIVALENT))}


def _origin(dice: Dice) -> dict[str, Any]:
    return {"origin": dice.pick(tuple(Origin))} if dice.maybe(0.3) else {}


def upsized_main(dice: Dice) -> UpsizedMain:
    factors = {1: dice.factor(40, 90)}
    if dice.maybe(0.4):
        factors[2] = dice.factor(30, 80)
    return UpsizedMain(factors=factors, line=dice.pick(tuple(UpLine)), counts=dice.pick(tuple(UpCounts)))


def _farthest_equivalent(dice: Dice) -> dict[str, Any]:
    return {**_origin(dice), "upsized_main": upsized_main(dice) if dice.maybe(0.4) else None}


def _difference(dice: Dice) -> dict[str, Any]:
    keys = {**_lengths(dice), **_origin(dice)}
    factored = keys["lengths"] is Lengths.EQUIVALENT and dice.maybe(0.4)
    return {**keys, "upsized_main": upsized_main(dice) if factored else None}


def _after_first(dice: Dice) -> dict[str, Any]:
    return {**_lengths(dice), "first_branch_allowance": dice.pick(tuple(InOut))}


def _total(dice: Dice) -> dict[str, Any]:
    return {
        **_lengths(dice),
        **_origin(dice),
        "upsized_twice": dice.maybe(0.4),
        "module_pipes": dice.pick(tuple(InOut)),
        "each_tube": dice.maybe(0.2),
    }


#: What rooms ask for at one time is no matter of one system alone.
COUNTED = (CountBy.INDEX, CountBy.INDEX, CountBy.COOLING, CountBy.HEATING)
VARIANTS: dict[MeasureName, Callable[[Dice], dict[str, Any]]] = {
    M.FARTHEST_ACTUAL: _origin,
    M.FARTHEST_EQUIVALENT: _farthest_equivalent,
    M.AFTER_FIRST_BRANCH: _after_first,
    M.LAST_JOINT_TO_UNIT: _lengths,
    M.NEAREST_FARTHEST_DIFFERENCE: _difference,
    M.MAIN_LENGTH: _lengths,
    M.JOINT_SPACING: _lengths,
    M.MODULE_PIPE: _lengths,
    M.MODULE_PIPE_DIFFERENCE: _lengths,
    M.TOTAL_LENGTH: _total,
    M.FITTING_COUNT: lambda dice: {"in_all": dice.maybe(0.5)},
    M.CONNECTION_RATIO: lambda dice: {
        "count_by": dice.pick((CountBy.INDEX, CountBy.INDEX, CountBy.COOLING, CountBy.HEATING))
    },
}


def typical(dice: Dice, name: MeasureName) -> Amount:
    dimension = FACTS[name].dimension
    low, high = TYPICAL[dimension]
    if dimension is Dimension.LENGTH:
        return amount(dice.length_m(low, high), dimension)
    whole = dimension is Dimension.NUMBER
    return amount(float(dice.between(low, high)) if whole else round(dice.rng.uniform(low, high), 2), dimension)


def condition(dice: Dice, names: Names, name: MeasureName | None = None) -> Condition:
    measure = name or dice.pick(tuple(MeasureName))
    sense = dice.pick(("over", "over", "at_least", "under", "at_most"))
    bound: dict[str, Any] = {sense: typical(dice, measure)}
    return Condition(measure=measure, **variant(dice, measure, names), **bound)


def mandatory(dice: Dice, names: Names, action: SizeAction) -> SizeAction:
    """With a condition; one that is not on units cannot say which of them are far, so it takes all."""
    when = condition(dice, names)
    assert when.measure is not None
    paths = action.paths if FACTS[when.measure].over is Over.UNITS else Paths.ALL
    return replace(action, when=when, paths=paths)


def limits_of(dice: Dice, names: Names) -> tuple[Limit, ...]:
    count = dice.between(4, 16)
    return tuple(limit_of(dice, names, dice.pick(tuple(MeasureName))) for _ in range(count)) + _relaxing(dice, names)


def _relaxing(dice: Dice, names: Names) -> tuple[Limit, ...]:
    """Each elective action is needed somewhere."""
    common = (M.AFTER_FIRST_BRANCH, M.AFTER_FIRST_BRANCH, M.FARTHEST_ACTUAL, M.FARTHEST_EQUIVALENT)
    limits = []
    for action in names.actions:
        if action.when is None and dice.maybe(0.9):
            limit = limit_of(dice, names, dice.pick(common))
            needs = (Need(action=action.id), *needs_of(dice, names, least=0))
            bound = typical(dice, limit.measure)
            relaxed = Relaxed(max=bound, needs=tuple(dice.some(needs, len(needs))))
            limits.append(replace(limit, max=typical(dice, limit.measure), relaxed=(relaxed, *limit.relaxed)))
    return tuple(limits)


def limit_of(dice: Dice, names: Names, measure: MeasureName) -> Limit:
    least = measure in LEAST if dice.maybe(0.9) else dice.maybe(0.5)
    sides = ("min",) if least else ("max",)
    if dice.maybe(0.08):
        sides = ("min", "max")  # type: ignore[assignment]
    bounds: dict[str, Any] = {side: typical(dice, measure) for side in sides}
    if measure in (M.INDOOR_COUNT, M.CONNECTION_RATIO) and dice.maybe(0.6):
        bounds = dict.fromkeys(("min", "max"), FromGroup.GROUP)
    elif dice.maybe(0.12):
        bounds[sides[0]] = _bound_table(dice, measure)
    relaxed = tuple(relaxed_of(dice, names, measure, side=sides[0]) for _ in range(dice.pick((0, 0, 0, 1, 1, 2))))
    when = tuple(condition(dice, names) for _ in range(dice.pick((0, 0, 0, 0, 0, 0, 1, 1, 2))))
    return Limit(measure=measure, **variant(dice, measure, names), **bounds, when=when, relaxed=relaxed)


def _bound_table(dice: Dice, measure: MeasureName) -> BoundTable:
    by = dice.pick((M.TOTAL_LENGTH, M.FARTHEST_ACTUAL, M.INDOOR_COUNT, M.CONNECTION_RATIO, M.AFTER_FIRST_BRANCH))
    values = sorted({typical(dice, by).value for _ in range(dice.between(1, 4))})
    edges = edges_of(dice, [*values, 400.0], FACTS[by].dimension)
    return BoundTable(by=by, rows=tuple(BoundRow(**edge, bound=typical(dice, measure)) for edge in edges))


def relaxed_of(dice: Dice, names: Names, measure: MeasureName, *, side: str) -> Relaxed:
    bound: dict[str, Any] = {side: typical(dice, measure)}
    return Relaxed(**bound, needs=needs_of(dice, names, least=1))


def needs_of(dice: Dice, names: Names, *, least: int) -> tuple[Need, ...]:
    needs = []
    for _ in range(dice.between(least, 3)):
        if dice.maybe(0.15):
            needs.append(Need(declared=dice.pick(DECLARED)))
            continue
        measure = dice.pick(tuple(MeasureName))
        side = "min" if measure in LEAST or dice.maybe(0.1) else "max"
        chosen = variant(dice, measure, names)
        bound: dict[str, Any] = {side: typical(dice, measure)}
        needs.append(Need(measure=measure, **chosen, **bound))
    return tuple(needs)
