"""Every material cut out of the lengths that are sold, and the lines of tube and couplings that come of it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from linewright.errors import Fault, InputFaultsError
from linewright.takeoff.cutting import cut_plan
from linewright.takeoff.laying import lay
from linewright.takeoff.lengths import rows_for
from linewright.takeoff.records import Cut, Cutting, Gap, Kind, Line, Material, Piece
from linewright.takeoff.settings import Settings, Stock, StockRow
from linewright.takeoff.tubes import Tubes
from linewright.units import Dimension, UnitSystem, show, show_in, tube_name

Progress = Callable[[str], None]


class CutLists(NamedTuple):
    """How each material is cut, and what is not known of it."""

    cuttings: tuple[Cutting, ...]
    gaps: tuple[Gap, ...]


def cut_all(
    tubes: Tubes, stock: Stock | None, settings: Settings, *, system: UnitSystem, progress: Progress
) -> CutLists:
    """Cut every material.

    Raises InputFaultsError where the stock list has nothing that a tube can be cut from.
    """
    rows = {material: rows_for(material, stock, system) for material in tubes.cuts}
    _refuse([material for material in rows if not rows[material]], stock, tubes, system)
    cuttings = []
    for material, cuts in tubes.cuts.items():
        progress(f"cutting {material_name(material, system)}")
        cuttings.append(_cut(material, cuts, rows[material], settings))
    return CutLists(tuple(cuttings), tuple(_gaps(rows, stock, cuttings, system)))


def material_name(material: Material, system: UnitSystem) -> str:
    """A tube in words: `15.88 mm x 1.00 mm annealed`."""
    wall = "" if material.wall_m is None else f" x {_wall(material.wall_m, system)}"
    return f"{tube_name(material.od_m, system)}{wall}{f' {material.temper}' if material.temper else ''}"


def _wall(wall_m: float, system: UnitSystem) -> str:
    return show_in(wall_m, "mm", places=2) if system is UnitSystem.SI else show_in(wall_m, "in", places=3)


def tube_lines(cuttings: Sequence[Cutting], spare: Callable[[int], int]) -> Iterator[Line]:
    """The lengths to buy of each material, then its couplings."""
    for cutting in cuttings:
        net = sum(cut.net_m for cut in cutting.cuts)
        for position, (form, size, count) in enumerate(cutting.bought):
            yield Line(
                Kind.TUBE,
                material=cutting.material,
                od_m=cutting.material.od_m,
                form=form,
                length_m=size / 1000.0,
                counted=count,
                count=count,
                net=net if position == 0 else None,
            )
    by_size = Counter[float]()
    for cutting in cuttings:
        by_size[cutting.material.od_m] += cutting.couplings
    for od_m in sorted(size for size, count in by_size.items() if count):
        yield Line(Kind.COUPLING, od_m=od_m, counted=by_size[od_m], count=spare(by_size[od_m]))


def _cut(material: Material, cuts: tuple[Cut, ...], rows: Sequence[StockRow], settings: Settings) -> Cutting:
    forms = {round(row.length_m * 1000.0): row.form for row in rows}
    needs = [cut.need_mm for cut in cuts]
    coupling_mm = round(settings.coupling_m * 1000.0)
    plan = cut_plan(needs, list(forms), coupling_mm)
    laid = lay(plan, needs, round(settings.least_piece_m * 1000.0))
    parts = Counter(piece.run for piece in laid)
    seen = Counter[int]()
    pieces = []
    for piece in laid:
        seen[piece.run] += 1
        pieces.append(
            Piece(
                piece.length + 1,
                piece.stock_mm,
                forms[piece.stock_mm],
                cuts[piece.run],
                seen[piece.run],
                parts[piece.run],
                piece.piece_mm,
            )
        )
    bought = Counter(size for _, lengths in plan.groups for size in lengths)
    waste = sum(size * count for size, count in bought.items()) - sum(needs)
    couplings = len(laid) - len(cuts)
    return Cutting(
        material=material,
        cuts=cuts,
        pieces=tuple(pieces),
        bought=tuple((forms[size], size, bought[size]) for size in sorted(bought)),
        couplings=couplings,
        waste_mm=waste,
        worth_mm=waste + couplings * coupling_mm,
        bound_mm=min(plan.bound_mm - sum(needs), waste + couplings * coupling_mm),
        short=tuple(_short(pieces, round(settings.least_piece_m * 1000.0))),
    )


def _short(pieces: Sequence[Piece], least_mm: int) -> Iterator[str]:
    found = {f"{p.cut.system}/run:{p.cut.run}" for p in pieces if p.parts > 1 and p.piece_mm < least_mm}
    yield from sorted(found)


def _refuse(missing: Sequence[Material], stock: Stock | None, tubes: Tubes, system: UnitSystem) -> None:
    faults = []
    for material in missing:
        runs = ", ".join(sorted({f"{cut.system}/{cut.run}" for cut in tubes.cuts[material]})[:6])
        message = f"no length of this list makes the tube {material_name(material, system)}, needed for {runs}"
        expected = "a row of this size and temper, with no thinner wall"
        file = "" if stock is None else stock.file
        faults.append(Fault(file=file, line=0, column=0, path="", value="", message=message, expected=expected))
    if faults:
        raise InputFaultsError(faults)


def _gaps(
    rows: dict[Material, tuple[StockRow, ...]], stock: Stock | None, cuttings: Sequence[Cutting], system: UnitSystem
) -> Iterator[Gap]:
    for material, fit in rows.items():
        name = f"tube {material_name(material, system)}"
        lacking = [what for what, known in (("wall", material.wall_m), ("temper", material.temper)) if not known]
        if lacking:
            yield Gap(name, f"the book states no {' and no '.join(lacking)}: not compared with what is bought")
        if stock is not None and any(row.wall_m is None for row in fit):
            yield Gap(name, "the stock list states no wall: not compared with the least of the book")
        if stock is not None and any(not row.temper for row in fit):
            yield Gap(name, "the stock list states no temper: not compared with that of the book")
    for cutting in cuttings:
        if cutting.short:
            where = ", ".join(cutting.short)
            yield Gap(
                f"tube {material_name(cutting.material, system)}",
                f"a piece is shorter than the least piece in {where}: place the coupling elsewhere",
            )
        over = cutting.worth_mm - cutting.bound_mm
        if over > 0:
            text = show(over / 1000.0, Dimension.LENGTH, system, places=2)
            yield Gap(
                f"tube {material_name(cutting.material, system)}",
                f"the plan is not proven to be the best: another may save up to {text} of waste and couplings",
            )
