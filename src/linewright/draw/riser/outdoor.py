"""The outdoor group of a riser diagram: its modules side by side, and the pipes between them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from linewright.draw.paper.lettering import BODY, LINE, Area, fitted, width_of
from linewright.draw.primitives import Anchor
from linewright.draw.riser.parts import DROP, LANE, RADIUS, drop_lines, line, tag_line
from linewright.draw.riser.pieces import Lettered, Point
from linewright.draw.riser.symbols import OUTDOOR_HEIGHT, OUTDOOR_WIDTH
from linewright.draw.riser.wording import level_words
from linewright.draw.run_words import ROLE_ORDER
from linewright.draw.wording import UNKNOWN
from linewright.engine.outdoor_records import ModulePipeResult
from linewright.engine.records import SystemResult
from linewright.model.design import ROOT, Module
from linewright.model.values import Role
from linewright.units import Dimension, UnitSystem, show, show_number

_PITCH, _WIDTH, _BESIDE = 28.0, 26.0, 6.0


class ModuleSpot(NamedTuple):
    """A module: its id and model, the left of its case and the foot of it [mm]."""

    id: str
    model: str
    x: float
    y: float


class Outside(NamedTuple):
    """The outdoor group, placed: modules, ways of their pipes by far end, joints, words, ground, its left [mm]."""

    modules: tuple[ModuleSpot, ...]
    routes: Mapping[str, tuple[Point, ...]]
    joints: Mapping[str, Point]
    words: tuple[Lettered, ...]
    taken: tuple[Area, ...]
    left: float


def outside(result: SystemResult, root: Point, system: UnitSystem) -> Outside:
    """Place the outdoor group about the point where the pipe of the indoor side begins [mm]."""
    modules = result.system.outdoor.modules
    if len(modules) == 1:
        return _single(result, modules[0], root, system)
    return _several(result, root, system)


def named(result: SystemResult) -> list[tuple[str, Module]]:
    """Give the modules with their ids, made ones where none is stated."""
    return [(module.id or f"M{i + 1}", module) for i, module in enumerate(result.system.outdoor.modules)]


def _single(result: SystemResult, module: Module, root: Point, system: UnitSystem) -> Outside:
    ((name, _),) = named(result)
    x, foot = root.x - OUTDOOR_WIDTH, root.y + 2.5
    words = _words(
        name, module.model, _level(result, module, system), Point(x + OUTDOOR_WIDTH / 2, foot - OUTDOOR_HEIGHT)
    )
    case = Area(x, foot - OUTDOOR_HEIGHT, x + OUTDOOR_WIDTH, foot)
    taken = (case, *(item.line.area(item.at.x, item.at.y) for item in words))
    return Outside(
        (ModuleSpot(name, module.model, x, foot),), {}, {}, tuple(words), taken, min(one.left for one in taken)
    )


def _several(result: SystemResult, root: Point, system: UnitSystem) -> Outside:
    pipes = {pipe.id: pipe for pipe in result.outdoor.pipes}
    said = [width_of(text) for pipe in pipes.values() for text in _pipe_words(pipe, system)]
    pitch = max([_PITCH, *(width + _BESIDE for width in said)])
    columns = {name: root.x - pitch * k for k, (name, _) in enumerate(named(result))}
    spots, routes, words = [], {}, []
    joints = _joints(pipes, columns, root)
    for name, module in named(result):
        x, foot = columns[name], root.y - DROP
        spots.append(ModuleSpot(name, module.model, x - OUTDOOR_WIDTH / 2, foot))
        words += _words(name, module.model, _level(result, module, system), Point(x, foot - OUTDOOR_HEIGHT))
        near = joints.get(pipes[name].from_, root) if name in pipes else root
        routes[name] = _way(near, x, root.y, foot)
        drop = drop_lines(_pipe_words(pipes.get(name), system), above=True)
        words += [Lettered(f"run:{name}", Point(x, root.y), item) for item in drop]
    for name, at in joints.items():
        if name == ROOT:
            continue
        near = joints.get(pipes[name].from_, root)
        routes[name] = (near, at)
        words.append(Lettered(f"outdoor:{name}", at, tag_line(name)))
        label = [
            line(0, LANE * k, text, anchor=Anchor.MIDDLE) for k, text in enumerate(_pipe_words(pipes[name], system))
        ]
        middle = Point((near.x + at.x) / 2, root.y + RADIUS + 2.3 + LANE)
        words += [Lettered(f"run:{name}", middle, item) for item in label]
    words.append(Lettered(f"outdoor:{ROOT}", root, tag_line("outdoor")))
    cases = [Area(spot.x, spot.y - OUTDOOR_HEIGHT, spot.x + OUTDOOR_WIDTH, spot.y) for spot in spots]
    rail = Area(min(columns.values()) - 1, root.y - RADIUS, root.x + RADIUS, root.y + RADIUS)
    taken = (*cases, rail, *(item.line.area(item.at.x, item.at.y) for item in words))
    return Outside(tuple(spots), routes, joints, tuple(words), taken, min(one.left for one in taken))


def _joints(pipes: Mapping[str, ModulePipeResult], columns: Mapping[str, float], root: Point) -> dict[str, Point]:
    """Give the joints between modules: each below the first module that it leads to."""
    found = {ROOT: root}
    order = sorted(columns, key=lambda name: -columns[name])
    for name in order:
        before = pipes[name].from_ if name in pipes else ROOT
        chain = []
        while before not in found and before in pipes:
            chain.append(before)
            before = pipes[before].from_
        for joint in reversed(chain):
            found[joint] = Point(columns[name], root.y)
    return found


def _way(near: Point, x: float, rail: float, foot: float) -> tuple[Point, ...]:
    points = (near, Point(x, rail), Point(x, foot))
    return points if abs(near.x - x) > 1e-9 else points[1:]


def _pipe_words(pipe: ModulePipeResult | None, system: UnitSystem) -> list[str]:
    if pipe is None:
        return [UNKNOWN]
    tubes: Mapping[Role, float | None] = pipe.tubes
    sizes = [tubes[role] for role in ROLE_ORDER if role in tubes]
    said = [UNKNOWN if od is None else show_number(od, Dimension.TUBE, system) for od in sizes]
    length = UNKNOWN if pipe.length_m is None else show(pipe.length_m, Dimension.LENGTH, system)
    return [" · ".join(said) or UNKNOWN, length]


def _level(result: SystemResult, module: Module, system: UnitSystem) -> str:
    elevation = module.elevation_m if module.elevation_m is not None else result.system.outdoor.elevation_m
    return "level not stated" if elevation is None else level_words(elevation, system)


def _words(tag: str, model: str, level: str, top: Point) -> list[Lettered]:
    """The words above a module, from the middle of its top."""
    rows = (fitted(tag, _WIDTH, BODY), fitted(model, _WIDTH), level)
    full = (tag, model, level)
    found = []
    y = -1.2
    for k in (2, 1, 0):
        height = BODY if k == 0 else 2.0
        found.append(
            Lettered(
                f"module:{tag}", top, line(0, y, rows[k], full[k], height=height, bold=k == 0, anchor=Anchor.MIDDLE)
            )
        )
        y -= LANE if k else BODY * LINE
    return found
