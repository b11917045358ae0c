"""Words with quantities in them, said in either system of units when somebody reads them."""

from __future__ import annotations

from enum import StrEnum

from linewright.model.values import value
from linewright.units import Dimension, UnitSystem, at_least, at_most, show, tube_name, unit_label


class Safe(StrEnum):
    """To which side a quantity is rounded where it is said."""

    NEAREST = "nearest"
    AT_LEAST = "at least"
    AT_MOST = "at most"


@value
class Given:
    """A quantity of a phrase in SI; what is a least amount is never said smaller, nor what is a most amount larger.

    places : decimals, where it is not rounded to the nearest
    """

    value: float
    dimension: Dimension
    safe: Safe = Safe.NEAREST
    places: int = 1


@value
class Phrase:
    """A text whose `{}` stand for the quantities that are given, in their order."""

    text: str
    given: tuple[Given, ...] = ()

    def say(self, system: UnitSystem) -> str:
        """Say it in a system of units."""
        return self.text.format(*(_shown(one, system) for one in self.given))


def phrase(text: str, *given: Given) -> Phrase:
    """Make a phrase; braces in names are kept as they are where they come through `plain`."""
    return Phrase(text=text, given=given)


def plain(name: str) -> str:
    """Give a name as it may stand in the text of a phrase."""
    return name.replace("{", "{{").replace("}", "}}")


def length(metres: float, safe: Safe = Safe.NEAREST) -> Given:
    """Give a length [m]."""
    return Given(value=metres, dimension=Dimension.LENGTH, safe=safe)


def tube(outside_m: float) -> Given:
    """Give a tube by its outside diameter [m]."""
    return Given(value=outside_m, dimension=Dimension.TUBE)


def _shown(one: Given, system: UnitSystem) -> str:
    if one.dimension is Dimension.TUBE:
        return tube_name(one.value, system)
    if one.safe is not Safe.NEAREST:
        rounded = at_least if one.safe is Safe.AT_LEAST else at_most
        number = rounded(one.value, one.dimension, system, places=one.places)
        return f"{number} {unit_label(one.dimension, system)}"
    return show(one.value, one.dimension, system)
