"""Working of flow along a run: pressure of gas and of liquid, loss of saturation, velocity, oil."""

from __future__ import annotations

from typing import NamedTuple

from linewright.engine.working.flow_loads import load_of, whole_load
from linewright.engine.working.flow_terms import D, Terms, given, step
from linewright.engine.working.steps import Input, Step
from linewright.physics.network import Gas
from linewright.physics.series import Array


class Mode(NamedTuple):
    """One mode: its name, which tube its gas takes, in which direction, and what flows."""

    name: str
    tube: int
    formulas: tuple[str, str]
    gas: Gas
    loads: Array


def cooling_of(t: Terms) -> Mode:
    """Cold gas, which flows inward."""
    return Mode("cooling", 0, ("gas_upstream", "gas_above"), t.solved.cooled.gas, t.solved.rated_w)


def heating_of(t: Terms) -> Mode:
    """Hot gas, which flows outward."""
    return Mode("heating", 1, ("gas_downstream", "gas_below"), t.solved.heated.gas, t.solved.load_w)


def flow_steps(t: Terms, mode: Mode, run: str) -> tuple[Step, ...]:
    """Flow in a run: of the unit at its end, or of the runs that leave its joint."""
    flow = mode.gas.flow_kg_s
    inputs = tuple(t.of_run("flow", name, f"{mode.name}_flow", flow, D.MASS_FLOW) for name in t.after(run, flow)) or (
        unit_flow(t, mode, run),
    )
    return (step(f"flow in {run}, {mode.name}", "total", inputs, D.MASS_FLOW),)


def unit_flow(t: Terms, mode: Mode, unit: str) -> Input:
    """Flow through a unit."""
    value = float(mode.gas.flow_kg_s[t.run(unit)])
    return Input(f"flow through {unit}", value, D.MASS_FLOW, t.at.subject(f"unit:{unit}.{mode.name}_flow"))


def near_pressure(t: Terms, mode: Mode, run: str) -> Input:
    """Pressure of gas at the near end of a run."""
    before = t.before(run)
    if before is not None:
        return t.of_run("pressure at the far end", before, f"{mode.name}_gas", mode.gas.far_pa, D.PRESSURE)
    value = float(mode.gas.near_pa[t.run(run)])
    if mode.name == "cooling":
        return Input("suction pressure", float(t.solved.cooled.suction_pa[0]), D.PRESSURE, t.at.subject(SUCTION))
    return Input("pressure of the hot gas", value, D.PRESSURE, t.at.subject(HOT_GAS))


SUCTION, HOT_GAS, LIQUID = "physics.suction", "physics.hot_gas", "physics.liquid"


def gas_steps(t: Terms, mode: Mode, run: str, enthalpy: Input) -> tuple[Step, ...]:
    """Pressure of gas at the far end of a run, and the equation that it solves."""
    own = t.at.subject(f"run:{run}.{mode.name}_gas")
    near, length, bore, rise = near_pressure(t, mode, run), t.length(run), t.bore(run, mode.tube), t.rise(run)
    flow = t.of_run("flow", run, f"{mode.name}_flow", mode.gas.flow_kg_s, D.MASS_FLOW)
    inputs = (t.refrigerant, near, flow, enthalpy, length, bore, *rise)
    far = step(f"pressure at the far end of {run}", mode.formulas[0], inputs, D.PRESSURE)
    mean = step("mean pressure", "mean", (near, given(far, own)), D.PRESSURE)
    state = (t.refrigerant, given(mean, own), enthalpy)
    density = step("density there", "gas_density", state, D.DENSITY)
    viscosity = step("viscosity there", "gas_viscosity", state, D.VISCOSITY)
    rubbed = _rubbed(t, own, flow, bore, viscosity)
    parts = (given(density, own), given(rubbed[0], own), given(rubbed[-1], own))
    again = (near, given(far, own), *parts, length, bore, *rise)
    last = step(f"pressure at the far end of {run} again", mode.formulas[1], again, D.PRESSURE)
    return (far, mean, density, viscosity, *rubbed, last)


def _rubbed(t: Terms, own: str, flow: Input, bore: Input, viscosity: Step) -> tuple[Step, ...]:  # noqa: PLR0917
    """Mass flux, Reynolds number, friction factor."""
    flux = step("mass flux", "mass_flux", (flow, bore), D.MASS_FLUX)
    number = step("Reynolds number", "reynolds", (given(flux, own), bore, given(viscosity, own)), D.NUMBER)
    factor = step("friction factor", "friction", (given(number, own), t.assumed("roughness"), bore), D.NUMBER)
    return (flux, number, factor)


