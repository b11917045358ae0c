"""Shipped properties against the reference library that they were fitted to, over random states inside their range.

Source of every expected value: CoolProp, HEOS backend, called here. A blend's liquid viscosity has no source: it is the
stated mixing rule over its parts.
"""

from collections.abc import Callable
from random import Random

import numpy as np
import pytest

from linewright.physics import Fluid, fluid
from tools.properties.fit import FLUIDS, MOST_ABOVE_J_KG, Wanted
from tools.properties.reference import Reference, Saturated

STATES = 1_500
NAMES = [wanted.name for wanted in FLUIDS]


def pair(name: str) -> tuple[Fluid, Reference, Wanted]:
    wanted = next(one for one in FLUIDS if one.name == name)
    found = fluid(name)
    assert found is not None
    return found, Reference(wanted.parts), wanted


def draw(name: str) -> Random:
    return Random(name)  # noqa: S311 - random states, no secrets


def asked(read: Callable[[float], Saturated], temperatures: list[float]) -> list[Saturated]:
    """States that the library finds; it fails for some of a blend's near the critical point."""
    found = []
    for t_degc in temperatures:
        try:
            found.append(read(t_degc))
        except ValueError:
            continue
    assert len(found) > 0.9 * len(temperatures)
    return found


@pytest.mark.parametrize("name", NAMES)
def test_saturation_and_liquid(name: str) -> None:
    shipped, library, _ = pair(name)
    rng = draw(name)
    states = asked(library.bubble, [rng.uniform(shipped.low_degc, shipped.high_degc) for _ in range(STATES)])
    t = np.array([one.t_degc for one in states])
    p = np.array([one.p_pa for one in states])
    assert shipped.bubble_pressure(t) == pytest.approx(p, rel=1e-3)
    assert shipped.bubble_temperature(p) == pytest.approx(t, abs=0.01)
    assert shipped.liquid_density(t) == pytest.approx([one.rho_kg_m3 for one in states], rel=1e-3)
    assert shipped.liquid_enthalpy(t) == pytest.approx([one.h_j_kg for one in states], abs=200)
    assert shipped.liquid_viscosity(t) == pytest.approx([one.mu_pa_s for one in states], rel=1e-3)


@pytest.mark.parametrize("name", NAMES)
def test_dew_line(name: str) -> None:
    shipped, library, _ = pair(name)
    rng = draw(f"{name} dew")
    states = asked(library.dew, [rng.uniform(shipped.low_degc, shipped.high_degc) for _ in range(STATES)])
    t, p = np.array([one.t_degc for one in states]), np.array([one.p_pa for one in states])
    assert shipped.dew_pressure(t) == pytest.approx(p, rel=1e-3)
    assert shipped.dew_temperature(p) == pytest.approx(t, abs=0.01)
    assert shipped.dew_enthalpy(p) == pytest.approx([one.h_j_kg for one in states], abs=200)
    assert shipped.gas_density(p, np.zeros_like(p)) == pytest.approx([one.rho_kg_m3 for one in states], rel=1e-3)


@pytest.mark.parametrize("name", NAMES)
def test_superheated_vapour(name: str) -> None:
    shipped, library, wanted = pair(name)
    rng = draw(f"{name} vapour")
    dews = asked(library.dew, [rng.uniform(wanted.low_degc, shipped.high_degc) for _ in range(STATES // 3)])
    above = np.array([rng.uniform(1.0, MOST_ABOVE_J_KG) for _ in dews])
    states = [library.at_enthalpy(dew, float(one)) for dew, one in zip(dews, above, strict=True)]
    p = np.array([one.p_pa for one in states])
    assert shipped.gas_density(p, above) == pytest.approx([one.rho_kg_m3 for one in states], rel=1e-3)
    assert shipped.gas_viscosity(p, above) == pytest.approx([one.mu_pa_s for one in states], rel=1e-3)
    assert shipped.gas_temperature(p, above) == pytest.approx([one.t_degc for one in states], abs=0.05)


@pytest.mark.parametrize("name", NAMES)
def test_enthalpy_of_a_superheat_is_found(name: str) -> None:
    shipped, library, _ = pair(name)
    for t_degc, superheat in ((-20.0, 5.0), (5.0, 5.0), (20.0, 15.0), (45.0, 30.0)):
        dew = library.dew(t_degc)
        hot = library.superheated(dew.p_pa, t_degc + superheat)
        found = shipped.above_dew(np.array([dew.p_pa]), np.array([superheat]))
        assert float(found[0]) == pytest.approx(hot.h_j_kg - dew.h_j_kg, abs=200)


@pytest.mark.parametrize("name", NAMES)
def test_outside_its_range_a_fluid_has_no_value(name: str) -> None:
    shipped, _, _ = pair(name)
    for t_degc in (shipped.low_degc - 0.5, shipped.high_degc + 0.5):
        assert np.isnan(shipped.dew_pressure(t_degc))
        assert np.isnan(shipped.bubble_pressure(t_degc))
        assert np.isnan(shipped.liquid_density(t_degc))
    assert np.isnan(shipped.dew_temperature(1.0))
    assert np.isnan(shipped.dew_temperature(-1.0))
    assert np.isnan(shipped.gas_density(shipped.dew_pressure(5.0), MOST_ABOVE_J_KG * 1.01))
    assert np.isnan(shipped.gas_density(shipped.dew_pressure(5.0), -1.0))
    assert np.isnan(shipped.above_dew(shipped.dew_pressure(5.0), 500.0))
    assert np.isnan(shipped.above_dew(shipped.dew_pressure(5.0), -1.0))
