"""Which wall and temper are bought for a tube: those of the book, or those that hold where they do not."""

from __future__ import annotations

from typing import NamedTuple

from linewright.engine.pipework_records import TubeStrength
from linewright.engine.records import SystemResult
from linewright.takeoff.records import Material
from linewright.units import over, same_tube


class Wanted(NamedTuple):
    """A tube to buy, and what has to be said of it ("" for nothing)."""

    material: Material
    note: str


def wanted(result: SystemResult, od_m: float) -> Wanted:
    """Give the tube of one size; by the book where the design does not state how tube is rated."""
    tubes = result.state.ground.book.book.tubes
    wall = next((m for size, m in tubes.wall_m.items() if same_tube(size, od_m)), None)
    temper = next((word for size, word in tubes.temper.items() if same_tube(size, od_m)), "")
    of_book = Material(od_m, wall, temper)
    judged = strength_of(result, od_m)
    if judged is not None and wall is None and judged.order is not None:
        chosen = Material(od_m, judged.order.wall_m, temper or judged.order.temper)
        return Wanted(chosen, "the book states no wall: the thinnest that is sold and holds is bought")
    if judged is None or judged.check.bound is None:
        unjudged = result.pipework is not None and result.pipework.stated.basis is not None
        return Wanted(of_book, "whether it holds the design pressure is not judged" if unjudged else "")
    holds = judged.check.value is not None and not over(judged.check.value, judged.check.bound)
    if judged.order is None:
        return Wanted(of_book, "" if holds else "it does not hold the design pressure, and none that is sold does")
    if holds:
        return Wanted(of_book._replace(wall_m=judged.order.wall_m, temper=temper or judged.order.temper), "")
    said = "the wall of the book does not hold the design pressure: the thinnest that is sold and does is bought"
    return Wanted(Material(od_m, judged.order.wall_m, judged.order.temper), said)


def strength_of(result: SystemResult, od_m: float) -> TubeStrength | None:
    """What was judged of a size of tube."""
    found = () if result.pipework is None else result.pipework.tubes
    return next((tube for tube in found if same_tube(tube.od_m, od_m)), None)
