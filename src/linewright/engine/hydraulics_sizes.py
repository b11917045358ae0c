"""Sizes by loss alone, beside those of the book and where it has none: a suggestion, and judged by nothing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple, TypeAlias

import numpy as np

from linewright.book.walls import bore_of
from linewright.engine.hydraulics_inputs import carriers, loads_of
from linewright.engine.records import RunResult, SystemResult
from linewright.model.values import Role
from linewright.physics import fluid
from linewright.physics.compressor import CoolingAt
from linewright.physics.flow import Ends, Pipe, liquid_drop, square_loss
from linewright.physics.network import Forest, Tubes, forest_of, shape_of
from linewright.physics.series import Array
from linewright.physics.states import States
from linewright.physics.tables import tables

_Sizes: TypeAlias = list[float | None]

#: Loss of saturation for which tables of suction lines and of liquid lines are commonly made (handbook practice, from
#: memory) [K/m].
SUCTION_K_M, LIQUID_K_M = 0.04, 0.02
#: Step of pressure over which the slope of saturation is taken, as a share.
_NEARBY = 1e-3


class SizeByLoss(NamedTuple):
    """One run: the size that it has [m] and the least on the ladder that loses no more; `None` where there is none."""

    id: str
    gas_m: float | None
    gas_by_loss_m: float | None
    liquid_m: float | None
    liquid_by_loss_m: float | None

    @property
    def differs(self) -> bool:
        """Whether it has another size than it would have by loss."""
        return (self.gas_m, self.liquid_m) != (self.gas_by_loss_m, self.liquid_by_loss_m)


class _Ladder(NamedTuple):
    """Sizes whose walls the book states [m], smallest first, and their bores [m]."""

    sizes_m: tuple[float, ...]
    bores_m: Array


def sizes_by_loss(result: SystemResult, at: CoolingAt) -> tuple[SizeByLoss, ...]:
    """Give each run the sizes that its rated load would have; none where the refrigerant is not known. Pure."""
    used = fluid(result.state.ground.book.book.refrigerant)
    if used is None:
        return ()
    runs = {run.id: run for run in result.runs}
    ordered = [runs[name] for name in result.tree.ids]
    states = tables(used.name)
    flow = _shape(result).beyond(loads_of(result, "cooling_w")) / _heat(states, at)
    ladders = dict(_ladders(result))
    gas = {role: _least(one, _gas_k_m(states, at, one, flow), SUCTION_K_M) for role, one in ladders.items()}
    drop = {role: _least(one, _liquid_k_m(states, at, one, flow), LIQUID_K_M) for role, one in ladders.items()}
    return tuple(_sized(i, run, gas=gas, liquid=drop) for i, run in enumerate(ordered))


def _shape(result: SystemResult) -> Forest:
    """The tree without its tubes, for sums."""
    nothing = np.zeros(len(result.tree.parent))
    shape = shape_of(result.tree.parent, result.tree.unit_runs)
    return forest_of([Tubes(shape, nothing, nothing, nothing, nothing, nothing)])


def _heat(states: States, at: CoolingAt) -> float:
    """What a kilogram takes up in a coil [J/kg]."""
    gas, _ = states.coil(states.dew_pressure(at.evaporating_degc), at.superheat_k)
    return float(gas - states.liquid_enthalpy(at.liquid_degc))


def _ladders(result: SystemResult) -> Iterator[tuple[Role, _Ladder]]:
    book = result.state.ground.book.book
    for role, sizes in book.tubes.ladders.items():
        bores = {size: bore for size in sorted(sizes) if (bore := bore_of(book, size)) is not None}
        yield role, _Ladder(tuple(bores), np.array(list(bores.values())))


def _sized(i: int, run: RunResult, *, gas: Mapping[Role, _Sizes], liquid: Mapping[Role, _Sizes]) -> SizeByLoss:
    cold, _, wet = carriers(tuple(run.tubes))
    has = {role: tube.od_m for role, tube in run.tubes.items()}
    by_loss = gas[cold][i] if cold in gas else None, liquid[wet][i] if wet in liquid else None
    return SizeByLoss(run.id, has.get(cold), by_loss[0], has.get(wet), by_loss[1])


def _least(ladder: _Ladder, loss_k_m: Array, most_k_m: float) -> _Sizes:
    """The least size that loses no more, for each run; loss_k_m : [run, size]."""
    return [
        next((size for size, enough in zip(ladder.sizes_m, row, strict=True) if enough), None)
        for row in (loss_k_m <= most_k_m).tolist()
    ]


def _gas_k_m(states: States, at: CoolingAt, ladder: _Ladder, flow_kg_s: Array) -> Array:
    """Loss of saturation of suction gas in each size [run, size] [K/m]."""
    p = float(states.dew_pressure(at.evaporating_degc))
    flow, metre = _crossed(ladder, flow_kg_s)
    same = np.full(flow.shape, p)
    gas, _ = states.coil(p, at.superheat_k)
    fall = square_loss(states, Ends(same, same, flow, np.full(flow.shape, float(gas))), metre) / (2.0 * p)
    slope = float(states.dew_temperature(p) - states.dew_temperature(p * (1.0 - _NEARBY))) / (p * _NEARBY)
    found: Array = fall * slope
    return found


def _liquid_k_m(states: States, at: CoolingAt, ladder: _Ladder, flow_kg_s: Array) -> Array:
    """Loss of subcooling by friction of liquid in each size [run, size] [K/m]."""
    p = float(states.bubble_pressure(at.condensing_degc))
    flow, metre = _crossed(ladder, flow_kg_s)
    fall = liquid_drop(states, np.array(at.liquid_degc), flow, metre)
    slope = float(states.bubble_temperature(p) - states.bubble_temperature(p * (1.0 - _NEARBY))) / (p * _NEARBY)
    found: Array = fall * slope
    return found


def _crossed(ladder: _Ladder, flow_kg_s: Array) -> tuple[Array, Pipe]:
    """Every flow in a metre of every size."""
    flow, bore = np.broadcast_arrays(flow_kg_s[:, np.newaxis], ladder.bores_m[np.newaxis, :])
    return flow, Pipe(bore, np.ones(flow.shape), np.zeros(flow.shape))
