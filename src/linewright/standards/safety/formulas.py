"""The formulas of the standards. Masses in kg, areas in m2, volumes in m3, flows in m3/s, densities in kg/m3.

Sources: [RSIF] reproduces EN 378-1:2016 annexes C and E; [ASHRAE15], [IEC60335-2-40] from memory but for what
[ASHRAE15-G], [IEC-2022] and [GG-QUOTED] repeat.
"""

from __future__ import annotations

import math
from math import inf, log, sqrt

GRAVITY = 9.81
HOUR = 3600.0
#: EN 378-1 annex C.3: the whole charge of a tight system, and the floor area that counts.
MOST_TIGHT_KG, MOST_AREA_M2 = 150.0, 250.0
#: Leak of C.3 [kg/h], and the opening on which its table rests [m2].
LEAK_KG_H, LEAK_OPENING_M2 = 10.0, 0.0032
#: Height up to which refrigerant is taken to mix [m].
MIXED_M = 2.2
#: IEC 60335-2-40 annex GG: factor of an opening between rooms, and molar mass of air as it has it.
OPENING_FACTOR, AIR = 104.0, 29.0


def volume(*sides: float) -> float:
    """Sum of area x height over rooms [m3]; the sides stand in pairs."""
    return sum(area * height for area, height in zip(sides[::2], sides[1::2], strict=True))


def low_volume(*sides: float) -> float:
    """Sum of area x height over rooms, no height above 2.2 m [m3]."""
    return sum(area * min(height, MIXED_M) for area, height in zip(sides[::2], sides[1::2], strict=True))


def held(density_kg_m3: float, volume_m3: float) -> float:
    """Mass that a volume holds at a density [kg]."""
    return density_kg_m3 * volume_m3


def free_charge(lfl_kg_m3: float) -> float:
    """EN 378-1 C.2, class 2L: 1.5 x m1, no room is asked for below it [kg]."""
    return 1.5 * 4 * lfl_kg_m3


def free_charge_flammable(lfl_kg_m3: float) -> float:
    """Classes 2 and 3: m1 [kg]."""
    return 4 * lfl_kg_m3


def most_charge(lfl_kg_m3: float) -> float:
    """EN 378-1 C.2, class 2L: 1.5 x m2 [kg]."""
    return 1.5 * 26 * lfl_kg_m3


def most_charge_flammable(lfl_kg_m3: float) -> float:
    """Class 2: m2 [kg]."""
    return 26 * lfl_kg_m3


def most_charge_explosive(lfl_kg_m3: float) -> float:
    """Class 3: m2, at least 1.5 kg [kg]."""
    return max(26 * lfl_kg_m3, 1.5)


def charge_by_height(lfl_kg_m3: float, height_m: float, area_m2: float) -> float:
    """2.5 x LFL^1.25 x h0 x sqrt(A): EN 378-1 C.2, IEC 60335-2-40 GG.2 [kg]."""
    return 2.5 * math.pow(lfl_kg_m3, 1.25) * height_m * sqrt(area_m2)


def area_by_height(charge_kg: float, lfl_kg_m3: float, height_m: float) -> float:
    """Least floor area for a charge by the same formula [m2]."""
    root = charge_kg / (2.5 * math.pow(lfl_kg_m3, 1.25) * height_m)
    return root * root


def tight_volume(area_m2: float, volume_m3: float) -> float:
    """EN 378-1 C.3: volume over no more than 250 m2 of floor [m3]."""
    return volume_m3 * min(1.0, MOST_AREA_M2 / area_m2) if area_m2 else 0.0


def most_tight_charge() -> float:
    """EN 378-1 C.3: the most that a tight system may hold [kg]."""
    return MOST_TIGHT_KG


def most_tight_charge_flammable(lfl_kg_m3: float) -> float:
    """EN 378-1 C.3, class 2L: 1.5 x m3, no more than 150 kg [kg]."""
    return min(MOST_TIGHT_KG, 1.5 * 130 * lfl_kg_m3)


def charge_by_opening(opening_m2: float, qlmv_kg_m3: float, volume_m3: float) -> float:
    """EN 378-1 C.3: charge for which an opening, one high and one low, is large enough [kg]."""
    return opening_m2 * qlmv_kg_m3 * volume_m3 / LEAK_OPENING_M2


def least_opening(charge_kg: float, qlmv_kg_m3: float, volume_m3: float) -> float:
    """EN 378-1 C.3: least area of each opening [m2]."""
    return LEAK_OPENING_M2 * charge_kg / (qlmv_kg_m3 * volume_m3)


