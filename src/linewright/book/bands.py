"""Bands: rows that each hold up to an edge, looked up with the one comparison of the program."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Generic, NamedTuple, Protocol, TypeVar

from linewright.book.schema import Band
from linewright.units import Amount, Dimension, over

R = TypeVar("R")
R_co = TypeVar("R_co", bound=Band, covariant=True)


class Report(Protocol):
    """Takes one fault: path, what is wrong, what would be right."""

    def __call__(self, path: str, message: str, expected: str = "") -> None:
        """Note the fault."""


class Edge(NamedTuple):
    """Upper edge of a band and whether the edge itself belongs to it."""

    value: float
    inclusive: bool

    def holds(self, number: float) -> bool:
        """Say whether `number` lies on or under this edge."""
        return not over(number, self.value) if self.inclusive else over(self.value, number)


class Found(NamedTuple, Generic[R]):
    """A row found by a look-up: its place in the table and its lower and upper edge."""

    row: R
    position: int
    lower: Edge | None
    upper: Edge


class Bands(Generic[R]):
    """Rows in ascending order of their edges."""

    __slots__ = ("edges", "page", "path", "rows")

    def __init__(self, rows: Sequence[R], edges: Sequence[Edge], *, path: str, page: int | None) -> None:
        """Keep rows and edges; `path` and `page` say where the table stands."""
        self.rows = tuple(rows)
        self.edges = tuple(edges)
        self.path = path
        self.page = page

    def find(self, number: float) -> Found[R] | None:
        """Give the first row whose upper edge holds `number`, or none beyond the last row."""
        for position, edge in enumerate(self.edges):
            if edge.holds(number):
                lower = self.edges[position - 1] if position else None
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
    if not rows:
        report(path, "the table has no rows", "at least one row")
    for position, row in enumerate(rows):
        where = f"{path}[{position}]"
        edge = _edge(row, where, dimension=dimension, report=report)
        previous = edges[-1] if edges else None
        if previous is not None:
            _check_order(previous, edge, where, report=report, strict=strict)
            _check_lower(row, previous, where, report=report)
        edges.append(edge)
    return Bands(rows, edges or [Edge(0.0, inclusive=True)], path=path, page=page)


def _edge(row: Band, where: str, *, dimension: Dimension, report: Report) -> Edge:
    stated = [amount for amount in (row.upto, row.below) if amount is not None]
    if len(stated) != 1:
        report(where, "a row needs one upper edge", "either upto: (edge included) or below: (edge excluded)")
        return Edge(0.0, inclusive=True)
    check_dimension(stated[0], dimension, where, report=report)
    return Edge(stated[0].value, inclusive=row.upto is not None)


def check_dimension(amount: Amount, dimension: Dimension, where: str, *, report: Report) -> None:
    """Note a fault when a quantity is not of the dimension that is due."""
    fits = amount.dimension is dimension or (
        dimension in (Dimension.RATIO, Dimension.NUMBER)
        and amount.dimension in (Dimension.RATIO, Dimension.NUMBER)
        and (dimension is Dimension.RATIO or amount.dimension is Dimension.NUMBER)
    )
    if not fits:
        report(where, f"the quantity is in {amount.dimension.si}, not in {dimension.si}", WANTED[dimension])


def _check_order(previous: Edge, edge: Edge, where: str, *, report: Report, strict: bool) -> None:
    rises = edge.value > previous.value
    single = edge.value == previous.value and edge.inclusive and not previous.inclusive
    shared = not strict and edge.value == previous.value
    if not (rises or single or shared):
        report(
            where,
            f"the band ends at {edge.value:g}, not above {previous.value:g} where the row before ends: they overlap",
            "rows in ascending order of their upper edges",
        )


def _check_lower(row: Band, previous: Edge, where: str, *, report: Report) -> None:
    for amount, inclusive in ((row.from_, True), (row.over, False)):
        if amount is None:
            continue
        if amount.value > previous.value or (
            amount.value == previous.value and not inclusive and not previous.inclusive
        ):
            report(
                where,
                f"gap between {previous.value:g} and {amount.value:g}",
                f"a lower edge at {previous.value:g}",
            )
        elif amount.value < previous.value or (inclusive and previous.inclusive):
            report(
                where,
                f"overlap from {amount.value:g} to {previous.value:g}",
                f"a lower edge at {previous.value:g}",
            )


WANTED: dict[Dimension, str] = {
    Dimension.NUMBER: "a bare number",
    Dimension.RATIO: "a ratio such as 115 %",
    Dimension.LENGTH: "a length such as 40 m or 130 ft",
    Dimension.MASS: "a mass such as 8 kg or 17 lb",
    Dimension.LINEAR_MASS: "a mass per length such as 0.05 kg/m",
    Dimension.POWER: "a power such as 16 kW",
}
