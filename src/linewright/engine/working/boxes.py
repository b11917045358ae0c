"""Working of mode boxes: what is on their ports, what they carry on, the levels behind them."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from linewright.book.measures import MeasureName
from linewright.book.schema import MeasureUse
from linewright.engine.boxes import Box
from linewright.engine.measures.boxes import unit_levels
from linewright.engine.working.places import Places
from linewright.engine.working.steps import Input, Step
from linewright.units import Dimension

M = MeasureName


def box_steps(at: Places, name: str) -> tuple[Step, ...] | None:
    """What hangs on a box, and how much is left of the index that its model may carry; none where it is no box."""
    box = _box(at, name)
    if box is None:
        return None
    ports = _sum_of_runs(at, f"index on the ports of {name}", [o.run for o in box.outlets], box.own_index)
    if box.model is None:
        return (
            ports,
            Step(f"box at {name}", "stated", (), Dimension.NUMBER, None, note="no box of the book serves it"),
        )
    place = at.in_book(f"boxes.models[{box.position}]")
    inputs = (
        Input(f"index of {box.model.model}", box.model.index, Dimension.NUMBER, f"{place}.index"),
        Input(f"index on the ports of {name}", box.own_index, Dimension.NUMBER, at.subject(f"fitting:{name}")),
    )
    note = f"{box.model.model}: {len(box.used)} of {box.model.ports} ports used"
    left = box.model.index - box.own_index
    page = box.model.page
    return (
        ports,
        Step(
            f"left of {box.model.model}",
            "difference",
            inputs,
            Dimension.NUMBER,
            left,
            "boxes.models",
            page=page,
            note=note,
        ),
    )


def direct_steps(at: Places, unit: str) -> tuple[Step, ...] | None:
    """That a unit has no box before it; none where it has one."""
    ground = at.result.state.ground
    if all(ground.system.units[i].id != unit for i in ground.direct):
        return None
    way = tuple(Input(run, 1.0, Dimension.NUMBER, at.run_path(run)) for run in at.way_to(unit))
    return (Step(f"runs to {unit}", "count", way, Dimension.NUMBER, float(len(way)), note="no mode box on the way"),)


def _box_item(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    box = _box(at, name)
    if box is None:
        return Step(f"{use.measure} of {name}", "total", (), Dimension.NUMBER, None)
    runs = [outlet.run for outlet in box.outlets] if use.measure is M.BOX_INDEX else list(box.through)
    return _sum_of_runs(at, f"{use.measure} of {name}", runs, value)


def _sum_of_runs(at: Places, name: str, runs: list[int], value: float) -> Step:
    ids, downstream = at.result.tree.ids, at.result.state.ground.downstream
    inputs = tuple(
        Input(f"index through {ids[run]}", downstream[run], Dimension.NUMBER, at.subject(f"run:{ids[run]}.index"))
        for run in runs
    )
    return Step(name, "total", inputs, Dimension.NUMBER, value)


def _port_item(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    through = Input(f"index through {name}", value, Dimension.NUMBER, at.subject(f"run:{name}.index"))
    return Step(f"{use.measure} of {name}", "stated", (through,), Dimension.NUMBER, value)


def _units_item(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    tree, run = at.result.tree, at.result.tree.at[name]
    units = [
        unit.id for unit, own in zip(at.result.system.units, tree.unit_runs, strict=True) if run in tree.path_to(own)
    ]
    inputs = tuple(Input(unit, 1.0, Dimension.NUMBER, at.unit_path(unit)) for unit in units)
    return Step(f"{use.measure} of {name}", "count", inputs, Dimension.NUMBER, value)


def _series_item(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    passed = [run for run in at.way_to(name) if _box(at, run) is not None]
    inputs = tuple(Input(run, 1.0, Dimension.NUMBER, at.run_path(run)) for run in passed)
    return Step(f"{use.measure} of {name}", "count", inputs, Dimension.NUMBER, value)


def _level_item(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    item = Input(f"level of {name}", value, Dimension.LENGTH, at.subject(f"run:{name}.level"))
    return Step(f"{use.measure}, {name}", "stated", (item,), Dimension.LENGTH, value)


def _within_item(at: Places, use: MeasureUse, name: str, value: float) -> Step:
    levels = unit_levels(at.result.state, use)[at.result.tree.at[name]]
    known = sorted((level, unit) for unit, level in levels.items() if level is not None)
    inputs = tuple(
        Input(f"level of {unit}", level, Dimension.LENGTH, at.subject(f"run:{unit}.level"))
        for level, unit in (known[-1], known[0])
    )
    return Step(f"{use.measure} of {name}", "difference", inputs, Dimension.LENGTH, value)


def _box(at: Places, name: str) -> Box | None:
    return next((box for box in at.result.state.ground.boxes if box.id == name), None)


BOX_ITEMS: Mapping[MeasureName, Callable[[Places, MeasureUse, str, float], Step]] = {
    M.BOX_INDEX: _box_item,
    M.THROUGH_INDEX: _box_item,
    M.PORT_INDEX: _port_item,
    M.UNITS_PER_PORT: _units_item,
    M.BOXES_IN_SERIES: _series_item,
    M.LEVEL_BETWEEN_BOXES: _level_item,
    M.LEVEL_WITHIN_BOX: _within_item,
}
