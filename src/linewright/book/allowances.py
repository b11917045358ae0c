"""Equivalent lengths of bends, items and fittings as a book gives them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from linewright.model.design import Item
from linewright.units import same_tube

AllowanceTable = Mapping[str, float | Mapping[float, float]]


def allowance(table: AllowanceTable, kind: str, od_m: float | None) -> float | None:
    """Allowance of one piece [m], flat or by outside diameter; none where the book gives none."""
    entry = table.get(kind)
    if entry is None or isinstance(entry, float):
        return entry
    if od_m is None:
        return None
    exact = entry.get(od_m)
    if exact is not None:
        return exact
    return next((length for size, length in entry.items() if same_tube(size, od_m)), None)


def times(length_m: float | None, count: int) -> float | None:
    """Allowance of `count` pieces [m]; nothing is nothing even where the book gives no allowance."""
    if count == 0:
        return 0.0
    return None if length_m is None else length_m * count


def sum_items(items: Sequence[Item], allowances: Mapping[str, float | None]) -> float | None:
    """Allowance of the items of a run [m]."""
    pieces = [times(allowances[item.kind], item.count) for item in items]
    return None if None in pieces else sum(piece for piece in pieces if piece is not None)
