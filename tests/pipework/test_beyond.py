"""Conditions beyond a formula's range: each is named where it is met, and nothing there is judged or passed."""

from __future__ import annotations

import pytest

from linewright.engine.records import Standing
from linewright.standards.pipework import formulas as f
from tests.pipework.clinic import clinic, move, pipework, tube, wrap


def test_a_wall_thicker_than_a_sixth_is_beyond_the_formula_of_thin_tube() -> None:
    """6.35 mm with a wall of 1.2 mm: 6.35 / 1.2 = 5.3, below 6."""
    found = tube(
        clinic("{basis: annealed, wall_tolerance: 0 %}", ("    6.35 mm: 0.8 mm\n", "    6.35 mm: 1.2 mm\n")), 6.35
    )
    assert found.check.standing is Standing.UNJUDGED
    assert "the formula of thin tube, for a wall above a sixth of the diameter" in found.check.missing[0]


def test_pipe_hotter_than_expansion_is_known_for_is_named() -> None:
    found = move(clinic("{hottest_gas: 200 C}"), "J1.gas")
    assert found.expansion_m is None
    assert "expansion of copper at 200 degC" in found.missing
    assert found.supports is not None, "what does not rest on it is worked out all the same"
    check = next(
        one for one in pipework(clinic("{hottest_gas: 200 C, movement: yes}")).others if one.measure == "movement"
    )
    assert check.standing is Standing.UNJUDGED


def test_air_drier_than_any_dew_point_is_named() -> None:
    dry = "{temperature: -90 C, humidity: 1 %}"
    found = wrap(clinic(f"{{indoor_air: {dry}}}"), "gas_25.4_indoors")
    assert found.check.standing is Standing.UNJUDGED
    assert "air drier than any dew point of the formula" in found.check.missing


def test_air_beyond_the_formula_of_saturation_is_named() -> None:
    found = wrap(clinic("{indoor_air: {temperature: 250 C, humidity: 50 %}}"), "gas_25.4_indoors")
    assert found.check.standing is Standing.UNJUDGED
    assert "saturation of water at 250 degC" in found.check.missing


def test_a_line_beyond_the_energy_code_is_unjudged_where_that_counts_and_told_nowhere_else() -> None:
    counted = wrap(clinic("{hottest_gas: 95 C, code_minimum: yes}"), "gas_25.4_indoors")
    assert counted.check.standing is Standing.UNJUDGED
    assert any("the energy code's table for a line of 95 degC" in name for name in counted.check.missing)
    beside = wrap(clinic("{hottest_gas: 95 C}"), "gas_25.4_indoors")
    assert beside.code_m is None
    assert beside.order_m is not None


def test_a_site_above_the_standard_atmosphere_has_no_reading() -> None:
    with pytest.raises(f.BeyondError, match="the standard atmosphere at 12000 m"):
        f.air_pressure(12_000.0)


def test_a_line_colder_than_any_copper_was_looked_at_moves_by_nobody_knows_how_much() -> None:
    found = move(clinic("{gas_line: -60 C}"), "J1.gas")
    assert found.expansion_m is None
    assert "expansion of copper at -60 degC" in found.missing
