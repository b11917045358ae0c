"""Copper tube for refrigeration service: the sizes and masses of ASTM B280 [ASTM-B280].

The data file beside this one holds the figures as they are printed, each with its source and how far it
may be trusted: drawn straight lengths from the standard's own table, annealed coils from a reprint
[ETB-1084].
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from enum import StrEnum
from functools import cache
from pathlib import Path

from linewright.model.values import value
from linewright.standards.confidence import Confidence
from linewright.units import LengthM, LinearMassKgM, TubeM, from_unit

DATA = Path(__file__).with_name("astm_b280.csv")


class Form(StrEnum):
    """How tube is delivered."""

    STRAIGHT = "straight"
    COIL = "coil"


class Temper(StrEnum):
    """How hard the copper is."""

    DRAWN = "drawn"
    ANNEALED = "annealed"


@value
class Tolerance:
    """What a figure may differ by, up or down [m]."""

    plus_minus_m: LengthM
    confidence: Confidence


@value
class StandardTube:
    """One size of tube: outside diameter, wall [m] and mass per length [kg/m], each with its confidence."""

    form: Form
    temper: Temper
    size_in: str
    od_m: TubeM
    od_confidence: Confidence
    wall_m: LengthM
    wall_confidence: Confidence
    mass_kg_m: LinearMassKgM
    mass_confidence: Confidence
    od_tolerance: Tolerance | None
    wall_tolerance: Tolerance | None
    source: str
    mass_source: str


@cache
def astm_b280() -> tuple[StandardTube, ...]:
    """Every size of the data file in its order: straight lengths, then coils, small to large.

    Inches are the standard's own figures and are converted here; the mass is the printed kg/m where there
    is one, else converted from lb/ft. Sources: [ASTM-B280], [ETB-1084].
    """
    with DATA.open(encoding="utf-8", newline="") as file:
        return tuple(_tube(row) for row in csv.DictReader(file))


def _tube(row: Mapping[str, str]) -> StandardTube:
    printed = row["mass_kg_m"]
    return StandardTube(
        form=Form(row["form"]),
        temper=Temper(row["temper"]),
        size_in=row["size_in"],
        od_m=from_unit(float(row["od_in"]), "in"),
        od_confidence=Confidence(row["od_confidence"]),
        wall_m=from_unit(float(row["wall_in"]), "in"),
        wall_confidence=Confidence(row["wall_confidence"]),
        mass_kg_m=float(printed) if printed else from_unit(float(row["mass_lb_ft"]), "lb/ft"),
        mass_confidence=Confidence(row["mass_confidence"]),
        od_tolerance=_tolerance(row, "od"),
        wall_tolerance=_tolerance(row, "wall"),
        source=row["source"],
        mass_source=row["mass_source"],
    )


def _tolerance(row: Mapping[str, str], of: str) -> Tolerance | None:
    printed = row[f"{of}_tolerance_in"]
    if not printed:
        return None
    confidence = Confidence(row[f"{of}_tolerance_confidence"])
    return Tolerance(plus_minus_m=from_unit(float(printed), "in"), confidence=confidence)
