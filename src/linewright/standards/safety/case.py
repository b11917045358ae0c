"""One space and what may leak into it, and the verdict on it. Nothing here knows a design or a book."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any, NamedTuple

from linewright.model.safety import Access, Mounting, Occupancy
from linewright.model.values import value
from linewright.units import AreaM2, Dimension, FlowM3S, LengthM, MassKg


@value
class Case:
    """A space and the refrigerant of one system; `None` is not stated.

    low_volume_m3 : volume up to 2.2 m above the floor [m3]
    own_area_m2 : of the room itself where it is part of a larger space, else the same as `area_m2`
    join_m2 : free opening between the rooms of a joined space; `None` where nothing is joined by openings
    underground : whether it is on the lowest floor below the ground
    restricted : whether people sleep there or cannot leave by themselves
    releasable_kg : what can leak with the shut-off valves closed; `None` where there are none
    """

    charge_kg: MassKg
    releasable_kg: MassKg | None = None
    area_m2: AreaM2 | None = None
    volume_m3: float | None = None
    low_volume_m3: float | None = None
    own_area_m2: AreaM2 | None = None
    join_m2: AreaM2 | None = None
    mounting: Mounting | None = None
    access: Access | None = None
    occupancy: Occupancy | None = None
    restricted: bool | None = None
    underground: bool | None = None
    tight: bool = False
    exhaust_m3_s: FlowM3S = 0.0
    circulation_m3_s: FlowM3S = 0.0
    opening_m2: AreaM2 = 0.0
    opening_edge_m: LengthM | None = None
    alarm: bool = False


class Given(NamedTuple):
    """One input of a term: `source` is `case:` and a field, `data:` and a quantity, or `own` for an earlier term."""

    name: str
    value: float
    dimension: Dimension
    source: str


class Term(NamedTuple):
    """One application of a formula, by the name of its function."""

    name: str
    formula: str
    inputs: tuple[Given, ...]
    dimension: Dimension
    value: float
    note: str = ""


class Verdict(NamedTuple):
    """How a charge stands in a space.

    passes : `None` where `needs` are lacking
    charge_kg : what is judged, whole or releasable; bound_kg : the most that the space takes
    clause : of the standard, that gives the bound
    rests_on : what is from memory or disputed here, by the words that a design may state as read
    """

    passes: bool | None
    charge_kg: float | None
    bound_kg: float | None
    clause: str
    note: str = ""
    rests_on: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()
    terms: tuple[Term, ...] = ()


#: What may stay unstated: at its worst, at its best.
DOUBTFUL: Mapping[str, tuple[Any, Any]] = MappingProxyType(
    {
        "mounting": (Mounting.FLOOR, Mounting.CEILING),
        "underground": (True, False),
        "restricted": (True, False),
    }
)
