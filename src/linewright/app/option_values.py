"""Values of options, read the same way whoever asks: the command line or the page."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from linewright.app.drawings import revision
from linewright.draw.paper.facts import Revision
from linewright.units import Dimension, UnitFault, UnitSystem, parse_as, show


class Amount(NamedTuple):
    """A quantity that an option takes: what it measures, the least and the most that it may be, in SI."""

    dimension: Dimension
    least: float = 0.0
    most: float = 1000.0


#: Allowances and packages of a take-off.
WASTE = SPARES = Amount(Dimension.RATIO, most=1.0)
COUPLING = Amount(Dimension.LENGTH)
CYLINDER = Amount(Dimension.MASS, 0.1)
NITROGEN = Amount(Dimension.VOLUME, 1e-3)
NITROGEN_AT = Amount(Dimension.PRESSURE, 1e5, 1e8)


def chosen(text: str, names: Iterable[str]) -> str:
    """Read one of some names; raises ValueError."""
    known = tuple(names)
    if text not in known:
        raise ValueError(not_one_of(text, known))
    return text


def not_one_of(text: object, names: Iterable[str]) -> str:
    """Say that something is none of the names that there are."""
    return f"{text!r} is not one of {', '.join(map(repr, names))}"


def amount(text: str, kind: Amount) -> float:
    """Read a quantity with its unit, in SI; raises ValueError."""
    try:
        number = parse_as(text, kind.dimension)
    except UnitFault as error:
        raise ValueError(str(error)) from None
    if not kind.least <= number <= kind.most:
        bounds = [show(bound, kind.dimension, UnitSystem.SI) for bound in (kind.least, kind.most)]
        raise ValueError(f"{text} is out of range: {bounds[0]} to {bounds[1]}")
    return number


def stated_revision(text: str) -> Revision:
    """Read a revision such as `B, 2026-11-20, for tender`; raises ValueError."""
    try:
        return revision(text)
    except ValueError as why:
        raise ValueError(f"{text!r} is no revision: {why}") from None
