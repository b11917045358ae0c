"""What a charge weighs in the climate: t CO2-equivalent, leak checks, and what may no longer be installed.

Warming potentials and rules are dated data: [EU2024-573], [FR2023-28500], [FR89-100381] with the open proposal
[FR2025-19438].
"""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping
from datetime import date
from functools import cache
from pathlib import Path
from typing import NamedTuple

from linewright.model.safety import Region
from linewright.standards.confidence import Confidence
from linewright.standards.refrigerants.blends import gwp
from linewright.units import over

HERE = Path(__file__).parent / "refrigerants"
BASES = ("eu-2024-573", "ar4", "ar5")
#: The basis by which a region's rules count.
OF_REGION: Mapping[Region, str] = {Region.EU: "eu-2024-573", Region.US: "ar4"}
TONNE_KG = 1000.0


class LeakCheck(NamedTuple):
    """A band of [EU2024-573] article 5: from so many t CO2e up to but not with so many, months between checks."""

    annex: str
    unit: str
    at_least: float
    below: float | None
    months: int
    months_with_detection: int
    source: str
    confidence: Confidence


class DateRule(NamedTuple):
    """From a date on nothing with such a warming potential may be installed; `unless` says what may lift it."""

    id: str
    region: Region
    basis: str
    gwp_at_least: float
    above_w: float | None
    up_to_w: float | None
    from_: date
    until: date | None
    unless: str
    source: str
    confidence: Confidence


class Ban(NamedTuple):
    """A rule on a refrigerant: whether it falls under it at all, and whether on the day of installation."""

    rule: DateRule
    gwp: float | None
    falls_under: bool | None
    in_force: bool | None


class Footprint(NamedTuple):
    """Warming potential by basis, the charge in t CO2e by each, months between leak checks, rules on installing.

    `leak_check` is `None` below the first band and where nothing is known; `known` tells which.
    """

    gwp: Mapping[str, float | None]
    tonnes: Mapping[str, float | None]
    leak_check: LeakCheck | None
    known: bool
    bans: tuple[Ban, ...]


@cache
def leak_checks() -> tuple[LeakCheck, ...]:
    """Every band, as the file has them."""
    return tuple(
        LeakCheck(
            row["annex"],
            row["unit"],
            float(row["at_least"]),
            float(row["below"]) if row["below"] else None,
            int(row["months"]),
            int(row["months_with_detection"]),
            row["source"],
            Confidence(row["confidence"]),
        )
        for row in _rows("leak_checks.csv")
    )


@cache
def date_rules() -> tuple[DateRule, ...]:
    """Every rule on installing, as the file has them."""
    return tuple(
        DateRule(
            row["id"],
            Region(row["region"]),
            row["basis"],
            float(row["gwp_at_least"]),
            _watts(row["above_kw"]),
            _watts(row["up_to_kw"]),
            date.fromisoformat(row["from"]),
            date.fromisoformat(row["until"]) if row["until"] else None,
            row["unless"],
            row["source"],
            Confidence(row["confidence"]),
        )
        for row in _rows("gwp_dates.csv")
    )


def _watts(kilowatts: str) -> float | None:
    return float(kilowatts) * 1000 if kilowatts else None


def _rows(name: str) -> Iterator[dict[str, str]]:
    with (HERE / name).open(encoding="utf-8", newline="") as file:
        yield from csv.DictReader(file)


def tonnes(charge_kg: float, potential: float) -> float:
    """Charge in tonnes of CO2-equivalent [t]."""
    return charge_kg * potential / TONNE_KG


def leak_check(tonnes_co2e: float) -> LeakCheck | None:
    """The band of annex I that holds a charge; none below the first."""
    bands = [band for band in leak_checks() if band.annex == "I"]
    return next((band for band in reversed(bands) if not over(band.at_least, tonnes_co2e)), None)


def footprint(
    refrigerant: str, charge_kg: float | None, *, rated_w: float, region: Region | None, installed: date | None
) -> Footprint:
    """Everything of a system's charge [kg]; `rated_w` is its rated cooling [W]."""
    potentials = {basis: gwp(refrigerant, basis) for basis in BASES}
    weights = {
        basis: None if charge_kg is None or potential is None else tonnes(charge_kg, potential)
        for basis, potential in potentials.items()
    }
    weight = weights["eu-2024-573"]
    bans = tuple(
        _ban(rule, potentials[rule.basis], rated_w, installed) for rule in date_rules() if rule.region is region
    )
    return Footprint(potentials, weights, None if weight is None else leak_check(weight), weight is not None, bans)


def _ban(rule: DateRule, potential: float | None, rated_w: float, installed: date | None) -> Ban:
    too_small = rule.above_w is not None and not over(rated_w, rule.above_w)
    if too_small or (rule.up_to_w is not None and over(rated_w, rule.up_to_w)):
        return Ban(rule, potential, falls_under=False, in_force=False)
    under = None if potential is None else not over(rule.gwp_at_least, potential)
    if under is None or installed is None:
        return Ban(rule, potential, falls_under=under, in_force=None if under is not False else False)
    within = installed >= rule.from_ and (rule.until is None or installed < rule.until)
    return Ban(rule, potential, falls_under=under, in_force=under and within)
