"""What edits are made of: each one as steps on the design at hand, with what its validity rests on beside them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import fields
from types import MappingProxyType
from typing import Any, NamedTuple

from linewright.errors import quoted
from linewright.model.design import ROOT, Design, Fitting, Module, Run, System
from linewright.model.edits import values as v
from linewright.model.edits.faults import refuse
from linewright.model.edits.locks import held, is_subject
from linewright.model.edits.places import (
    WORD_OF,
    MissingError,
    element,
    item_element,
    items,
    name_of,
    position,
    system_at,
)
from linewright.model.edits.steps import Step
from linewright.model.edits.touches import ARMS, EXISTS, Touch
from linewright.model.edits.values import Kind, Table
from linewright.model.values import NodeKind, Role


class Expanded(NamedTuple):
    """Steps in order, and what has to be as it is for them to be what was meant."""

    steps: tuple[Step, ...]
    reads: frozenset[Touch] = frozenset()


def expand(design: Design, edit: v.Edit) -> Expanded:
    """Give the steps of an edit that is no batch; raises EditRefusedError or MissingError."""
    if isinstance(edit, v.Set | v.Put | v.Drop):
        return Expanded((edit,))
    return _EXPANDED[type(edit)](design, edit)


def _system(design: Design, name: str) -> System:
    return design.systems[system_at(design, name)]


def _run(system: System, node: str) -> Run:
    return system.runs[position(system.runs, node, "run")]


def _beyond(system: System, node: str) -> list[Run]:
    """The runs beyond a node, in the order of the list."""
    names = {node}
    while True:
        more = {run.to for run in system.runs if run.from_ in names} - names
        if not more:
            return [run for run in system.runs if run.from_ in names]
        names |= more


def _way(system: System, node: str) -> frozenset[Touch]:
    """On what a way from the root rests: where each of its runs begins."""
    into = {run.to: run for run in system.runs}
    found: set[Touch] = set()
    while node in into:
        touch = Touch(element(Kind.RUN, node, system.id), "from_")
        if touch in found:
            break
        found.add(touch)
        node = into[node].from_
    return frozenset(found)


def _arms(system: System, node: str) -> Touch:
    return Touch(element(Kind.RUN, node, system.id), ARMS)


def _add(design: Design, edit: v.AddSubtree) -> Expanded:
    system = _system(design, edit.system)
    hung = {run.to for run in edit.runs}
    near = next((run.from_ for run in edit.runs if run.from_ not in hung), ROOT)
    steps: list[Step] = [
        *_in_order(edit.system, edit.runs, _last_arm(system, near)),
        *(v.Put(table=Table.UNITS, item=unit, by_name=True, system=edit.system) for unit in edit.units),
        *(v.Put(table=Table.FITTINGS, item=item, by_name=True, system=edit.system) for item in edit.fittings),
    ]
    reads = frozenset(_arms(system, run.from_) for run in edit.runs if run.from_ not in hung)
    return Expanded(tuple(steps), reads)


def _in_order(system: str, runs: tuple[Run, ...], after: str | None) -> Iterator[Step]:
    for run in runs:
        yield v.Put(table=Table.RUNS, item=run, after=after, system=system)
        after = run.to


def _last(found: tuple[Any, ...]) -> str | None:
    return name_of(found[-1]) if found else None


def _last_arm(system: System, near: str) -> str | None:
    """New runs stand behind the last run that leaves the same node, so that edits elsewhere do not meet them."""
    arms = [run.to for run in system.runs if run.from_ == near]
    if arms:
        return arms[-1]
    return near if near in {run.to for run in system.runs} else _last(system.runs)


def _remove(design: Design, edit: v.RemoveSubtree) -> Expanded:
    system = _system(design, edit.system)
    _run(system, edit.node)
    nodes = {edit.node, *(run.to for run in _beyond(system, edit.node))}
    return Expanded(
        tuple(
            v.Drop(table=table, id=name_of(item), system=edit.system)
            for table, found in (
                (Table.FITTINGS, system.fittings),
                (Table.UNITS, system.units),
                (Table.RUNS, tuple(reversed(system.runs))),
            )
            for item in found
            if name_of(item) in nodes
        )
    )


def _move(design: Design, edit: v.MoveSubtree) -> Expanded:
    system = _system(design, edit.system)
    run = _run(system, edit.node)
    if edit.to != ROOT:
        _run(system, edit.to)
    values = {"from_": edit.to} | ({"ports": ()} if run.ports else {})
    set_from = v.Set(kind=Kind.RUN, id=edit.node, system=edit.system, values=values)
    at_root = {_arms(system, ROOT)} if edit.to == ROOT else set()
    return Expanded((set_from,), _way(system, edit.to) | at_root)


def _split(design: Design, edit: v.SplitRun) -> Expanded:
    system = _system(design, edit.system)
    run = _run(system, edit.run)
    path = element(Kind.RUN, edit.run, edit.system)
    if edit.at_m < 0 or (run.length_m is not None and edit.at_m > run.length_m):
        raise refuse(path, "the point is not on the run", "a length from its near end up to its own", str(edit.at_m))
    near = Run(
        from_=run.from_,
        to=edit.node,
        length_m=edit.at_m,
        rise_m=_part(run, edit.at_m),
        bends=run.bends,
        items=run.items,
        override=run.override,
        location=run.location,
        ports=run.ports,
        crosses=run.crosses,
    )
    far = {
        "from_": edit.node,
        "length_m": None if run.length_m is None else run.length_m - edit.at_m,
        "rise_m": None if run.rise_m is None or near.rise_m is None else run.rise_m - near.rise_m,
        "bends": 0,
        "items": (),
        "as_built_m": None,
    } | ({"ports": ()} if run.ports else {})
    before = position(system.runs, edit.run, "run")
    after = system.runs[before - 1].to if before else None
    return Expanded(
        (
            v.Put(table=Table.RUNS, item=near, after=after, system=edit.system),
            v.Set(kind=Kind.RUN, id=edit.run, system=edit.system, values=far),
        ),
        _all_of(run, edit.system),
    )


def _part(run: Run, at_m: float) -> float | None:
    """The part of a run's rise up to a point, in proportion to length [m]."""
    if run.rise_m is None or run.length_m is None:
        return None
    return run.rise_m * at_m / run.length_m if run.length_m else 0.0


