"""What of a system on its book no length changes: the very same as long as nothing else changes either."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import TYPE_CHECKING, NamedTuple

from linewright.book.schema import MeasureUse
from linewright.engine.boxes import Box
from linewright.engine.figures import Series
from linewright.engine.frame import MOST_KNOWN, Frame
from linewright.engine.levels import Levels
from linewright.model.design import Fitting, Item, Site, System
from linewright.model.kept import Kept
from linewright.model.same import Same
from linewright.model.tree import Tree
from linewright.model.values import Role

if TYPE_CHECKING:
    from linewright.engine.records import Check


class Seen(NamedTuple):
    """Measures that were asked for, and verdicts on limits that rest on them alone.

    Both are kept by the place in memory of what asked for them, together with it, so that nothing else takes its place.
    """

    series: dict[int, tuple[MeasureUse, Series]]
    checks: dict[int, tuple[object, Check]]


def nothing_seen() -> Seen:
    """Give what nobody has asked for anything yet."""
    return Seen({}, {})


class Surroundings(NamedTuple):
    """What a system stands in: its site, and the coincident cooling load of its rooms [W]."""

    site: Site
    demand_w: float | None = None


NOWHERE = Surroundings(Site())


class Bare(NamedTuple):
    """Runs of a system (its id) but for their lengths, in walking order, and what stands between them.

    `override` is by position, of the runs that have one.
    """

    system: str
    fittings: tuple[Fitting, ...]
    rise_m: tuple[float | None, ...]
    bends: tuple[int, ...]
    items: tuple[tuple[Item, ...], ...]
    override: Mapping[int, Mapping[Role, float]]


class Still(NamedTuple):
    """A system on its book but for its lengths; `seen` keeps what was asked for of it."""

    frame: Frame
    levels: Levels
    boxes: tuple[Box, ...]
    surroundings: Surroundings
    bare: Bare
    seen: Seen

    def overrides(self, run: int) -> Mapping[Role, float]:
        """Give the sizes that the designer has set on a run [m]."""
        return self.bare.override.get(run, _NONE)


_NONE: Mapping[Role, float] = {}


def bare_runs(system: System, tree: Tree) -> Bare:
    """Take the lengths from the runs of a system."""
    return Bare(
        system.id,
        system.fittings,
        tuple([run.rise_m for run in tree.runs]),
        tuple([run.bends for run in tree.runs]),
        tuple([run.items for run in tree.runs]),
        {i: run.override for i, run in enumerate(tree.runs) if run.override},
    )


def still_of(frame: Frame, levels: Levels, bare: Bare, *, boxes: tuple[Box, ...], surroundings: Surroundings) -> Still:
    """Give what stands still of a system, the one before it where only lengths have changed since."""
    return _last(Same(frame))(bare.system, levels, boxes, surroundings, bare)


@lru_cache(maxsize=MOST_KNOWN)
def _last(of: Same[Frame]) -> Kept[Still]:
    def make(levels: Levels, boxes: tuple[Box, ...], surroundings: Surroundings, bare: Bare) -> Still:
        return Still(of.value, levels, boxes, surroundings, bare, nothing_seen())

    return Kept(make)
