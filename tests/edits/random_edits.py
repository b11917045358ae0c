"""Random edits of every kind for a design at hand; some of them cannot apply."""

from collections.abc import Callable
from dataclasses import replace
from random import Random
from types import MappingProxyType

from linewright.model.design import ROOT, Block, Design, Fitting, Item, Level, Location, Module, Room, Run, System, Unit
from linewright.model.edits import values as v
from linewright.model.edits.values import Edit, Kind, Table
from linewright.model.values import NodeKind, Role

LENGTHS = (None, 0.0, 0.5, 3.0, 12.192, 40.0)
SIZES = (0.00635, 0.00952, 0.01588, 0.02222)


def _system(rng: Random, design: Design) -> System:
    return rng.choice(design.systems)


def _run(rng: Random, system: System) -> Run:
    return rng.choice(system.runs)


def _node(rng: Random, system: System) -> str:
    units = {unit.id for unit in system.units}
    inner = [run.to for run in system.runs if run.to not in units]
    return rng.choice([*inner, ROOT]) if rng.random() < 0.05 or not inner else rng.choice(inner)


def _fresh(rng: Random) -> str:
    return f"N{rng.randrange(10**6)}"


def _set_run(rng: Random, design: Design) -> Edit:
    system = _system(rng, design)
    choices: dict[str, object] = {
        "length_m": rng.choice(LENGTHS),
        "rise_m": rng.choice((None, 0.0, 0.25)),
        "bends": rng.randrange(5),
        "items": rng.choice(((), (Item(kind="valve"),), (Item(kind="trap", count=2), Item(kind="loop")))),
        "location": rng.choice((None, *Location)),
        "as_built_m": rng.choice(LENGTHS),
        "override.gas": rng.choice((None, *SIZES)),
    }
    kept = rng.sample(sorted(choices), rng.randrange(1, 4))
    values = MappingProxyType({key: choices[key] for key in kept})
    return v.Set(kind=Kind.RUN, id=_run(rng, system).to, system=system.id, values=values)


def _set_other(rng: Random, design: Design) -> Edit:
    system = _system(rng, design)
    options: list[Edit] = [
        v.Set(kind=Kind.PROJECT, values={"note": rng.choice(("", "a: b # c", "plain"))}),
        v.Set(
            kind=Kind.SYSTEM,
            id=system.id,
            values={"name": rng.choice(("", "East wing")), "block": Block(cooling_w=9e3)},
        ),
        v.Set(kind=Kind.OUTDOOR, system=system.id, values={"elevation_m": rng.choice((None, 3.5, 8.0))}),
        v.Set(kind=Kind.UNIT, id=rng.choice(system.units).id, system=system.id, values={"elevation_m": None}),
    ]
    if design.rooms:
        room = rng.choice(design.rooms)
        options.append(v.Set(kind=Kind.ROOM, id=room.id, values={"cooling_w": rng.choice((None, 1234.5, 6e3))}))
    if design.site.levels:
        options.append(v.Set(kind=Kind.LEVEL, id=design.site.levels[0].id, values={"name": "Quay"}))
    return rng.choice(options)


def _add(rng: Random, design: Design) -> Edit:
    system, joint, unit = _system(rng, design), _fresh(rng), _fresh(rng)
    model = rng.choice(system.units).model
    runs = (
        Run(from_=_node(rng, system), to=joint, length_m=rng.choice(LENGTHS)),
        Run(from_=joint, to=unit, length_m=2.5, bends=1),
        Run(from_=joint, to=f"{unit}b", length_m=None),
    )
    units = tuple(Unit(id=name, model=model, label="new") for name in (unit, f"{unit}b"))
    fittings = (Fitting(id=joint, kind=NodeKind.HEADER, elevation_m=1.0),) if rng.random() < 0.5 else ()
    return v.AddSubtree(system=system.id, runs=runs, units=units, fittings=fittings)


def _split(rng: Random, design: Design) -> Edit:
    system = _system(rng, design)
    run = _run(rng, system)
    return v.SplitRun(system=system.id, run=run.to, node=_fresh(rng), at_m=rng.choice((0.0, 0.3, 1.0)))


def _join(rng: Random, design: Design) -> Edit:
    system = _system(rng, design)
    leaving = [run.from_ for run in system.runs]
    single = [run.to for run in system.runs if leaving.count(run.to) == 1]
    return v.JoinRuns(system=system.id, node=rng.choice(single or [_run(rng, system).to]))


def _move(rng: Random, design: Design) -> Edit:
    system = _system(rng, design)
    return v.MoveSubtree(system=system.id, node=_run(rng, system).to, to=_node(rng, system))


def _outdoor(rng: Random, design: Design) -> Edit:
    system = _system(rng, design)
    modules = (*system.outdoor.modules, Module(model=system.outdoor.modules[0].model, id=_fresh(rng)))
    return v.SetOutdoor(system=system.id, outdoor=replace(system.outdoor, modules=modules, pipes=(), elevation_m=7.25))


def _kind(rng: Random, design: Design) -> Edit:
    system = _system(rng, design)
    return v.ChangeKind(
        system=system.id, fitting=_node(rng, system), kind=rng.choice((None, NodeKind.HEADER, NodeKind.JOINT))
    )


