"""Sections of a book as they would be written, so that nothing that it says is left unshown."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.book.schema import Book, BoundTable, DrainTable, Limit, SupplyTable
from linewright.document.encode import Style, Tree, Word, encode_value
from linewright.document.render import Form
from linewright.units import Dimension, UnitSystem


def whole_sections(book: Book, system: UnitSystem) -> Iterator[tuple[str, list[str]]]:
    """Give title and lines of each section that has no table of its own, or whose table leaves something out."""
    small = "in" if system is UnitSystem.IP else "mm"
    for title, tree in _trees(book, Style(system), Style(system, {Dimension.LENGTH: small})):
        yield title, Form().block(tree, 0).splitlines()


def _trees(book: Book, style: Style, thin: Style) -> Iterator[tuple[str, Tree]]:
    yield "Outdoor modules and groups, whole", encode_value(book.outdoor, style)
    for title, table in _services(book):
        yield title, encode_value(table, thin)
    yield "Tubes", encode_value(book.tubes, thin)
    if book.sizing.module is not None:
        yield "Module pipes, by the index served", encode_value(book.sizing.module, style)
    yield "Fittings, whole", encode_value(book.fittings, style)
    tabled = [encode_value(limit, style) for limit in book.limits if _by_table(limit)]
    if tabled:
        yield "Limits that depend on another measure", [*tabled]
    yield "Capacity", encode_value(book.capacity, style)
    if book.charge.terms or book.charge.covered is not None or book.charge.multiplier is not None:
        yield "Charge, whole", encode_value(book.charge, style)
    for name, title in (("options", "Options"), ("requirements", "Requirements"), ("notes", "Notes to print")):
        if items := getattr(book, name):
            yield title, [encode_value(item, style) for item in items]
    for name in ("operation", "pressures"):
        if (item := getattr(book, name)) is not None:
            yield name.capitalize(), encode_value(item, thin if name == "pressures" else style)
    if book.level_reference is not None:
        yield "Levels", {"level_reference": Word(book.level_reference.value)}


def _services(book: Book) -> Iterator[tuple[str, SupplyTable | DrainTable]]:
    """Tables of supplies and drains that no other section shows; those of outdoor modules stand in theirs."""
    tables: tuple[tuple[str, SupplyTable | DrainTable | None], ...] = (
        ("Electrical data of indoor units", book.indoor.electrical),
        ("Electrical data of mode boxes", None if book.boxes is None else book.boxes.electrical),
        ("Condensate of indoor units", book.indoor.condensate),
    )
    for title, table in tables:
        if table is not None:
            yield title, table


def _by_table(limit: Limit) -> bool:
    return isinstance(limit.max, BoundTable) or isinstance(limit.min, BoundTable)
