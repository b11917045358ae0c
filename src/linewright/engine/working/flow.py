"""Subjects of flow: which there are, and the working of each."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from linewright.engine.records import SystemResult
from linewright.engine.working import flow_balance as balance
from linewright.engine.working import flow_pipe as pipe
from linewright.engine.working import flow_return as back
from linewright.engine.working.flow_loads import load_steps, unit_load_steps
from linewright.engine.working.flow_terms import ASSUMED, Terms, assumption_steps, bore_steps
from linewright.engine.working.places import Places
from linewright.engine.working.steps import Step
from linewright.model.values import Role
from linewright.units import Dimension

Steps = tuple[Step, ...] | None


def terms(at: Places) -> Terms | None:
    """What the steps are made of; none where flow is not worked out."""
    found = at.result.hydraulics
    if found.shares is None:
        return None
    return Terms(at, found.solved.rows[0], found.conditions)


def _moded(mode: Callable[[Terms], pipe.Mode]) -> dict[str, Callable[[Terms, str], Steps]]:
    """Working of a run in one mode; nothing where nothing flows in it."""

    def flowing(steps: Callable[[Terms, pipe.Mode, str], Steps]) -> Callable[[Terms, str], Steps]:
        def found(t: Terms, run: str) -> Steps:
            return steps(t, mode(t), run) if mode(t).gas.flow_kg_s[t.run(run)] else None

        return found

    return {
        "flow": flowing(pipe.flow_steps),
        "gas": flowing(lambda t, m, run: pipe.gas_steps(t, m, run, balance.enthalpy(t, m, run))),
        "loss": flowing(pipe.loss_steps),
        "velocity": flowing(lambda t, m, run: pipe.velocity_steps(t, m, run, balance.enthalpy(t, m, run))),
        "oil": flowing(lambda t, m, run: pipe.oil_steps(t, m, run, balance.enthalpy(t, m, run))),
    }


RUN: dict[str, Callable[[Terms, str], Steps]] = {
    **{f"cooling_{name}": found for name, found in _moded(pipe.cooling_of).items()},
    "cooling_enthalpy": balance.enthalpy_steps,
    "cooling_liquid": balance.supply_steps,
    "subcooling": lambda t, run: balance.subcooling_steps(t, run, f"run:{run}.subcooling"),
    **{f"heating_{name}": found for name, found in _moded(pipe.heating_of).items()},
    "heating_liquid": back.fall_steps,
}
UNIT: dict[str, Callable[[Terms, str], Steps]] = {
    "cooling_load": lambda t, unit: unit_load_steps(t, "cooling", unit),
    "cooling_share": balance.cooling_share_steps,
    "cooling_flow": balance.cooling_flow_steps,
    "vapour": balance.vapour_steps,
    "heating_load": lambda t, unit: unit_load_steps(t, "heating", unit),
    "heating_share": balance.heating_share_steps,
    "heating_flow": balance.heating_flow_steps,
}
SYSTEM: dict[str, Callable[[Terms], Steps]] = {
    "cooling": lambda t: balance.kept_steps(t, "cooling"),
    "cooling_load": lambda t: load_steps(t, "cooling"),
    "volume": balance.volume_steps,
    "suction": balance.suction_steps,
    "superheat": balance.superheat_steps,
    "liquid": balance.liquid_steps,
    "heating": lambda t: balance.kept_steps(t, "heating"),
    "heating_load": lambda t: load_steps(t, "heating"),
    "hot_gas": balance.hot_gas_steps,
    "return": back.return_steps,
    "heating_left": back.left_steps,
}


def run_flow(at: Places, run: str, field: str) -> Steps:
    """Working of a figure of flow in a run."""
    role = field.removesuffix("_bore")
    if field != role:
        known = next((one for one in Role if one.value == role), None)
        return bore_steps(at, run, known) if known is not None and known in at.runs[run].tubes else None
    return _found(at, RUN.get(field), f"{field} of {run}", run)


def unit_flow(at: Places, unit: str, field: str) -> Steps:
    """Working of a figure of flow at a unit."""
    return _found(at, UNIT.get(field), f"{field} of {unit}", unit)


def system_flow(at: Places, field: str) -> Steps:
    """Working of a figure of flow in the whole system."""
    return _found(at, SYSTEM.get(field), field)


def assumption(_: Places, name: str) -> Steps:
    """What is assumed where nobody states it."""
    return assumption_steps(name)


def _found(at: Places, steps: Callable[..., Steps] | None, name: str, *item: str) -> Steps:
    if steps is None:
        return None
    t = terms(at)
    if t is None:
        note = f"not worked out, for want of {'; '.join(at.result.hydraulics.missing)}"
        return (Step(name.replace("_", " "), "stated", (), Dimension.NUMBER, None, note=note),)
    return steps(t, *item)


def flow_subjects(at: Places) -> Iterator[str]:
    """Every subject of flow of a system, where flow is worked out."""
    t = terms(at)
    if t is None:
        return
    result: SystemResult = at.result
    yield from (f"physics.{name}" for name, steps in SYSTEM.items() if steps(t))
    yield from (f"assumption:{name}" for name in ASSUMED)
    for run in result.tree.ids:
        yield from (f"run:{run}.{role}_bore" for role in dict.fromkeys(t.role(run, which) for which in range(3)))
        yield from (f"run:{run}.{name}" for name in RUN if _flows(t, run, name))
    for unit in result.system.units:
        heats = bool(t.solved.load_w[t.unit(unit.id)])
        yield from (f"unit:{unit.id}.{name}" for name in UNIT if heats or not name.startswith("heating"))


def _flows(t: Terms, run: str, name: str) -> bool:
    if not name.startswith("heating"):
        return True
    if name == "heating_liquid":
        return bool(t.solved.load_w.all())
    return bool(t.solved.heated.gas.flow_kg_s[t.run(run)])
