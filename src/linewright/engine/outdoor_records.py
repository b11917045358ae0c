"""What an evaluation holds of the outdoor side: module pipes and the joints between modules."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from linewright.engine.figures import TableRow
from linewright.model.values import Role


class ModulePipeResult(NamedTuple):
    """One pipe on the outdoor side, named by its far end: lengths [m], the index it serves, its tubes [m].

    `source` says by role where a size comes from: `table`, `ports` of the module, or `override`.
    """

    id: str
    from_: str
    length_m: float | None
    equivalent_m: float | None
    rise_m: float | None
    served_index: float
    tubes: Mapping[Role, float | None]
    source: Mapping[Role, str]


class OutdoorJoint(NamedTuple):
    """A joint between modules: the index through it, how many pipes leave it, and the model the book gives."""

    id: str
    index: float  # type: ignore[assignment] # hides tuple.index, which nothing calls
    arms: int
    model: str
    row: TableRow | None


class OutdoorResult(NamedTuple):
    """Module pipes and outdoor joints, sorted by id; none with a single module."""

    pipes: tuple[ModulePipeResult, ...]
    joints: tuple[OutdoorJoint, ...]
