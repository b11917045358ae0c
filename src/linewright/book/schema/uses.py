"""A measure with its variant, wherever a book names one."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from typing import Annotated

from linewright.book.measures import MeasureName
from linewright.book.schema.family import Origin
from linewright.book.schema.marks import Inline
from linewright.model.values import value
from linewright.units import Amount


class Lengths(StrEnum):
    """Which length of a run counts."""

    ACTUAL = "actual"
    EQUIVALENT = "equivalent"


class InOut(StrEnum):
    """Whether something is counted."""

    IN = "in"
    OUT = "out"


class UpLine(StrEnum):
    """Which line of the main must be up for the main to count as upsized."""

    GAS = "gas"
    LIQUID = "liquid"
    BOTH = "both"


class UpCounts(StrEnum):
    """Whether each upsized run of the main counts, or only a main that is up as a whole."""

    PART = "part"
    WHOLE = "whole"


@value
class UpsizedMain:
    """By how much the main's equivalent length is multiplied when it is so many steps up."""

    factors: Annotated[Mapping[int, float], Inline()]
    line: UpLine = UpLine.BOTH
    counts: UpCounts = UpCounts.PART


class CountBy(StrEnum):
    """What a connection ratio sums."""

    INDEX = "index"
    COOLING = "cooling"
    HEATING = "heating"
    SIMULTANEOUS = "simultaneous"


class Below(StrEnum):
    """Whether a unit hangs somewhere below a header."""

    HEADER = "header"
    JOINT = "joint"


class Side(StrEnum):
    """Whether the outdoor group stands above or below a unit."""

    ABOVE = "above"
    BELOW = "below"


@value
class Where:
    """A filter on the series of a measure."""

    kind: tuple[str, ...] = ()
    exclude_kind: tuple[str, ...] = ()
    model: tuple[str, ...] = ()
    below: Below | None = None
    outdoor: Side | None = None


@value
class MeasureUse:
    """A measure with its variant."""

    measure: MeasureName
    lengths: Lengths | None = None
    origin: Origin | None = None
    upsized_main: UpsizedMain | None = None
    upsized_twice: bool = False
    module_pipes: InOut = InOut.OUT
    each_tube: bool = False
    first_branch_allowance: InOut = InOut.OUT
    in_all: bool = False
    count_by: CountBy = CountBy.INDEX
    where: Where | None = None


class SiteValue(StrEnum):
    """What a design states of its site."""

    COOLING_OUTDOOR_DB = "cooling.outdoor_db"
    COOLING_INDOOR_WB = "cooling.indoor_wb"
    HEATING_OUTDOOR_WB = "heating.outdoor_wb"
    HEATING_INDOOR_DB = "heating.indoor_db"
    ALTITUDE = "altitude"


@value
class Condition(MeasureUse):
    """When a rule applies: a measure or a value of the site beyond a bound, a declaration, an option that is on."""

    measure: MeasureName | None = None  # type: ignore[assignment]
    declared: str = ""
    option: str = ""
    not_option: str = ""
    site: SiteValue | None = None
    over: Amount | None = None
    under: Amount | None = None
    at_least: Amount | None = None
    at_most: Amount | None = None
