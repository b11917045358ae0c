"""The values of refrigerants as they are published, each with edition, source and confidence.

Each basis is a file of its own, so that no profile can read what belongs to another: EN 378 [RSIF], [EN378-COPY];
ASHRAE 34 [IMC-1103], [ASHRAE34]; IEC 60335-2-40 [IEC60335-2-40]; composition [RSIF]; warming [EU2024-573].
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from enum import StrEnum
from functools import cache
from pathlib import Path
from types import MappingProxyType
from typing import NamedTuple

from linewright.standards.confidence import Confidence

HERE = Path(__file__).parent
_SPELLINGS = str.maketrans("", "", "- ")


class Basis(StrEnum):
    """A file of values."""

    EN_378 = "en378"
    ASHRAE_34 = "ashrae34"
    IEC_60335 = "iec60335"
    COMPOSITION = "composition"
    GWP = "gwp"


class Datum(NamedTuple):
    """One published value in the unit that stands beside it; `disputed` where tables differ, and then the lower one."""

    quantity: str
    text: str
    unit: str
    edition: str
    source: str
    confidence: Confidence
    note: str = ""
    disputed: bool = False

    @property
    def value(self) -> float:
        """The number."""
        return float(self.text)

    @property
    def is_sure(self) -> bool:
        """Whether a verdict may rest on it alone."""
        return self.confidence.is_sure and not self.disputed


Row = Mapping[str, Datum]


@cache
def published(basis: Basis) -> Mapping[str, Row]:
    """Every value of a basis by refrigerant and quantity; of several figures for one quantity the lowest."""
    found: dict[str, dict[str, Datum]] = {}
    for name, datum in rows(basis):
        of = found.setdefault(name, {})
        other = of.get(datum.quantity)
        of[datum.quantity] = datum if other is None else _lower(other, datum)
    return MappingProxyType({name: MappingProxyType(of) for name, of in found.items()})


@cache
def rows(basis: Basis) -> tuple[tuple[str, Datum], ...]:
    """Every row of a file in its order, by refrigerant."""
    with (HERE / f"{basis}.csv").open(encoding="utf-8", newline="") as file:
        return tuple((row["refrigerant"], _datum(row)) for row in csv.DictReader(file))


def _datum(row: Mapping[str, str]) -> Datum:
    return Datum(
        row["quantity"],
        row["value"],
        row["unit"],
        row["edition"],
        row["source"],
        Confidence(row["confidence"]),
        row["note"],
    )


def _lower(one: Datum, other: Datum) -> Datum:
    if one.value == other.value:
        return one
    return min(one, other, key=lambda datum: datum.value)._replace(disputed=True)


def designation(basis: Basis, name: str) -> str | None:
    """The designation of a refrigerant in any spelling (`R32`, `r-32`); none where the basis has no values of it."""
    wanted = name.upper().translate(_SPELLINGS)
    return next((known for known in published(basis) if known.upper().translate(_SPELLINGS) == wanted), None)
