"""What the pipes between outdoor modules lose: of suction gas in cooling, beyond the point where the pipes meet."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np

from linewright.engine.hydraulics_inputs import COLD, walls_of
from linewright.engine.outdoor_records import ModulePipeResult
from linewright.engine.records import SystemResult
from linewright.model.design import ROOT
from linewright.physics.flow import Ends, Pipe, square_loss
from linewright.physics.network import Tubes, forest_of, shape_of
from linewright.physics.states import States


class ModuleLoss(NamedTuple):
    """The module whose pipes lose most, and how much of saturation [K]; `None` where something of them is missing."""

    id: str
    loss_k: float | None


def module_loss(
    result: SystemResult, states: States, *, suction_pa: float, flow_kg_s: float, h_j_kg: float
) -> ModuleLoss | None:
    """Work out the pipes of a group of several modules; none where there is a single module.

    Modules share the flow by their indices. The pipes are short: their loss is reckoned at the pressure where they
    meet, and is not part of the balance.
    """
    ordered = _outward(result.outdoor.pipes)
    modules = result.state.ground.modules
    if len(modules) == 1:
        return None
    walls = walls_of(result, [size for pipe in ordered for size in pipe.tubes.values() if size is not None])
    bores = [_bore(pipe, walls) for pipe in ordered]
    lengths = [pipe.equivalent_m for pipe in ordered]
    names = [pipe.id for pipe in ordered]
    parent = [names.index(pipe.from_) if pipe.from_ in names else -1 for pipe in ordered]
    ends = [i for i in range(len(ordered)) if i not in parent]
    if len(ends) != len(modules) or any(one is None for one in (*bores, *lengths)):
        return ModuleLoss("", None)
    bore, nothing = np.array(bores, dtype=float), np.zeros(len(ordered))
    pipe = Pipe(bore, np.array(lengths, dtype=float), np.array([one.rise_m or 0.0 for one in ordered]))
    forest = forest_of([Tubes(shape_of(parent, ends), pipe.length_m, bore, bore, nothing, pipe.rise_m)])
    served = np.array([ordered[i].served_index for i in ends])
    flow = forest.beyond(served / np.sum(served)) * flow_kg_s
    same = np.full(len(ordered), suction_pa)
    fall = forest.along(square_loss(states, Ends(same, same, flow, np.full(len(ordered), h_j_kg)), pipe))
    at_ends = np.sqrt(suction_pa**2 - forest.at_units(fall))
    loss = states.dew_temperature(suction_pa) - states.dew_temperature(at_ends)
    worst = int(np.argmax(loss))
    found = float(loss[worst])
    return ModuleLoss(names[ends[worst]], found if np.isfinite(found) else None)


def _outward(pipes: Sequence[ModulePipeResult]) -> list[ModulePipeResult]:
    """The pipes so that the one before each stands before it."""
    found: list[ModulePipeResult] = []
    reached = {ROOT}
    rest = list(pipes)
    while rest:
        now = [pipe for pipe in rest if pipe.from_ in reached]
        if not now:
            return []
        found += now
        reached |= {pipe.id for pipe in now}
        rest = [pipe for pipe in rest if pipe.id not in reached]
    return found


def _bore(pipe: ModulePipeResult, walls: Mapping[float, float | None]) -> float | None:
    size = next((pipe.tubes[role] for role in COLD if role in pipe.tubes), None)
    wall = None if size is None else walls[size]
    return None if size is None or wall is None else size - 2.0 * wall
