"""What is asked of the tables together is what is asked of them one by one, for every fluid."""

import numpy as np
import pytest

from linewright.physics import Fluid, fluids

FLUIDS = list(fluids().values())


def pressures(used: Fluid) -> np.ndarray:
    """Pressures over nearly the whole range of the dew line."""
    low, high = (float(used.dew_pressure(t)) for t in (used.low_degc + 0.5, used.high_degc - 0.5))
    return np.geomspace(low, high, 200)


@pytest.mark.parametrize("used", FLUIDS, ids=lambda used: used.name)
def test_density_and_viscosity_by_enthalpy_are_those_above_the_dew_point(used: Fluid) -> None:
    p, above = pressures(used), np.linspace(0.0, 60e3, 200)
    together = used.gas_of_enthalpy(p, used.dew_enthalpy(p) + above)
    for one, other in zip(together, (used.gas_density(p, above), used.gas_viscosity(p, above)), strict=True):
        assert np.allclose(one, other, rtol=1e-9, atol=0.0)


@pytest.mark.parametrize("used", FLUIDS, ids=lambda used: used.name)
@pytest.mark.parametrize("superheat_k", [0.0, 5.0, 10.0])
def test_gas_of_a_coil_is_that_of_the_tables_within_two_joules(used: Fluid, superheat_k: float) -> None:
    p = pressures(used)
    enthalpy, dew_degc = used.coil(p, superheat_k)
    looked_for = used.dew_enthalpy(p) + used.above_dew(p, np.full_like(p, superheat_k))
    assert np.max(np.abs(enthalpy - looked_for)) < 2.0
    assert np.allclose(dew_degc, used.dew_temperature(p), rtol=0.0, atol=1e-9)


@pytest.mark.parametrize("used", FLUIDS, ids=lambda used: used.name)
def test_hot_gas_has_its_temperature(used: Fluid) -> None:
    p = float(used.dew_pressure(46.0))
    enthalpy = used.hot_gas(46.0, 70.0)
    assert float(used.gas_temperature(p, enthalpy - float(used.dew_enthalpy(p)))) == pytest.approx(70.0, abs=1e-6)


def test_vapour_outside_the_tables_has_no_value() -> None:
    for used in FLUIDS:
        density, viscosity = used.gas_of_enthalpy(np.array([1.0, 1e8]), np.array([4e5, 4e5]))
        assert np.all(np.isnan(density))
        assert np.all(np.isnan(viscosity))
