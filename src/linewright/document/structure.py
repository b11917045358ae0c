"""Whether a design is one sound set of trees: names, loops, parents, orphans, rises."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from difflib import get_close_matches

from linewright.document.source import Source
from linewright.model.design import ROOT, Design, Run, System
from linewright.units import over


def check_structure(design: Design, source: Source) -> None:
    """Note every fault of a design that does not depend on a book."""
    _once([level.id for level in design.site.levels], "site.levels", source)
    _once([room.id for room in design.rooms], "rooms", source)
    _once([system.id for system in design.systems], "systems", source)
    levels = {level.id for level in design.site.levels}
    rooms = {room.id for room in design.rooms}
    for i, room in enumerate(design.rooms):
        _known(room.level, levels, f"rooms[{i}].level", what="level", source=source)
        _not_negative(room, ("area_m2", "height_m", "cooling_w", "sensible_w", "heating_w"), f"rooms[{i}]", source=source)
    for i, system in enumerate(design.systems):
        _check_system(system, f"systems[{i}]", rooms, source=source)


def _check_system(system: System, path: str, rooms: set[str], *, source: Source) -> None:
    if not system.outdoor.modules:
        source.fault(f"{path}.outdoor.modules", "the outdoor group has no module", "at least one module")
    if not system.units:
        source.fault(f"{path}.units", "the system has no indoor unit", "at least one unit")
    for i, unit in enumerate(system.units):
        if unit.room:
            _known(unit.room, rooms, f"{path}.units[{i}].room", what="room", source=source)
    _check_names(system, path, source)
    for i, run in enumerate(system.runs):
        _check_run(run, f"{path}.runs[{i}]", source)
    for i, run in enumerate(system.outdoor.pipes):
        _check_run(run, f"{path}.outdoor.pipes[{i}]", source)
    _check_tree(system, path, source)
    _check_module_pipes(system, f"{path}.outdoor", source)
    _check_stated_rises(system, path, source)


def _check_names(system: System, path: str, source: Source) -> None:
    units = [unit.id for unit in system.units]
    _once(units, f"{path}.units", source)
    _once([fitting.id for fitting in system.fittings], f"{path}.fittings", source)
    nodes = {run.to for run in system.runs}
    for i, name in enumerate(units):
        if name == ROOT:
            source.fault(f"{path}.units[{i}].id", f"'{ROOT}' is the outdoor group", "another id")
    for i, fitting in enumerate(system.fittings):
        where = f"{path}.fittings[{i}].id"
        if fitting.id in units:
            source.fault(where, f"the name '{fitting.id}' is used twice: it is a unit", "a name of its own")
        elif fitting.id not in nodes:
            _known(fitting.id, nodes, where, what="run ends at", source=source)


def _check_run(run: Run, path: str, source: Source) -> None:
    _not_negative(run, ("length_m", "as_built_m"), path, source=source)
    if run.length_m is not None and run.rise_m is not None and over(abs(run.rise_m), run.length_m):
        source.fault(f"{path}.rise", "the rise is longer than the run", "|rise| at most the length, which includes it")
    for role, size in run.override.items():
        if size <= 0:
            source.fault(f"{path}.override.{role}", "the tube has no size", "a tube size such as 15.88 mm")


def _check_tree(system: System, path: str, source: Source) -> None:
    units = {unit.id for unit in system.units}
    parents: dict[str, str] = {}
    for i, run in enumerate(system.runs):
        where = f"{path}.runs[{i}]"
        if run.to == ROOT:
            source.fault(f"{where}.to", f"a run leads into '{ROOT}'", f"runs written away from '{ROOT}'")
        elif not run.to or not run.from_:
            continue
        elif run.to in parents:
            source.fault(
                f"{where}.to", f"'{run.to}' has two parents: '{parents[run.to]}' and '{run.from_}'", "one run into each node"
            )
        else:
            parents[run.to] = run.from_
        if run.from_ in units:
            source.fault(f"{where}.from", f"a run leaves the indoor unit '{run.from_}'", "runs that end at units")
    _check_reached(system, path, parents, source=source)
    leaving = [i for i, run in enumerate(system.runs) if run.from_ == ROOT]
    for i in leaving[1:]:
        source.fault(f"{path}.runs[{i}].from", f"a second run leaves '{ROOT}'", "one run out of the outdoor group, then a joint")
    if system.runs and not leaving:
        source.fault(f"{path}.runs", f"no run leaves '{ROOT}'", f"one run from: {ROOT}")


def _check_reached(system: System, path: str, parents: dict[str, str], *, source: Source) -> None:
    reached = _reached(system.runs)
    for i, run in enumerate(system.runs):
        if run.to in reached or run.to == ROOT:
            continue
        where = f"{path}.runs[{i}]"
        if _loops(run.to, parents):
            source.fault(where, f"'{run.to}' is on a loop", "a tree: no way back to where it came from")
        elif run.from_ not in parents and run.from_ != ROOT:
            near = get_close_matches(run.from_, [ROOT, *sorted(reached)], n=1)
            expected = f"a node that a run leads to{f', such as {near[0]!r}' if near else ''}"
            source.fault(f"{where}.from", f"no run leads to '{run.from_}'", expected)
    for i, unit in enumerate(system.units):
        if unit.id and unit.id not in parents:
            source.fault(f"{path}.units[{i}].id", f"no run leads to the unit '{unit.id}'", f"a run with to: {unit.id}")


def _reached(runs: Sequence[Run]) -> set[str]:
    leaving: dict[str, list[str]] = {}
    for run in runs:
        leaving.setdefault(run.from_, []).append(run.to)
    reached: set[str] = set()
    stack = [ROOT]
    while stack:
        for node in leaving.get(stack.pop(), ()):
            if node not in reached:
                reached.add(node)
                stack.append(node)
    return reached


def _loops(node: str, parents: dict[str, str]) -> bool:
    at, steps = node, 0
    while at in parents and steps <= len(parents):
        at = parents[at]
        steps += 1
        if at == node:
            return True
    return False


def _check_module_pipes(system: System, path: str, source: Source) -> None:
    outdoor = system.outdoor
    stated = [module.id for module in outdoor.modules if module.id]
    _once(stated, f"{path}.modules", source)
    if not outdoor.pipes:
        return
    reached = _reached(outdoor.pipes)
    names = [run.to for run in outdoor.pipes]
    _once(names, f"{path}.pipes", source)
    for i, run in enumerate(outdoor.pipes):
        if run.to not in reached and run.from_ not in names:
            source.fault(f"{path}.pipes[{i}].from", f"no pipe leads to '{run.from_}'", f"'{ROOT}' or an outdoor joint")
        elif run.to not in reached:
            source.fault(f"{path}.pipes[{i}]", f"'{run.to}' is on a loop", "a tree of module pipes")
    for i, module in enumerate(outdoor.modules):
        name = module.id or f"M{i + 1}"
        if name not in names:
            source.fault(f"{path}.modules[{i}]", f"no module pipe leads to '{name}'", f"a pipe with to: {name}")


def _check_stated_rises(system: System, path: str, source: Source) -> None:
    """Two stated elevations that are farther apart than the run between them is long."""
    stated = {unit.id: unit.elevation_m for unit in system.units}
    stated |= {fitting.id: fitting.elevation_m for fitting in system.fittings}
    stated[ROOT] = system.outdoor.elevation_m
    for i, run in enumerate(system.runs):
        low, high = stated.get(run.from_), stated.get(run.to)
        if low is None or high is None or run.length_m is None:
            continue
        if over(abs(high - low), run.length_m):
            source.fault(
                f"{path}.runs[{i}].length",
                f"the ends are {abs(high - low):g} m apart in level: the rise is longer than the run",
                "a length of at least the difference of level",
            )
        elif run.rise_m is not None and over(abs(run.rise_m - (high - low)), 1e-3):
            source.fault(
                f"{path}.runs[{i}].rise", f"the stated elevations give a rise of {high - low:g} m", "a rise that agrees with them"
            )


def _once(names: Sequence[str], path: str, source: Source) -> None:
    first: dict[str, int] = {}
    for i, name in enumerate(names):
        if name and name in first:
            source.fault(f"{path}[{i}]", f"the name '{name}' is used twice", "each name once")
        first.setdefault(name, i)


def _known(name: str, known: Iterable[str], path: str, *, what: str, source: Source) -> None:
    names = sorted(known)
    if not name or name in names:
        return
    near = get_close_matches(name, names, n=1)
    expected = f"'{near[0]}'" if near else (f"one of {', '.join(names[:12])}" if names else f"a {what} that exists")
    source.fault(path, f"no {what} '{name}'", expected)


def _not_negative(item: object, fields: Sequence[str], path: str, *, source: Source) -> None:
    for name in fields:
        number = getattr(item, name)
        if number is not None and number < 0:
            key = name.rsplit("_", 1)[0]
            source.fault(f"{path}.{key}", f"'{key}' is negative", "zero or more")
