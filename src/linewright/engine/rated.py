"""The capacity of a system in one mode as far as no length decides it: the same as long as its units and site are."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from linewright.book.capacity import ModeTables, for_group
from linewright.engine.capacity_records import Factor, InputPower, Power
from linewright.engine.factors import Conditions, Inputs, absent, look_up, temperature_factor
from linewright.engine.frame import Frame
from linewright.engine.input_power import find_input
from linewright.engine.power import find_power
from linewright.engine.ratings import UnitRatings, unit_ratings
from linewright.model.design import Site
from linewright.units import Dimension


class Rated(NamedTuple):
    """Rated or looked-up capacity and input [W], the factors that no length decides, the ratings of the units.

    total_w : sum of the ratings that are known
    housed : whether a unit has a room
    """

    mode: str
    tables: ModeTables
    power: Power | None
    used: InputPower | None
    rated_w: float
    factors: tuple[Factor, ...]
    ratings: UnitRatings
    total_w: float
    housed: tuple[bool, ...]


def rated_capacity(frame: Frame, site: Site, tables: ModeTables, conditions: Conditions) -> Rated:
    """Give what a group of the book can do with these units at the air of the site."""
    power, ratings = find_power(frame, tables, conditions), unit_ratings(frame, tables, conditions)
    rated_w = frame.rated_heating_w if conditions.mode == "heating" else frame.rated_cooling_w
    if power is not None:
        rated_w = power.capacity_w if power.capacity_w is not None else 0.0
    return Rated(
        conditions.mode,
        tables,
        power,
        find_input(frame, tables, conditions, power),
        rated_w,
        tuple(_common_factors(frame, site, tables, conditions)),
        ratings,
        sum([rating for rating in ratings.total_w if rating is not None]),
        tuple([bool(unit.room) for unit in frame.units]),
    )


def _common_factors(frame: Frame, site: Site, tables: ModeTables, conditions: Conditions) -> list[Factor]:
    factors = list(_named(site, tables))
    if tables.power:
        return [*factors, *_length_and_defrost(frame, tables, conditions)]
    temperature = for_group(tables.temperature, frame.group_id)
    if temperature is not None:
        factors.append(temperature_factor(temperature.table, conditions))
    elif tables.temperature:
        factors.append(absent("temperature", f"a temperature table for group {frame.group_id}"))
    ratio = for_group(tables.ratio, frame.group_id)
    if ratio is not None:
        connected = frame.index_sum / frame.group.index
        inputs: Inputs = (("connection ratio", connected, Dimension.RATIO, "connection_ratio"),)
        factors.append(look_up("connection_ratio", ratio.table, inputs))
    elif tables.ratio:
        factors.append(absent("connection_ratio", f"a ratio table for group {frame.group_id}"))
    return [*factors, *_length_and_defrost(frame, tables, conditions)]


def _length_and_defrost(frame: Frame, tables: ModeTables, conditions: Conditions) -> Iterator[Factor]:
    if tables.length and for_group(tables.length, frame.group_id) is None:
        yield absent("length", f"a length table for group {frame.group_id}")
    if tables.defrost is not None and not tables.defrost_included and conditions.mode == "heating":
        outdoor = conditions.degc["outdoor_wb"]
        inputs: Inputs = (("outdoor wet bulb", outdoor, Dimension.TEMPERATURE, "site.heating.outdoor_wb"),)
        yield look_up("defrost", tables.defrost, inputs)


def _named(site: Site, tables: ModeTables) -> Iterator[Factor]:
    """Factors by what else the site states: its altitude."""
    altitude = site.altitude_m
    for name, table in tables.named:
        if altitude is None:
            yield absent(name, "the altitude of the site")
        else:
            yield look_up(name, table, (("altitude", altitude, Dimension.LENGTH, "site.altitude"),))
