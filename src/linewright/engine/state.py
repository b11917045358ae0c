"""One variant of a system, sized: what the measures read."""

from __future__ import annotations

from dataclasses import dataclass, field

from linewright.book.schema import MeasureUse, Origin
from linewright.engine.ground import Ground
from linewright.engine.lengths import Lengths, Line, pipe_lengths
from linewright.engine.records import ChargeResult, Series
from linewright.engine.sizing import Sized, TableSizes
from linewright.model.values import Role


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """Ground, sizes and lengths of one variant; `seen` keeps each measure that was asked for."""

    ground: Ground
    table: TableSizes
    sized: Sized
    lengths: Lengths
    charge: ChargeResult
    seen: dict[int, Series] = field(default_factory=dict)

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
        if origin is not Origin.OUTDOOR or len(self.ground.modules) == 1:
            return 0.0, False
        if not self.ground.pipes_stated:
            return 0.0, True
        pipes = pipe_lengths(self.ground, role)
        sums = [sum(pipes[i][0] for i in module.path) for module in self.ground.modules]
        missing = any(pipes[i][1] for module in self.ground.modules for i in module.path)
        return max(sums), missing
