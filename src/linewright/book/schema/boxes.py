"""Mode boxes of a heat-recovery family, and what may stand where."""

from __future__ import annotations

from dataclasses import field
from typing import Annotated

from linewright.book.schema.marks import ByRole, OneOrMany
from linewright.book.schema.services import SupplyTable
from linewright.model.values import no_entries, value


@value
class Joined:
    """So many ports that serve as one, and what they may carry together."""

    ports: int
    index: float | None = None
    units: int | None = None


@value
class Outlet:
    """Tube sizes of one port."""

    sizes: ByRole = field(default_factory=no_entries)


@value
class BoxModel:
    """One mode box: its ports, what they may carry, and its connections on the side of the outdoor group.

    `index` is the largest through all its own ports, `series_index` the largest that its through pipe carries on.
    """

    model: str
    ports: int
    index: float
    port_index: float | None = None
    units_per_port: int | None = None
    joined: Annotated[tuple[Joined, ...], OneOrMany()] = ()
    series_index: float | None = None
    connections: ByRole = field(default_factory=no_entries)
    outlet: Outlet | None = None
    page: int | None = None


@value
class InSeries:
    """How many boxes may stand one behind another."""

    max: int
    page: int | None = None


@value
class Direct:
    """Units that may hang on the pipe before the boxes and then only cool; without a filter any may."""

    kind: tuple[str, ...] = ()
    model: tuple[str, ...] = ()
    page: int | None = None


@value
class Boxes:
    """The mode boxes of the family."""

    models: tuple[BoxModel, ...]
    series: InSeries | None = None
    direct: Direct | None = None
    electrical: SupplyTable | None = None
    page: int | None = None
