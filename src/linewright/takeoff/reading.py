"""Stock lists and price lists: tables (CSV or workbook) into values, with the row and column of every fault."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from linewright.document.columns import headings, open_grid, row_nodes
from linewright.document.decode import decode_at
from linewright.document.grid import grid_of
from linewright.document.lists.fields import as_it_stands
from linewright.document.plans import Hint, plan
from linewright.document.source import Mapping, Source
from linewright.errors import quoted
from linewright.takeoff.settings import PriceList, PriceRow, Stock, StockRow

_MM = 1000.0


def read_stock(name: str) -> Stock:
    """Read a stock list: `od`, `form`, `length`, and where they are known `wall` and `temper`.

    Raises InputFaultsError with every fault.
    """
    source, rows, nodes = _rows(name, StockRow, ("form", "temper"))
    for i, (row, node) in enumerate(zip(rows, nodes, strict=True)):
        for key, size in (("od", row.od_m), ("length", row.length_m), ("wall", row.wall_m)):
            if size is not None and size * _MM < (0.1 if key == "wall" else 1.0) and source.sound(f"[{i}].{key}"):
                source.fault(f"[{i}].{key}", f"this is no {key} of a tube", "a size above 0", node=node)
    source.refuse()
    return Stock(rows=rows, file=name)


def read_prices(name: str) -> PriceList:
    """Read a price list: `item` as the take-off names it, `price`, and where they are wanted `per` and `currency`.

    Raises InputFaultsError with every fault.
    """
    source, rows, nodes = _rows(name, PriceRow, ("item", "per", "currency"))
    known: set[str] = set()
    currency = next((row.currency for row in rows if row.currency), "")
    for i, (row, node) in enumerate(zip(rows, nodes, strict=True)):
        if not source.sound(f"[{i}]"):
            continue
        item = row.item.casefold()
        if item in known:
            source.fault(f"[{i}].item", f"the item {quoted(row.item)} stands twice", "each item once", node=node)
        known.add(item)
        if row.price < 0.0:
            source.fault(f"[{i}].price", "a price is below 0", "0 or more", node=node)
        if row.currency not in ("", currency):
            message = f"the currency {quoted(row.currency)} is another than above"
            source.fault(f"[{i}].currency", message, f"{quoted(currency)} throughout", node=node)
    source.refuse()
    return PriceList(rows=rows, file=name)


def _rows(name: str, cls: Hint, texts: Sequence[str]) -> tuple[Source, tuple[Any, ...], list[Mapping]]:
    grid = grid_of(name)
    source = open_grid(grid)
    known = {field.key: field.key for field in plan(cls)}
    columns = headings(source, grid, known)
    source.refuse()
    nodes = row_nodes(source, grid, columns, dict.fromkeys(texts, as_it_stands))
    if not nodes:
        source.fault("", "the table has no rows", "a row of headings, and rows below it")
    return source, tuple(decode_at(source, node, cls, f"[{i}]") for i, node in enumerate(nodes)), nodes
