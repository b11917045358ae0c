"""What flows in a system, from first principles: beside the book's results, never in place of them.

Nothing of this is judged. What is assumed is said (`ASSUMED`, and `Hydraulics.assumed` for what the book states); what
a system lacks for it is named in `missing`, and then nothing is worked out.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import NamedTuple

import numpy as np

from linewright.engine.records import SystemResult
from linewright.model.values import Role
from linewright.physics import Fluid, fluid
from linewright.physics.network import (
    CoolingAt,
    Gas,
    HeatingAt,
    Paths,
    Tubes,
    cool,
    displacement,
    heat,
    oil_margin,
    paths,
)
from linewright.physics.series import Array
from linewright.units import same_tube

#: Of the order of catalogue conditions (common practice, no source); dew point, bubble point, K.
COOLING, HEATING = CoolingAt(), HeatingAt()
#: Equivalent length at which makers' capacities are commonly rated (common practice, no source) [m].
RATED_LENGTH_M = 7.5
ASSUMED = (
    (
        f"cooling: dew point of {COOLING.evaporating_degc:g} C at the coils, {COOLING.superheat_k:g} K superheat, "
        f"air of {COOLING.coil_air_degc:g} C wet bulb, {COOLING.condensing_degc:g} C condensing"
    ),
    (
        f"heating: {HEATING.condensing_degc:g} C condensing, {HEATING.discharge_degc:g} C discharge, "
        f"{HEATING.subcooling_k:g} K of subcooling behind the units"
    ),
    "a compressor of fixed displacement, rated at 7.5 m; a control that holds suction pressure would lose far more",
    "no heat through the insulation; pipes between outdoor modules are left out",
)


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
    """One unit: share of its rated cooling that the pipe leaves, subcooling left at its valve [K]."""

    id: str
    cooling_share: float
    subcooling_left_k: float


class Hydraulics(NamedTuple):
    """What flows in one system; all but `missing` are empty where something is missing."""

    system: str
    missing: tuple[str, ...]
    assumed: tuple[str, ...] = ()
    cooling_share: float | None = None
    lumped_share: float | None = None
    suction_degc: float | None = None
    heating_left_k: float | None = None
    runs: tuple[RunFlow, ...] = ()
    units: tuple[UnitFlow, ...] = ()


def hydraulics(result: SystemResult) -> Hydraulics:
    """Work out the flow in one system; pure."""
    used = fluid(result.state.ground.book.book.refrigerant)
    missing = tuple(dict.fromkeys(_missing(result, used)))
    if missing or used is None:
        return Hydraulics(result.id, missing)
    tubes, rated, load = _tubes(result), _rated(result), _load(result)
    operation = result.state.ground.book.book.operation
    left = operation.leaving_subcooling_k if operation is not None else None
    at = COOLING if left is None else COOLING._replace(subcooling_k=left)
    ways = paths(tubes)
    volume = displacement(used, float(np.sum(rated)), at, bore_m=float(tubes.gas_bore_m[0]), length_m=RATED_LENGTH_M)
    cooled = cool(used, tubes, rated, at, volume_m3_s=volume, ways=ways)
    heated = heat(used, tubes, load, HEATING, ways=ways)
    if not (np.all(np.isfinite(cooled.capacity_w)) and np.all(np.isfinite(heated.gas.far_pa))):
        return Hydraulics(result.id, (f"a state within the tables of {used.name}: some pipe is far too narrow",))
    least = operation.least_capacity if operation is not None else None
    oil = [
        _oil(gas, tubes, ways, capacity, least=least, hot=hot)
        for gas, capacity, hot in ((cooled.gas, rated, False), (heated.gas, load, True))
    ]
    units = result.system.units
    return Hydraulics(
        result.id,
        (),
        (*ASSUMED, *_said(left, least)),
        float(np.sum(cooled.capacity_w) / np.sum(rated)),
        _lumped(used, tubes, ways, at, rated=rated, volume_m3_s=volume),
        cooled.suction_degc,
        heated.left_k,
        tuple(
            RunFlow(
                name,
                float(cooled.gas.velocity_m_s[i]),
                float(cooled.gas.loss_k[i]),
                float(cooled.liquid.drop_pa[i]),
                oil[0][i],
                float(heated.gas.velocity_m_s[i]),
                float(heated.gas.loss_k[i]),
                oil[1][i],
            )
            for i, name in enumerate(result.tree.ids)
        ),
        tuple(
            UnitFlow(unit.id, float(cooled.capacity_w[i] / rated[i]), float(cooled.liquid.left_k[i]))
            for i, unit in enumerate(units)
        ),
    )


def _said(left: float | None, least: float | None) -> Iterator[str]:
    yield (
        f"liquid leaves {COOLING.subcooling_k:g} K below its bubble point: the book states no leaving subcooling"
        if left is None
        else f"liquid leaves {left:g} K below its bubble point, as the book states"
    )
    if least is None:
        yield "oil return is not worked out: the book states no least capacity"
    else:
        yield f"least flow for oil: {least:.0%} of the capacity, as the book states"


def _missing(result: SystemResult, used: Fluid | None) -> Iterator[str]:
    ground = result.state.ground
    book = ground.book.book
    if used is None:
        yield f"properties of {book.refrigerant}"
    if ground.zones:
        yield "flow in three tubes: mode boxes are not worked out yet"
        return
    for run in result.runs:
        if run.equivalent_m is None:
            yield f"equivalent length of run {run.id}"
        for role in (Role.GAS, Role.LIQUID):
            tube = run.tubes.get(role)
            if tube is None or tube.od_m is None:
                yield f"{role} size of run {run.id}"
            elif _wall(result, tube.od_m) is None:
                yield f"wall of {tube.od_m * 1000:g} mm tube in the book"


def _wall(result: SystemResult, od_m: float) -> float | None:
    walls = result.state.ground.book.book.tubes.wall_m
    return next((wall for size, wall in walls.items() if same_tube(size, od_m)), None)


def _tubes(result: SystemResult) -> Tubes:
    runs = {run.id: run for run in result.runs}
    ordered = [runs[name] for name in result.tree.ids]

    def bores(role: Role) -> Array:
        sizes = [run.tubes[role].od_m or 0.0 for run in ordered]
        return np.array([size - 2.0 * (_wall(result, size) or 0.0) for size in sizes])

    return Tubes(
        np.array(result.tree.parent),
        np.array(result.tree.unit_runs),
        np.array([run.equivalent_m or 0.0 for run in ordered]),
        bores(Role.GAS),
        bores(Role.LIQUID),
        np.array([run.rise_m or 0.0 for run in ordered]),
    )


def _rated(result: SystemResult) -> Array:
    """Rated cooling of each unit, together no more than that of the group."""
    return _shared([model.cooling_w for model in result.state.ground.models], _of_group(result, "cooling_w"))


def _load(result: SystemResult) -> Array:
    return _shared([model.heating_w for model in result.state.ground.models], _of_group(result, "heating_w"))


def _of_group(result: SystemResult, name: str) -> float:
    ground = result.state.ground
    stated: float | None = getattr(ground.group, name)
    return stated if stated is not None else sum(getattr(module.data, name) for module in ground.modules)


def _shared(watts: Sequence[float], most: float) -> Array:
    total = sum(watts)
    return np.array(watts) * min(1.0, most / total)


def _lumped(used: Fluid, tubes: Tubes, ways: Paths, at: CoolingAt, *, rated: Array, volume_m3_s: float) -> float:
    """Share kept were the whole load at the end of the longest way, all of it in the size of the main."""
    length = float(np.max((ways.to @ tubes.length_m)[tubes.unit_run.astype(int)]))
    whole = Tubes(
        np.array([-1]),
        np.array([0]),
        np.array([length]),
        tubes.gas_bore_m[:1],
        tubes.liquid_bore_m[:1],
        np.zeros(1),
    )
    total = np.array([float(np.sum(rated))])
    found = cool(used, whole, total, at, volume_m3_s=volume_m3_s)
    return float(found.capacity_w[0] / total[0])


def _oil(gas: Gas, tubes: Tubes, ways: Paths, capacity: Array, *, least: float | None, hot: bool) -> list[float | None]:
    """Margin in each run at the least flow that it sees: that of the system, or of the smallest unit beyond it."""
    count = len(tubes.parent)
    if least is None:
        return [None] * count
    share = ways.units @ (capacity / np.sum(capacity))
    smallest = np.array([np.min(capacity[beyond > 0]) for beyond in ways.units]) / np.sum(capacity)
    flow = gas.flow_kg_s / share
    margin = oil_margin(gas, tubes, flow * np.maximum(smallest, np.minimum(least, share)), hot=hot)
    return [float(one) if np.isfinite(one) else None for one in margin]
