"""The take-off as tables: what to buy, how to cut it, what is left out."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.report.schedules.tables import Cell, Column, Table
from linewright.takeoff import Kind, TakeOff
from linewright.takeoff.cutlists import material_name
from linewright.takeoff.naming import item_name
from linewright.takeoff.records import Line
from linewright.units import Dimension, UnitSystem, show

_LENGTH = Dimension.LENGTH


def bought(found: TakeOff, system: UnitSystem) -> Table:
    """The list to buy from; items bear the names that a price list goes by."""
    columns = (
        Column("item", "item"),
        Column("kind", "kind"),
        Column("counted", "counted", Dimension.NUMBER),
        Column("count", "to buy", Dimension.NUMBER),
        Column("net_length", "length in the design", _LENGTH),
        Column("net_mass", "mass in the design", Dimension.MASS),
        Column("net_volume", "free gas", Dimension.VOLUME),
        Column("price", "price of one"),
        Column("cost", "cost"),
    )
    rows = [(*_row(line, system), *_costs(line, found)) for line in found.lines]
    if found.prices is not None:
        rows.append(("sum of what has a price", "", "", "", "", "", "", "", found.priced))
        rows.append(("cost of the whole", "", "", "", "", "", "", "", found.cost))
    return Table("takeoff", "Take-off", columns, tuple(rows), tuple(_notes(found, system)))


def _row(line: Line, system: UnitSystem) -> tuple[Cell, ...]:
    net: Cell = "" if line.net is None else line.net
    nets = {_NETS.get(line.kind, 0): net}
    return item_name(line, system), line.kind.value, line.counted, line.count, *(nets.get(i, "") for i in range(3))


#: Which of the columns of what the design needs a kind fills: length, else mass or free gas.
_NETS = {Kind.REFRIGERANT: 1, Kind.NITROGEN: 2}


def _costs(line: Line, found: TakeOff) -> tuple[Cell, Cell]:
    return ("", "") if found.prices is None else (line.price, line.cost)


def cuts(found: TakeOff, system: UnitSystem) -> Table:
    """How tube is cut: every piece, of which length it comes, for which run it is."""
    columns = (
        Column("tube", "tube"),
        Column("length_no", "length no."),
        Column("form", "form"),
        Column("length", "length", _LENGTH),
        Column("system", "system"),
        Column("run", "run"),
        Column("line", "line"),
        Column("part", "part"),
        Column("piece", "piece", _LENGTH),
    )
    rows: list[tuple[Cell, ...]] = []
    notes = []
    for cutting in found.cuttings:
        name = material_name(cutting.material, system)
        for piece in cutting.pieces:
            cut, part = piece.cut, f"{piece.part} of {piece.parts}"
            head = (name, piece.length, piece.form.value, piece.stock_mm / 1000.0, cut.system, cut.run, cut.role.word)
            rows.append((*head, part, piece.piece_mm / 1000.0))
        waste, worth, bound = (
            show(mm / 1000.0, _LENGTH, system, places=2)
            for mm in (cutting.waste_mm, cutting.worth_mm, cutting.bound_mm)
        )
        notes.append(
            f"{name}: {cutting.couplings} couplings, {waste} left over; with couplings counted as tube {worth}, "
            f"and no plan has less than {bound}"
        )
    return Table("cuts", "Cut plan", columns, tuple(rows), tuple(notes))


def gaps(found: TakeOff) -> Table:
    """What the take-off leaves out."""
    columns = (Column("subject", "subject"), Column("text", "what is left out or taken for granted"))
    return Table("gaps", "Gaps of the take-off", columns, tuple((gap.subject, gap.text) for gap in found.gaps))


def _notes(found: TakeOff, system: UnitSystem) -> Iterator[str]:
    made = found.settings
    yield f"Waste: {show(made.waste, Dimension.RATIO, system)} on every run, on insulation and on nitrogen"
    yield f"Spares: {show(made.spares, Dimension.RATIO, system)} on couplings, bends, reducers and supports"
    yield f"A coupling counts as {show(made.coupling_m, _LENGTH, system)} of tube where cuts are planned"
    if made.as_built:
        yield "Lengths are those as built where they are stated"
    yield f"Pieces shorter than {show(made.least_piece_m, _LENGTH, system, places=2)} are avoided"
    yield from found.notes
    yield from _without(found, system)
    if found.prices is not None and found.prices.currency:
        yield f"Prices in {found.prices.currency}"
    if not found.complete:
        yield "NOT COMPLETE: something that has to be bought is left out, see the gaps"


def _without(found: TakeOff, system: UnitSystem) -> Iterator[str]:
    """Without what the sum is; nothing where everything has a price and nothing is left out."""
    if found.prices is None:
        return
    lacking = [item_name(line, system) for line in found.lines if line.price is None]
    lacking += [] if found.complete else ["what the gaps name as left out"]
    if lacking:
        yield f"The sum of what has a price is WITHOUT {', '.join(lacking)}; the cost of the whole is not known"
