"""The words of a riser diagram: of each node, of each run, of levels."""

from __future__ import annotations

from linewright.draw.riser.aims import Aim, Aims, Sure
from linewright.draw.run_words import size_words
from linewright.draw.wording import UNKNOWN
from linewright.engine.records import Evaluation, RunResult, SystemResult
from linewright.model.design import Location
from linewright.units import Dimension, UnitSystem, show

ABOUT = "~"
_PLACES = {UnitSystem.SI: 2, UnitSystem.IP: 1}


def level_words(elevation_m: float, system: UnitSystem) -> str:
    """Give an elevation with its sign."""
    words = show(elevation_m, Dimension.LENGTH, system, places=_PLACES[system])
    return words.replace("-", "−") if elevation_m < 0 else f"+{words}"


def node_words(
    evaluation: Evaluation, result: SystemResult, aims: Aims, system: UnitSystem
) -> tuple[tuple[str, ...], ...]:
    """Give the words of every node: of a unit tag, model, room and level, of a bar tag and model, else the tag."""
    rooms = {room.id: room.name or room.id for room in evaluation.design.rooms}
    units = {unit.id: unit for unit in result.system.units}
    fittings = {fitting.id: fitting for fitting in result.fittings}
    found: list[tuple[str, ...]] = []
    for i, name in enumerate(result.tree.ids):
        if name in units:
            unit = units[name]
            found.append((name, unit.model, rooms.get(unit.room, unit.room), _unit_level(aims.nodes[i], system)))
        else:
            fitting = fittings.get(name)
            tag = name if aims.nodes[i].sure is Sure.STATED else f"{name} {ABOUT}"
            found.append((tag, fitting.model if fitting else ""))
    return tuple(found)


def _unit_level(aim: Aim, system: UnitSystem) -> str:
    if aim.sure is Sure.STATED and aim.elevation_m is not None:
        return level_words(aim.elevation_m, system)
    return "level not stated"


def run_words(result: SystemResult, system: UnitSystem) -> tuple[tuple[str, ...], ...]:
    """Give what stands on every run: its sizes, its length, where it lies."""
    runs = {run.id: run for run in result.runs}
    places = {run.to: run.location for run in result.system.runs}
    found = []
    for name in result.tree.ids:
        place = places.get(name)
        words = [size_words(runs[name], system), length_words(runs[name], system)]
        if place in {Location.SHAFT, Location.OUTDOORS}:
            words.append("outdoors" if place is Location.OUTDOORS else "in shaft")
        found.append(tuple(words))
    return tuple(found)


def length_words(run: RunResult, system: UnitSystem) -> str:
    """Give the developed length of a run."""
    return UNKNOWN if run.length_m is None else show(run.length_m, Dimension.LENGTH, system)
