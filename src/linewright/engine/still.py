"""What of a system on its book no length changes: the very same as long as nothing else changes either."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import NamedTuple

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

#: What was asked for by the place of the use in memory, with the use, so that no other one takes its place.
Seen = dict[int, tuple[MeasureUse, Series]]


class Surroundings(NamedTuple):
    """What a system stands in: its site, and the coincident cooling load of its rooms [W]."""

    site: Site
    demand_w: float | None = None


NOWHERE = Surroundings(Site())


class Bare(NamedTuple):
    """Runs but for their lengths, in walking order, and what stands between them.

    `override` is by position, of the runs that have one.
    """

    fittings: tuple[Fitting, ...]
    rise_m: tuple[float | None, ...]
    bends: tuple[int, ...]
    items: tuple[tuple[Item, ...], ...]
    override: Mapping[int, Mapping[Role, float]]


class Still(NamedTuple):
    """A system on its book but for its lengths; `seen` keeps each measure of it that was asked for."""

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


def _bare(system: System, tree: Tree) -> Bare:
    return Bare(
        system.fittings,
        tuple([run.rise_m for run in tree.runs]),
        tuple([run.bends for run in tree.runs]),
        tuple([run.items for run in tree.runs]),
        {i: run.override for i, run in enumerate(tree.runs) if run.override},
    )


def still_of(
    system: System, frame: Frame, tree: Tree, levels: Levels, *, boxes: tuple[Box, ...], surroundings: Surroundings
) -> Still:
    """Give what stands still of a system, the one before it where only lengths have changed since."""
    return _last(Same(frame))(system.id, levels, boxes, surroundings, _bare(system, tree))


@lru_cache(maxsize=MOST_KNOWN)
def _last(of: Same[Frame]) -> Kept[Still]:
    def make(levels: Levels, boxes: tuple[Box, ...], surroundings: Surroundings, bare: Bare) -> Still:
        return Still(of.value, levels, boxes, surroundings, bare, {})

    return Kept(make)
