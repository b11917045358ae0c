"""What can be wrong with the capacity tables of one mode beside one another."""

from __future__ import annotations

from linewright.book.naming import group_name
from linewright.book.quantities import Report, said
from linewright.book.schema import Book, CapacityMode
from linewright.units import Dimension, over


def check_tables(mode: CapacityMode, path: str, book: Book, *, report: Report) -> None:
    """Note tables that would not be used, or of which nobody could say which counts."""
    for name in ("temperature", "ratio"):
        if mode.table and getattr(mode, name):
            message = "the table gives capacity by temperature and ratio already: these factors would not be used"
            report(f"{path}.{name}", message, "either table: or the factors")
    included = {table.defrost_included for table in mode.table} | {item.defrost_included for item in mode.temperature}
    if len(included) > 1:
        at = "table" if mode.table else "temperature"
        report(f"{path}.{at}", "some of these tables include defrost and some do not", "the same for all of a mode")
    for group in book.outdoor.groups:
        _check_ratios(mode, path, group_name(group), report=report)


def _check_ratios(mode: CapacityMode, path: str, group: str, *, report: Report) -> None:
    """Of the tables of one group each is at a ratio of its own, or there is but one."""
    seen: list[float] = []
    count = 0
    for i, table in enumerate(mode.table):
        if table.groups and group not in table.groups:
            continue
        count += 1
        where = f"{path}.table[{i}]"
        ratio = None if table.ratio is None else table.ratio.value
        if count > 1 and (ratio is None or len(seen) < count - 1):
            message = f"one of several tables for the group '{group}' is at no ratio"
            report(where, message, "ratio: in each of them")
        elif ratio is not None and any(not over(ratio, other) and not over(other, ratio) for other in seen):
            shown = said(ratio, Dimension.RATIO)
            report(f"{where}.ratio", f"a second table for the group '{group}' is at {shown}", "each ratio once")
        seen += [] if ratio is None else [ratio]
