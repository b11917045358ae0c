"""Working of coils and compressors: what flows through each unit, where they agree, what is left of the capacity."""

from __future__ import annotations

from linewright.engine.working.flow_loads import load_of, whole_load
from linewright.engine.working.flow_pipe import (
    HOT_GAS,
    LIQUID,
    SUCTION,
    Mode,
    cooling_of,
    heating_of,
    liquid_parts,
)
from linewright.engine.working.flow_terms import D, Terms, given, step
from linewright.engine.working.steps import Input, Step

TOGETHER = "flows, pressures and capacities are found together by passes, until each follows from the others"


def enthalpy(t: Terms, mode: Mode, run: str) -> Input:
    """Enthalpy of the gas in a run."""
    if mode.name == "heating":
        hot = hot_gas_steps(t)[1]
        return given(hot, t.at.subject(HOT_GAS))
    value = float(enthalpies(t)[run])
    return Input(f"enthalpy of the gas in {run}", value, D.ENTHALPY, t.at.subject(f"run:{run}.cooling_enthalpy"))


def enthalpies(t: Terms) -> dict[str, float]:
    """Enthalpy of the gas in each run in cooling [J/kg]."""
    solved, tree = t.solved, t.at.result.tree
    of_unit = {unit.id: float(_coil_enthalpy(t, unit.id).result or 0.0) for unit in t.at.result.system.units}
    flows = solved.forest.at_units(solved.cooled.gas.flow_kg_s)
    carried = solved.forest.beyond(flows * [of_unit[unit.id] for unit in t.at.result.system.units])
    return dict(zip(tree.ids, carried / solved.cooled.gas.flow_kg_s, strict=True))


def enthalpy_steps(t: Terms, run: str) -> tuple[Step, ...]:
    """Enthalpy of the gas in a run: of the coil at its end, or mixed at its joint."""
    mode = cooling_of(t)
    flow, name = mode.gas.flow_kg_s, f"enthalpy of the gas in {run}"
    after = t.after(run, flow)
    if not after:
        item = given(_coil_enthalpy(t, run), t.at.subject(f"unit:{run}.cooling_flow"))
        return (step(name, "stated", (item,), D.ENTHALPY),)
    pairs = ((t.of_run("flow", one, "cooling_flow", flow, D.MASS_FLOW), enthalpy(t, mode, one)) for one in after)
    return (step(name, "weighted", tuple(item for pair in pairs for item in pair), D.ENTHALPY),)


def _coil_pressure(t: Terms, mode: Mode, unit: str) -> Input:
    return t.of_run("pressure at the far end", unit, f"{mode.name}_gas", mode.gas.far_pa, D.PRESSURE)


def _coil_enthalpy(t: Terms, unit: str) -> Step:
    inputs = (t.refrigerant, _coil_pressure(t, cooling_of(t), unit), t.assumed("superheat"))
    return step(f"enthalpy of the gas from {unit}", "coil_enthalpy", inputs, D.ENTHALPY)


def cooling_share_steps(t: Terms, unit: str) -> tuple[Step, ...]:
    """Share of its load that a unit gives in cooling."""
    own, mode = t.at.subject(f"unit:{unit}.cooling_share"), cooling_of(t)
    dew = step(f"dew point in {unit}", "dew_temperature", (t.refrigerant, _coil_pressure(t, mode, unit)), D.TEMPERATURE)
    inputs = (t.assumed("cooling_air"), given(dew, own), t.assumed("evaporating"))
    return (dew, step(f"share of {unit}, cooling", "coil_share", inputs, D.RATIO))


def cooling_flow_steps(t: Terms, unit: str) -> tuple[Step, ...]:
    """Flow through a unit in cooling."""
    share, gas = cooling_share_steps(t, unit)[-1], _coil_enthalpy(t, unit)
    inputs = (
        load_of(t, "cooling", unit),
        given(share, t.at.subject(f"unit:{unit}.cooling_share")),
        given(gas, t.at.subject(f"unit:{unit}.cooling_flow")),
        given(liquid_steps(t)[-1], t.at.subject(LIQUID)),
    )
    return (gas, step(f"flow through {unit}, cooling", "coil_flow", inputs, D.MASS_FLOW))