def _all_of(run: Run, system: str) -> frozenset[Touch]:
    name = element(Kind.RUN, run.to, system)
    sizes = (Touch(name, f"override.{role}") for role in Role)
    return frozenset({Touch(name, EXISTS), *(Touch(name, field.name) for field in fields(run)), *sizes})


def _join(design: Design, edit: v.JoinRuns) -> Expanded:
    system = _system(design, edit.system)
    near, leaving = _run(system, edit.node), [run for run in system.runs if run.from_ == edit.node]
    path = element(Kind.RUN, edit.node, edit.system)
    if len(leaving) != 1:
        raise refuse(path, f"{len(leaving)} runs leave {quoted(edit.node)}", "a point that one run leaves", edit.node)
    far = leaving[0]
    if near.override != far.override:
        raise refuse(path, "the two runs have other sizes set", "the same sizes, or none", edit.node)
    joined = {
        "from_": near.from_,
        "length_m": _sum(near.length_m, far.length_m),
        "rise_m": _sum(near.rise_m, far.rise_m),
        "bends": near.bends + far.bends,
        "items": (*near.items, *far.items),
        "as_built_m": _sum(near.as_built_m, far.as_built_m),
        "location": near.location if near.location is far.location else None,
        "crosses": tuple(dict.fromkeys((*near.crosses, *far.crosses))),
    } | ({"ports": near.ports} if near.ports else {})
    stated = [v.Drop(table=Table.FITTINGS, id=f.id, system=edit.system) for f in system.fittings if f.id == edit.node]
    return Expanded(
        (
            *stated,
            v.Drop(table=Table.RUNS, id=edit.node, system=edit.system),
            v.Set(kind=Kind.RUN, id=far.to, system=edit.system, values=joined),
        ),
        _all_of(near, edit.system) | _all_of(far, edit.system),
    )


