"""What flows in a system, from first principles: beside the book's results, never in place of them.

Nothing of this is judged. What a system lacks for it is named, and then nothing is worked out.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from linewright.engine.hydraulics_inputs import loads_of, missing_for_physics, tubes_of, without_level
from linewright.engine.hydraulics_modules import module_loss
from linewright.engine.hydraulics_records import (
    RATED_LENGTH_M,
    Conditions,
    Hydraulics,
    RunFlow,
    Shares,
    Solved,
    UnitFlow,
)
from linewright.engine.hydraulics_sizes import sizes_by_loss
from linewright.engine.records import Deferred, SystemResult
from linewright.physics import Fluid, fluid
from linewright.physics.compressor import Compressors, Control, CoolingAt, Rating, rating
from linewright.physics.cooling import Cooled, cool
from linewright.physics.flow import mass_flux
from linewright.physics.heating import Heated, HeatingAt, heat
from linewright.physics.network import Forest, Gas, Tubes, forest_of, one_pipe
from linewright.physics.oil import OILS, USUAL, OilDensity, oil_margin
from linewright.physics.series import Array
from linewright.physics.tables import tables


class _Oil(NamedTuple):
    """Of each run the margin of oil return, and the velocity of gas at the least flow [m/s]."""

    margin: list[float | None]
    least_m_s: list[float | None]


#: The tree itself, then one pipe to all load under each control, in this order.
_CONTROLS = (Control.FLOATING, Control.FLOATING, Control.FIXED_COILS, Control.HELD_SUCTION)


#: Share by which pressures and flows may still move where their working is shown.
_STILL = 1e-12


def hydraulics(result: SystemResult) -> Hydraulics:
    """Work out the flow in one system; pure."""
    used, at = fluid(result.state.ground.book.book.refrigerant), _conditions(result)
    missing = tuple(dict.fromkeys(missing_for_physics(result, used)))
    sizes = Deferred(lambda: sizes_by_loss(result, at.cooling))
    if missing or used is None:
        return Hydraulics(result.id, missing, at, sizes=sizes)
    tubes, rated = tubes_of(result), loads_of(result, "cooling_w")
    load = loads_of(result, "heating_w")
    forest = forest_of([tubes])
    cooled = _cooled(used, tubes, rated, at.cooling, longest_m=float(np.max(forest.along(tubes.length_m))))
    heated = heat(tables(used.name), forest, load, at.heating)
    leaving_pa = float(used.bubble_pressure(at.cooling.condensing_degc))
    shares = _shares(cooled, heated, rated=rated, load=load, liquid_pa=leaving_pa)
    outside = _outside(result, cooled, heated, shares)
    if outside:
        return Hydraulics(result.id, (f"a state within the tables of {used.name}: {outside}",), at, sizes=sizes)
    oil = (
        _oil(_of_tree(cooled.gas, forest), forest, rated, at=at, hot=False),
        _oil(heated.gas, forest, load, at=at, hot=True),
    )
    modules = module_loss(
        result,
        tables(used.name),
        suction_pa=shares.suction_pa,
        flow_kg_s=float(cooled.gas.flow_kg_s[0]),
        h_j_kg=float(cooled.suction_j_kg[0]),
    )
    solved = Deferred(lambda: (_solved(result, forest, rated, load, at=at),))
    runs = tuple(_run(i, name, cooled, heated, oil=oil) for i, name in enumerate(result.tree.ids))
    return Hydraulics(
        result.id, (), at, shares, runs, _units(result, cooled, heated, rated=rated, load=load), sizes, modules, solved
    )


def _cooled(used: Fluid, tubes: Tubes, rated: Array, at: CoolingAt, *, longest_m: float) -> Cooled:
    """Work out the tree, and behind it the pipes that lump it, all in one."""
    states, whole_w, gas_m = tables(used.name), float(np.sum(rated)), float(tubes.gas_bore_m[0])
    lumped = one_pipe(longest_m, gas_bore_m=gas_m, liquid_bore_m=float(tubes.liquid_bore_m[0]))
    count = len(_CONTROLS)
    one = rating(states, np.array([whole_w]), at, bore_m=np.array([gas_m]), length_m=RATED_LENGTH_M)
    same = Rating(np.repeat(one.volume_m3_s, count), np.repeat(one.suction_pa, count))
    forest = forest_of([tubes, *[lumped] * (count - 1)])
    loads = np.concatenate((rated, np.full(count - 1, whole_w)))
    return cool(states, forest, loads, at, compressors=Compressors.of(same, _CONTROLS))


def _solved(result: SystemResult, forest: Forest, rated: Array, load: Array, *, at: Conditions) -> Solved:
    """Work out the tree alone until nothing moves."""
    refrigerant = result.state.ground.book.book.refrigerant
    used = fluid(refrigerant)
    if used is None:
        raise ValueError(f"no properties of {refrigerant}")
    states, whole, bore = tables(used.name), np.array([np.sum(rated)]), forest.tubes.gas_bore_m[:1]
    one = rating(states, whole, at.cooling, bore_m=bore, length_m=RATED_LENGTH_M, tolerance=_STILL)
    compressors = Compressors.of(one, [Control.FLOATING])
    cooled = cool(states, forest, rated, at.cooling, compressors=compressors, tolerance=_STILL)
    heated = heat(states, forest, load, at.heating, tolerance=_STILL)
    return Solved(refrigerant, forest, rated, load, one, cooled, heated)


def _of_tree(gas: Gas, forest: Forest) -> Gas:
    """Leave out the pipes behind the tree."""
    return Gas(*(one[: len(forest.tree_of_run)] for one in gas))


def _shares(cooled: Cooled, heated: Heated, *, rated: Array, load: Array, liquid_pa: float) -> Shares:
    whole_w, lumped = float(np.sum(rated)), cooled.capacity_w[len(rated) :] / np.sum(rated)
    floating, fixed, held = (float(one) if np.isfinite(one) else None for one in lumped)
    return Shares(
        tree=float(np.sum(cooled.capacity_w[: len(rated)])) / whole_w,
        lumped=np.nan if floating is None else floating,
        fixed=fixed,
        held=held,
        heating=float(np.sum(heated.capacity_w) / np.sum(load)),
        suction_pa=float(cooled.suction_pa[0]),
        liquid_pa=liquid_pa,
        suction_degc=float(cooled.suction_degc[0]),
        superheat_k=float(cooled.superheat_k[0]),
        heating_left_k=float(heated.left_k[0]),
    )


def _conditions(result: SystemResult) -> Conditions:
    operation, cooling = result.state.ground.book.book.operation, CoolingAt()
    left = operation.leaving_subcooling_k if operation is not None else None
    at = cooling if left is None else cooling._replace(subcooling_k=left)
    least = operation.least_capacity if operation is not None else None
    kind = operation.oil.value if operation is not None and operation.oil is not None else ""
    density = operation.oil_density_kg_m3 if operation is not None else None
    oil = OILS[kind or USUAL] if density is None else OilDensity(density, density)
    levels = without_level(result)
    return Conditions(at, HeatingAt(), left is not None, least, levels, oil, kind, density is not None)


def _outside(result: SystemResult, cooled: Cooled, heated: Heated, shares: Shares) -> str:
    """Where no state was found; a pipe may be far too narrow, or a level far too high."""
    if not np.all(np.isfinite([shares.tree, shares.lumped, shares.suction_degc, shares.superheat_k])):
        return "no balance of coils and compressor in cooling, some gas pipe is far too narrow"
    if not np.all(np.isfinite(heated.gas.far_pa)):
        return "no hot gas at some unit in heating, some gas pipe is far too narrow"
    dry = [name for i, name in enumerate(result.tree.ids) if not np.isfinite(cooled.liquid.far_left_k[i])]
    if dry:
        return f"no liquid at {', '.join(dry)} in cooling"
    return "" if np.isfinite(heated.left_k) else "no liquid at the outdoor group in heating"


def _run(i: int, name: str, cooled: Cooled, heated: Heated, *, oil: tuple[_Oil, ...]) -> RunFlow:
    return RunFlow(
        name,
        float(cooled.gas.velocity_m_s[i]),
        float(cooled.gas.loss_k[i]),
        float(cooled.liquid.drop_pa[i]),
        float(cooled.gas.far_pa[i]),
        float(cooled.liquid.far_pa[i]),
        float(cooled.liquid.far_left_k[i]),
        oil[0].margin[i],
        oil[0].least_m_s[i],
        float(heated.gas.velocity_m_s[i]),
        float(heated.gas.loss_k[i]),
        oil[1].margin[i],
        oil[1].least_m_s[i],
    )


def _units(result: SystemResult, cooled: Cooled, heated: Heated, *, rated: Array, load: Array) -> tuple[UnitFlow, ...]:
    return tuple(
        UnitFlow(
            unit.id,
            float(cooled.capacity_w[i] / rated[i]),
            float(heated.capacity_w[i] / load[i]) if load[i] else None,
            float(cooled.liquid.left_k[i]),
            float(cooled.liquid.vapour[i]),
        )
        for i, unit in enumerate(result.system.units)
    )


@np.errstate(invalid="ignore")
def _oil(gas: Gas, forest: Forest, capacity: Array, *, at: Conditions, hot: bool) -> _Oil:
    """Margin in each run at the least flow that it sees: that of the system, or of the smallest unit beyond it."""
    least = at.least_capacity
    if least is None:
        nothing: list[float | None] = [None] * len(gas.flow_kg_s)
        return _Oil(nothing, nothing)
    whole = np.sum(capacity)
    share = forest.beyond(capacity) / whole
    smallest = forest.least_beyond(np.where(capacity > 0, capacity, np.inf)) / whole
    flow = gas.flow_kg_s / share * np.maximum(smallest, np.minimum(least, share))
    margin = oil_margin(gas, forest, flow, at.oil, hot=hot)
    velocity = mass_flux(flow, forest.gas_pipe(hot=hot).bore_m) / gas.density_kg_m3
    return _Oil(*([float(one) if np.isfinite(one) else None for one in values] for values in (margin, velocity)))
