"""What a take-off costs: every line by its own price, else by that of its kind; what has no price is named."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from decimal import Decimal
from math import pi
from pathlib import Path
from typing import NamedTuple

from linewright.takeoff.naming import item_name
from linewright.takeoff.reading import read_prices
from linewright.takeoff.records import Gap, Kind, Line, TakeOff
from linewright.takeoff.settings import Per, PriceList, PriceRow
from linewright.units import UnitSystem, from_unit

#: Density of copper [kg/m3]: handbooks, from memory.
COPPER = 8940.0
_INVENTED = Path(__file__).with_name("invented_prices.csv")
_NO_PRICE = "the price list has no price for it"


class Unpriced(NamedTuple):
    """An item without a price, and why."""

    item: str
    why: str


class Cost(NamedTuple):
    """What a take-off costs, in the currency of the list.

    lines : with price and cost where they are known; known : sum of those
    total : of everything; `None` where a price is missing or the take-off leaves something out
    """

    lines: tuple[Line, ...]
    known: float
    total: float | None
    without: tuple[Unpriced, ...]
    complete: bool
    currency: str
    invented: bool

    @property
    def words(self) -> str:
        """The sum, and without what it is: `1234.50 EUR without bend 12.7 mm (invented prices)`."""
        named = ", ".join(one.item for one in self.without)
        left_out = "what the take-off leaves out" if not self.complete else ""
        without = " and ".join(filter(None, (named, left_out)))
        said = (f"without {without}" if without else "", "(invented prices)" if self.invented else "")
        return " ".join(filter(None, (f"{self.known:.2f}", self.currency, *said)))


def cost(found: TakeOff, prices: PriceList, system: UnitSystem = UnitSystem.SI) -> Cost:
    """Put prices on a take-off; it is not changed.

    system : of the names of items without a price; those of the list are understood in either system
    """
    rows = {row.item.casefold(): row for row in prices.rows}
    priced, without = [], []
    for line in found.lines:
        row = _row(line, rows)
        amount = None if row is None else amount_of(line, row.per)
        if row is None or amount is None:
            why = _NO_PRICE if row is None else f"its price is for each {row.per}, in which it is not known"
            without.append(Unpriced(item_name(line, system), why))
            priced.append(line._replace(price=None, cost=None))
            continue
        one = amount / line.count if line.count else 0.0
        each = _decimal(row.price) * (1 if row.per is Per.EACH else _decimal(one))
        priced.append(line._replace(price=float(each), cost=float(each * line.count)))
    known = float(sum((_decimal(line.cost) for line in priced if line.cost is not None), Decimal(0)))
    whole = found.complete and not without
    return Cost(
        lines=tuple(priced),
        known=known,
        total=known if whole else None,
        without=tuple(without),
        complete=found.complete,
        currency=prices.currency,
        invented=prices.invented,
    )


def with_cost(found: TakeOff, prices: PriceList, system: UnitSystem) -> TakeOff:
    """Give a take-off its prices; what has none is a gap."""
    of = cost(found, prices, system)
    gaps = (Gap(one.item, f"{one.why}: the cost of the whole is not known") for one in of.without)
    return found._replace(
        lines=of.lines,
        gaps=(*found.gaps, *gaps),
        notes=(*found.notes, *_notes(prices)),
        prices=prices,
        priced=of.known,
        cost=of.total,
    )


def invented_prices() -> PriceList:
    """Prices that are invented, for demonstration and comparing only; they cover every kind of item."""
    rows = read_prices(str(_INVENTED)).rows
    return PriceList(rows=rows, file=_INVENTED.name, invented=True)


def amount_of(line: Line, per: Per) -> float | None:
    """How much of a line is bought, in what a price is for; `None` where that is not known of it."""
    si = _AMOUNTS[per](line)
    unit = per.value
    return si if si is None or per is Per.EACH else si / from_unit(1.0, unit)


def _pieces(line: Line) -> float | None:
    return float(line.count)


def _metres(line: Line) -> float | None:
    return None if line.length_m is None else line.count * line.length_m


def _kilograms(line: Line) -> float | None:
    """Of refrigerant what the cylinders hold; of tube the copper in it, where its wall is known."""
    if line.mass_kg is not None:
        return line.count * line.mass_kg
    wall = None if line.material is None else line.material.wall_m
    metres = _metres(line)
    if line.kind is not Kind.TUBE or line.od_m is None or wall is None or metres is None:
        return None
    return pi * (line.od_m - wall) * wall * metres * COPPER


def _cubic_metres(line: Line) -> float | None:
    """Of insulation, where its thickness is known."""
    metres = _metres(line)
    if line.kind is not Kind.INSULATION or line.od_m is None or line.thickness_m is None or metres is None:
        return None
    return pi * (line.od_m + line.thickness_m) * line.thickness_m * metres


_AMOUNTS: dict[Per, Callable[[Line], float | None]] = {
    Per.EACH: _pieces,
    Per.METRE: _metres,
    Per.FOOT: _metres,
    Per.KILOGRAM: _kilograms,
    Per.POUND: _kilograms,
    Per.CUBIC_METRE: _cubic_metres,
}


def _row(line: Line, rows: dict[str, PriceRow]) -> PriceRow | None:
    """The row of the item by its name in either system, else that of its kind."""
    names = (*(item_name(line, system) for system in UnitSystem), line.kind.value)
    return next((rows[name.casefold()] for name in names if name.casefold() in rows), None)


def _decimal(number: float) -> Decimal:
    """A price is a decimal number, and so is what comes of it."""
    return Decimal(repr(number))


def _notes(prices: PriceList) -> Iterator[str]:
    if prices.invented:
        yield "PRICES ARE INVENTED: they serve to compare, and to show how a price list works. Nothing costs that."