def _sum(first: float | None, second: float | None) -> float | None:
    return None if first is None or second is None else first + second


def _model(design: Design, edit: v.ChangeModel) -> Expanded:
    system = _system(design, edit.system)
    is_unit = edit.id in {unit.id for unit in system.units}
    is_module = edit.id in {module.id or f"M{i + 1}" for i, module in enumerate(system.outdoor.modules)}
    if not is_unit and not is_module and edit.id in {fitting.id for fitting in system.fittings}:
        return _of_fitting(system, edit.id, {"model": edit.model})
    kind = Kind.UNIT if is_unit else Kind.MODULE
    return Expanded((v.Set(kind=kind, id=edit.id, system=edit.system, values={"model": edit.model}),))


def _kind(design: Design, edit: v.ChangeKind) -> Expanded:
    system = _system(design, edit.system)
    _run(system, edit.fitting)
    with_model = any(fitting.id == edit.fitting and fitting.model for fitting in system.fittings)
    changed = _of_fitting(system, edit.fitting, {"kind": edit.kind} | ({"model": ""} if with_model else {}))
    ported = [run for run in system.runs if run.from_ == edit.fitting and run.ports]
    if edit.kind is NodeKind.BOX or not ported:
        return changed
    freed = (v.Set(kind=Kind.RUN, id=run.to, system=edit.system, values={"ports": ()}) for run in ported)
    return changed._replace(steps=(*changed.steps, *freed))


def _of_fitting(system: System, name: str, stated: dict[str, Any]) -> Expanded:
    """Set what is stated of a fitting; where nothing is stated yet it is listed first."""
    if name in {fitting.id for fitting in system.fittings}:
        return Expanded((v.Set(kind=Kind.FITTING, id=name, system=system.id, values=stated),))
    run = frozenset({Touch(element(Kind.RUN, name, system.id), EXISTS)})
    put = v.Put(table=Table.FITTINGS, item=Fitting(id=name, **stated), by_name=True, system=system.id)
    return Expanded((put,), run)


def _outdoor(design: Design, edit: v.SetOutdoor) -> Expanded:
    system = _system(design, edit.system)
    outdoor = edit.outdoor
    values = {"modules": outdoor.modules, "elevation_m": outdoor.elevation_m, "pipes": outdoor.pipes}
    reads = [
        Touch(element(Kind.PIPE, pipe.to, system.id), field.name)
        for pipe in system.outdoor.pipes
        for field in fields(pipe)
    ]
    reads += [
        Touch(element(Kind.MODULE, module.id or f"M{i + 1}", system.id), field.name)
        for i, module in enumerate(system.outdoor.modules)
        for field in fields(Module)
    ]
    return Expanded((v.Set(kind=Kind.OUTDOOR, system=edit.system, values=values),), frozenset(reads))


def _override(design: Design, edit: v.OverrideSize) -> Expanded:
    _run(_system(design, edit.system), edit.run)
    values = {f"override.{edit.role}": edit.size_m}
    return Expanded((v.Set(kind=Kind.RUN, id=edit.run, system=edit.system, values=values),))


def _name_in(design: Design, table: Table, name: str, system: str = "") -> Expanded:
    """Add a name to a list of names; nothing where it is there."""
    if name in [name_of(item) for item in items(design, table, system)]:
        within = {Touch(element(Kind.SYSTEM, system), EXISTS)} if system else set()
        return Expanded((), frozenset({Touch(item_element(table, name, system), EXISTS), *within}))
    return Expanded((v.Put(table=table, item=name, by_name=True, system=system),))


