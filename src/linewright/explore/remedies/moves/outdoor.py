"""The outdoor group: another group of the book, the order of its modules, a place that the designer offers."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from linewright.engine.proposals import Wanted as WantedGroup
from linewright.engine.proposals import propose_groups
from linewright.explore.remedies.at import At
from linewright.explore.remedies.phrases import Given, length, phrase, plain
from linewright.explore.remedies.records import Duty, Move, MoveKind
from linewright.explore.remedies.weights import weight
from linewright.model.design import ROOT, Module, Outdoor, Run
from linewright.model.edits import Edit, Kind, Set, SetOutdoor

#: Groups that are tried in each direction.
MOST_GROUPS = 3
#: Length of a pipe to a module that is new [m]: to be built so.
MODULE_PIPE_M = 1.0


def groups(at: At) -> Iterator[Move]:
    """The next groups that take the units by count and ratio: larger ones first, then smaller ones."""
    ground = at.result.state.ground
    wanted = WantedGroup(ground.index_sum, len(at.system.units))
    others = [one for one in propose_groups(at.book, wanted) if one.serves and one.group != at.result.group]
    larger = [one for one in others if one.index >= at.result.outdoor_index]
    smaller = [one for one in reversed(others) if one.index < at.result.outdoor_index]
    for steps, found in enumerate((*larger[:MOST_GROUPS], *smaller[:1])):
        outdoor = with_modules(at, found.modules)
        yield Move(
            kind=MoveKind.GROUP,
            subject=at.system.id,
            edits=(SetOutdoor(system=at.system.id, outdoor=outdoor),),
            words=phrase(plain(f"outdoor group {found.group} instead of {at.result.group} (system {at.system.id})")),
            duties=(Duty.SELECT, Duty.BUILD) if outdoor.pipes != at.system.outdoor.pipes else (Duty.SELECT,),
            weight=weight(MoveKind.GROUP, steps + 1),
        )


def with_modules(at: At, models: tuple[str, ...]) -> Outdoor:
    """Give the outdoor side with other modules: pipes stay where their number does, else each is to be built."""
    now = at.system.outdoor
    ordered = sorted(models, key=lambda model: (-at.book.modules[model].index, model))
    if len(ordered) == len(now.modules):
        return replace(
            now, modules=tuple(replace(old, model=new) for old, new in zip(now.modules, ordered, strict=True))
        )
    modules = tuple(Module(model=model, id=f"M{i + 1}") for i, model in enumerate(ordered))
    return replace(now, modules=modules, pipes=tuple(_pipes(modules)) if len(modules) > 1 else ())


def _pipes(modules: tuple[Module, ...]) -> Iterator[Run]:
    """A chain of joints, the largest module at the first."""
    near = ROOT
    for i, module in enumerate(modules):
        yield Run(from_=near, to=module.id, length_m=MODULE_PIPE_M)
        if i < len(modules) - 2:
            yield Run(from_=near, to=f"OJ{i + 1}", length_m=MODULE_PIPE_M)
            near = f"OJ{i + 1}"


def module_order(at: At) -> Iterator[Move]:
    """The largest module nearest to the first outdoor joint, the others by size behind it."""
    modules, pipes = at.system.outdoor.modules, at.result.state.ground.pipes
    if len(modules) < 2:
        return
    reach = [len(module.path) for module in pipes.modules]
    places = sorted(range(len(modules)), key=lambda i: (reach[i], i))
    models = sorted((module.model for module in modules), key=lambda model: (-at.book.modules[model].index, model))
    wanted = dict(zip(places, models, strict=True))
    made = tuple(replace(module, model=wanted[i]) for i, module in enumerate(modules))
    if made == modules:
        return
    yield Move(
        kind=MoveKind.MODULE_ORDER,
        subject=at.system.id,
        edits=(SetOutdoor(system=at.system.id, outdoor=replace(at.system.outdoor, modules=made)),),
        words=phrase(plain(f"outdoor modules in order of size from the first joint: {', '.join(models)}")),
        duties=(Duty.BUILD,),
        weight=weight(MoveKind.MODULE_ORDER),
    )


def place(at: At) -> Iterator[Move]:
    """The outdoor group at the place that the designer offers."""
    offered = at.wanted.outdoor_place
    if offered is None or not at.system.runs:
        return
    edits: list[Edit] = []
    words, given = [], list[Given]()
    first = at.tree.runs[0]
    if offered.main_m is not None and first.length_m is not None:
        others = sum(at.length_m(run) or 0.0 for run in at.tree.main[1:])
        metres = max(0.1, offered.main_m - others)
        values: dict[str, object] = {"length_m": metres}
        if first.rise_m is not None and offered.elevation_m is not None and at.system.outdoor.elevation_m is not None:
            values["rise_m"] = round(first.rise_m + at.system.outdoor.elevation_m - offered.elevation_m, 6)
        edits.append(Set(kind=Kind.RUN, id=first.to, system=at.system.id, values=values))
        words.append("main {}")
        given.append(length(offered.main_m))
    if offered.elevation_m is not None:
        edits.append(Set(kind=Kind.OUTDOOR, system=at.system.id, values={"elevation_m": offered.elevation_m}))
        words.append("elevation {}")
        given.append(length(offered.elevation_m))
    if edits:
        yield Move(
            kind=MoveKind.OUTDOOR_PLACE,
            subject=at.system.id,
            edits=tuple(edits),
            words=phrase(f"outdoor group of {plain(at.system.id)} at the offered place: {', '.join(words)}", *given),
            duties=(Duty.BUILD,),
            weight=weight(MoveKind.OUTDOOR_PLACE),
        )
