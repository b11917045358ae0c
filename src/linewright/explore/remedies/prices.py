"""What remedies add to the take-off at the prices of a list, and the order that follows from it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal

from linewright.engine import Evaluation, evaluate
from linewright.engine.library import Library
from linewright.explore.remedies.proofs import ranked
from linewright.explore.remedies.records import Outcome, Remedy
from linewright.model.design import Design
from linewright.model.edits import apply
from linewright.takeoff import Line, PriceList, Settings, TakeOff, take_off
from linewright.takeoff.naming import item_name
from linewright.units import UnitSystem

#: Stands among the items without a price where a take-off is not complete.
LEFT_OUT = "what the take-off leaves out"


def with_prices(
    outcome: Outcome,
    design: Design,
    library: Library,
    prices: PriceList,
    *,
    progress: Callable[[str], None] = lambda _: None,
) -> Outcome:
    """Price every remedy that is listed and order the list anew; those without a price come last.

    The price of a remedy is what it adds to the take-off, none where a price or a figure for what changes is missing.
    Labour, design work and what is not counted in a take-off are in no price.
    """
    if not outcome.remedies and not outcome.trades:
        return outcome
    before = _counted(evaluate(design, library), prices)

    def priced(remedy: Remedy, place: int) -> Remedy:
        progress(f"pricing {place}")
        after = _counted(evaluate(apply(design, remedy.edits).design, library), prices)
        price, without = added(before, after)
        return remedy._replace(price=price, unpriced=without)

    remedies = [priced(remedy, i + 1) for i, remedy in enumerate(outcome.remedies)]
    trades = [priced(remedy, i + 1 + len(remedies)) for i, remedy in enumerate(outcome.trades)]
    return outcome._replace(remedies=ranked(remedies), trades=ranked(trades))


def _counted(evaluation: Evaluation, prices: PriceList) -> TakeOff:
    return take_off(evaluation, Settings(), prices=prices)


def added(before: TakeOff, after: TakeOff) -> tuple[float | None, tuple[str, ...]]:
    """What the second costs more, and what differs without a price: then, or where a figure is missing, no sum."""
    old, new = _lines(before), _lines(after)
    total, without = Decimal(0), []
    for name in sorted(old.keys() | new.keys()):
        was, now = old.get(name), new.get(name)
        count = (0 if now is None else now.count) - (0 if was is None else was.count)
        price = next((line.price for line in (now, was) if line is not None), None)
        if count and price is None:
            without.append(name)
        elif count:
            total += Decimal(repr(price)) * count
    if not before.complete or not after.complete:
        without.append(LEFT_OUT)
    return (None if without else float(total)), tuple(without)


def _lines(found: TakeOff) -> Mapping[str, Line]:
    return {item_name(line, UnitSystem.SI): line for line in found.lines}
