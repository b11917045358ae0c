"""What flows in a system, in words and tables, and as the key `physics` of `linewright/check/1`."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from linewright.engine.hydraulics import Hydraulics, RunFlow
from linewright.engine.records import Evaluation
from linewright.report.page import Page
from linewright.report.table import Cell, Column
from linewright.units import Dimension, UnitSystem, show

CAUTION = "From first principles, beside the book; advisory, and judged by nothing."
#: Below this margin oil may stay behind, below the second it likely does: a judgement, no source.
WARN, FLAG = 1.25, 1.0


def hydraulics_text(found: Sequence[Hydraulics], evaluation: Evaluation, *, system: UnitSystem, colour: bool) -> str:
    """Write what flows in each system."""
    page = Page(colour=colour)
    for one in found:
        page.blank()
        page.text(f"Physics of system {one.system}. {CAUTION}")
        if one.missing:
            page.text(f"not worked out, for want of {'; '.join(one.missing)}", indent=2)
            continue
        for line in _lines(one, evaluation, system):
            page.text(line, indent=2)
        page.table(_COLUMNS, [_row(run, system) for run in one.runs])
        page.text(f"K: loss of saturation; liquid: fall of pressure, {_pressure_unit(system)}; {_OIL}")
        for line in one.assumed:
            page.text(f"Assumed: {line}.")
    return str(page)


def _lines(one: Hydraulics, evaluation: Evaluation, system: UnitSystem) -> Iterator[str]:
    result = next(result for result in evaluation.systems if result.id == one.system)
    book = next((f.value for f in (result.cooling.factors if result.cooling else ()) if f.name == "length"), None)
    beside = "the book has no length factor" if book is None else f"the book's length factor: {book:.3f}"
    yield (
        f"cooling kept by the pipe: {one.cooling_share or 0.0:.3f}, were all load at the farthest unit"
        f" {one.lumped_share or 0.0:.3f}; {beside}"
    )
    worst = min(one.units, key=lambda unit: (unit.cooling_share, unit.id))
    driest = min(one.units, key=lambda unit: (unit.subcooling_left_k, unit.id))
    suction = show(one.suction_degc or 0.0, Dimension.TEMPERATURE, system)
    yield f"weakest unit: {worst.id}, {worst.cooling_share:.3f}; saturation at the compressor: {suction}"
    state = "the liquid stays liquid" if driest.subcooling_left_k > 0 else "liquid boils before the valve"
    yield f"least subcooling left: {driest.subcooling_left_k:.1f} K at {driest.id}; {state}"
    left = one.heating_left_k or 0.0
    yield f"heating: {left:.1f} K left in the liquid that returns" + (
        "" if left > 0 else ", so that some boils on the way"
    )


_OIL = f"oil: least flow over the least that carries oil up, ! below {WARN:g}, !! below {FLAG:g}"
_COLUMNS = (
    Column("run"),
    Column("gas m/s", right=True),
    Column("K", right=True),
    Column("liquid", right=True),
    Column("oil", right=True),
    Column("hot m/s", right=True),
    Column("K", right=True),
    Column("oil", right=True),
)


def _row(run: RunFlow, system: UnitSystem) -> list[Cell | str]:
    return [
        run.id,
        f"{run.cooling_gas_m_s:.1f}",
        f"{run.cooling_loss_k:.2f}",
        show(run.cooling_liquid_pa, Dimension.PRESSURE, system).partition(" ")[0],
        _margin(run.cooling_oil),
        f"{run.heating_gas_m_s:.1f}",
        f"{run.heating_loss_k:.2f}",
        _margin(run.heating_oil),
    ]


def _margin(margin: float | None) -> str:
    if margin is None:
        return ""
    return f"{margin:.2f}" + ("!!" if margin < FLAG else "!" if margin < WARN else "")


def _pressure_unit(system: UnitSystem) -> str:
    return show(0.0, Dimension.PRESSURE, system).partition(" ")[2]


def hydraulics_json(one: Hydraulics) -> dict[str, Any]:
    """Give what flows in one system as plain values."""
    return {
        "system": one.system,
        "missing": list(one.missing),
        "assumed": list(one.assumed),
        "cooling_share": one.cooling_share,
        "lumped_share": one.lumped_share,
        "suction_degc": one.suction_degc,
        "heating_left_k": one.heating_left_k,
        "runs": [run._asdict() for run in one.runs],
        "units": [unit._asdict() for unit in one.units],
    }
