"""Liquid that rises: subcooling left and what boils, against figures of a separate computation with CoolProp.

R-410A at 40 degC, 5 K of subcooling, 50 kPa of friction: 0.61 K left after 20 m, 0.031 boiled after 40 m. CoolProp is
asked here as well.
"""

import numpy as np
import pytest
from CoolProp.CoolProp import PropsSI

from linewright.physics import Fluid, fluid
from linewright.physics.flow import GRAVITY_M_S2
from linewright.physics.liquid import boiled

LIQUID_DEGC, FRICTION_PA = 35.0, 50e3


def r410a() -> Fluid:
    found = fluid("R-410A")
    assert found is not None
    return found


def after(rise_m: float) -> float:
    """Pressure at the top [Pa]."""
    used = r410a()
    head = float(used.liquid_density(LIQUID_DEGC)) * GRAVITY_M_S2 * rise_m
    return float(used.bubble_pressure(40.0)) - FRICTION_PA - head


def test_what_is_left_after_twenty_metres() -> None:
    p = after(20.0)
    assert float(r410a().bubble_temperature(p)) - LIQUID_DEGC == pytest.approx(0.61, abs=0.03)
    assert float(boiled(r410a(), np.array(p), np.array(LIQUID_DEGC))) == 0.0


def test_what_boils_after_forty_metres() -> None:
    found = float(boiled(r410a(), np.array(after(40.0)), np.array(LIQUID_DEGC)))
    assert found == pytest.approx(0.031, abs=0.001)


@pytest.mark.parametrize(("name", "known"), [("R-32", "R32"), ("R-410A", "R410A"), ("R-134a", "R134a")])
@pytest.mark.parametrize("fall_k", [1.0, 5.0, 12.0])
def test_what_boils_is_what_the_reference_library_says(name: str, known: str, fall_k: float) -> None:
    used = fluid(name)
    assert used is not None
    p = float(used.bubble_pressure(LIQUID_DEGC - fall_k))
    enthalpy = PropsSI("H", "T", LIQUID_DEGC + 273.15, "Q", 0, known)
    expected = PropsSI("Q", "P", p, "H", enthalpy, known)
    assert float(boiled(used, np.array(p), np.array(LIQUID_DEGC))) == pytest.approx(expected, abs=5e-4)


def test_more_boils_the_lower_the_pressure() -> None:
    p = np.linspace(2.2e6, 1.0e6, 50)
    share = boiled(r410a(), p, np.full(50, LIQUID_DEGC))
    assert np.all(np.diff(share) >= 0)
    assert share[0] == 0.0
    assert share[-1] > 0.1
