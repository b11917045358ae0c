"""Random branch fittings: tables by index and by tube, headers, and allowances."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from linewright.book.schema import (
    AllowanceAt,
    AllowanceLine,
    FittingBy,
    FittingRow,
    Fittings,
    FittingTable,
    Group,
    HeaderRow,
    HeaderTable,
)
from linewright.model.values import Role
from linewright.units import Dimension
from tests.oracle.generate_book import Ladders, index_edges
from tests.oracle.generate_dice import Dice, edges_of


def fittings_of(dice: Dice, ladders: Ladders, *, group: Group, sums: Sequence[float]) -> Fittings:
    least, largest = min(sums), max(sums)
    edges = index_edges(dice, least=least, most=largest, sums=sums)
    most = (*sums, *[None] * (4 * len(sums)))
    headers = [
        HeaderRow(**edge, model=f"header {number}", ports=dice.pick((3, 4, 6, 8)), port_index=dice.pick(most))
        for number, edge in enumerate(edges_of(dice, sorted(edges * 2), Dimension.NUMBER))
        if not {"over", "from_"} & set(edge)
    ]
    return Fittings(
        first=_fitting_table(dice, ladders, "first", index_edges(dice, least=least, most=group.index, sums=sums)),
        joint=_fitting_table(dice, ladders, "joint", index_edges(dice, least=least, most=largest, sums=sums)),
        header=HeaderTable(rows=tuple(headers)) if headers and dice.maybe(0.9) else None,
        allowance=_allowances(dice, ladders),
        allowance_line=dice.pick(tuple(AllowanceLine)),
        allowance_at=dice.pick((AllowanceAt.ENTERS, *AllowanceAt)),
    )


def _fitting_table(dice: Dice, ladders: Ladders, name: str, values: Sequence[float]) -> FittingTable:
    by = dice.pick((FittingBy.INDEX, *FittingBy))
    gas = dice.between(0, 4)
    rows = []
    for number, edge in enumerate(edges_of(dice, values, Dimension.NUMBER)):
        gas += dice.pick((0, 1, 2, 2))
        size = None if by is FittingBy.INDEX else ladders.size_m(Role.GAS, gas)
        rows.append(FittingRow(**edge, model=f"{name} {number}", gas=size))
    return FittingTable(rows=tuple(rows), by=by)


def _allowances(dice: Dice, ladders: Ladders) -> dict[str, float | Mapping[float, float]]:
    if dice.maybe(0.05):
        return {}
    given: dict[str, float | Mapping[float, float]] = {}
    for kind in ("bend", "joint", "header", "coupling", "outdoor_joint", "valve", "trap", "loop", "sleeve"):
        if dice.maybe(0.4 if kind == "coupling" else 0.01):
            continue
        by_tube = dice.maybe(0.5)
        given[kind] = _by_tube(dice, ladders) if by_tube else dice.length_m(0, 2)
    return given


def _by_tube(dice: Dice, ladders: Ladders) -> dict[float, float]:
    steps = sorted({step for line in ladders.steps.values() for step in line})
    return {dice.tube_m(step): dice.length_m(0, 2) for step in steps if not dice.lacking(0.01)}
