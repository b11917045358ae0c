"""Cures and rules of refrigerant in rooms in words; amounts are rounded to the safe side."""

from __future__ import annotations

from linewright.standards.environment import Ban
from linewright.standards.safety.cures import Cure, Part
from linewright.units import Dimension, UnitSystem, at_least, at_most, unit_label

_WORDS = {
    "area": "a floor of at least {}",
    "volume": "{} of volume",
    "tight": "pipe made tight (tight: yes)",
    "alarm": "a detector with alarm",
    "exhaust": "exhaust of at least {}",
    "circulation": "circulation of at least {}",
    "openings": "two openings, high and low, of at least {} each",
    "releasable": "shut-off valves that leave at most {}",
}
#: Decimals by unit: fine enough that rounding to the safe side costs little.
_PLACES = {Dimension.AREA: 3, Dimension.VOLUME: 1, Dimension.FLOW: 1, Dimension.MASS: 2}


def cure_words(cure: Cure, system: UnitSystem) -> str:
    """Say what is done together."""
    return " with ".join(_part(part, system) for part in cure.parts)


def _part(part: Part, system: UnitSystem) -> str:
    words = _WORDS[part.what]
    return words if part.value is None else words.format(safe(part, system))


def safe(part: Part, system: UnitSystem) -> str:
    """An amount with its unit, rounded up, or down where it is the most."""
    places = 1 if part.what in ("area", "volume") else _PLACES[part.dimension]
    rounded = at_most if part.what == "releasable" else at_least
    return f"{rounded(part.value or 0.0, part.dimension, system, places=places)} {unit_label(part.dimension, system)}"


def ban_words(ban: Ban) -> str:
    """Say from when on a rule forbids installing."""
    rule = ban.rule
    until = "" if rule.until is None else f" until {rule.until.isoformat()}"
    first = f"GWP of {rule.gwp_at_least:g} or more not installed from {rule.from_.isoformat()}{until} on"
    return f"{first}, unless {rule.unless}"
