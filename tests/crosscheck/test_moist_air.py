"""Dew points and saturation of water against CoolProp's moist air (ASHRAE RP-1485), which is another formulation.

PsychroLib, with which values of tests/published/test_pipework.py were computed, is published as source only; nothing
here is installed from source.
"""

import pytest
from CoolProp.HumidAirProp import HAPropsSI

from linewright.standards.pipework import formulas as f

ZERO = 273.15


@pytest.mark.parametrize("degc", [0.5, 5, 10, 15, 20, 25, 27, 30, 35, 40, 50])
def test_dew_points_are_those_of_a_reference_library(degc: float) -> None:
    for humidity in (0.3, 0.5, 0.7, 0.8, 0.9, 0.95):
        theirs = HAPropsSI("D", "T", degc + ZERO, "R", humidity, "P", 101_325.0) - ZERO
        assert f.dew_point(degc, humidity) == pytest.approx(theirs, abs=0.1), humidity


@pytest.mark.parametrize("degc", [1, 10, 20, 30, 40, 60])
def test_saturation_is_that_of_a_reference_library(degc: float) -> None:
    # Air enhances the pressure of vapour by up to half a percent, which the tables of pure water leave out.
    theirs = HAPropsSI("P_w", "T", degc + ZERO, "R", 1.0, "P", 101_325.0)
    assert f.saturation_pressure(degc) == pytest.approx(theirs, rel=0.006)
    assert f.saturation_pressure(degc) <= theirs
