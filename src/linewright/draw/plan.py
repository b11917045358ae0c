"""The sheet in true coordinates: metres of reach along the axis, lane numbers across it. No pixels here."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from enum import StrEnum
from itertools import chain
from typing import NamedTuple

from linewright.book.schema import Book
from linewright.engine.records import Check, Evaluation, RoomResult, RunResult, SystemResult, UnitResult
from linewright.model.values import NodeKind, no_entries, value
from linewright.units import over


class Axis(StrEnum):
    """Along which length the pipe is drawn."""

    ACTUAL = "actual"
    EQUIVALENT = "equivalent"


class Lane(NamedTuple):
    """One indoor unit and its number from the top."""

    unit: UnitResult
    number: int


class ModuleRow(NamedTuple):
    """One outdoor module: its lane number and its reach, negative on the far side of the root [m]."""

    id: str
    model: str
    number: int
    reach_m: float | None


class Band(NamedTuple):
    """One level: its name and elevation [m], the outdoor modules and the lanes on it, from the top."""

    id: str
    name: str
    elevation_m: float | None
    modules: tuple[ModuleRow, ...]
    lanes: tuple[Lane, ...]

    @property
    def first(self) -> int:
        """Give the lowest lane number on this level."""
        return min([row.number for row in self.modules] + [lane.number for lane in self.lanes])

    @property
    def last(self) -> int:
        """Give the highest lane number on this level."""
        return max([row.number for row in self.modules] + [lane.number for lane in self.lanes])


class Node(NamedTuple):
    """One end of a pipe: its reach [m] (where not `certain` only the known part) and its lane."""

    id: str
    kind: NodeKind
    reach_m: float
    certain: bool
    lane: float
    assumed_level: bool = False


class Pipe(NamedTuple):
    """One run from node to node, and from which reach on it lies beyond a limit [m]."""

    id: str
    near: Node
    far: Node
    length_m: float | None
    result: RunResult | None
    beyond_m: float | None
    metres_left: float | None
    own_unit: str = ""

    @property
    def known(self) -> bool:
        """Say whether the run's own length is known."""
        return self.length_m is not None


class LengthLimit(NamedTuple):
    """A limit that is a length along the pipe on this axis.

    A line where it stands at one reach for every unit (`line_m`), else a tick on each lane (`ticks_m` by unit).
    """

    id: str
    check: Check
    label: str
    line_m: float | None
    plain_line_m: float | None
    ticks_m: Mapping[str, float]

    def mark_m(self, unit: str) -> float | None:
        """Give where the limit stands on the way to a unit [m]; with no unit, where it stands for all."""
        return self.ticks_m.get(unit, self.line_m)

    def is_past(self, reach_m: float, unit: str) -> bool:
        """Say whether a reach on the way to a unit is over the limit, as the engine compares: against the bound."""
        mark, bound = self.mark_m(unit), self.check.bound
        return mark is not None and bound is not None and is_beyond(reach_m, mark, bound)


def is_beyond(reach_m: float, mark_m: float, bound_m: float) -> bool:
    """Say whether a reach lies beyond the mark of a limit, as the engine compares: against its bound [m]."""
    return over(reach_m - mark_m + bound_m, bound_m)


class LaneFlow(NamedTuple):
    """One unit from first principles: loss of saturation in cooling and subcooling left [K], least margin of oil."""

    loss_k: float
    left_k: float
    oil: float | None


@value
class SheetLayout:
    """A system laid out, with the records that the sheet prints beside the picture.

    rooms : those that the system serves
    """

    evaluation: Evaluation
    result: SystemResult
    book: Book | None
    axis: Axis
    root: Node
    rooms: tuple[RoomResult, ...]
    bands: tuple[Band, ...]
    pipes: tuple[Pipe, ...]
    module_pipes: tuple[Pipe, ...]
    first_branch: Node | None
    limits: tuple[LengthLimit, ...]
    limits_elsewhere: tuple[Check, ...]
    with_flow: bool = False
    flow: Mapping[str, LaneFlow] = field(default_factory=no_entries)

    @property
    def lanes(self) -> tuple[Lane, ...]:
        """Give all lanes from the top."""
        return tuple(chain.from_iterable([band.lanes for band in self.bands]))

    @property
    def module_rows(self) -> tuple[ModuleRow, ...]:
        """Give all outdoor modules from the top."""
        return tuple(row for band in self.bands for row in band.modules)
