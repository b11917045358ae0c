"""Keeping what is worked out: each application of a formula with its inputs, in order."""

from __future__ import annotations

from collections.abc import Callable

from linewright.standards.refrigerants.data import Datum
from linewright.standards.safety.case import Given, Term
from linewright.units import Dimension

#: What a verdict rests on where a value is remembered or tables differ.
DATA = "data"


class Terms:
    """The terms of one verdict, and what they rest on."""

    def __init__(self) -> None:
        """Begin without terms."""
        self.terms: list[Term] = []
        self.unsure: dict[str, None] = {}

    def add(
        self, name: str, formula: Callable[..., float], *inputs: Given, dimension: Dimension = Dimension.MASS
    ) -> Given:
        """Apply a formula; gives its result as an input of the next."""
        found = formula(*(item.value for item in inputs))
        self.terms.append(Term(name, formula.__name__, inputs, dimension, found))
        return Given(name, found, dimension, "own")

    def rest_on(self, what: str) -> None:
        """Keep that a rule is from memory or disputed."""
        self.unsure[what] = None

    def datum(self, name: str, datum: Datum) -> Given:
        """Give a published value as an input [kg/m3]."""
        if not datum.is_sure:
            self.rest_on(DATA)
        return Given(name, datum.value, Dimension.DENSITY, f"data:{datum.quantity}")


def stated(name: str, value: float, dimension: Dimension, field: str) -> Given:
    """Give what a case states as an input."""
    return Given(name, value, dimension, f"case:{field}")
