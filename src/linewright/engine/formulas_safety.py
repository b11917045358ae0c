"""Formulas of refrigerant in rooms, registered once; the functions are those of the standards.

What a standard's table says of a refrigerant is a formula of its name, so that a reader can follow every figure to
where it is published.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from linewright.engine.formulas import formula
from linewright.engine.spaces import KNOWN_MOUNTING
from linewright.model.safety import Mounting, Occupancy, Profile
from linewright.standards.refrigerants.blends import molar_mass
from linewright.standards.safety import formulas as known
from linewright.standards.safety.en378 import HEIGHTS
from linewright.standards.safety.profiles import STANDARDS

SOURCE = "docs/safety.md"
OF_STANDARDS: tuple[Callable[..., float], ...] = (
    known.volume,
    known.low_volume,
    known.held,
    known.free_charge,
    known.free_charge_flammable,
    known.most_charge,
    known.most_charge_flammable,
    known.most_charge_explosive,
    known.charge_by_height,
    known.tight_volume,
    known.most_tight_charge,
    known.most_tight_charge_flammable,
    known.charge_by_opening,
    known.charge_by_exhaust,
    known.edvc,
    known.occupancy_factor,
    known.free_charge_a2l,
    known.most_charge_a2l,
    known.most_tight_charge_a2l,
    known.stirred_charge,
    known.mixed_volume,
    known.unstirred_charge,
    known.charge_by_circulation,
    known.charge_by_circulation_2018,
    known.by_occupancy,
    known.quarter_of_lfl,
    known.half_of_lfl,
    known.charge_by_join,
    known.least,
    known.most,
)
for _one in OF_STANDARDS:
    formula((_one.__doc__ or "").partition("\n")[0].rstrip("."), SOURCE)(_one)
formula("molar mass by composition [g/mol]", SOURCE)(molar_mass)


@formula("height by mounting: floor 0.6, window 1.0, wall 1.8, ceiling 2.2 m", SOURCE)
def mounting_height(word: str) -> float:
    """Height h0 by how a unit hangs, stated or by its kind [m]."""
    return HEIGHTS[Mounting(word) if word in set(Mounting) else KNOWN_MOUNTING[word]]


@formula("height of what stands on the floor, or of which nobody says how it hangs: 0.6 m", SOURCE)
def floor_height() -> float:
    """Least height h0 [m]."""
    return HEIGHTS[Mounting.FLOOR]


@formula("one where the occupancy is institutional, else none", SOURCE)
def institutional(word: str) -> float:
    """Whether an occupancy is institutional [1]."""
    return float(word == Occupancy.INSTITUTIONAL)


QUANTITIES = {
    Profile.EN_378: ("concentration", "lfl", "rcl", "qlmv", "qlav"),
    Profile.ASHRAE_15: ("rcl", "lfl"),
    Profile.IEC_60335: ("lfl",),
}


def published_value(profile: Profile, quantity: str, refrigerant: str) -> float:
    """What a standard's table says of a refrigerant [kg/m3]."""
    datum = getattr(STANDARDS[profile].fluid(refrigerant), quantity)
    return float(datum.value)


def table_formula(profile: Profile, quantity: str) -> str:
    """Name of the formula that looks a quantity up in a standard's table."""
    return f"{STANDARDS[profile].basis}_{quantity}"


for _profile, _quantities in QUANTITIES.items():
    for _quantity in _quantities:
        _look_up = partial(published_value, _profile, _quantity)
        _look_up.__name__ = table_formula(_profile, _quantity)  # type: ignore[attr-defined]
        formula(f"{_quantity.upper()} of the refrigerant by {STANDARDS[_profile].title}", SOURCE)(_look_up)
