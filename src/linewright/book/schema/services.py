"""Electrical supply and condensate of models, as the maker prints them: kept and passed through, judged by nothing."""

from __future__ import annotations

from enum import StrEnum
from typing import Annotated

from linewright.book.schema.marks import OneOrMany
from linewright.model.values import value
from linewright.units import CurrentA, ElectricW, FrequencyHz, LengthM, VoltageV


class SuppliedFrom(StrEnum):
    """Whether a model has a circuit of its own, or is supplied from the outdoor unit."""

    OWN = "own"
    OUTDOOR = "outdoor"


class Drain(StrEnum):
    """How condensate leaves a unit; a pump kit is sold apart, without it the unit drains by gravity."""

    GRAVITY = "gravity"
    PUMP = "pump"
    PUMP_KIT = "pump-kit"


@value
class SupplyRow:
    """One supply of one or several models; a model that may be had for several supplies has a row for each.

    What is not stated is not in the book: nothing stands for it, and no figure takes the place of another.
    """

    model: Annotated[tuple[str, ...], OneOrMany()]
    from_: SuppliedFrom | None = None
    phases: int | None = None
    voltage_v: Annotated[tuple[VoltageV, ...], OneOrMany()] = ()
    voltage_to_v: VoltageV | None = None
    frequency_hz: Annotated[tuple[FrequencyHz, ...], OneOrMany()] = ()
    min_circuit_current_a: CurrentA | None = None
    max_overcurrent_a: CurrentA | None = None
    running_current_a: CurrentA | None = None
    input_w: ElectricW | None = None
    text: str = ""
    page: int | None = None


@value
class SupplyTable:
    """Electrical data by model."""

    rows: tuple[SupplyRow, ...]
    page: int | None = None


@value
class DrainRow:
    """Condensate of one or several models: the connection in the maker's own words, the lift of a pump."""

    model: Annotated[tuple[str, ...], OneOrMany()]
    drain: Drain | None = None
    connection: str = ""
    lift_m: LengthM | None = None
    text: str = ""
    page: int | None = None


@value
class DrainTable:
    """Condensate data by model."""

    rows: tuple[DrainRow, ...]
    page: int | None = None
