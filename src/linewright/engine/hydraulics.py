"""What flows in a system, from first principles: beside the book's results, never in place of them.

Nothing of this is judged. What a system lacks for it is named, and then nothing is worked out.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from linewright.engine.hydraulics_inputs import loads_of, missing_for_physics, tubes_of, without_level
from linewright.engine.records import SystemResult
from linewright.physics import Fluid, fluid
from linewright.physics.cooling import Cooled, CoolingAt, Rating, cool, rating
from linewright.physics.heating import Heated, HeatingAt, heat
from linewright.physics.network import Gas, Paths, Tubes, one_pipe, paths
from linewright.physics.oil import oil_margin
from linewright.physics.series import Array

#: Equivalent length at which makers' capacities are commonly rated (common practice, no source) [m].
RATED_LENGTH_M = 7.5


class RunFlow(NamedTuple):
    """One run: velocities [m/s], loss of saturation [K], fall of pressure of liquid going outward [Pa], oil margins.

    A margin is the least flow over the least that carries oil up; `None` where gas does not rise, or the book states no
    least capacity.
    """

    id: str
    cooling_gas_m_s: float
    cooling_loss_k: float
    cooling_liquid_pa: float
    cooling_oil: float | None
    heating_gas_m_s: float
    heating_loss_k: float
    heating_oil: float | None


class UnitFlow(NamedTuple):
    """One unit: share of its rated cooling that the pipe leaves, subcooling left at its valve [K].

    vapour : share by mass that has boiled before the valve, at the least
    """

    id: str
    cooling_share: float
    subcooling_left_k: float
    vapour: float


class Conditions(NamedTuple):
    """What was assumed: conditions of both modes, whether the book states the subcooling, its least capacity.

    The rest of the conditions is of the order of catalogue conditions (common practice, no source).
    """

    cooling: CoolingAt
    heating: HeatingAt
    subcooling_stated: bool
    least_capacity: float | None
    without_level: tuple[str, ...]


class Shares(NamedTuple):
    """Share of the rated cooling that the pipe leaves, over the tree and lumped; what is left at either end.

    lumped : were all load at the end of the longest way, in the size of the main
    held : the same under a control that holds suction pressure, which costs most; none where no balance is found
    """

    tree: float
    lumped: float
    held: float | None
    suction_degc: float
    heating_left_k: float


class Hydraulics(NamedTuple):
    """What flows in one system; where something is missing, nothing else."""

    system: str
    missing: tuple[str, ...]
    conditions: Conditions
    shares: Shares | None = None
    runs: tuple[RunFlow, ...] = ()
    units: tuple[UnitFlow, ...] = ()


def hydraulics(result: SystemResult) -> Hydraulics:
    """Work out the flow in one system; pure."""
    used, at = fluid(result.state.ground.book.book.refrigerant), _conditions(result)
    missing = tuple(dict.fromkeys(missing_for_physics(result, used)))
    if missing or used is None:
        return Hydraulics(result.id, missing, at)
    tubes, rated, load = tubes_of(result), loads_of(result, "cooling_w"), loads_of(result, "heating_w")
    ways, main_m = paths(tubes), float(tubes.gas_bore_m[0])
    whole_w = float(np.sum(rated))
    drawn = rating(used, whole_w, at.cooling, bore_m=main_m, length_m=RATED_LENGTH_M)
    cooled = cool(used, tubes, rated, at.cooling, volume_m3_s=drawn.volume_m3_s, ways=ways)
    heated = heat(used, tubes, load, at.heating, ways=ways)
    longest_m = float(np.max((ways.to @ tubes.length_m)[tubes.unit_run]))
    lumped, held = (
        _lumped(used, tubes, at.cooling, longest_m=longest_m, rated_w=whole_w, drawn=drawn, hold=hold)
        for hold in (False, True)
    )
    tree = float(np.sum(cooled.capacity_w)) / whole_w
    shares = Shares(tree, lumped, held if np.isfinite(held) else None, cooled.suction_degc, heated.left_k)
    outside = _outside(result, cooled, heated, shares)
    if outside:
        return Hydraulics(result.id, (f"a state within the tables of {used.name}: {outside}",), at)
    oil = (
        _oil(cooled.gas, tubes, ways, rated, least=at.least_capacity, hot=False),
        _oil(heated.gas, tubes, ways, load, least=at.least_capacity, hot=True),
    )
    runs = tuple(_run(i, name, cooled, heated, oil=oil) for i, name in enumerate(result.tree.ids))
    return Hydraulics(result.id, (), at, shares, runs, _units(result, cooled, rated))


def _conditions(result: SystemResult) -> Conditions:
    operation, cooling = result.state.ground.book.book.operation, CoolingAt()
    left = operation.leaving_subcooling_k if operation is not None else None
    at = cooling if left is None else cooling._replace(subcooling_k=left)
    least = operation.least_capacity if operation is not None else None
    return Conditions(at, HeatingAt(), left is not None, least, without_level(result))


def _outside(result: SystemResult, cooled: Cooled, heated: Heated, shares: Shares) -> str:
    """Where no state was found; a pipe may be far too narrow, or a level far too high."""
    if not np.all(np.isfinite([shares.tree, shares.lumped, shares.suction_degc])):
        return "no balance of coils and compressor in cooling, some gas pipe is far too narrow"
    if not np.all(np.isfinite(heated.gas.far_pa)):
        return "no hot gas at some unit in heating, some gas pipe is far too narrow"
    dry = [unit.id for i, unit in enumerate(result.system.units) if not np.isfinite(cooled.liquid.left_k[i])]
    if dry:
        return f"no liquid at {', '.join(dry)} in cooling"
    return "" if np.isfinite(heated.left_k) else "no liquid at the outdoor group in heating"


def _run(i: int, name: str, cooled: Cooled, heated: Heated, *, oil: tuple[list[float | None], ...]) -> RunFlow:
    return RunFlow(
        name,
        float(cooled.gas.velocity_m_s[i]),
        float(cooled.gas.loss_k[i]),
        float(cooled.liquid.drop_pa[i]),
        oil[0][i],
        float(heated.gas.velocity_m_s[i]),
        float(heated.gas.loss_k[i]),
        oil[1][i],
    )


def _units(result: SystemResult, cooled: Cooled, rated: Array) -> tuple[UnitFlow, ...]:
    return tuple(
        UnitFlow(
            unit.id,
            float(cooled.capacity_w[i] / rated[i]),
            float(cooled.liquid.left_k[i]),
            float(cooled.liquid.vapour[i]),
        )
        for i, unit in enumerate(result.system.units)
    )


def _lumped(
    used: Fluid,
    tubes: Tubes,
    at: CoolingAt,
    *,
    longest_m: float,
    rated_w: float,
    drawn: Rating,
    hold: bool,
) -> float:
    """Share kept were the whole load at the end of the longest way, all of it in the size of the main.

    hold : whether the suction pressure of the rating is held, instead of its volume
    """
    gas_m, liquid_m = float(tubes.gas_bore_m[0]), float(tubes.liquid_bore_m[0])
    whole = one_pipe(longest_m, gas_bore_m=gas_m, liquid_bore_m=liquid_m)
    found = cool(
        used, whole, np.array([rated_w]), at, volume_m3_s=drawn.volume_m3_s, held_pa=drawn.suction_pa if hold else None
    )
    return float(found.capacity_w[0] / rated_w)


def _oil(gas: Gas, tubes: Tubes, ways: Paths, capacity: Array, *, least: float | None, hot: bool) -> list[float | None]:
    """Margin in each run at the least flow that it sees: that of the system, or of the smallest unit beyond it."""
    if least is None:
        return [None] * len(tubes.parent)
    share = ways.units @ (capacity / np.sum(capacity))
    smallest = np.array([np.min(capacity[beyond > 0]) for beyond in ways.units]) / np.sum(capacity)
    flow = gas.flow_kg_s / share * np.maximum(smallest, np.minimum(least, share))
    margin = oil_margin(gas, tubes, flow, hot=hot)
    return [float(one) if np.isfinite(one) else None for one in margin]