def _label(rng: Random, design: Design) -> Edit:
    system = _system(rng, design)
    label = rng.choice(("", "east 1", "a, b: [c]", "§ 4"))
    options = [
        v.SetLabel(kind=Kind.UNIT, id=rng.choice(system.units).id, system=system.id, label=label),
        v.SetLabel(kind=Kind.FITTING, id=_node(rng, system), system=system.id, label=label),
        v.SetLabel(kind=Kind.SYSTEM, id=system.id, label=label),
    ]
    return rng.choice(options)


def _lock(rng: Random, design: Design) -> Edit:
    system = _system(rng, design)
    run = _run(rng, system)
    subjects = (f"run:{run.to}.length", f"subtree:{run.to}", f"unit:{rng.choice(system.units).id}.model")
    return v.Lock(subject=f"{system.id}/{rng.choice(subjects)}")


def _other_system(rng: Random, design: Design) -> Edit:
    return v.AddSystem(added=replace(_system(rng, design), id=_fresh(rng)))


def _name(rng: Random, names: tuple[str, ...]) -> str:
    return rng.choice(names) if names else "nothing"


def _put(rng: Random, design: Design) -> Edit:
    after = design.rooms[-1].id if design.rooms else None
    level = design.site.levels[0].id if design.site.levels else "ground"
    return v.Put(table=Table.ROOMS, item=Room(id=_fresh(rng), level=level, cooling_w=5e3), after=after)


def _drop(rng: Random, design: Design) -> Edit:
    system = _system(rng, design)
    names = tuple(fitting.id for fitting in system.fittings)
    return v.Drop(table=Table.FITTINGS, id=_name(rng, names), system=system.id)


def _batch(rng: Random, design: Design) -> Edit:
    return v.Batch(edits=tuple(rng.choice((_set_run, _label, _add))(rng, design) for _ in range(rng.randrange(1, 4))))


MAKERS: dict[type, Callable[[Random, Design], Edit]] = {
    v.Set: lambda r, d: r.choice((_set_run, _set_run, _set_other))(r, d),
    v.Put: _put,
    v.Drop: _drop,
    v.AddSubtree: _add,
    v.RemoveSubtree: lambda r, d: v.RemoveSubtree(system=d.systems[0].id, node=_run(r, d.systems[0]).to),
    v.MoveSubtree: _move,
    v.SplitRun: _split,
    v.JoinRuns: _join,
    v.ChangeModel: lambda r, d: v.ChangeModel(
        system=d.systems[0].id, id=r.choice(d.systems[0].units).id, model="wall 2"
    ),
    v.ChangeKind: _kind,
    v.SetOutdoor: _outdoor,
    v.OverrideSize: lambda r, d: v.OverrideSize(
        system=d.systems[0].id,
        run=_run(r, d.systems[0]).to,
        role=r.choice((Role.GAS, Role.LIQUID)),
        size_m=r.choice(SIZES),
    ),
    v.ForbidAction: lambda r, d: v.ForbidAction(system=d.systems[0].id, action=r.choice(("action-a", "action-b"))),
    v.AllowAction: lambda r, d: v.AllowAction(system=d.systems[0].id, action=_name(r, d.systems[0].forbidden_actions)),
    v.Declare: lambda r, d: v.Declare(system=d.systems[0].id, declaration=r.choice(("high lift set", "oil checked"))),
    v.Withdraw: lambda r, d: v.Withdraw(system=d.systems[0].id, declaration=_name(r, d.systems[0].declared)),
    v.Lock: _lock,
    v.Unlock: lambda r, d: v.Unlock(subject=_name(r, d.locks)),
    v.SetAsBuilt: lambda r, d: v.SetAsBuilt(
        system=d.systems[0].id, run=_run(r, d.systems[0]).to, length_m=r.choice(LENGTHS)
    ),
    v.SetLabel: _label,
    v.AddRoom: lambda r, d: v.AddRoom(room=Room(id=_fresh(r), level=d.site.levels[0].id if d.site.levels else "x")),
    v.RemoveRoom: lambda r, d: v.RemoveRoom(room=_name(r, tuple(room.id for room in d.rooms))),
    v.AddLevel: lambda r, _: v.AddLevel(level=Level(id=_fresh(r), elevation_m=r.choice((-2.5, 0.0, 9.144)))),
    v.RemoveLevel: lambda r, d: v.RemoveLevel(level=_name(r, tuple(level.id for level in d.site.levels))),
    v.AddSystem: _other_system,
    v.RemoveSystem: lambda r, d: v.RemoveSystem(system=r.choice(d.systems).id),
    v.Batch: _batch,
}


def random_edit(rng: Random, design: Design) -> Edit:
    """An edit of any kind; trees are edited more often."""
    often = (v.Set, v.Set, v.AddSubtree, v.MoveSubtree, v.SplitRun, v.JoinRuns, v.RemoveSubtree)
    if not design.systems:
        return MAKERS[v.AddLevel](rng, design)
    return MAKERS[rng.choice([*often, *MAKERS])](rng, design)
