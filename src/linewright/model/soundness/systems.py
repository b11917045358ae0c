"""Whether one system is sound in itself: outdoor group, units, fittings and the runs between them."""

from __future__ import annotations

from linewright.errors import quoted
from linewright.model.design import ROOT, System
from linewright.model.soundness.names import check_id, check_ids, check_known, check_once
from linewright.model.soundness.notes import Notes
from linewright.model.soundness.numbers import check_not_negative, check_run
from linewright.model.soundness.pipes import Pipes, check_pipes
from linewright.model.soundness.ports import check_ports
from linewright.model.soundness.rises import check_rises
from linewright.model.values import NodeKind
from linewright.units import UnitSystem

FITTING_KINDS = (NodeKind.JOINT, NodeKind.HEADER, NodeKind.BOX, NodeKind.COUPLING)
#: Fittings of which a design may say which one it is.
WITH_MODEL = (NodeKind.HEADER, NodeKind.BOX)


def check_system(system: System, path: str, rooms: set[str] | None, *, notes: Notes, units: UnitSystem) -> None:
    """Note every fault of one system; without `rooms` nobody knows whether a room exists."""
    if not system.units:
        notes.derive(f"{path}.units", "the system has no indoor unit", "at least one unit")
    for i, unit in enumerate(system.units):
        if rooms is not None:
            check_known(unit.room, rooms, f"{path}.units[{i}].room", what="room", notes=notes)
        if unit.id == ROOT:
            notes.derive(f"{path}.units[{i}].id", f"'{ROOT}' is the name of the outdoor group", "another id")
    if system.block is not None:
        check_not_negative(system.block, ("cooling_w", "heating_w"), f"{path}.block", notes=notes)
    check_ids([unit.id for unit in system.units], f"{path}.units", notes)
    _check_runs(system, path, notes)
    _check_fittings(system, path, notes)
    check_ports(system, path, notes)
    _check_outdoor(system, path, notes)
    check_rises(system, path, notes, units=units)


def _check_runs(system: System, path: str, notes: Notes) -> None:
    where = f"{path}.runs"
    if not system.runs:
        notes.derive(where, "the system has no run", f"at least one run, from: {ROOT}")
        return
    units = {unit.id: f"{path}.units[{i}].id" for i, unit in enumerate(system.units) if unit.id != ROOT}
    for i, run in enumerate(system.runs):
        check_run(run, f"{where}[{i}]", notes)
        if run.to not in units:
            check_id(run.to, f"{where}[{i}].to", notes.derive)
    check_pipes(Pipes(system.runs, where, units, "indoor unit", "run"), notes)
    leaving = [i for i, run in enumerate(system.runs) if run.from_ == ROOT]
    for i in leaving[1:]:
        message = f"a second run leaves '{ROOT}', the first is {notes.place(f'{where}[{leaving[0]}].from')}"
        notes.derive(f"{where}[{i}].from", message, f"one run from '{ROOT}', and a fitting where it branches")


def _check_fittings(system: System, path: str, notes: Notes) -> None:
    units = {unit.id for unit in system.units}
    ends = [run.to for run in system.runs]
    all_known = notes.sound(*([f"{path}.runs[{i}].to" for i in range(len(ends))] or [f"{path}.runs"]))
    points = set(ends) - units
    for i, fitting in enumerate(system.fittings):
        where = f"{path}.fittings[{i}]"
        if fitting.id in units:
            message = f"{quoted(fitting.id)} is an indoor unit, not a fitting"
            notes.derive(f"{where}.id", message, "the far end of a run that is no unit")
        elif all_known:
            check_known(fitting.id, points, f"{where}.id", what="far end of a run", notes=notes)
        if fitting.kind is not None and fitting.kind not in FITTING_KINDS:
            notes.derive(f"{where}.kind", f"no fitting is a {fitting.kind}", f"one of {', '.join(FITTING_KINDS)}")
        if fitting.model and fitting.kind not in WITH_MODEL:
            message = "only a header or a mode box is named by its model; the book gives every other fitting"
            notes.derive(f"{where}.model", message, "kind: header or kind: box, or no model")
        check_not_negative(fitting, ("straight_before_m", "straight_after_m"), where, notes=notes)
    names = [fitting.id for fitting in system.fittings]
    check_once(names, [f"{path}.fittings[{i}].id" for i in range(len(names))], notes)


def _check_outdoor(system: System, path: str, notes: Notes) -> None:
    outdoor, where = system.outdoor, f"{path}.outdoor"
    if not outdoor.modules:
        notes.derive(f"{where}.modules", "the outdoor group has no module", "at least one module")
    names = {
        f"{where}.modules[{i}]" + (".id" if module.id else ""): module.id or f"M{i + 1}"
        for i, module in enumerate(outdoor.modules)
    }
    for place, name in names.items():
        check_id(name, place, notes.derive)
    check_once(list(names.values()), list(names), notes)
    for i, run in enumerate(outdoor.pipes):
        check_run(run, f"{where}.pipes[{i}]", notes)
        check_id(run.to, f"{where}.pipes[{i}].to", notes.derive)
    if outdoor.pipes:
        ends = {name: place for place, name in names.items()}
        check_pipes(Pipes(outdoor.pipes, f"{where}.pipes", ends, "outdoor module", "module pipe"), notes)
        _check_sides(system, path, notes)


def _check_sides(system: System, path: str, notes: Notes) -> None:
    """A point on the modules' side of the root is none on the units' side."""
    inside = {run.to: i for i, run in reversed(list(enumerate(system.runs)))}
    for i, run in enumerate(system.outdoor.pipes):
        if run.to in inside and run.to != ROOT:
            place = notes.place(f"{path}.runs[{inside[run.to]}].to")
            message = f"the name {quoted(run.to)} is used twice, first {place}"
            notes.derive(f"{path}.outdoor.pipes[{i}].to", message, "another name than on the units' side")
