"""What of a system does not depend on tube sizes: its tree, indices, levels and actual lengths as flat arrays."""

from __future__ import annotations

from typing import NamedTuple

from linewright.book.compiled import CompiledBook
from linewright.book.schema import Below, Group, IndoorModel, Side, Where
from linewright.engine.boxes import Box, find_boxes
from linewright.engine.frame import Frame, frame_of
from linewright.engine.levels import Levels, find_levels
from linewright.engine.pipes import ModulePipe, Pipes
from linewright.engine.still import NOWHERE, Seen, Still, Surroundings, bare_runs, nothing_seen, still_of
from linewright.engine.zones import Zone
from linewright.model.design import System
from linewright.model.tree import Tree, shape_of
from linewright.model.values import Role
from linewright.units import over


class Ground(NamedTuple):
    """A system on its book. Lists over runs are in walking order; an unknown length stands as 0 and is flagged.

    In a heat pump every run has the same tubes: `zones`, `carried` and `box_before` are empty. `built_m` are lengths
    as built, where that is stated; `seen` keeps what was asked for of actual lengths.
    """

    system: System
    book: CompiledBook
    frame: Frame
    tree: Tree
    levels: Levels
    length_m: tuple[float, ...]
    unknown: tuple[bool, ...]
    built_m: tuple[float | None, ...]
    boxes: tuple[Box, ...]
    surroundings: Surroundings
    still: Still
    seen: Seen

    @property
    def group(self) -> Group:
        """The outdoor group of the book."""
        return self.frame.group

    @property
    def group_id(self) -> str:
        """Its name."""
        return self.frame.group_id

    @property
    def pipes(self) -> Pipes:
        """The pipes to the outdoor modules."""
        return self.frame.pipes

    @property
    def models(self) -> tuple[IndoorModel, ...]:
        """The model of every unit."""
        return self.frame.models

    @property
    def index_sum(self) -> float:
        """Sum of the indices of the units."""
        return self.frame.index_sum

    @property
    def rated_cooling_w(self) -> float:
        """Rated cooling of the group [W]."""
        return self.frame.rated_cooling_w

    @property
    def rated_heating_w(self) -> float:
        """Rated heating of the group [W]."""
        return self.frame.rated_heating_w

    @property
    def rated_cooling_input_w(self) -> float | None:
        """Rated input of the group in cooling [W]."""
        return self.frame.rated_cooling_input_w

    @property
    def rated_heating_input_w(self) -> float | None:
        """Rated input of the group in heating [W]."""
        return self.frame.rated_heating_input_w

    @property
    def factory_kg(self) -> float:
        """Refrigerant that comes with the group [kg]."""
        return self.frame.factory_kg

    @property
    def downstream(self) -> tuple[float, ...]:
        """Index downstream of every run."""
        return self.frame.downstream

    @property
    def zones(self) -> tuple[Zone, ...]:
        """What every run carries, in heat recovery."""
        return self.frame.zones

    @property
    def carried(self) -> tuple[tuple[Role, ...], ...]:
        """Tubes of every run, in heat recovery."""
        return self.frame.carried

    @property
    def box_before(self) -> tuple[int, ...]:
        """The mode box before every run, in heat recovery."""
        return self.frame.box_before

    @property
    def direct(self) -> frozenset[int]:
        """Units that hang on no mode box, in heat recovery."""
        return self.frame.direct

    @property
    def is_main(self) -> tuple[bool, ...]:
        """Whether a run is of the main."""
        return self.tree.is_main

    @property
    def is_own(self) -> tuple[bool, ...]:
        """Whether a run is a unit's own."""
        return self.tree.is_own

    @property
    def under_header(self) -> tuple[bool, ...]:
        """Whether a run lies below a header."""
        return self.tree.under_header

    @property
    def branches(self) -> tuple[int, ...]:
        """Runs at whose far ends pipe branches."""
        return self.tree.branches

    def carries(self, run: int, role: Role) -> bool:
        """Say whether a run has a tube of this role."""
        return self.frame.carries(run, role)

    @property
    def heating_w(self) -> tuple[float, ...]:
        """Rated heating of every unit [W]: none of a unit that has no mode box before it, since it only cools."""
        return self.frame.heating_w

    @property
    def modules(self) -> tuple[ModulePipe, ...]:
        """Outdoor modules with their pipes."""
        return self.pipes.modules

    def units_where(self, where: Where | None) -> tuple[int, ...]:
        """Give the positions of the units that a filter keeps."""
        everyone = range(len(self.system.units))
        if where is None:
            return tuple(everyone)
        return tuple(i for i in everyone if self._keeps(where, i))

    def doubtful_units(self, where: Where | None) -> tuple[str, ...]:
        """Name the elevations without which nobody can say which units a filter keeps."""
        if where is None or where.outdoor is None:
            return ()
        kept = self.units_where(where)
        outdoor = self.levels.highest_outdoor_m if where.outdoor is Side.ABOVE else self.levels.lowest_outdoor_m
        if outdoor is None:
            return ("elevation of the outdoor group",) if kept else ()
        runs, units = self.tree.unit_runs, self.system.units
        return tuple(f"elevation of {units[i].id}" for i in kept if self.levels.node_m[runs[i]] is None)

    def _keeps(self, where: Where, unit: int) -> bool:
        model, run = self.models[unit], self.tree.unit_runs[unit]
        if where.kind and model.kind not in where.kind:
            return False
        if model.kind in where.exclude_kind or (where.model and model.model not in where.model):
            return False
        if where.below is not None and self.under_header[run] != (where.below is Below.HEADER):
            return False
        if where.outdoor is None:
            return True
        level, above = self.levels.node_m[run], where.outdoor is Side.ABOVE
        outdoor = self.levels.highest_outdoor_m if above else self.levels.lowest_outdoor_m
        if level is None or outdoor is None:
            return True
        return over(outdoor, level) if above else over(level, outdoor)


def lay_ground(system: System, book: CompiledBook, surroundings: Surroundings = NOWHERE) -> Ground:
    """Make the flat arrays of a system whose names the book knows; its options are on in the book."""
    if system.options:
        book = book.with_options(system.options)
    shape = shape_of(system)
    frame, tree = frame_of(system, book, shape), shape.with_runs(system)
    lengths = [run.length_m for run in tree.runs]
    bare = bare_runs(system, tree)
    levels = find_levels(system, tree, bare.rise_m, [module.elevation_m for module in frame.pipes.modules])
    boxes = find_boxes(tree, frame.zones, system.fittings, book, downstream=frame.downstream) if frame.zones else ()
    return Ground(
        system=system,
        book=book,
        frame=frame,
        tree=tree,
        levels=levels,
        length_m=tuple([0.0 if length is None else length for length in lengths]),
        unknown=tuple([length is None for length in lengths]),
        built_m=tuple([run.length_m if run.as_built_m is None else run.as_built_m for run in tree.runs]),
        boxes=boxes,
        surroundings=surroundings,
        still=still_of(frame, levels, bare, boxes=boxes, surroundings=surroundings),
        seen=nothing_seen(),
    )
