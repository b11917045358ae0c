"""The working of a subject for people."""

from __future__ import annotations

from collections.abc import Mapping

from linewright.engine.working import Working
from linewright.engine.working.steps import Input, Step
from linewright.report.page import Page
from linewright.report.table import Cell, Column
from linewright.report.why_json import place
from linewright.units import Dimension, UnitSystem, show, show_in, tube_name

COLUMNS = (Column("input", most=30), Column("value", right=True, most=14), Column("from"))


def why_text(working: Working, files: Mapping[str, str], *, system: UnitSystem, colour: bool) -> str:
    """Write every step: inputs, formula, table row and page, result."""
    page = Page(colour=colour)
    page.title(working.subject)
    for number, step in enumerate(working.steps, start=1):
        page.blank()
        page.text(f"{number}. {step.name} = {value(step.result, step.dimension, system)}{where(step)}")
        page.text(f"{step.text} ({step.source})", indent=3)
        page.table(COLUMNS, [_row(item, files, system) for item in step.inputs])
        if step.note:
            page.text(step.note, indent=3)
    return str(page)


def value(number: float | str | None, dimension: Dimension, system: UnitSystem) -> str:
    """Print a value of a step with enough places to follow the arithmetic."""
    if number is None:
        return "?"
    if isinstance(number, str):
        return number
    if dimension is Dimension.TUBE:
        return tube_name(number, system)
    if dimension is Dimension.NUMBER:
        return f"{number:.6g}"
    if dimension is Dimension.RATIO:
        return f"{number:.4f}"
    if dimension is Dimension.LENGTH and 0.0 < abs(number) < FINE_M:
        return show_in(number, "mm" if system is UnitSystem.SI else "in", places=7)
    return show(number, dimension, system, places=PLACES.get(dimension))


PLACES = {
    Dimension.LENGTH: 2,
    Dimension.AREA: 4,
    Dimension.VOLUME: 3,
    Dimension.POWER: 3,
    Dimension.MASS: 3,
    Dimension.LINEAR_MASS: 4,
    Dimension.PRESSURE: 3,
    Dimension.TEMPERATURE_DIFFERENCE: 3,
    Dimension.FLOW: 4,
    Dimension.MASS_FLOW: 3,
    Dimension.MASS_FLUX: 2,
    Dimension.DENSITY: 4,
    Dimension.VISCOSITY: 6,
    Dimension.ENTHALPY: 3,
    Dimension.CONDUCTIVITY: 5,
    Dimension.SURFACE: 3,
    Dimension.LINEAR_POWER: 3,
    Dimension.VELOCITY: 3,
}
#: A length below this is of the roughness of a wall, and printed as such [m].
FINE_M = 1e-3


def where(step: Step) -> str:
    """Table, row and page of a step; empty where it has none."""
    parts = []
    if step.table:
        parts.append(step.table + (f"[{step.row}]" if step.row is not None else ""))
    if step.page is not None:
        parts.append(f"page {step.page}")
    return f"   [{', '.join(parts)}]" if parts else ""


def _row(item: Input, files: Mapping[str, str], system: UnitSystem) -> list[Cell | str]:
    return [item.name, value(item.value, item.dimension, system), place(item.from_, files)]
