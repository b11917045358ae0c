"""The whole take-off of an evaluation."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.engine.records import Evaluation
from linewright.takeoff.cutlists import Progress, cut_all, tube_lines
from linewright.takeoff.parts import count_parts, with_spares
from linewright.takeoff.prices import with_cost
from linewright.takeoff.records import Kind, TakeOff
from linewright.takeoff.settings import PriceList, Settings, Stock
from linewright.takeoff.tubes import gather
from linewright.units import UnitSystem

_ORDER = list(Kind)
_SAID = {
    "waste": "waste",
    "spares": "spares",
    "coupling_m": "what a coupling counts as",
    "least_piece_m": "the least piece",
    "cylinder_kg": "the cylinder of refrigerant",
    "insulation_m": "pieces of insulation",
    "nitrogen_m3": "the cylinder of nitrogen",
    "nitrogen_pa": "its pressure",
}


def take_off(
    evaluation: Evaluation,
    settings: Settings | None = None,
    *,
    stock: Stock | None = None,
    prices: PriceList | None = None,
    system: UnitSystem = UnitSystem.SI,
    progress: Progress = lambda _: None,
) -> TakeOff:
    """Count what the design needs, cut its tube out of lengths that are sold, and put a price on it.

    system : of names in messages, and of the lengths that are assumed without a stock list

    Raises InputFaultsError where a stock list is given that has nothing for some tube.
    """
    made_with = settings or Settings()
    tubes = gather(evaluation, made_with)
    cut = cut_all(tubes, stock, made_with, system=system, progress=progress)
    parts = count_parts(evaluation, made_with, system)
    lines = [*parts.lines, *tube_lines(cut.cuttings, lambda count: with_spares(count, made_with.spares))]
    lines.sort(key=lambda line: _ORDER.index(line.kind))
    gaps = (*tubes.gaps, *cut.gaps, *parts.gaps)
    found = TakeOff(
        lines=tuple(lines),
        cuttings=cut.cuttings,
        gaps=gaps,
        notes=tuple(_notes(made_with, stock, prices)),
        settings=made_with,
        stock=stock,
        prices=None,
        complete=not any(gap.left_out for gap in gaps),
        priced=None,
        cost=None,
    )
    return found if prices is None else with_cost(found, prices, system)


def _notes(settings: Settings, stock: Stock | None, prices: PriceList | None) -> Iterator[str]:
    usual = Settings()
    assumed = [said for name, said in _SAID.items() if getattr(settings, name) == getattr(usual, name)]
    if assumed:
        yield f"Assumed (common practice, no source; the cylinder of refrigerant is invented): {', '.join(assumed)}."
    if stock is None:
        yield "No stock list was given: lengths of coils and straight tube are assumed (from memory)."
    if prices is None:
        yield "No price list was given: nothing has a price."
    yield "Items on runs are counted as the design states them, once for a run and not for each of its tubes."
    yield "A bend is counted for each tube of its run; annealed tube may be bent by hand (common practice, no source)."
    yield (
        "Insulation is counted for every tube, by the thickness that pipework has chosen where the design states how "
        "it is judged, else by that of the book for its size."
    )
    yield "Supports are counted for each tube: a hanger that carries two of them is counted twice."
    if settings.as_built:
        yield "Lengths as built go before those of the design; the charge is by those of the design."
