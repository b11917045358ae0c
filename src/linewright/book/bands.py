"""Bands: rows that each hold up to an edge, looked up with the one comparison of the program."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Generic, NamedTuple, TypeVar

from linewright.book.quantities import Report, check_dimension, fits, said
from linewright.book.schema import Band
from linewright.units import Dimension, over

R = TypeVar("R")
R_co = TypeVar("R_co", bound=Band, covariant=True)


class Edge(NamedTuple):
    """Upper edge of a band and whether the edge itself belongs to it."""

    value: float
    inclusive: bool

    def holds(self, number: float) -> bool:
        """Say whether `number` lies on or under this edge."""
        return not over(number, self.value) if self.inclusive else over(self.value, number)


#: Stands for an edge that could not be understood; the book is refused.
NO_EDGE = Edge(math.nan, inclusive=False)


class Found(NamedTuple, Generic[R]):
    """A row found by a look-up: its place in the table and its lower and upper edge."""

    row: R
    position: int
    lower: Edge | None
    upper: Edge


class Bands(Generic[R]):
    """Rows in ascending order of their edges; what lies on the near side of `start`, if that is stated, is in none."""

    __slots__ = ("edges", "page", "path", "rows", "start")

    def __init__(
        self, rows: Sequence[R], edges: Sequence[Edge], *, path: str, page: int | None, start: Edge | None = None
    ) -> None:
        """Keep rows and edges; `path` and `page` say where the table stands.

        start : the edge that ends what lies before the first row
        """
        self.rows = tuple(rows)
        self.edges = tuple(edges)
        self.path = path
        self.page = page
        self.start = start

    def find(self, number: float) -> Found[R] | None:
        """Give the first row whose upper edge holds `number`, or none before the first row or beyond the last."""
        if self.start is not None and self.start.holds(number):
            return None
        for position, edge in enumerate(self.edges):
            if edge.holds(number):
                lower = self.edges[position - 1] if position else self.start
                return Found(self.rows[position], position, lower, edge)
        return None

    @property
    def end(self) -> float:
        """Upper edge of the last row."""
        return self.edges[-1].value


def compile_bands(
    rows: Sequence[R_co],
    path: str,
    *,
    dimension: Dimension,
    report: Report,
    page: int | None,
    strict: bool = True,
) -> Bands[R_co]:
    """Check that rows cover their range without gap or overlap, and make them quick to look up.

    With `strict` off rows may share an edge (headers of several port counts).
    """
    edges: list[Edge] = []
    previous: Edge | None = None
    start: Edge | None = None
    if not rows:
        report(path, "the table has no rows", "at least one row")
    for position, row in enumerate(rows):
        where = f"{path}[{position}]"
        edge = _upper(row, where, dimension=dimension, report=report)
        lower = _lower(row, where, dimension=dimension, report=report)
        if position == 0:
            start = lower
        elif previous is not None and lower is not None:
            _check_lower(lower, previous, f"{where}.{_lower_key(row)}", dimension=dimension, report=report)
        before = previous or start
        if before is not None and edge is not NO_EDGE:
            _check_order(before, edge, f"{where}.{_upper_key(row)}", dimension=dimension, report=report, strict=strict)
        edges.append(edge)
        previous = edge if edge is not NO_EDGE else previous
    return Bands(rows, edges or [NO_EDGE], path=path, page=page, start=start)


def _upper(row: Band, where: str, *, dimension: Dimension, report: Report) -> Edge:
    right = "either upto: (the edge belongs to the row) or below: (it does not)"
    if row.upto is None and row.below is None:
        report(where, "the row has no upper edge", right)
        return NO_EDGE
    if row.upto is not None and row.below is not None:
        report(f"{where}.below", "the row has two upper edges, upto and below", right)
        return NO_EDGE
    stated = row.upto or row.below
    if stated is None or not check_dimension(stated, dimension, f"{where}.{_upper_key(row)}", report=report):
        return NO_EDGE
    return Edge(stated.value, inclusive=row.upto is not None)


def _lower(row: Band, where: str, *, dimension: Dimension, report: Report) -> Edge | None:
    """What lies before the row, as the edge that ends it: from 10 the row holds 10, over 10 it does not."""
    if row.from_ is not None and row.over is not None:
        right = "either from: (the edge belongs to the row) or over: (it does not)"
        report(f"{where}.over", "the row has two lower edges, from and over", right)
        return None
    stated = row.from_ or row.over
    if stated is None or not check_dimension(stated, dimension, f"{where}.{_lower_key(row)}", report=report):
        return None
    return Edge(stated.value, inclusive=row.over is not None)


def _upper_key(row: Band) -> str:
    return "upto" if row.upto is not None else "below"


def _lower_key(row: Band) -> str:
    return "from" if row.from_ is not None else "over"


def _check_order(before: Edge, edge: Edge, where: str, *, dimension: Dimension, report: Report, strict: bool) -> None:
    rises = edge.value > before.value
    single = edge.value == before.value and edge.inclusive and not before.inclusive
    shared = not strict and edge.value == before.value
    if not (rises or single or shared) and not math.isnan(edge.value):
        ends, other = said(edge.value, dimension), said(before.value, dimension)
        message = f"the row ends at {ends}, not above {other} where the one before it ends: they overlap"
        report(where, message, f"more than {other}: rows in ascending order")


def _check_lower(lower: Edge, before: Edge, where: str, *, dimension: Dimension, report: Report) -> None:
    begins, ends = said(lower.value, dimension), said(before.value, dimension)
    right = f"{'over' if before.inclusive else 'from'}: {ends}"
    if lower.value > before.value:
        report(where, f"there is a gap between {ends} and {begins}", right)
    elif lower.value < before.value:
        report(where, f"the rows overlap between {begins} and {ends}", right)
    elif lower.inclusive and not before.inclusive:
        report(where, f"{ends} itself is in neither row", right)
    elif before.inclusive and not lower.inclusive:
        report(where, f"{ends} itself is in both rows", right)


__all__ = ["Band", "Bands", "Edge", "Found", "Report", "check_dimension", "compile_bands", "fits"]
