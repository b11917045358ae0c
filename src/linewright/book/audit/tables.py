"""All size and fitting tables of a book by their paths."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.book.schema import Book, FittingTable, HeaderTable, SizeTable, UnitSizing


def size_tables(book: Book) -> Iterator[tuple[str, SizeTable]]:
    """Size tables by path; those of options stand apart."""
    sizing = book.sizing
    yield "sizing.main", sizing.main
    yield "sizing.branch", sizing.branch
    if not isinstance(sizing.unit, UnitSizing):
        yield "sizing.unit", sizing.unit
    if sizing.module is not None:
        yield "sizing.module", sizing.module
    if sizing.below_box is not None:
        yield "sizing.below_box", sizing.below_box


def fitting_tables(book: Book) -> Iterator[tuple[str, FittingTable]]:
    """Tables of joints by path."""
    fittings = book.fittings
    yield "fittings.first", fittings.first
    yield "fittings.joint", fittings.joint
    if fittings.outdoor_joint is not None:
        yield "fittings.outdoor_joint", fittings.outdoor_joint
    if fittings.below_box is not None:
        yield "fittings.below_box", fittings.below_box


def header_tables(book: Book) -> Iterator[tuple[str, HeaderTable]]:
    """Tables of headers by path."""
    if book.fittings.header is not None:
        yield "fittings.header", book.fittings.header
    if book.fittings.below_box_header is not None:
        yield "fittings.below_box_header", book.fittings.below_box_header


def upper(row: object) -> float:
    """Upper edge of a band; a sound book gives each row one."""
    edge = getattr(row, "upto", None) or getattr(row, "below", None)
    return float(edge.value) if edge is not None else float("inf")