def heating_share_steps(t: Terms, unit: str) -> tuple[Step, ...] | None:
    """Share of its load that a unit gives in heating; none where it only cools."""
    if not t.solved.load_w[t.unit(unit)]:
        return None
    own, pressure = t.at.subject(f"unit:{unit}.heating_share"), _coil_pressure(t, heating_of(t), unit)
    dew = step(f"dew point in {unit}", "dew_temperature", (t.refrigerant, pressure), D.TEMPERATURE)
    inputs = (t.assumed("heating_air"), given(dew, own), t.assumed("heating_condensing"))
    return (dew, step(f"share of {unit}, heating", "coil_share", inputs, D.RATIO))


def heating_flow_steps(t: Terms, unit: str) -> tuple[Step, ...] | None:
    """Flow through a unit in heating; none where it only cools."""
    shared = heating_share_steps(t, unit)
    if shared is None:
        return None
    own = t.at.subject(f"unit:{unit}.heating_flow")
    pressure = _coil_pressure(t, heating_of(t), unit)
    bubble = step("bubble point of the liquid", "bubble_temperature", (t.refrigerant, pressure), D.TEMPERATURE)
    cooled = (given(bubble, own), t.assumed("coil_subcooling"))
    warm = step(f"temperature of the liquid from {unit}", "difference", cooled, D.TEMPERATURE)
    h_liquid = step("its enthalpy", "liquid_enthalpy", (t.refrigerant, given(warm, own)), D.ENTHALPY)
    inputs = (
        load_of(t, "heating", unit),
        given(shared[-1], t.at.subject(f"unit:{unit}.heating_share")),
        given(hot_gas_steps(t)[1], t.at.subject(HOT_GAS)),
        given(h_liquid, own),
    )
    return (bubble, warm, h_liquid, step(f"flow through {unit}, heating", "coil_flow", inputs, D.MASS_FLOW))


def liquid_steps(t: Terms) -> tuple[Step, ...]:
    """Pressure, temperature and enthalpy of the liquid that leaves the outdoor group in cooling."""
    own, at_bubble = t.at.subject(LIQUID), t.assumed("condensing")
    pressure = step("pressure of the leaving liquid", "bubble_pressure", (t.refrigerant, at_bubble), D.PRESSURE)
    cold = step("temperature of the leaving liquid", "difference", (at_bubble, t.subcooling), D.TEMPERATURE)
    inputs = (t.refrigerant, given(cold, own))
    return (pressure, cold, step("enthalpy of the leaving liquid", "liquid_enthalpy", inputs, D.ENTHALPY))


def hot_gas_steps(t: Terms) -> tuple[Step, ...]:
    """Pressure and enthalpy of the hot gas that leaves the outdoor group in heating."""
    dew = t.assumed("heating_condensing")
    pressure = step("pressure of the hot gas", "dew_pressure", (t.refrigerant, dew), D.PRESSURE)
    inputs = (t.refrigerant, dew, t.assumed("discharge"))
    return (pressure, step("enthalpy of the hot gas", "hot_gas_enthalpy", inputs, D.ENTHALPY))


def volume_steps(t: Terms) -> tuple[Step, ...]:
    """Volume that the compressors take: what gives the load through a plain main of the rated length."""
    own, gas = t.at.subject("physics.volume"), t.refrigerant
    coil = step("pressure in the coils at rating", "dew_pressure", (gas, t.assumed("evaporating")), D.PRESSURE)
    warm = (gas, given(coil, own), t.assumed("superheat"))
    h_gas = step("enthalpy of the gas from the coils", "coil_enthalpy", warm, D.ENTHALPY)
    carried = (whole_load(t, "cooling"), given(h_gas, own), given(liquid_steps(t)[-1], t.at.subject(LIQUID)))
    flow = step("flow at rating", "rated_flow", carried, D.MASS_FLOW)
    main = (given(flow, own), given(h_gas, own), t.assumed("rated_length"), t.bore(t.root(), 0))
    suction = step("suction pressure at rating", "gas_downstream", (gas, given(coil, own), *main), D.PRESSURE)
    density = step("density there", "gas_density", (gas, given(suction, own), given(h_gas, own)), D.DENSITY)
    inputs = (given(flow, own), given(density, own))
    return (coil, h_gas, flow, suction, density, step("volume of the compressors", "ratio", inputs, D.FLOW))


def suction_steps(t: Terms) -> tuple[Step, ...]:
    """Pressure at which the compressors take what the coils give."""
    mode, root = cooling_of(t), t.root()
    flow = t.of_run("flow", root, "cooling_flow", mode.gas.flow_kg_s, D.MASS_FLOW)
    volume = given(volume_steps(t)[-1], t.at.subject("physics.volume"))
    inputs = (t.refrigerant, flow, enthalpy(t, mode, root), volume)
    return (step("suction pressure", "drawn_pressure", inputs, D.PRESSURE, note=TOGETHER),)