def charge_by_exhaust(flow_m3_s: float, rcl_kg_m3: float, volume_m3: float) -> float:
    """EN 378-1 C.3: charge for which a fan is large enough; any where it carries off the leak at the RCL [kg]."""
    flow_m3_h = flow_m3_s * HOUR
    share = flow_m3_h * rcl_kg_m3 / LEAK_KG_H
    if share >= 1:
        return inf
    if share < 1e-9:
        return volume_m3 * rcl_kg_m3
    return -LEAK_KG_H * volume_m3 / flow_m3_h * log(1 - share)


def simple_exhaust(rcl_kg_m3: float) -> float:
    """EN 378-1 C.3: flow of a fan that is always large enough [m3/s]."""
    return LEAK_KG_H / rcl_kg_m3 / HOUR


def edvc(rcl_kg_m3: float, volume_m3: float, factor: float) -> float:
    """ASHRAE 15: effective dispersal volume charge, RCL x V x F [kg]."""
    return rcl_kg_m3 * volume_m3 * factor


def occupancy_factor(institutional: float) -> float:
    """ASHRAE 15: a half where the occupancy is institutional, else one [1]."""
    return 0.5 if institutional else 1.0


def free_charge_a2l(lfl_kg_m3: float) -> float:
    """ASHRAE 15 7.6 and IEC 60335-2-40, class A2L: m1 = 6 x LFL [kg]."""
    return 6 * lfl_kg_m3


def most_charge_a2l(lfl_kg_m3: float) -> float:
    """IEC 60335-2-40, class A2L: m2 = 52 x LFL [kg]."""
    return 52 * lfl_kg_m3


def most_tight_charge_a2l(lfl_kg_m3: float) -> float:
    """IEC 60335-2-40, class A2L, enhanced tightness: m3 = 260 x LFL [kg]."""
    return 260 * lfl_kg_m3


def stirred_charge(lfl_kg_m3: float, volume_m3: float, factor: float) -> float:
    """Half of LFL x volume up to 2.2 m, with air kept moving [kg]."""
    return 0.5 * lfl_kg_m3 * volume_m3 * factor


def mixed_volume(area_m2: float) -> float:
    """IEC 60335-2-40: floor area x 2.2 m [m3]."""
    return area_m2 * MIXED_M


def unstirred_charge(lfl_kg_m3: float, height_m: float, area_m2: float) -> float:
    """IEC 60335-2-40 GG.2: the lower of the formula by height and 0.75 x LFL x h0 x A [kg]."""
    return min(charge_by_height(lfl_kg_m3, height_m, area_m2), 0.75 * lfl_kg_m3 * height_m * area_m2)


def unstirred_area(charge_kg: float, lfl_kg_m3: float, height_m: float) -> float:
    """IEC 60335-2-40 GG.2: least floor area [m2]."""
    return max(area_by_height(charge_kg, lfl_kg_m3, height_m), charge_kg / (0.75 * lfl_kg_m3 * height_m))


def charge_by_circulation(flow_m3_s: float, lfl_kg_m3: float) -> float:
    """IEC 60335-2-40: charge for which a circulation is large enough, Q = 30 m / LFL in m3/h [kg]."""
    return flow_m3_s * HOUR * lfl_kg_m3 / 30


def charge_by_circulation_2018(flow_m3_s: float, lfl_kg_m3: float) -> float:
    """The same by the older edition, Q = 60 m / LFL in m3/h [kg]."""
    return flow_m3_s * HOUR * lfl_kg_m3 / 60


def by_occupancy(charge_kg: float, factor: float) -> float:
    """ASHRAE 15: a charge times the factor of the occupancy [kg]."""
    return charge_kg * factor


def quarter_of_lfl(lfl_kg_m3: float, volume_m3: float) -> float:
    """Enhanced tightness without a measure: a quarter of LFL over the volume up to 2.2 m [kg]."""
    return lfl_kg_m3 * volume_m3 / 4


def half_of_lfl(lfl_kg_m3: float, volume_m3: float) -> float:
    """Half of LFL over the volume up to 2.2 m [kg]."""
    return lfl_kg_m3 * volume_m3 / 2


def charge_by_join(  # noqa: PLR0917 - what the formula holds
    opening_m2: float, lfl_kg_m3: float, area_m2: float, alone_kg: float, molar_mass: float
) -> float:
    """IEC 60335-2-40: charge for which an opening to the next room is large enough [kg].

    A = (m - m_alone) / (104 LFL) x sqrt(A_room / (g m_alone) x M / (M - 29))
    """
    if alone_kg <= 0 or molar_mass <= AIR:
        return alone_kg
    root = sqrt(area_m2 / (GRAVITY * alone_kg) * molar_mass / (molar_mass - AIR))
    return alone_kg + opening_m2 * OPENING_FACTOR * lfl_kg_m3 / root


def least(*values: float) -> float:
    """Smallest [unit of the inputs]."""
    return min(values)


def most(*values: float) -> float:
    """Largest [unit of the inputs]."""
    return max(values)
