"""Which of the connection ratios that a group states a limit means."""

from __future__ import annotations

from linewright.book.measures import MeasureName
from linewright.book.schema import Group, GroupRatio, Limit, Range


def is_of_ratio(limit: Limit, ratio: GroupRatio) -> bool:
    """Say whether a limit is on the units and by the count of a group's ratio."""
    same = limit.where == ratio.where and limit.count_by is ratio.count_by
    return limit.measure is MeasureName.CONNECTION_RATIO and same


def range_of(group: Group, limit: Limit) -> tuple[Range, str]:
    """Give the range that a group states for a limit, and its key: of the same units and count, else the plain one."""
    if limit.measure is MeasureName.INDOOR_COUNT:
        return group.indoor_count, "indoor_count"
    found = next((i for i, ratio in enumerate(group.ratios) if is_of_ratio(limit, ratio)), None)
    return (group.connection_ratio, "connection_ratio") if found is None else (group.ratios[found], f"ratios[{found}]")