def superheat_steps(t: Terms) -> tuple[Step, ...]:
    """Superheat of the gas at the outdoor group."""
    own = t.at.subject("physics.superheat")
    suction = Input("suction pressure", float(t.solved.cooled.suction_pa[0]), D.PRESSURE, t.at.subject(SUCTION))
    warm = (t.refrigerant, suction, enthalpy(t, cooling_of(t), t.root()))
    gas = step("temperature of the gas", "gas_temperature", warm, D.TEMPERATURE)
    dew = step("its dew point", "dew_temperature", (t.refrigerant, suction), D.TEMPERATURE)
    inputs = (given(gas, own), given(dew, own))
    return (gas, dew, step("superheat at the outdoor group", "difference", inputs, D.TEMPERATURE_DIFFERENCE))


def kept_steps(t: Terms, mode: str) -> tuple[Step, ...]:
    """Share of the load that the pipe leaves, over all units."""
    loads = t.solved.rated_w if mode == "cooling" else t.solved.load_w
    found: list[Input] = []
    for unit, load in zip(t.at.result.system.units, loads, strict=True):
        steps = cooling_share_steps(t, unit.id) if mode == "cooling" else heating_share_steps(t, unit.id)
        if load and steps:
            found += [load_of(t, mode, unit.id), given(steps[-1], t.at.subject(f"unit:{unit.id}.{mode}_share"))]
    return (step(f"{mode} kept by the pipe", "weighted", tuple(found), D.RATIO),)


def supply_steps(t: Terms, run: str) -> tuple[Step, ...]:
    """Pressure of liquid at the far end of a run in cooling."""
    liquid, own, before = t.solved.cooled.liquid, t.at.subject(f"run:{run}.cooling_liquid"), t.before(run)
    near = (
        given(liquid_steps(t)[0], t.at.subject(LIQUID))
        if before is None
        else t.of_run("liquid at the far end", before, "cooling_liquid", liquid.far_pa, D.PRESSURE)
    )
    flow = t.of_run("flow", run, "cooling_flow", t.solved.cooled.gas.flow_kg_s, D.MASS_FLOW)
    cold = given(liquid_steps(t)[1], t.at.subject(LIQUID))
    parts = liquid_parts(t, run, flow=flow, warm=cold, own=own, fall="liquid_fall")
    last = step(f"liquid at the far end of {run}", "difference", (near, given(parts[-1], own)), D.PRESSURE)
    return (*parts, last)


def subcooling_steps(t: Terms, run: str, field: str) -> tuple[Step, ...]:
    """Subcooling left in the liquid at the far end of a run."""
    own = t.at.subject(field)
    arriving = t.of_run("liquid at the far end", run, "cooling_liquid", t.solved.cooled.liquid.far_pa, D.PRESSURE)
    bubble = step("bubble point there", "bubble_temperature", (t.refrigerant, arriving), D.TEMPERATURE)
    inputs = (given(bubble, own), given(liquid_steps(t)[1], t.at.subject(LIQUID)))
    return (bubble, step(f"subcooling left at {run}", "difference", inputs, D.TEMPERATURE_DIFFERENCE))


def vapour_steps(t: Terms, unit: str) -> tuple[Step, ...]:
    """Share that has boiled before the valve of a unit."""
    own = t.at.subject(f"unit:{unit}.vapour")
    arriving = t.of_run("liquid at the far end", unit, "cooling_liquid", t.solved.cooled.liquid.far_pa, D.PRESSURE)
    bubble = step("bubble point there", "bubble_temperature", (t.refrigerant, arriving), D.TEMPERATURE)
    h_bubble = step("enthalpy of boiling liquid", "liquid_enthalpy", (t.refrigerant, given(bubble, own)), D.ENTHALPY)
    h_dew = step("enthalpy of condensing vapour", "dew_enthalpy", (t.refrigerant, arriving), D.ENTHALPY)
    inputs = (given(liquid_steps(t)[-1], t.at.subject(LIQUID)), given(h_bubble, own), given(h_dew, own))
    return (bubble, h_bubble, h_dew, step(f"boiled before the valve of {unit}", "boiled", inputs, D.RATIO))
