"""Which units count, and by what they are counted."""

from __future__ import annotations

from enum import StrEnum

from linewright.model.values import value


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
