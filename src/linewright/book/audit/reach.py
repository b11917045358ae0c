"""Doubts about what tables cover: groups beyond the last row, rows that nothing reaches, units before the first."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from linewright.book.audit.doubts import Doubt
from linewright.book.audit.tables import fitting_tables, header_tables, upper
from linewright.book.naming import group_name
from linewright.book.schema import Band, Book, FromGroup, MainBy, UnitSizing
from linewright.units import over

#: Ratio up to which tables have to reach where a group states none.
PLAIN_RATIO = 1.0


def groups_beyond(book: Book) -> Iterator[Doubt]:
    """Every group finds its row in the tables by the outdoor index."""
    largest = max(book.outdoor.groups, key=lambda group: group.index)
    tables: list[tuple[str, Sequence[Band], int | None]] = []
    if book.sizing.main.by is MainBy.OUTDOOR_INDEX:
        tables.append(("sizing.main", book.sizing.main.rows, book.sizing.main.page))
    tables.append(("fittings.first", book.fittings.first.rows, book.fittings.first.page))
    if book.fittings.outdoor_joint is not None and any(len(group.modules) > 1 for group in book.outdoor.groups):
        tables.append(("fittings.outdoor_joint", book.fittings.outdoor_joint.rows, book.fittings.outdoor_joint.page))
    for path, rows, page in tables:
        if over(largest.index, upper(rows[-1])):
            said = f"ends at {upper(rows[-1]):g}, and group {group_name(largest)} has an index of {largest.index:g}"
            yield Doubt("group-beyond-table", f"{path}.rows", page, said, "a row left out, or the index of the group")


def units_beyond(book: Book) -> Iterator[Doubt]:
    """As much as may hang on the largest group finds its row in the tables by the indoor index."""
    most = max(group.index * _largest_ratio(book, i) for i, group in enumerate(book.outdoor.groups))
    joint = book.fittings.joint
    tables: list[tuple[str, Sequence[Band], int | None]] = [("fittings.joint", joint.rows, joint.page)]
    tables.append(("sizing.branch", book.sizing.branch.rows, book.sizing.branch.page))
    for path, rows, page in tables:
        if over(most - min(model.index for model in book.indoor.models), upper(rows[-1])):
            said = f"ends at {upper(rows[-1]):g}, and up to {most:g} of indoor index may hang on the largest group"
            yield Doubt("units-beyond-table", f"{path}.rows", page, said, "a row left out")
    unit = book.sizing.unit
    largest = max(book.indoor.models, key=lambda model: model.index)
    if not isinstance(unit, UnitSizing) and over(largest.index, upper(unit.rows[-1])):
        said = f"ends at {upper(unit.rows[-1]):g}, and {largest.model} has an index of {largest.index:g}"
        yield Doubt("units-beyond-table", "sizing.unit.rows", unit.page, said, "a row left out")


def rows_unreached(book: Book) -> Iterator[Doubt]:
    """A row that begins beyond all that the book can form serves nothing."""
    largest = max(group.index for group in book.outdoor.groups)
    most = max(group.index * _largest_ratio(book, i) for i, group in enumerate(book.outdoor.groups))
    by_index = book.sizing.main.by is MainBy.OUTDOOR_INDEX
    tables: list[tuple[str, Sequence[Band], int | None, float]] = [
        (path, table.rows, table.page, most if path == "fittings.joint" else largest)
        for path, table in fitting_tables(book)
        if path != "fittings.below_box"
    ]
    tables += [(path, table.rows, table.page, most) for path, table in header_tables(book)]
    if by_index:
        tables.append(("sizing.main", book.sizing.main.rows, book.sizing.main.page, largest))
    tables.append(("sizing.branch", book.sizing.branch.rows, book.sizing.branch.page, most))
    for path, rows, page, limit in tables:
        for i, (before, row) in enumerate(pairwise(rows), start=1):
            if upper(row) > upper(before) and not over(limit, upper(before)):
                said = f"begins at {upper(before):g}, and nothing of the book is larger than {limit:g}"
                yield Doubt("row-unreached", f"{path}.rows[{i}]", page, said, "a group or a ratio left out")


def below_first_row(book: Book) -> Iterator[Doubt]:
    """The smallest unit finds a row in every table by the indoor index."""
    smallest = min(model.index for model in book.indoor.models)
    for path, table in (("sizing.branch", book.sizing.branch), ("fittings.joint", book.fittings.joint)):
        first = table.rows[0]
        start = first.from_ or first.over
        if start is not None and over(start.value, smallest):
            said = f"begins at {start.value:g}, and the smallest unit has an index of {smallest:g}"
            yield Doubt("unit-before-table", f"{path}.rows[0]", table.page, said, "a row left out")


def group_bounds(book: Book) -> Iterator[Doubt]:
    """What groups state about count and ratio binds only through a limit that says so."""
    for measure, name in (("indoor_count", "indoor_count"), ("connection_ratio", "connection_ratio")):
        stated = [i for i, group in enumerate(book.outdoor.groups) if _states(getattr(group, name))]
        asked = any(
            limit.measure == measure and FromGroup.GROUP in (limit.max, limit.min)
            for limit in (*book.limits, *(one for option in book.options for one in option.limits))
        )
        if stated and not asked:
            said = f"{len(stated)} groups state a bound on {measure}, and no limit puts it in force"
            path = f"outdoor.groups[{stated[0]}].{name}"
            yield Doubt("bound-unused", path, book.outdoor.page, said, f"a limit on {measure} with max: group")


def _states(stated: object) -> bool:
    return getattr(stated, "max", None) is not None or getattr(stated, "min", None) is not None


def _largest_ratio(book: Book, at: int) -> float:
    stated = book.outdoor.groups[at].connection_ratio.max
    return PLAIN_RATIO if stated is None else stated.value