def loss_steps(t: Terms, mode: Mode, run: str) -> tuple[Step, ...]:
    """Loss of saturation between the ends of a run."""
    far = t.of_run("pressure at the far end", run, f"{mode.name}_gas", mode.gas.far_pa, D.PRESSURE)
    ends = [
        step(f"dew point at the {end} end", "dew_temperature", (t.refrigerant, pressure), D.TEMPERATURE)
        for end, pressure in (("near", near_pressure(t, mode, run)), ("far", far))
    ]
    own = t.at.subject(f"run:{run}.{mode.name}_loss")
    inputs = tuple(given(end, own) for end in ends)
    return (*ends, step(f"loss of saturation in {run}", "distance", inputs, D.TEMPERATURE_DIFFERENCE))


def velocity_steps(t: Terms, mode: Mode, run: str, enthalpy: Input) -> tuple[Step, ...]:
    """Velocity of gas in a run."""
    flux, density = _flux_and_density(t, mode, run, enthalpy)
    return (step(f"velocity in {run}, {mode.name}", "ratio", (flux, density), D.VELOCITY),)


def _flux_and_density(t: Terms, mode: Mode, run: str, enthalpy: Input) -> tuple[Input, Input]:
    found = {one.name: one for one in gas_steps(t, mode, run, enthalpy)}
    place = t.at.subject(f"run:{run}.{mode.name}_gas")
    return given(found["mass flux"], place), given(found["density there"], place)


def oil_steps(t: Terms, mode: Mode, run: str, enthalpy: Input) -> tuple[Step, ...]:
    """Least flow that a rising run sees over the least that carries oil up; nothing where gas does not rise."""
    least, rise = t.conditions.least_capacity, t.at.runs[run].rise_m or 0.0
    name = f"oil margin of {run}, {mode.name}"
    if least is None or (rise >= 0 if mode.name == "cooling" else rise <= 0):
        note = "the book states no least capacity" if least is None else "gas does not rise here"
        return (Step(name, "ratio", (), D.NUMBER, None, note=note),)
    own = t.at.subject(f"run:{run}.{mode.name}_oil")
    loads = tuple(load_of(t, mode.name, unit) for unit in t.units_beyond(run, mode.loads))
    beyond = step("load beyond the run", "total", loads, D.POWER)
    whole = whole_load(t, mode.name)
    share = step("its share of the system", "ratio", (given(beyond, own), whole), D.RATIO)
    smallest = step("smallest load beyond", "smallest", loads, D.POWER)
    alone = step("share of the smallest", "ratio", (given(smallest, own), whole), D.RATIO)
    stated = Input("least capacity", least, D.RATIO, t.at.in_book("operation.least_capacity"))
    flow = t.of_run("flow", run, f"{mode.name}_flow", mode.gas.flow_kg_s, D.MASS_FLOW)
    seen = (flow, given(share, own), given(alone, own), stated)
    lowest = step("least flow", "least_flow", seen, D.MASS_FLOW)
    bore = t.bore(run, mode.tube)
    flux = step("its mass flux", "mass_flux", (given(lowest, own), bore), D.MASS_FLUX)
    _, density = _flux_and_density(t, mode, run, enthalpy)
    oil, oil_step = _oil(t, mode, own)
    needed = step("mass flux that carries oil", "oil_needs", (density, bore, oil), D.MASS_FLUX)
    margin = step(name, "ratio", (given(flux, own), given(needed, own)), D.NUMBER)
    return (beyond, share, smallest, alone, lowest, flux, *oil_step, needed, margin)


def _oil(t: Terms, mode: Mode, own: str) -> tuple[Input, tuple[Step, ...]]:
    """Density of the oil: the book's, or that of its kind."""
    operation = t.at.result.state.ground.book.book.operation
    stated = operation.oil_density_kg_m3 if operation is not None else None
    if stated is not None:
        return Input("density of the oil", stated, D.DENSITY, t.at.in_book("operation.oil_density")), ()
    kind = t.conditions.oil_named
    inputs = (Input("kind of oil", kind, D.NUMBER, t.at.in_book("operation.oil")),) if kind else ()
    formula = "oil_cold" if mode.name == "cooling" else "oil_hot"
    found = step("density of the oil", formula, inputs, D.DENSITY)
    return given(found, own), (found,)


def liquid_parts(t: Terms, run: str, *, flow: Input, warm: Input, own: str, fall: str) -> tuple[Step, ...]:
    """Fall of pressure along liquid in a run."""
    bore, state = t.bore(run, 2), (t.refrigerant, warm)
    density = step("density of the liquid", "liquid_density", state, D.DENSITY)
    viscosity = step("viscosity of the liquid", "liquid_viscosity", state, D.VISCOSITY)
    rubbed = _rubbed(t, own, flow, bore, viscosity)
    length = t.length(run)
    inputs = (given(rubbed[-1], own), length, bore, given(rubbed[0], own), given(density, own), *t.rise(run))
    return (density, viscosity, *rubbed, step(f"fall of pressure in {run}", fall, inputs, D.PRESSURE))
