"""Quantities of a book in messages, and whether they are of the right kind."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Protocol

from linewright.units import Amount, Dimension
from linewright.units.faults import EXPECTED


class Report(Protocol):
    """Takes one fault: path, what is wrong, what would be right."""

    def __call__(self, path: str, message: str, expected: str = "") -> None:
        """Note the fault."""


def noun(dimension: Dimension) -> str:
    """Name a dimension with its article: `a length`."""
    return EXPECTED[dimension].partition(" such as")[0]


def said(value: float, dimension: Dimension) -> str:
    """Give an SI value with its unit, to as many digits as are needed."""
    if dimension is Dimension.RATIO:
        return f"{value * 100:.9g} %"
    unit = dimension.si
    return f"{value:.9g} {unit}" if unit != Dimension.NUMBER.si else f"{value:.9g}"


def fits(amount: Amount, dimension: Dimension) -> bool:
    """Say whether a quantity is of a dimension; a ratio may be written as a bare number."""
    return amount.dimension is dimension or (dimension is Dimension.RATIO and amount.dimension is Dimension.NUMBER)


def check_dimension(amount: Amount, dimension: Dimension, where: str, *, report: Report) -> bool:
    """Note a fault when a quantity is not of the dimension that is due; says whether it is."""
    good = fits(amount, dimension)
    if not good:
        message = f"this is {noun(amount.dimension)}, not {noun(dimension)}"
        report(where, message, EXPECTED[dimension])
    return good


def check_positive(values: Mapping[str, float | None], path: str, report: Report) -> None:
    """Note every value that is not above zero, by key."""
    for key, value in values.items():
        if value is not None and value <= 0:
            report(f"{path}.{key}", f"'{key}' is not above zero", "more than zero")


def check_not_negative(values: Mapping[str, float | None], path: str, report: Report) -> None:
    """Note every value that is below zero, by key."""
    for key, value in values.items():
        if value is not None and value < 0:
            report(f"{path}.{key}", f"'{key}' is negative", "zero or more")
