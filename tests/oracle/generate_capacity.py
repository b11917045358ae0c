"""Random capacity tables around the conditions of the site."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from linewright.book.schema import (
    Basis,
    BelowFirst,
    Capacity,
    CapacityMode,
    DefrostTable,
    LengthTable,
    RatioTable,
    TemperatureTable,
    UnitTemperatureTable,
)
from linewright.model.design import CoolingConditions, HeatingConditions, Site
from linewright.units import Dimension
from tests.oracle.generate_book import OTHER
from tests.oracle.generate_dice import Dice, amount
from tests.oracle.generate_limits import upsized_main


def site_of(dice: Dice) -> Site:
    cooling = CoolingConditions(
        outdoor_db_degc=float(dice.pick((25, 30, 35, 43, 46))), indoor_wb_degc=float(dice.pick((17, 18, 19, 20)))
    )
    heating = HeatingConditions(
        outdoor_wb_degc=float(dice.pick((-10, -7, -4, 0, 6, 7))), indoor_db_degc=float(dice.pick((18, 20, 21)))
    )
    return Site(
        cooling=cooling if dice.maybe(0.95) else None,
        heating=heating if dice.maybe(0.9) else None,
    )


def capacity_of(dice: Dice, *, group: str, kinds: Sequence[str], reach_m: float, ratio: float) -> Capacity:
    """Tables that mostly hold what the design needs; now and then one that does not."""
    cooling = CapacityMode(
        temperature=_temperature(dice, group, cooling=True),
        ratio=_ratio(dice, group, ratio),
        length=_length(dice, group, reach_m),
        unit_temperature=_units(dice, kinds, cooling=True),
    )
    heating = CapacityMode(
        temperature=_temperature(dice, group, cooling=False),
        ratio=_ratio(dice, group, ratio),
        length=_length(dice, group, reach_m),
        unit_temperature=_units(dice, kinds, cooling=False),
        defrost=_defrost(dice) if dice.maybe(0.6) else None,
    )
    return Capacity(cooling=cooling, heating=heating if dice.maybe(0.9) else None)


def _axis(dice: Dice, low: int, high: int) -> tuple[float, ...]:
    """Entries between two ends that it rarely stops short of."""
    inner = dice.ascending(dice.between(0, 3), low + 1, high - 1)
    short = dice.maybe(0.03)
    return tuple(float(entry) for entry in (low, *inner, low + 1 if short and not inner else high))


def _grid(dice: Dice, rows: int, columns: int) -> tuple[tuple[float, ...], ...]:
    return tuple(tuple(dice.factor(70, 112) for _ in range(columns)) for _ in range(rows))


def _for_groups(dice: Dice, group: str) -> tuple[str, ...]:
    return dice.pick(((), (), (), (group,), (OTHER, group)))


def _temperature(dice: Dice, group: str, *, cooling: bool) -> tuple[TemperatureTable, ...]:
    if dice.maybe(0.1):
        return ()
    included = not cooling and dice.maybe(0.3)
    if cooling:
        outdoor, indoor = _axis(dice, 20, 46), _axis(dice, 16, 22)
        axes: dict[str, Any] = {"outdoor_db_degc": outdoor, "indoor_wb_degc": indoor}
    else:
        outdoor, indoor = _axis(dice, -12, 8), _axis(dice, 17, 22)
        axes = {"outdoor_wb_degc": outdoor, "indoor_db_degc": indoor}
    groups = _for_groups(dice, group)
    tables = [
        TemperatureTable(**axes, factor=_grid(dice, len(outdoor), len(indoor)), groups=of, defrost_included=included)
        for of in (groups, (OTHER,), ())
    ]
    return tuple(tables if dice.maybe(0.3) else tables[:1])


def _ratio(dice: Dice, group: str, ratio: float) -> tuple[RatioTable, ...]:
    if dice.maybe(0.6):
        return ()
    entries = sorted({0.1, ratio, 1.0, *((3.0,) if dice.maybe(0.95) else ())})
    factors = tuple(dice.factor(85, 110) for _ in entries)
    ratios = tuple(amount(entry, Dimension.RATIO) for entry in entries)
    return (RatioTable(ratio=ratios, factor=factors, groups=_for_groups(dice, group)),)


def _length(dice: Dice, group: str, reach_m: float) -> tuple[LengthTable, ...]:
    if dice.maybe(0.1):
        return ()
    longest = reach_m * dice.pick((0.9, 1.0, 2.0, 2.0, 3.0, 3.0, 3.0)) + 1.0
    first = dice.pick((0.0, 5.0, 7.5))
    entries = sorted({first, first + longest, *(round(dice.rng.uniform(first, longest), 1) for _ in range(2))})
    levels = tuple(float(level) for level in sorted({-200, *dice.ascending(2, -20, 30), 200}))
    columns = levels if dice.maybe(0.7) else ()
    return (
        LengthTable(
            equivalent_m=tuple(entries),
            level_m=columns,
            factor=_grid(dice, len(entries), max(1, len(columns))),
            basis=dice.pick((Basis.FARTHEST, Basis.FARTHEST, Basis.EACH)),
            below_first=dice.pick((BelowFirst.HOLD, BelowFirst.HOLD, BelowFirst.UNJUDGED)),
            upsized_main=upsized_main(dice) if dice.maybe(0.5) else None,
            groups=_for_groups(dice, group),
        ),
    )


def _units(dice: Dice, kinds: Sequence[str], *, cooling: bool) -> tuple[UnitTemperatureTable, ...]:
    tables = []
    for of in (dice.some(kinds), ()):
        if dice.maybe(0.25):
            entries = _axis(dice, 16, 22) if cooling else _axis(dice, 17, 22)
            tables.append(
                UnitTemperatureTable(
                    indoor_wb_degc=entries if cooling else (),
                    indoor_db_degc=() if cooling else entries,
                    total=tuple(dice.factor(85, 110) for _ in entries),
                    sensible=tuple(dice.factor(85, 110) for _ in entries) if cooling and dice.maybe(0.5) else (),
                    kind=of,
                )
            )
    return tuple(tables)


def _defrost(dice: Dice) -> DefrostTable:
    entries = _axis(dice, -12, 8)
    return DefrostTable(outdoor_wb_degc=entries, factor=tuple(dice.factor(80, 100) for _ in entries))
