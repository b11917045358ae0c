"""The page on properties: every fluid that is shipped, with its range."""

from linewright.physics import fluids
from linewright.physics.properties import Fluid
from tests.docs.pages import page, rows
from tools.properties.fit import FLUIDS

ROWS = {
    row.names[0]: row.cells for row in rows(page("reference/properties.md")) if row.names and row.names[0] in fluids()
}


def test_every_fluid_stands_there_with_its_range() -> None:
    assert set(ROWS) == set(fluids()) == {wanted.name for wanted in FLUIDS}
    for name, one in fluids().items():
        low, high = (float(cell) for cell in ROWS[name][1:3])
        assert abs(one.low_degc - low) < 1e-6
        assert abs(one.high_degc - high) < 1e-6
        assert isinstance(one, Fluid)


def test_the_fit_is_far_better_than_what_is_promised() -> None:
    for one in fluids().values():
        assert one.fit_errors["ln_rho_gas"] < 1e-4
        assert one.fit_errors["ln_p_dew"] < 1e-6
        assert one.fit_errors["h_dew"] < 5
        library = one.source.partition(",")[0]
        assert library in page("reference/properties.md")
