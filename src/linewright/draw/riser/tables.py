"""The schedules behind a riser diagram: every name in full, every run, every fitting, the notes that found no room."""

from __future__ import annotations

from collections.abc import Sequence

from linewright.draw.paper.schedule import Column, Grid
from linewright.draw.riser.aims import Aims, Sure
from linewright.draw.riser.wording import level_words
from linewright.draw.run_words import size_words
from linewright.draw.wording import NONE, UNKNOWN, quantity
from linewright.engine.records import Evaluation, FittingResult, SystemResult
from linewright.units import Dimension, UnitSystem, show_number, unit_label

_WIDE = 60.0


def grids(
    evaluation: Evaluation, result: SystemResult, aims: Aims, system: UnitSystem, *, notes: Sequence[str]
) -> list[Grid]:
    """Give the schedules of a riser diagram."""
    found = [
        _units(evaluation, result, aims, system),
        _runs(result, system),
        _fittings(result, system),
        Grid("notes-on", "Notes, continued", (Column("note", 2 * _WIDE),), tuple((note,) for note in notes)),
    ]
    return [grid for grid in found if grid.rows]


def _units(evaluation: Evaluation, result: SystemResult, aims: Aims, system: UnitSystem) -> Grid:
    rooms = {room.id: room for room in evaluation.design.rooms}
    levels = {level.id: level.name or level.id for level in evaluation.design.site.levels}
    at = {name: i for i, name in enumerate(result.tree.ids)}
    rows = []
    for unit in sorted(result.units, key=lambda one: at[one.id]):
        room, aim = rooms.get(unit.room), aims.nodes[at[unit.id]]
        stated = aim.elevation_m if aim.sure is Sure.STATED else None
        name = NONE if not unit.room else unit.room if room is None else room.name or room.id
        storey = NONE if room is None else levels.get(room.level, room.level)
        loads = [None, None] if room is None else [room.cooling_w, room.heating_w]
        said = [UNKNOWN if load is None else show_number(load, Dimension.POWER, system) for load in loads]
        elevation = UNKNOWN if stated is None else level_words(stated, system)
        rows.append((unit.id, unit.model, name, storey, elevation, *(said if room is not None else [NONE, NONE])))
    power = unit_label(Dimension.POWER, system)
    columns = (
        Column("unit", 40.0),
        Column("model", 40.0),
        Column("room", _WIDE),
        Column("storey", 40.0),
        Column("level", number=True),
        Column(f"cooling load, {power}", number=True),
        Column(f"heating load, {power}", number=True),
    )
    return Grid("units", "Indoor units", columns, tuple(rows))


def _runs(result: SystemResult, system: UnitSystem) -> Grid:
    """The runs in the order of the pipe, outward."""
    found = {run.id: run for run in result.runs}
    rows = []
    for run in result.tree.runs:
        one = found[run.to]
        items = ", ".join(f"{item.count} {item.kind}" if item.count != 1 else item.kind for item in run.items)
        rows.append(
            (
                one.to,
                one.from_,
                size_words(one, system),
                quantity(one.length_m, Dimension.LENGTH, system),
                quantity(one.equivalent_m, Dimension.LENGTH, system),
                _rise(one.rise_m, system, assumed=one.assumed_rise),
                str(run.bends),
                items or NONE,
                run.location.value if run.location else NONE,
            )
        )
    columns = (
        Column("run to", 40.0),
        Column("from", 40.0),
        Column(f"tubes, {unit_label(Dimension.TUBE, system)}", 40.0),
        Column("length", number=True),
        Column("equivalent", number=True),
        Column("rise", number=True),
        Column("bends", number=True),
        Column("items", 34.0),
        Column("where"),
    )
    return Grid("runs", "Runs, gas side first; a rise with ~ rests on an assumed level", columns, tuple(rows))


def _rise(rise_m: float | None, system: UnitSystem, *, assumed: bool) -> str:
    return UNKNOWN if rise_m is None else level_words(rise_m, system) + (" ~" if assumed else "")


def _fittings(result: SystemResult, system: UnitSystem) -> Grid:
    columns = (
        Column("fitting", 40.0),
        Column("kind"),
        Column("model", 40.0),
        Column("ports"),
        Column("level", number=True),
    )
    rows = [_fitting(item, system) for item in sorted(result.fittings, key=lambda one: result.tree.at[one.id])]
    rows += [(joint.id, "outdoor joint", joint.model or UNKNOWN, NONE, NONE) for joint in result.outdoor.joints]
    return Grid("fittings", "Fittings", columns, tuple(rows))


def _fitting(item: FittingResult, system: UnitSystem) -> tuple[str, ...]:
    ports = NONE if item.ports is None else f"{item.ports_used} of {item.ports}"
    model = item.model or (NONE if item.kind.value == "coupling" else UNKNOWN)
    if item.elevation_m is None:
        return item.id, item.kind.value, model, ports, UNKNOWN
    return (
        item.id,
        item.kind.value,
        model,
        ports,
        level_words(item.elevation_m, system) + (" ~" if item.assumed_elevation else ""),
    )
