"""What each system needs, as a table: needs, and not what is bought."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.engine.records import Evaluation
from linewright.report.schedules.tables import Cell, Column, Table
from linewright.takeoff import Need, TakeOff, needs
from linewright.takeoff.cutlists import material_name
from linewright.takeoff.naming import item_name
from linewright.takeoff.records import Kind, Line
from linewright.units import Dimension, UnitSystem, show_in, tube_name

ALL = "all of these"
_WHAT = (Dimension.NUMBER, Dimension.LENGTH, Dimension.MASS, Dimension.VOLUME)
_NEEDS = (
    "Needs of each system, as the design has them: without waste, without spares, and not in lengths, pieces or "
    "cylinders that are sold. They add up to what all of these systems need, and not to what is bought of it."
)
_TOGETHER = (
    "Tube is cut over all of these systems together, which wastes least: what is bought cannot be put apart by system. "
    "To buy for some systems only, make a set for them (linewright report --system)."
)
_COUPLINGS = (
    "A coupling belongs to the system in whose run it lies by this cut plan; cut alone, a system may need others."
)


def by_system(evaluation: Evaluation, found: TakeOff, system: UnitSystem) -> Table:
    """Needs system by system, then of all of them."""
    columns = (
        Column("system", "system"),
        Column("kind", "kind"),
        Column("item", "item"),
        Column("count", "count", Dimension.NUMBER),
        Column("length", "length", Dimension.LENGTH),
        Column("mass", "mass", Dimension.MASS),
        Column("free_gas", "free gas", Dimension.VOLUME),
    )
    made = needs(evaluation, found, system)
    # Of a single system the sum would say everything twice.
    whole = made.whole if len(evaluation.systems) > 1 else ()
    rows = [_row(need, system) for need in (*made.by_system, *whole)]
    notes = [_NEEDS, _TOGETHER, _COUPLINGS]
    for name, gap in made.left_out:
        rows.append((name, "left out", f"{gap.subject}: {gap.text}", None, "", "", ""))
    if made.left_out:
        notes.append("NOT COMPLETE: what is left out of a system is left out of all of these as well")
    return Table("by_system", "Needs by system", columns, tuple(rows), tuple(notes))


def _row(need: Need, system: UnitSystem) -> tuple[Cell, ...]:
    name = need.system or ALL
    return (name, need.line.kind.value, _item(need.line, system), *_amounts(need))


def _amounts(need: Need) -> Iterator[Cell]:
    for dimension in _WHAT:
        yield need.amount if dimension is need.dimension else ""


def _item(line: Line, system: UnitSystem) -> str:
    """Name a thing that is needed, without the form in which it is sold."""
    if line.kind is Kind.TUBE and line.material is not None:
        return f"tube {material_name(line.material, system)}"
    if line.kind is Kind.INSULATION and line.od_m is not None:
        unit, places = ("mm", 0) if system is UnitSystem.SI else ("in", 2)
        thick = "thickness not stated" if line.thickness_m is None else show_in(line.thickness_m, unit, places=places)
        return f"insulation for {tube_name(line.od_m, system)}, {thick}"
    if line.kind in (Kind.REFRIGERANT, Kind.NITROGEN):
        return f"{line.kind.value} {line.name}".rstrip()
    return item_name(line, system)
