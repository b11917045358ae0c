"""What would make a space pass, each found by judging again: least area, opening, flow, most charge, measures."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import combinations
from typing import NamedTuple

from linewright.standards.safety.case import DOUBTFUL, Case, Verdict
from linewright.units import Dimension

Judge = Callable[[Case], Verdict]
#: No room is larger, no opening or flow either [m2, m3/s].
MOST, LEAST = 1e6, 1e-6
#: How near an amount is found to the least that does, as a share of it.
_NEAR = 1e-7
MOST_TOGETHER = 3


class Part(NamedTuple):
    """One thing that is done: what, and how much of it where it is a quantity."""

    what: str
    value: float | None = None
    dimension: Dimension = Dimension.NUMBER


class Cure(NamedTuple):
    """What is done together; alone none of it would do."""

    parts: tuple[Part, ...]
    case: Case


class Way(NamedTuple):
    """One thing that can be changed: the case with so much of it, and whether less of it is wanted."""

    what: str
    dimension: Dimension
    change: Callable[[Case, float], Case]
    applies: Callable[[Case], bool]
    start: float = 0.0


def _larger(case: Case, factor: float) -> Case:
    sizes = ("area_m2", "volume_m3", "low_volume_m3", "own_area_m2")
    known = {name: getattr(case, name) for name in sizes}
    return replace(case, **{name: size * factor for name, size in known.items() if size is not None})


_FLAGS = (
    Way("tight", Dimension.NUMBER, lambda case, _: replace(case, tight=True), lambda case: not case.tight),
    Way("alarm", Dimension.NUMBER, lambda case, _: replace(case, alarm=True), lambda case: not case.alarm),
)
_AMOUNTS = (
    Way("exhaust", Dimension.FLOW, lambda case, value: replace(case, exhaust_m3_s=value), lambda _: True),
    Way("circulation", Dimension.FLOW, lambda case, value: replace(case, circulation_m3_s=value), lambda _: True),
    Way(
        "openings",
        Dimension.AREA,
        lambda case, value: replace(case, opening_m2=value, opening_edge_m=0.0),
        lambda _: True,
    ),
)
_VALVES = Way("releasable", Dimension.MASS, lambda case, value: replace(case, releasable_kg=value), lambda _: True)
WAYS = (*_FLAGS, *_AMOUNTS, _VALVES)


def cures(case: Case, judge: Judge) -> tuple[Cure, ...]:
    """Ways to make a case pass whatever is not stated, the fewest things together first; none where nothing helps."""
    if judge(case).passes:
        return ()
    worst = replace(case, **{name: at_worst for name, (at_worst, _) in DOUBTFUL.items() if getattr(case, name) is None})
    return (*_area(worst, judge), *_measures(worst, judge))


def _area(case: Case, judge: Judge) -> Iterator[Cure]:
    """The least floor area at the same height."""
    if not case.area_m2:
        return
    factor = _least(lambda number: bool(judge(_larger(case, number)).passes), MOST / case.area_m2)
    if factor is not None:
        area = Part("area", factor * case.area_m2, Dimension.AREA)
        parts = (area,) if case.volume_m3 is None else (area, Part("volume", factor * case.volume_m3, Dimension.VOLUME))
        yield Cure(parts, _larger(case, factor))


def _measures(case: Case, judge: Judge) -> Iterator[Cure]:
    """Sets of measures none of which is idle."""
    ways = [way for way in WAYS if way.applies(case)]
    held: list[frozenset[str]] = []
    for count in range(1, MOST_TOGETHER + 1):
        for together in combinations(ways, count):
            names = frozenset(way.what for way in together)
            if any(less <= names for less in held):
                continue
            cure = _together(case, together, judge)
            if cure is not None:
                held.append(names)
                yield cure


def _together(case: Case, ways: tuple[Way, ...], judge: Judge) -> Cure | None:
    """All of some ways at once, each no stronger than it has to be."""
    made = case
    for way in ways:
        made = way.change(made, 0.0 if way is _VALVES else MOST)
    if not judge(made).passes:
        return None
    parts: list[Part] = []
    for way in ways:
        value = None
        if way in _AMOUNTS:
            value = _least(_passes(made, way, judge), MOST)
        elif way is _VALVES:
            value = _largest(_passes(made, way, judge), case.charge_kg)
        made = made if value is None else way.change(made, value)
        parts.append(Part(way.what, value, way.dimension))
    return Cure(tuple(parts), made)


def _passes(case: Case, way: Way, judge: Judge) -> Callable[[float], bool]:
    return lambda value: bool(judge(way.change(case, value)).passes)


def _least(holds: Callable[[float], bool], most: float) -> float | None:
    """The least number from which on something holds, within a ten-millionth; none where even the most does not do."""
    if not holds(most):
        return None
    low, high = LEAST, most
    while high > low * (1 + _NEAR):
        middle = math.sqrt(low * high)
        low, high = (low, middle) if holds(middle) else (middle, high)
    return high


def _largest(holds: Callable[[float], bool], most: float) -> float:
    """The largest number up to which something holds, likewise; it holds at nothing."""
    if holds(most):
        return most
    low, high = 0.0, most
    while high - low > _NEAR * most:
        middle = (low + high) / 2
        low, high = (middle, high) if holds(middle) else (low, middle)
    return low
