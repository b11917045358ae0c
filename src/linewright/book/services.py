"""Electrical and condensate data of one model, as a book states them; a model that no row names has none."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from enum import StrEnum

from linewright.book.schema import Book, DrainRow, SupplyRow


class Served(StrEnum):
    """What a supply is for."""

    OUTDOOR = "outdoor module"
    BOX = "mode box"
    INDOOR = "indoor unit"


def supplies_of(book: Book, served: Served, model: str) -> tuple[SupplyRow, ...]:
    """Give every supply that the book states for a model, each with its page; none where it states none."""
    holder = {Served.OUTDOOR: book.outdoor, Served.BOX: book.boxes, Served.INDOOR: book.indoor}[served]
    table = None if holder is None else holder.electrical
    if table is None:
        return ()
    return tuple(_with_page(row, table.page) for row in table.rows if model in row.model)


def drain_of(book: Book, model: str) -> DrainRow | None:
    """Give what the book states of the condensate of an indoor model, with its page; none where it states nothing."""
    table = book.indoor.condensate
    row = None if table is None else next((row for row in table.rows if model in row.model), None)
    if table is None or row is None or row.page is not None:
        return row
    return replace(row, page=table.page)


def without_services(book: Book) -> Iterator[tuple[str, list[str]]]:
    """Name the models of which a book states no electrical and no condensate data."""
    models = (
        (Served.OUTDOOR, [module.model for module in book.outdoor.modules]),
        (Served.BOX, [] if book.boxes is None else [box.model for box in book.boxes.models]),
        (Served.INDOOR, [model.model for model in book.indoor.models]),
    )
    for served, names in models:
        if lacking := [name for name in names if not supplies_of(book, served, name)]:
            yield f"electrical data, {served}", lacking
    if lacking := [model.model for model in book.indoor.models if drain_of(book, model.model) is None]:
        yield "condensate, indoor unit", lacking


def _with_page(row: SupplyRow, page: int | None) -> SupplyRow:
    return row if row.page is not None else replace(row, page=page)