def _name_out(design: Design, table: Table, name: str, system: str = "") -> Expanded:
    found = [name_of(item) for item in items(design, table, system)]
    if name not in found:
        raise MissingError(WORD_OF[table], name, found)
    return Expanded((v.Drop(table=table, id=name, system=system),))


def _lock(design: Design, edit: v.Lock) -> Expanded:
    if not is_subject(design, edit.subject):
        raise MissingError("thing to lock", edit.subject, ())
    return _name_in(design, Table.LOCKS, edit.subject)._replace(reads=held(design, edit.subject))


def _label(design: Design, edit: v.SetLabel) -> Expanded:
    if edit.kind is Kind.FITTING:
        system = _system(design, edit.system)
        _run(system, edit.id)
        return _of_fitting(system, edit.id, {"label": edit.label})
    field = "label" if edit.kind is Kind.UNIT else "name"
    return Expanded((v.Set(kind=edit.kind, id=edit.id, system=edit.system, values={field: edit.label}),))


def _append(table: Table, item: v.Item) -> Expanded:
    return Expanded((v.Put(table=table, item=item, by_name=True),))


def _without_room(design: Design, edit: v.RemoveRoom) -> Expanded:
    served = [f"{system.id}/{unit.id}" for system in design.systems for unit in system.units if unit.room == edit.room]
    if served:
        raise refuse(element(Kind.ROOM, edit.room), f"units serve it: {', '.join(served)}", "a room without units")
    return Expanded((v.Drop(table=Table.ROOMS, id=edit.room),))


def _without_level(design: Design, edit: v.RemoveLevel) -> Expanded:
    there = [room.id for room in design.rooms if room.level == edit.level]
    if there:
        raise refuse(element(Kind.LEVEL, edit.level), f"rooms are on it: {', '.join(there)}", "a level without rooms")
    return Expanded((v.Drop(table=Table.LEVELS, id=edit.level),))


def _as_built(design: Design, edit: v.SetAsBuilt) -> Expanded:
    system = _system(design, edit.system)
    is_pipe = edit.run in {pipe.to for pipe in system.outdoor.pipes}
    kind = Kind.PIPE if is_pipe else Kind.RUN
    return Expanded((v.Set(kind=kind, id=edit.run, system=edit.system, values={"as_built_m": edit.length_m}),))


_EXPANDED: MappingProxyType[type, Callable[[Design, Any], Expanded]] = MappingProxyType(
    {
        v.AddSubtree: _add,
        v.RemoveSubtree: _remove,
        v.MoveSubtree: _move,
        v.SplitRun: _split,
        v.JoinRuns: _join,
        v.ChangeModel: _model,
        v.ChangeKind: _kind,
        v.SetOutdoor: _outdoor,
        v.OverrideSize: _override,
        v.ForbidAction: lambda d, e: _name_in(d, Table.FORBIDDEN_ACTIONS, e.action, e.system),
        v.AllowAction: lambda d, e: _name_out(d, Table.FORBIDDEN_ACTIONS, e.action, e.system),
        v.Declare: lambda d, e: _name_in(d, Table.DECLARED, e.declaration, e.system),
        v.Withdraw: lambda d, e: _name_out(d, Table.DECLARED, e.declaration, e.system),
        v.Lock: _lock,
        v.Unlock: lambda d, e: _name_out(d, Table.LOCKS, e.subject),
        v.SetAsBuilt: _as_built,
        v.SetLabel: _label,
        v.AddRoom: lambda _, e: _append(Table.ROOMS, e.room),
        v.RemoveRoom: _without_room,
        v.AddLevel: lambda _, e: _append(Table.LEVELS, e.level),
        v.RemoveLevel: _without_level,
        v.AddSystem: lambda _, e: _append(Table.SYSTEMS, e.added),
        v.RemoveSystem: lambda _, e: Expanded((v.Drop(table=Table.SYSTEMS, id=e.system),)),
    }
)
