"""Safety devices by room with their sequence, valves and what each shuts off."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.engine.records import Evaluation, Standing, SystemResult
from linewright.engine.safety_records import SpaceResult
from linewright.model.design import Run
from linewright.report.checklist.asked import DONE, SYSTEM
from linewright.report.safety_words import cure_words
from linewright.report.schedules.tables import Cell, Column, Table
from linewright.units import Dimension, UnitSystem, show

#: In which order devices act on a leak. Common practice, no source; the standard and the maker decide.
SEQUENCE = (
    "Sequence on a leak (common practice, no source; the standard and the maker's data decide): the detector or the "
    "unit finds refrigerant; alarm in the room and where somebody always is; exhaust or circulation starts; shut-off "
    "valves close; compressors stop; nobody enters until the room is aired; nothing starts again by itself."
)


def devices(evaluation: Evaluation, units: UnitSystem) -> Table:
    """What the design states of each room, and what the check of refrigerant asks for besides."""
    columns = (
        SYSTEM,
        Column("room", "room"),
        Column("standing", "standing"),
        Column("stated", "devices that the design states"),
        Column("asked", "what else would make it pass"),
        Column("valve", "shut-off valves may stand"),
        DONE,
    )
    rows: list[tuple[Cell, ...]] = []
    notes = [SEQUENCE]
    for result in evaluation.systems:
        if result.safety is None:
            notes.append(f"{result.id}: no standard is chosen, so refrigerant in rooms is NOT JUDGED here")
            continue
        rows += [_device(result, space, units) for space in result.safety.spaces]
        if result.system.leak_detection:
            notes.append(f"{result.id}: the design states leak detection on the system")
        if result.system.releasable:
            notes.append(f"{result.id}: the design rests on shut-off valves, which leave {_releasable(result, units)}")
        if result.system.tight:
            notes.append(f"{result.id}: the design rests on pipe made as the alternative for tight systems asks")
    return Table("devices", "Safety devices", columns, tuple(rows), tuple(notes))


def _releasable(result: SystemResult, units: UnitSystem) -> str:
    return ", ".join(f"{show(kg, Dimension.MASS, units)} in {room}" for room, kg in result.system.releasable.items())


def _device(result: SystemResult, space: SpaceResult, units: UnitSystem) -> tuple[Cell, ...]:
    room, over = space.room, space.check.standing is Standing.OVER
    stated = ["alarm"] if room.alarm else []
    for name, flow in (("exhaust", room.exhaust_m3_s), ("circulation", room.circulation_m3_s)):
        if flow is not None:
            stated.append(f"{name} {show(flow, Dimension.FLOW, units)}")
    cures = "; or ".join(cure_words(cure, units) for cure in space.cures[:2]) if over else ""
    valve = space.valve if over else None
    place = "" if valve is None else f"at the beginning of run {valve.run}"
    asked = cures or ("nothing that is known here" if over else "")
    return (result.id, room.id, space.check.standing.value, ", ".join(stated) or "none", asked, place, "")


def valves(evaluation: Evaluation) -> Table:
    """Valves on runs and module pipes, and what lies beyond each."""
    columns = (
        SYSTEM,
        Column("run", "run"),
        Column("kind", "kind"),
        Column("count", "count for each tube", Dimension.NUMBER),
        Column("beyond", "shuts off"),
        Column("location", "location"),
        DONE,
    )
    rows = tuple(row for result in evaluation.systems for row in _valves(result))
    notes = () if rows else ("The design states no valve on any run: systems are isolated at the outdoor units only.",)
    return Table("valves", "Valves and isolation", columns, rows, notes)


def _valves(result: SystemResult) -> Iterator[tuple[Cell, ...]]:
    for run in result.system.outdoor.pipes:
        yield from _of_run(result, run, f"module {run.to}")
    tree = result.tree
    units = {unit.id for unit in result.system.units}
    for i, run in enumerate(tree.runs):
        beyond = [tree.ids[j] for j in range(i, len(tree.ids)) if i in tree.path_to(j) and tree.ids[j] in units]
        yield from _of_run(result, run, ", ".join(beyond))


def _of_run(result: SystemResult, run: Run, beyond: str) -> Iterator[tuple[Cell, ...]]:
    for item in run.items:
        if "valve" in item.kind:
            where = run.location.value if run.location else "not stated"
            yield (result.id, run.to, item.kind, item.count, beyond, where, "")
