"""Which limits are lengths along the pipe, and where along the axis they stand."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TypeAlias

from linewright.book.measures import MeasureName
from linewright.draw.plan import Axis, LengthLimit, is_beyond
from linewright.draw.reach import Reach
from linewright.draw.wording import limit_name
from linewright.engine.records import Check, MeasureResult, Sense, Standing, SystemResult
from linewright.units import Dimension

ALONG = (
    MeasureName.FARTHEST_ACTUAL,
    MeasureName.FARTHEST_EQUIVALENT,
    MeasureName.AFTER_FIRST_BRANCH,
    MeasureName.LAST_JOINT_TO_UNIT,
)
_MEASURES = frozenset(MeasureName)
#: Where limits stand along the axis, and their bounds [m].
Marks: TypeAlias = tuple[tuple[float, float], ...]
# Lengths are sums of floats: two marks nearer than this are one.
SAME_M = 1e-6
# Decimals of a mark [m]: the dust that sums leave would move it, and all labels about it, whenever any length changes.
_DUST = 9


def length_limits(
    result: SystemResult, axis: Axis, units: Mapping[str, float], *, root: Reach
) -> tuple[list[LengthLimit], list[Check]]:
    """Give the limits that are lengths along this axis, and those that belong to the other one.

    A mark stands as far beyond the drawn unit as its bound is above what was measured there, so that it is right
    whatever the limit measures from.

    units : the reach of each unit [m]
    """
    here: list[LengthLimit] = []
    elsewhere: list[Check] = []
    for i, check in enumerate(result.limits):
        if not _is_along(check):
            continue
        measured = result.measured(check)
        if axis_of(check, measured) is not axis:
            elsewhere.append(check)
            continue
        name = f"limit:{check.measure}"
        repeated = any(mark.id == name for mark in here)
        here.append(_place(check, measured, units, name=f"{name}@{i}" if repeated else name, root=root))
    return here, elsewhere


def axis_of(check: Check, measured: MeasureResult | None) -> Axis:
    """Give the axis that a length limit belongs to."""
    if measure_name(check) is MeasureName.FARTHEST_EQUIVALENT:
        return Axis.EQUIVALENT
    variant = measured.variant if measured else ""
    return Axis.EQUIVALENT if "equivalent" in variant and measure_name(check) in ALONG[2:] else Axis.ACTUAL


def measure_name(check: Check) -> MeasureName | None:
    """Give the measure of a check, if it is on one."""
    head = check.measure.split(" ", 1)[0]
    return MeasureName(head) if head in _MEASURES else None


def metres_left(limits: list[LengthLimit], units: Mapping[str, float], downstream: list[str]) -> float | None:
    """Give what the nearest mark leaves for an unknown run that these units hang on [m], never below zero."""
    left = []
    for limit in limits:
        for unit in downstream:
            mark = limit.mark_m(unit)
            if mark is not None:
                left.append(max(0.0, mark - units[unit]))
    return min(left, default=None)


def marks_ahead(limits: Sequence[LengthLimit], own_units: Sequence[str]) -> list[Marks]:
    """Give for each run the marks that it could pass, with their bounds.

    own_units : of each run the unit whose own it is, on which the ticks of its lane count too; else empty
    """
    bounded = [(one.ticks_m, one.line_m, one.check.bound) for one in limits if one.check.bound is not None]
    for_all = tuple([(line_m, bound_m) for _, line_m, bound_m in bounded if line_m is not None])
    ticked = {unit for ticks_m, *_ in bounded for unit in ticks_m}
    by_unit = {unit: _marks_of(unit, bounded) for unit in ticked}
    return [by_unit.get(unit, for_all) for unit in own_units]


def _marks_of(unit: str, bounded: Sequence[tuple[Mapping[str, float], float | None, float]]) -> Marks:
    marks = [(ticks_m.get(unit, line_m), bound_m) for ticks_m, line_m, bound_m in bounded]
    return tuple([(mark_m, bound_m) for mark_m, bound_m in marks if mark_m is not None])


def beyond(marks: Marks, *, near_m: float, far_m: float) -> float | None:
    """Give the reach from which a run between two reaches lies beyond a limit [m]; none where it lies within all."""
    passed = [mark_m for mark_m, bound_m in marks if is_beyond(far_m, mark_m, bound_m)]
    return max(min(passed), near_m) if passed else None


def _is_along(check: Check) -> bool:
    wanted = check.dimension is Dimension.LENGTH and check.sense is Sense.MAX and check.bound is not None
    return wanted and measure_name(check) in ALONG and check.standing is not Standing.NOT_APPLICABLE


def _place(
    check: Check, measured: MeasureResult | None, units: Mapping[str, float], *, name: str, root: Reach
) -> LengthLimit:
    bound = check.bound or 0.0
    values = measured.series.values if measured else {}
    marks = {unit: bound + units[unit] - value for unit, value in values.items() if unit in units}
    spread = max(marks.values()) - min(marks.values()) if marks else 0.0
    everywhere = set(marks) == set(units) and measure_name(check) is not MeasureName.LAST_JOINT_TO_UNIT
    line = None
    if everywhere and spread <= SAME_M:
        line = round(min(marks.values()), _DUST)
    elif not marks and measure_name(check) in ALONG[:2]:
        line = root.m + bound
    plain = check.plain_bound if check.standing is Standing.ON_CONDITIONS else None
    return LengthLimit(
        id=name,
        check=check,
        label=limit_name(check, measured),
        line_m=line,
        plain_line_m=line - bound + plain if line is not None and plain is not None else None,
        ticks_m={} if line is not None else {unit: round(mark, _DUST) for unit, mark in marks.items()},
    )
