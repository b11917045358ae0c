"""What follows from the composition of a blend: molar mass, warming potential, occupational limit.

Mass shares [RSIF]; molar masses [COOLPROP]; the sum over mass shares is that of [EU2024-573] annex VI; the occupational
limit of a blend is 1 / sum(x / limit) over mole fractions [ASHRAE34].
"""

from __future__ import annotations

from collections.abc import Mapping

from linewright.standards.refrigerants.data import Basis, Datum, designation, published

_SHARE = "share:"


def shares(name: str) -> Mapping[str, float]:
    """Mass shares of the components [1]; a pure refrigerant is one of itself."""
    row = published(Basis.COMPOSITION)[name]
    found = {datum.quantity.removeprefix(_SHARE): datum.value / 100 for datum in row.values() if _is_share(datum)}
    return found or {name: 1.0}


def molar_mass(name: str) -> float:
    """Molar mass [g/mol]; KeyError for a refrigerant without a composition here."""
    name = designation(Basis.COMPOSITION, name) or name
    return 1 / sum(share / _own_mass(component) for component, share in shares(name).items())


def mole_fractions(name: str) -> Mapping[str, float]:
    """Mole fractions of the components [1]."""
    mass = molar_mass(name)
    return {component: share * mass / _own_mass(component) for component, share in shares(name).items()}


def gwp(name: str, basis: str) -> float | None:
    """Global warming potential over 100 years by one basis [1]; none where a component has no value there.

    basis : `eu-2024-573`, `ar4` or `ar5`
    """
    known = designation(Basis.COMPOSITION, name)
    if known is None:
        return None
    values = published(Basis.GWP)
    parts = [(share, values.get(component, {}).get(basis)) for component, share in shares(known).items()]
    if any(datum is None for _, datum in parts):
        return None
    return sum(share * datum.value for share, datum in parts if datum is not None)


def blend_oel(name: str, limits: Mapping[str, float]) -> float:
    """Occupational exposure limit of a blend [ppm] from those of its components."""
    return 1 / sum(fraction / limits[component] for component, fraction in mole_fractions(name).items())


def _own_mass(component: str) -> float:
    return published(Basis.COMPOSITION)[component]["molar_mass"].value


def _is_share(datum: Datum) -> bool:
    return datum.quantity.startswith(_SHARE)
