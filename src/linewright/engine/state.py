"""One variant of a system, sized: what the measures read."""

from __future__ import annotations

from dataclasses import dataclass, field

from linewright.book.schema import MeasureUse, Origin
from linewright.engine.figures import ChargeResult
from linewright.engine.ground import Ground
from linewright.engine.lengths import Lengths, Line
from linewright.engine.sizing import Sized, TableSizes
from linewright.engine.still import Seen, nothing_seen
from linewright.model.values import Role


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """Ground, sizes and lengths of one variant; `seen` keeps what was asked for of it alone."""

    ground: Ground
    table: TableSizes
    sized: Sized
    lengths: Lengths
    charge: ChargeResult
    seen: Seen = field(default_factory=nothing_seen)

    def origin(self, use: MeasureUse) -> Origin:
        """Origin of a measure: its own, else the book's."""
        return use.origin or self.ground.book.book.origin

    def lines(self, *, equivalent: bool) -> tuple[tuple[Line, Role | None], ...]:
        """Lines to judge: the actual one, or each equivalent one with its role."""
        if not equivalent:
            return ((self.lengths.actual, None),)
        return tuple(zip(self.lengths.equivalent, self.lengths.roles, strict=True))

    def before_root(self, origin: Origin, role: Role | None) -> tuple[float, bool]:
        """Length [m] from the origin to the root along the module pipes, and whether it is a lower bound."""
        return self.ground.pipes.farthest_m[role] if origin is Origin.OUTDOOR else (0.0, False)
