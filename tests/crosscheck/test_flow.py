"""Flow in one run against other libraries: friction against `fluids`, a gas line against a march with CoolProp."""

from math import pi

import fluids
import numpy as np
import pytest

from linewright.physics import fluid
from linewright.physics.flow import Ends, Pipe, friction_factor, gas_far_pressure, liquid_drop, mass_flux
from tools.properties.fit import FLUIDS
from tools.properties.reference import Reference

PARTS = {wanted.name: wanted.parts for wanted in FLUIDS}


@pytest.mark.parametrize("reynolds", [50.0, 1500.0, 2300.0, 3500.0, 1e4, 1e5, 1e6, 2e7])
@pytest.mark.parametrize("roughness", [0.0, 1e-5, 1e-4, 3e-3])
def test_friction_is_that_of_churchill(reynolds: float, roughness: float) -> None:
    expected = fluids.friction.Churchill_1977(Re=reynolds, eD=roughness)
    assert float(friction_factor(np.array(reynolds), np.array(roughness))) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize("reynolds", [1e5, 5e5, 2e6])
def test_churchill_is_near_colebrook(reynolds: float) -> None:
    """Within 0.6 % for such flow, as trials had shown."""
    expected = fluids.friction.Clamond(Re=reynolds, eD=1e-4)
    assert float(friction_factor(np.array(reynolds), np.array(1e-4))) == pytest.approx(expected, rel=0.006)


def marched(
    name: str, t_degc: float, superheat: float, flow: float, *, bore: float, length: float
) -> tuple[float, float]:
    """Pressure at both ends of gas that flows without heat, its own speed counted, in small steps of the library."""
    library = Reference(PARTS[name])
    dew = library.dew(t_degc)
    start = library.superheated(dew.p_pa, t_degc + superheat)
    flux, steps = flow / (pi / 4 * bore**2), 1500
    whole = start.h_j_kg + (flux / start.rho_kg_m3) ** 2 / 2
    p, t, rho = start.p_pa, start.t_degc, start.rho_kg_m3
    for _ in range(steps):
        here = library.superheated(p, t)
        factor = fluids.friction.Churchill_1977(Re=flux * bore / here.mu_pa_s, eD=1.5e-6 / bore)
        guess = p - factor * length / steps / bore * flux**2 / (2 * here.rho_kg_m3)
        state, t_next = here, t
        for _ in range(3):
            t_next = t
            for _ in range(6):
                state = library.superheated(guess, t_next)
                miss = state.h_j_kg + (flux / state.rho_kg_m3) ** 2 / 2 - whole
                t_next -= miss / 1100.0
            mean = (here.rho_kg_m3 + state.rho_kg_m3) / 2
            guess = (
                p - factor * length / steps / bore * flux**2 / (2 * mean) - flux**2 * (1 / state.rho_kg_m3 - 1 / rho)
            )
        p, t, rho = guess, t_next, state.rho_kg_m3
    return start.p_pa, p


CASES = [
    ("R-410A", 5.0, 5.0, 0.16316, 0.02022, 60.0),
    ("R-410A", 5.0, 5.0, 0.16316, 0.0234, 60.0),
    ("R-32", 6.0, 5.0, 0.10, 0.02022, 60.0),
    ("R-454B", 6.0, 5.0, 0.12, 0.02022, 60.0),
    ("R-410A", 46.0, 34.0, 0.30, 0.02658, 100.0),
]


@pytest.mark.parametrize(("name", "t_degc", "superheat", "flow", "bore", "length"), CASES)
def test_a_gas_line_is_that_of_a_march(
    name: str, t_degc: float, superheat: float, flow: float, bore: float, length: float
) -> None:
    near, far = marched(name, t_degc, superheat, flow, bore=bore, length=length)
    shipped = fluid(name)
    assert shipped is not None
    p = np.array([near])
    enthalpy = shipped.dew_enthalpy(p) + shipped.above_dew(p, np.array([superheat]))
    pipe = Pipe(np.array([bore]), np.array([length]), np.zeros(1))
    found = gas_far_pressure(shipped, Ends(p, p, np.array([flow]), enthalpy), pipe, upstream=False)
    assert near - float(found[0]) == pytest.approx(near - far, rel=1e-3)
    back = gas_far_pressure(shipped, Ends(found, found, np.array([flow]), enthalpy), pipe, upstream=True)
    assert float(back[0]) == pytest.approx(near, rel=1e-6)


def test_the_gas_line_of_the_trials() -> None:
    """R-410A, 0.16316 kg/s, 5 degC + 5 K, 22.22 x 1.0 mm, 60 m: 163.2 kPa, 6.12 K, computed elsewhere.

    That march leaves out what gathering speed takes, G^2 (v2 - v1); the formula counts it, so it is taken off here.
    """
    shipped = fluid("R-410A")
    assert shipped is not None
    p = shipped.dew_pressure(np.array([5.0]))
    enthalpy = shipped.dew_enthalpy(p) + shipped.above_dew(p, np.array([5.0]))
    flow, pipe = np.array([0.16316]), Pipe(np.array([0.02022]), np.array([60.0]), np.zeros(1))
    far = gas_far_pressure(shipped, Ends(p, p, flow, enthalpy), pipe, upstream=False)
    flux = mass_flux(flow, pipe.bore_m)
    near_v, far_v = (1 / shipped.gas_density(at, enthalpy - shipped.dew_enthalpy(at)) for at in (p, far))
    friction = float((p - far - flux**2 * (far_v - near_v))[0])
    assert friction == pytest.approx(163.2e3, rel=2e-3)
    assert 5.0 - float(shipped.dew_temperature(p - 163.2e3)[0]) == pytest.approx(6.12, abs=0.01)


def test_gas_that_chokes_has_no_pressure() -> None:
    shipped = fluid("R-410A")
    assert shipped is not None
    p = shipped.dew_pressure(np.array([5.0]))
    enthalpy = shipped.dew_enthalpy(p) + 10e3
    pipe = Pipe(np.array([0.01]), np.array([500.0]), np.zeros(1))
    assert np.isnan(gas_far_pressure(shipped, Ends(p, p, np.array([0.5]), enthalpy), pipe, upstream=False))


@pytest.mark.parametrize(("name", "kelvin"), [("R-410A", 1.63), ("R-32", 1.45)])
def test_the_head_of_liquid_costs_subcooling(name: str, kelvin: float) -> None:
    """K per 10 m at 40 degC: density x g over dp/dT, both of the library."""
    shipped, library = fluid(name), Reference(PARTS[name])
    assert shipped is not None
    state = library.bubble(40.0)
    slope = (library.bubble(40.1).p_pa - library.bubble(39.9).p_pa) / 0.2
    assert state.rho_kg_m3 * 9.80665 * 10 / slope == pytest.approx(kelvin, abs=0.005)
    pipe = Pipe(np.array([0.014]), np.array([10.0]), np.array([10.0]))
    drop = liquid_drop(shipped, np.array([40.0]), np.zeros(1), pipe)
    assert float(drop[0]) / slope == pytest.approx(kelvin, abs=0.005)


def test_mass_flux_is_over_the_free_section() -> None:
    assert float(mass_flux(np.array(0.1), np.array(0.02))) == pytest.approx(0.1 / (pi * 0.01**2))
