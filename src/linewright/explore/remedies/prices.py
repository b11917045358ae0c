"""What remedies add to the take-off at the prices of a list, and the order that follows from it."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from linewright.engine import Evaluation, evaluate
from linewright.engine.library import Library
from linewright.explore.remedies.proofs import ranked
from linewright.explore.remedies.records import Outcome, Remedy
from linewright.model.design import Design
from linewright.model.edits import apply
from linewright.takeoff import Line, PriceList, Settings, TakeOff, take_off
from linewright.takeoff.naming import item_name
from linewright.units import UnitSystem


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
    before = _counted(evaluate(design, library), prices, progress)

    def priced(remedy: Remedy) -> Remedy:
        after = _counted(evaluate(apply(design, remedy.edits).design, library), prices, progress)
        return remedy._replace(price=added(before, after))

    return outcome._replace(
        remedies=ranked([priced(remedy) for remedy in outcome.remedies]),
        trades=ranked([priced(remedy) for remedy in outcome.trades]),
    )


def _counted(evaluation: Evaluation, prices: PriceList, progress: Callable[[str], None]) -> TakeOff:
    return take_off(evaluation, Settings(), prices=prices, progress=progress)


def added(before: TakeOff, after: TakeOff) -> float | None:
    """What the second costs more; none where what differs has no price, or either leaves something out."""
    if not before.complete or not after.complete:
        return None
    old, new = _lines(before), _lines(after)
    total = 0.0
    for name in sorted(old.keys() | new.keys()):
        was, now = old.get(name), new.get(name)
        count = (0 if now is None else now.count) - (0 if was is None else was.count)
        line = now or was
        if not count or line is None:
            continue
        if line.price is None:
            return None
        total += count * line.price
    return round(total, 2)


def _lines(found: TakeOff) -> Mapping[str, Line]:
    return {item_name(line, UnitSystem.SI): line for line in found.lines}
