"""Published values of pipework out of the files beside this one, each with its source and confidence."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from functools import cache, lru_cache
from pathlib import Path
from types import MappingProxyType
from typing import NamedTuple

from linewright.model.pipework import StrengthCode, Supports
from linewright.standards.confidence import Confidence
from linewright.standards.tube import StandardTube, astm_b280
from linewright.units import from_unit, same_tube

HERE = Path(__file__).parent


def rows(name: str) -> list[dict[str, str]]:
    """Rows of a file as they are written."""
    with (HERE / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


class Default(NamedTuple):
    """What stands in for a value that a design leaves out, in SI."""

    key: str
    value: float
    source: str
    confidence: Confidence


class Stress(NamedTuple):
    """Allowable stresses [Pa] of one temper by temperature [degC], in rising order."""

    degc: tuple[float, ...]
    pa: tuple[float, ...]
    source: str
    confidence: Confidence


class SoldWall(NamedTuple):
    """A wall that tube is sold with [m]."""

    od_m: float
    wall_m: float
    temper: str
    source: str
    confidence: Confidence


@cache
def defaults() -> Mapping[str, Default]:
    """Every default by key."""
    found = {}
    for row in rows("defaults"):
        si = from_unit(float(row["value"]), row["unit"])
        found[row["key"]] = Default(row["key"], si, row["source"], Confidence(row["confidence"]))
    return MappingProxyType(found)


@cache
def stresses() -> Mapping[tuple[StrengthCode, str], Stress]:
    """Allowable stresses by code and temper."""
    found: dict[tuple[StrengthCode, str], list[tuple[float, float, str, str]]] = {}
    for row in rows("copper_stress"):
        degc = from_unit(float(row["temperature"]), row["temperature_unit"])
        pa = from_unit(float(row["stress"]), row["stress_unit"])
        key = StrengthCode(row["code"]), row["temper"]
        found.setdefault(key, []).append((degc, pa, row["source"], row["confidence"]))
    return MappingProxyType(
        {
            key: Stress(
                tuple(item[0] for item in items), tuple(item[1] for item in items), items[0][2], Confidence(items[0][3])
            )
            for key, items in found.items()
        }
    )


@cache
def sold_walls() -> tuple[SoldWall, ...]:
    """Walls that are sold: those of [ASTM-B280], then those of common practice."""
    standard = [
        SoldWall(tube.od_m, tube.wall_m, tube.temper.value, tube.source, tube.wall_confidence) for tube in astm_b280()
    ]
    common = [
        SoldWall(
            from_unit(float(row["od_mm"]), "mm"),
            from_unit(float(row["wall_mm"]), "mm"),
            row["temper"],
            row["source"],
            Confidence(row["confidence"]),
        )
        for row in rows("sold_walls")
    ]
    return (*standard, *common)


def standard_tube(od_m: float, wall_m: float, temper: str) -> StandardTube | None:
    """The tube of [ASTM-B280] with this outside diameter, wall and temper."""
    return next(
        (
            tube
            for tube in astm_b280()
            if same_tube(tube.od_m, od_m) and abs(tube.wall_m - wall_m) < _SAME_WALL_M and tube.temper.value == temper
        ),
        None,
    )


#: Walls of inch tube that are written in millimetres differ in the last digit.
_SAME_WALL_M = 6e-6


class CoilTolerance(NamedTuple):
    """What outside diameter and wall of a coil may differ by [m]."""

    od_m: float
    wall_m: float
    confidence: Confidence


def coil_tolerance(od_m: float) -> CoilTolerance | None:
    """Tolerances of an annealed coil of [ASTM-B280] by its size."""
    for row in rows_once("coil_tolerances"):
        size, od, wall = (from_unit(float(row[key]), "in") for key in ("od_in", "od_tolerance_in", "wall_tolerance_in"))
        if same_tube(size, od_m):
            return CoilTolerance(od, wall, Confidence(row["confidence"]))
    return None


class Spacing(NamedTuple):
    """Largest distance between supports of tube of one size [m]."""

    spacing_m: float
    source: str
    confidence: Confidence


#: Nominal size of plumbing tube is its outside diameter less an eighth of an inch.
_NOMINAL_LESS_M = from_unit(0.125, "in")


@lru_cache(maxsize=1000)
def spacing_of(table: Supports, od_m: float) -> Spacing | None:
    """Largest spacing of supports by a table; none where it has no such size."""
    if table is Supports.EN_378:
        for row in rows_once("supports_en378"):
            low, high = (from_unit(float(row[key]), "mm") for key in ("od_from_mm", "od_below_mm"))
            if low - 1e-4 <= od_m < high - 1e-4:
                return Spacing(float(row["spacing_m"]), row["source"], Confidence(row["confidence"]))
        return None
    listed = [row for row in rows_once("supports") if row["table"] == table]
    edges = [from_unit(float(row["nominal_in"]), "in") + _NOMINAL_LESS_M for row in listed]
    if od_m > edges[-1] and not same_tube(od_m, edges[-1]):
        return None
    # Between two nominal sizes the smaller one counts; below the first one its own.
    at = max((i for i, edge in enumerate(edges) if edge <= od_m or same_tube(od_m, edge)), default=0)
    row = listed[at]
    return Spacing(from_unit(float(row["spacing"]), row["unit"]), row["source"], Confidence(row["confidence"]))


@cache
def rows_once(name: str) -> tuple[dict[str, str], ...]:
    """Rows of a file, read once."""
    return tuple(rows(name))


def high_side_of(ambient_degc: float) -> float | None:
    """Design temperature of an air-cooled high side by EN 378-2 for an ambient [degC]; none beyond the table."""
    return _design_temperature("high_side_degc", ambient_degc)


def low_side_of(ambient_degc: float) -> float | None:
    """Design temperature of a low side outdoors by EN 378-2 for an ambient [degC]; none beyond the table."""
    return _design_temperature("low_side_degc", ambient_degc)


def _design_temperature(side: str, ambient_degc: float) -> float | None:
    for row in rows_once("design_temperatures"):
        if ambient_degc <= float(row["ambient_degc"]) + 1e-9:
            return float(row[side])
    return None


def pressure_beyond(refrigerant: str, t_degc: float) -> float | None:
    """Gauge pressure of saturation where the tables of properties end [Pa], to the hundredth of a MPa; else none."""
    for row in rows_once("design_pressures"):
        if row["refrigerant"] == refrigerant and abs(float(row["saturation_degc"]) - t_degc) < 1e-9:
            return from_unit(float(row["gauge_mpa"]), "MPa")
    return None


class MinimumRow(NamedTuple):
    """Least insulation [m] by size in a range of line temperature [degC], for conductivities between two bounds."""

    above_degc: float
    upto_degc: float
    least_k: float
    most_k: float
    edges_m: tuple[float, ...]
    thickness_m: tuple[float, ...]
    source: str
    confidence: Confidence

    def thickness(self, od_m: float) -> float:
        """Least insulation of a size."""
        return next(
            thickness for edge, thickness in zip(self.edges_m, self.thickness_m, strict=True) if od_m < edge - 1e-9
        )


@cache
def minimum_rows() -> tuple[MinimumRow, ...]:
    """Least insulation by the energy code."""
    edges = (0.025, 0.040, 0.100, 0.200, float("inf"))
    keys = ("below_25_mm", "below_40_mm", "below_100_mm", "below_200_mm", "from_200_mm")
    return tuple(
        MinimumRow(
            float(row["above_degc"] or "-inf"),
            float(row["upto_degc"]),
            float(row["least_conductivity"]),
            float(row["most_conductivity"]),
            edges,
            tuple(from_unit(float(row[key]), "mm") for key in keys),
            row["source"],
            Confidence(row["confidence"]),
        )
        for row in rows("insulation_minimum")
    )
