"""EN 378-1 annex C.3: the densities of the alternative for tight systems, and how those not listed are worked out.

[RSIF] IF-04 and [EN378-COPY] list seven refrigerants; others follow from the rule that annex gives: QLAV from oxygen
left and flammability, QLMV from how a leak of 10 kg/h fills a room that loses gas through a gap at its foot.
"""

from __future__ import annotations

from functools import lru_cache
from math import sqrt

from linewright.standards.safety.formulas import GRAVITY, HOUR, LEAK_KG_H, LEAK_OPENING_M2, MIXED_M

#: Molar volume of a gas at 25 degC [L/mol], oxygen deprivation limit [1], of carbon dioxide the share that may stand.
MOLAR_VOLUME, OXYGEN_SHARE, CARBON_DIOXIDE_SHARE = 24.45, 0.14, 0.10
AIR = 29.0
_STEPS = 2000


def qlav(molar_mass: float, lfl_kg_m3: float | None, *, is_carbon_dioxide: bool = False) -> float:
    """Quantity limit with additional ventilation [kg/m3] from the molar mass [g/mol] and, of class 2L, the LFL."""
    share = CARBON_DIOXIDE_SHARE if is_carbon_dioxide else OXYGEN_SHARE
    least = share * molar_mass / MOLAR_VOLUME
    return least if lfl_kg_m3 is None else min(least, lfl_kg_m3 / 2)


@lru_cache(maxsize=64)
def filling(rcl_kg_m3: float, molar_mass: float) -> float | None:
    """Mass let into each cubic metre when the density reaches the RCL [kg/m3]; none where it never does.

    Leak of 10 kg/h into a room of 1 m3 for each unit of s, outflow through 0.0032 m2 under 2.2 m of mixed gas.
    """
    air, gas, leak = AIR / MOLAR_VOLUME, molar_mass / MOLAR_VOLUME, LEAK_KG_H / HOUR

    def rate(density: float) -> float:
        mixed = density + air - density * air / gas
        return leak - density * LEAK_OPENING_M2 * sqrt(2 * (1 - air / mixed) * MIXED_M * GRAVITY)

    width = rcl_kg_m3 / _STEPS
    rates = [rate(i * width) for i in range(_STEPS + 1)]
    if min(rates) <= 0:
        return None
    weights = (1 if i in (0, _STEPS) else 4 if i % 2 else 2 for i in range(_STEPS + 1))
    return leak * width / 3 * sum(weight / at for weight, at in zip(weights, rates, strict=True))


def qlmv(rcl_kg_m3: float, molar_mass: float, most_kg_m3: float) -> float:
    """Quantity limit with minimum ventilation [kg/m3]; never above the QLAV."""
    found = filling(rcl_kg_m3, molar_mass)
    return most_kg_m3 if found is None else min(found, most_kg_m3)
