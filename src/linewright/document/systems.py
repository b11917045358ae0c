"""Whether one system is sound in itself: outdoor group, units, fittings and the runs between them."""

from __future__ import annotations

from linewright.document.names import check_id, check_ids, check_known, check_once
from linewright.document.pipes import Pipes, check_pipes
from linewright.document.ports import check_ports
from linewright.document.rises import check_rises
from linewright.document.source import Source
from linewright.document.values import check_not_negative, check_run
from linewright.errors import quoted
from linewright.model.design import ROOT, System
from linewright.model.values import NodeKind
from linewright.units import UnitSystem

FITTING_KINDS = (NodeKind.JOINT, NodeKind.HEADER, NodeKind.BOX, NodeKind.COUPLING)
#: Fittings of which a design may say which one it is.
WITH_MODEL = (NodeKind.HEADER, NodeKind.BOX)


def check_system(system: System, path: str, rooms: set[str] | None, *, source: Source, units: UnitSystem) -> None:
    """Note every fault of one system; without `rooms` nobody knows whether a room exists."""
    if not system.units:
        source.derive(f"{path}.units", "the system has no indoor unit", "at least one unit")
    for i, unit in enumerate(system.units):
        if rooms is not None:
            check_known(unit.room, rooms, f"{path}.units[{i}].room", what="room", source=source)
        if unit.id == ROOT:
            source.derive(f"{path}.units[{i}].id", f"'{ROOT}' is the name of the outdoor group", "another id")
    if system.block is not None:
        check_not_negative(system.block, ("cooling_w", "heating_w"), f"{path}.block", source=source)
    check_ids([unit.id for unit in system.units], f"{path}.units", source)
    _check_runs(system, path, source)
    _check_fittings(system, path, source)
    check_ports(system, path, source)
    _check_outdoor(system, path, source)
    check_rises(system, path, source, units=units)


def _check_runs(system: System, path: str, source: Source) -> None:
    where = f"{path}.runs"
    if not system.runs:
        source.derive(where, "the system has no run", f"at least one run, from: {ROOT}")
        return
    units = {unit.id: f"{path}.units[{i}].id" for i, unit in enumerate(system.units) if unit.id != ROOT}
    for i, run in enumerate(system.runs):
        check_run(run, f"{where}[{i}]", source)
        if run.to not in units:
            check_id(run.to, f"{where}[{i}].to", source)
    check_pipes(Pipes(system.runs, where, units, "indoor unit", "run"), source)
    leaving = [i for i, run in enumerate(system.runs) if run.from_ == ROOT]
    for i in leaving[1:]:
        message = f"a second run leaves '{ROOT}', the first is on line {source.line_of(f'{where}[{leaving[0]}].from')}"
        source.derive(f"{where}[{i}].from", message, f"one run from '{ROOT}', and a fitting where it branches")


def _check_fittings(system: System, path: str, source: Source) -> None:
    units = {unit.id for unit in system.units}
    ends = [run.to for run in system.runs]
    all_known = source.sound(*([f"{path}.runs[{i}].to" for i in range(len(ends))] or [f"{path}.runs"]))
    points = set(ends) - units
    for i, fitting in enumerate(system.fittings):
        where = f"{path}.fittings[{i}]"
        if fitting.id in units:
            message = f"{quoted(fitting.id)} is an indoor unit, not a fitting"
            source.derive(f"{where}.id", message, "the far end of a run that is no unit")
        elif all_known:
            check_known(fitting.id, points, f"{where}.id", what="far end of a run", source=source)
        if fitting.kind is not None and fitting.kind not in FITTING_KINDS:
            source.derive(f"{where}.kind", f"no fitting is a {fitting.kind}", f"one of {', '.join(FITTING_KINDS)}")
        if fitting.model and fitting.kind not in WITH_MODEL:
            message = "only a header or a mode box is named by its model; the book gives every other fitting"
            source.derive(f"{where}.model", message, "kind: header or kind: box, or no model")
        check_not_negative(fitting, ("straight_before_m", "straight_after_m"), where, source=source)
    names = [fitting.id for fitting in system.fittings]
    check_once(names, [f"{path}.fittings[{i}].id" for i in range(len(names))], source)


def _check_outdoor(system: System, path: str, source: Source) -> None:
    outdoor, where = system.outdoor, f"{path}.outdoor"
    if not outdoor.modules:
        source.derive(f"{where}.modules", "the outdoor group has no module", "at least one module")
    names = {
        f"{where}.modules[{i}]" + (".id" if module.id else ""): module.id or f"M{i + 1}"
        for i, module in enumerate(outdoor.modules)
    }
    for place, name in names.items():
        check_id(name, place, source)
    check_once(list(names.values()), list(names), source)
    for i, run in enumerate(outdoor.pipes):
        check_run(run, f"{where}.pipes[{i}]", source)
        check_id(run.to, f"{where}.pipes[{i}].to", source)
    if outdoor.pipes:
        ends = {name: place for place, name in names.items()}
        check_pipes(Pipes(outdoor.pipes, f"{where}.pipes", ends, "outdoor module", "module pipe"), source)
        _check_sides(system, path, source)


def _check_sides(system: System, path: str, source: Source) -> None:
    """A point on the modules' side of the root is none on the units' side."""
    inside = {run.to: i for i, run in reversed(list(enumerate(system.runs)))}
    for i, run in enumerate(system.outdoor.pipes):
        if run.to in inside and run.to != ROOT:
            line = source.line_of(f"{path}.runs[{inside[run.to]}].to")
            message = f"the name {quoted(run.to)} is used twice, first on line {line}"
            source.derive(f"{path}.outdoor.pipes[{i}].to", message, "another name than on the units' side")
