"""The network against a separate computation with CoolProp, made before it by the same equations in other code.

Figures are those of that computation (no published source): capacity kept by length, R-410A, 56 kW at 6 degC dew point,
5 K superheat, 46 degC, 5 K subcooling, coils linear in the difference to 19 degC, displacement fixed.
"""

import numpy as np
import pytest

from linewright.physics import fluid
from linewright.physics.compressor import Control, CoolingAt
from linewright.physics.heating import HeatingAt
from linewright.physics.network import one_pipe
from linewright.physics.oil import OILS, oil_flux
from tests.physics.singly import cool_one, heat_one, rated_at

LENGTHS = (7.5, 25.0, 50.0, 75.0, 100.0, 125.0, 150.0)
KEPT = {
    0.02658: (1.000, 0.966, 0.924, 0.888, 0.856, 0.827, 0.802),
    0.02955: (1.006, 0.986, 0.958, 0.934, 0.911, 0.890, 0.870),
    0.03252: (1.010, 0.997, 0.979, 0.962, 0.946, 0.931, 0.917),
}
AT = CoolingAt()


LIQUID_M = 0.01705


def kept(
    length: float,
    bore: float,
    *,
    rise: float = 0.0,
    load: float = 56e3,
    name: str = "R-410A",
    control: Control = Control.FLOATING,
) -> float:
    shipped = fluid(name)
    assert shipped is not None
    compressor = rated_at(shipped, load, AT, bore_m=0.02658)
    pipe = one_pipe(length, gas_bore_m=bore, liquid_bore_m=LIQUID_M, rise_m=rise)
    found = cool_one(shipped, pipe, np.array([load]), AT, compressor, control)
    return float(found.capacity_w[0]) / load


@pytest.mark.parametrize("bore", KEPT)
def test_capacity_kept_by_length(bore: float) -> None:
    assert [kept(length, bore) for length in LENGTHS] == pytest.approx(KEPT[bore], abs=0.0015)


#: The same computation under two other controls, same main as the rating and two wider ones.
FIXED = {
    0.02658: (1.000, 0.952, 0.895, 0.846, 0.805, 0.769, 0.737),
    0.02955: (1.009, 0.980, 0.941, 0.907, 0.877, 0.849, 0.823),
    0.03252: (1.014, 0.995, 0.970, 0.947, 0.925, 0.904, 0.885),
}
HELD = (1.000, 0.911, 0.826, 0.766, 0.719, 0.682, 0.651)


@pytest.mark.parametrize("bore", FIXED)
def test_capacity_kept_where_the_coils_keep_their_dew_point(bore: float) -> None:
    found = [kept(length, bore, control=Control.FIXED_COILS) for length in LENGTHS]
    assert found == pytest.approx(FIXED[bore], abs=0.0015)


def test_capacity_kept_under_a_control_that_holds_suction_pressure() -> None:
    found = [kept(length, 0.02658, control=Control.HELD_SUCTION) for length in LENGTHS]
    assert found == pytest.approx(HELD, abs=0.0015)


@pytest.mark.parametrize(("name", "share"), [("R-32", 0.864), ("R-454B", 0.809)])
def test_other_refrigerants(name: str, share: float) -> None:
    assert kept(150.0, 0.02658, name=name) == pytest.approx(share, abs=0.0015)


@pytest.mark.parametrize(("length", "share"), [(61.0, 0.882), (91.0, 0.836)])
def test_units_thirty_metres_below(length: float, share: float) -> None:
    """63 kW. Common practice, no source, says about 0.89 and 0.84 at these lengths: weak evidence, within 0.04."""
    found = kept(length, 0.02658, rise=-30.0, load=63e3)
    assert found == pytest.approx(share, abs=0.0015)
    assert found == pytest.approx({61.0: 0.89, 91.0: 0.84}[length], abs=0.04)


@pytest.mark.parametrize(("length", "kelvin"), [(50.0, 0.64), (100.0, 1.30), (150.0, 1.97)])
def test_hot_gas(length: float, kelvin: float) -> None:
    """63 kW of heating in a bore of 26.58 mm; what the liquid left with is not known to the kelvin: 4 %."""
    shipped = fluid("R-410A")
    assert shipped is not None
    pipe = one_pipe(length, gas_bore_m=0.02658, liquid_bore_m=LIQUID_M)
    load = HeatingAt(coil_air_degc=-1e6)  # so cold that the dew point does not matter: the coil gives its load
    found = heat_one(shipped, pipe, np.array([63e3]), load)
    assert float(found.gas.loss_k[0]) == pytest.approx(kelvin, rel=0.04)


#: Bore [mm], least velocity [m/s] and least load [kW] of suction gas: 6 degC + 5 K, liquid 8 K below 46 degC.
OIL = [
    (11.1, 1.21, 0.70),
    (13.88, 1.36, 1.22),
    (17.05, 1.50, 2.04),
    (20.22, 1.64, 3.12),
    (26.58, 1.88, 6.2),
    (29.55, 1.98, 8.1),
    (32.52, 2.08, 10.2),
]


@pytest.mark.parametrize(("bore_mm", "velocity", "kw"), OIL)
def test_oil_in_a_riser_of_suction_gas(bore_mm: float, velocity: float, kw: float) -> None:
    shipped = fluid("R-410A")
    assert shipped is not None
    p, bore = shipped.dew_pressure(np.array([6.0])), np.array([bore_mm / 1000])
    above = shipped.above_dew(p, np.array([5.0]))
    density = shipped.gas_density(p, above)
    flux = oil_flux(density, OILS["ester"].cold_kg_m3, bore)
    heat_j_kg = shipped.dew_enthalpy(p) + above - shipped.liquid_enthalpy(np.array([38.0]))
    assert float((flux / density)[0]) == pytest.approx(velocity, abs=0.01)
    assert float((flux * np.pi / 4 * bore**2 * heat_j_kg)[0]) / 1000 == pytest.approx(kw, rel=0.01)
