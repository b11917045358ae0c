"""The things of a riser diagram that are counted: units, fittings, outdoor modules, each with what it is."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.draw.paper.marks import BOLD, Box, Ink, Layer, Mark, Pen, Symbol
from linewright.draw.riser.arrange import Arranged, Spot
from linewright.draw.riser.outdoor import Outside
from linewright.draw.riser.parts import BAR
from linewright.draw.riser.symbols import bar_marks, coupling_marks, joint_marks, outdoor_marks, unit_marks
from linewright.engine.records import Evaluation, SystemResult
from linewright.model.design import ROOT
from linewright.model.values import NodeKind

_BAR_BLOCK = 4.0

#: What a symbol is, by name and text.
Facts = tuple[tuple[str, str], ...]


def things(evaluation: Evaluation, result: SystemResult, arranged: Arranged, group: Outside) -> Iterator[Mark]:
    """Draw all symbols; facts are SI, a fact that is not known is empty."""
    rooms = {room.id: room for room in evaluation.design.rooms}
    units = {unit.id: unit for unit in result.units}
    for module in group.modules:
        facts: Facts = (("tag", module.id), ("model", module.model), ("system", result.id))
        yield Symbol(f"module:{module.id}", Layer.OUTDOOR, module.x, module.y, "outdoor", outdoor_marks(0, 0), facts)
    outdoor = {joint.id: joint for joint in result.outdoor.joints}
    for name, at in group.joints.items():
        model = outdoor[name].model if name in outdoor else ""
        facts = (
            ("tag", name if name != ROOT else "outdoor"),
            ("model", model),
            ("kind", "outdoor joint"),
            ("system", result.id),
        )
        yield Symbol(f"joint:{name}", Layer.FITTING, at.x, at.y, "joint", joint_marks(), facts)
    for i, spot in sorted(arranged.spots.items()):
        name = result.tree.ids[i]
        if name not in units:
            yield from _fitting(result, i, spot)
            continue
        unit = units[name]
        room = rooms.get(unit.room)
        facts = (
            ("tag", name),
            ("model", unit.model),
            ("room", unit.room if room is None else room.name or room.id),
            ("cooling_w", _number(None if room is None else room.cooling_w)),
            ("heating_w", _number(None if room is None else room.heating_w)),
            ("elevation_m", _number(unit.elevation_m)),
            ("system", result.id),
        )
        marks = unit_marks(above=spot.above)
        yield Symbol(f"unit:{name}", Layer.UNIT, spot.x, spot.y, "unit-above" if spot.above else "unit", marks, facts)


def _fitting(result: SystemResult, i: int, spot: Spot) -> Iterator[Mark]:
    name, kind = result.tree.ids[i], result.tree.kind[i]
    found = next((item for item in result.fittings if item.id == name), None)
    facts = (
        ("tag", name),
        ("model", found.model if found else ""),
        ("kind", kind.value),
        ("elevation_m", _number(found.elevation_m if found and not found.assumed_elevation else None)),
        ("system", result.id),
    )
    if spot.right > 0:
        block = "box" if kind is NodeKind.BOX else "header"
        width = spot.right - spot.x
        yield Box(f"node:{name}/bar", Layer.FITTING, spot.x, spot.y - BAR / 2, width, BAR, Pen(BOLD), Ink.PAPER)
        marks = bar_marks(_BAR_BLOCK, BAR, box=kind is NodeKind.BOX)
        yield Symbol(f"node:{name}", Layer.FITTING, spot.x, spot.y, block, marks, facts)
        return
    is_coupling = kind is NodeKind.COUPLING
    marks = coupling_marks() if is_coupling else joint_marks()
    yield Symbol(f"node:{name}", Layer.FITTING, spot.x, spot.y, "coupling" if is_coupling else "joint", marks, facts)


def _number(value: float | None) -> str:
    return "" if value is None else f"{value:.10g}"
