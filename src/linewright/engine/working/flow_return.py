"""Working of the liquid that returns in heating: its temperature, its falls, what is left at the outdoor group."""

from __future__ import annotations

from linewright.engine.working.flow_balance import heating_flow_steps
from linewright.engine.working.flow_pipe import heating_of, liquid_parts
from linewright.engine.working.flow_terms import D, Terms, given, step
from linewright.engine.working.steps import Step

RETURN, LEFT = "physics.return", "physics.heating_left"


def return_steps(t: Terms) -> tuple[Step, ...] | None:
    """Mean temperature of the liquid from all units; none where a unit only cools."""
    inputs = []
    for unit in t.at.result.system.units:
        steps = heating_flow_steps(t, unit.id)
        if steps is None:
            return None
        inputs.append(given(steps[1], t.at.subject(f"unit:{unit.id}.heating_flow")))
    return (step("temperature of the returning liquid", "mean", tuple(inputs), D.TEMPERATURE),)


def fall_steps(t: Terms, run: str) -> tuple[Step, ...] | None:
    """Fall of pressure along the returning liquid in a run."""
    warm = return_steps(t)
    if warm is None:
        return None
    own = t.at.subject(f"run:{run}.heating_liquid")
    flow = t.of_run("flow", run, "heating_flow", heating_of(t).gas.flow_kg_s, D.MASS_FLOW)
    given_warm = given(warm[0], t.at.subject(RETURN))
    return liquid_parts(t, run, flow=flow, warm=given_warm, own=own, fall="liquid_fall_back")


def left_steps(t: Terms) -> tuple[Step, ...] | None:
    """Subcooling left at the outdoor group, on the way that loses most."""
    warm = return_steps(t)
    if warm is None:
        return None
    mode, solved = heating_of(t), t.solved
    arriving = solved.forest.at_units(mode.gas.far_pa - solved.forest.along(solved.heated.drop_pa))
    unit = t.at.result.system.units[int(arriving.argmin())].id
    own = t.at.subject(LEFT)
    drop = solved.heated.drop_pa
    falls = tuple(t.of_run("fall", run, "heating_liquid", drop, D.PRESSURE) for run in t.at.way_to(unit))
    fallen = step(f"falls on the way from {unit}", "total", falls, D.PRESSURE)
    coil = t.of_run("pressure at the far end", unit, "heating_gas", mode.gas.far_pa, D.PRESSURE)
    rest = step("pressure at the outdoor group", "difference", (coil, given(fallen, own)), D.PRESSURE)
    bubble = step("bubble point there", "bubble_temperature", (t.refrigerant, given(rest, own)), D.TEMPERATURE)
    inputs = (given(bubble, own), given(warm[0], t.at.subject(RETURN)))
    note = "of pipes that meet, the one with the least pressure counts"
    last = step("subcooling left at the outdoor group", "difference", inputs, D.TEMPERATURE_DIFFERENCE, note=note)
    return (fallen, rest, bubble, last)
