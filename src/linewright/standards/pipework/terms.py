"""Keeping what is worked out of pipework: each application of a formula with its inputs, in order."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from linewright.units import Dimension

OWN = "own"


class Given(NamedTuple):
    """One input: a number or a word, and where it stands.

    source : `own` for an earlier term; `design:`, `system:` or `book:` and a path within it; `subject:` and another
        subject of the system
    """

    name: str
    value: float | str
    dimension: Dimension
    source: str

    @property
    def number(self) -> float:
        """The number."""
        return float(self.value)


class Term(NamedTuple):
    """One application of a formula, by the name of its function."""

    name: str
    formula: str
    inputs: tuple[Given, ...]
    dimension: Dimension
    value: float


class Terms:
    """Terms in order, and what they rest on that was only remembered."""

    def __init__(self) -> None:
        """Begin without terms."""
        self.terms: list[Term] = []
        self.unsure: dict[str, None] = {}

    def add(self, name: str, formula: Callable[..., float], *inputs: Given, dimension: Dimension) -> Given:
        """Apply a formula; gives its result as an input of the next."""
        found = formula(*(item.value for item in inputs))
        self.terms.append(Term(name, formula.__name__, inputs, dimension, found))
        return Given(name, found, dimension, OWN)

    def rest_on(self, what: str) -> None:
        """Keep that a value is from memory."""
        self.unsure[what] = None
