"""What a system can do in one mode, with the look-ups and factors that it comes from."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from linewright.units import Dimension


class Factor(NamedTuple):
    """One factor of the system's capacity, with the table entries that it came from."""

    name: str
    value: float | None
    path: str
    page: int | None
    inputs: tuple[tuple[str, float, Dimension, str], ...]
    corner: tuple[float, ...] | None
    missing: str = ""
    key: str = "factor"


class Power(NamedTuple):
    """Capacity [W] and input [W] with the look-ups that they come from; `missing` where there is no capacity."""

    capacity_w: float | None
    input_w: float | None
    looked_up: tuple[Factor, ...]
    inputs: tuple[Factor, ...]
    ratios: tuple[float, float] | None
    missing: str = ""


class InputPower(NamedTuple):
    """Power that the outdoor group takes up [W]: rated times factors, or looked up; no rating where it is looked up.

    `ratios` are the connection ratios of the two tables between which it lies.
    """

    rated_w: float | None
    factors: tuple[Factor, ...]
    ratios: tuple[float, float] | None
    input_w: float | None
    missing: str = ""


class SystemCapacity(NamedTuple):
    """The system's capacity in one mode [W].

    `plant_w` is rated times its common factors; `capacity_w` is that, or with a factor for each unit the mean by
    rating.
    """

    mode: str
    rated_w: float | None
    power: Power | None
    used: InputPower | None
    factors: tuple[Factor, ...]
    unit_length_factors: Mapping[str, Factor]
    ratings_w: float | None
    plant_w: float | None
    capacity_w: float | None
    delivered_w: float | None
    block_w: float | None
    coincident_w: float | None
    missing: tuple[str, ...]
