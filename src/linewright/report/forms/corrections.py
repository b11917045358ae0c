"""What the gauge of a tight pipe shows once it has become warmer or colder: a table to read off on site."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.engine.records import SystemResult
from linewright.engine.site_targets import stages_of
from linewright.report.pdf.blocks import Block, Grid, GridColumn, Heading, Say, Tone
from linewright.standards.pipework.formulas import BeyondError, air_pressure
from linewright.standards.pipework.nitrogen import gauge_of_nitrogen
from linewright.units import Dimension, UnitSystem, show, show_in

#: From which temperature the table starts [degC], and by how much the pipe changes [K].
_FILLED = {UnitSystem.SI: 20.0, UnitSystem.IP: (70.0 - 32.0) / 1.8}
_STEPS = {
    UnitSystem.SI: (-15.0, -10.0, -5.0, 5.0, 10.0),
    UnitSystem.IP: tuple(f / 1.8 for f in (-30, -20, -10, 10, 20)),
}


def corrections(result: SystemResult, units: UnitSystem) -> Iterator[Block]:
    """A row for each stage; nothing where the book states none."""
    stages = stages_of(result)
    if not stages:
        return
    altitude = result.state.ground.surroundings.site.altitude_m
    air, start = air_pressure(0.0 if altitude is None else altitude), _FILLED[units]
    unit, places = ("bar", 2) if units is UnitSystem.SI else ("psi", 0)
    temperatures = [start, *(start + step for step in _STEPS[units])]
    columns = [GridColumn("stage"), GridColumn(f"filled at {_degrees(start, units)}", right=True)]
    columns += [GridColumn(f"at {_degrees(t, units)}", right=True) for t in temperatures[1:]]
    rows = []
    for stage in stages:
        shown = [_shown(stage.pressure_pa, air, start, then) for then in temperatures[1:]]
        texts = ["?" if pa is None else show_in(pa, unit, places=places) for pa in (stage.pressure_pa, *shown)]
        rows.append((f"stage {stage.number}", *texts))
    yield Heading("What a tight pipe shows", 2, listed=False)
    sea = (
        "sea level, since the design states no altitude"
        if altitude is None
        else show(altitude, Dimension.LENGTH, units)
    )
    yield Grid(tuple(columns), tuple(rows))
    yield Say(
        f"Nitrogen as it is, filled at the pressure of the stage, air at {sea}. It is the pipe's temperature that "
        "counts. For other temperatures: linewright record, from what was read.",
        Tone.NOTE,
    )


def _degrees(t_degc: float, units: UnitSystem) -> str:
    return show(t_degc, Dimension.TEMPERATURE, units, places=0)


def _shown(gauge_pa: float, air_pa: float, start_degc: float, then_degc: float) -> float | None:
    try:
        return gauge_of_nitrogen(gauge_pa, air_pa, start_degc, then_degc)
    except BeyondError:
        return None
