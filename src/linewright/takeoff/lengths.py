"""Which lengths of a stock list a tube can be cut from."""

from __future__ import annotations

from linewright.takeoff.records import Material
from linewright.takeoff.settings import Stock, StockRow, assumed_rows
from linewright.units import UnitSystem, same_tube

#: Walls that differ by less are the same: rounded inches [m].
_WALL_M = 5e-6


def rows_for(material: Material, stock: Stock | None, system: UnitSystem) -> tuple[StockRow, ...]:
    """Rows that may be bought for a tube: its size, no thinner, its temper; of several walls the thinnest that does.

    A wall or a temper that either side does not state is not compared. Without a stock list lengths are assumed.
    """
    if stock is None:
        return assumed_rows(material.od_m, material.wall_m, material.temper, system)
    fit = [row for row in stock.rows if _fits(row, material)]
    walls = [row.wall_m for row in fit if row.wall_m is not None]
    thinnest = min(walls, default=None)
    return tuple(row for row in fit if thinnest is None or row.wall_m == thinnest)


def _fits(row: StockRow, material: Material) -> bool:
    if not same_tube(row.od_m, material.od_m):
        return False
    if None not in (row.wall_m, material.wall_m) and row.wall_m < material.wall_m - _WALL_M:  # type: ignore[operator]
        return False
    return not (row.temper and material.temper) or row.temper.casefold() == material.temper.casefold()
