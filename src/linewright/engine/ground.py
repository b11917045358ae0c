"""What of a system does not depend on tube sizes: its tree, indices, levels and actual lengths as flat arrays."""

from __future__ import annotations

from typing import NamedTuple

from linewright.book.compiled import CompiledBook, group_name
from linewright.book.schema import Below, Group, IndoorModel, Side, Where
from linewright.engine.boxes import Box, box_before, find_boxes
from linewright.engine.levels import Levels, find_levels
from linewright.engine.pipes import ModulePipe, Pipes, find_pipes
from linewright.engine.zones import Zone, find_zones, roles_by_zone
from linewright.model.design import Site, System
from linewright.model.tree import NO_PARENT, Tree, build_tree
from linewright.model.values import Role
from linewright.units import over

NO_UNITS: frozenset[int] = frozenset()


class Surroundings(NamedTuple):
    """What a system stands in: its site, and the coincident cooling load of its rooms [W]."""

    site: Site
    demand_w: float | None = None


NOWHERE = Surroundings(Site())


class Ground(NamedTuple):
    """A system on its book. Lists over runs are in walking order; an unknown length stands as 0 and is flagged.

    In a heat pump every run has the same tubes: `zones`, `carried` and `box_before` are empty.
    """

    system: System
    book: CompiledBook
    tree: Tree
    levels: Levels
    group: Group
    group_id: str
    pipes: Pipes
    models: tuple[IndoorModel, ...]
    index_sum: float
    rated_cooling_w: float
    rated_heating_w: float
    rated_cooling_input_w: float | None
    rated_heating_input_w: float | None
    factory_kg: float
    downstream: tuple[float, ...]
    length_m: tuple[float, ...]
    unknown: tuple[bool, ...]
    is_main: tuple[bool, ...]
    is_own: tuple[bool, ...]
    under_header: tuple[bool, ...]
    branches: tuple[int, ...]
    zones: tuple[Zone, ...]
    carried: tuple[tuple[Role, ...], ...]
    boxes: tuple[Box, ...]
    box_before: tuple[int, ...]
    direct: frozenset[int]
    surroundings: Surroundings

    def carries(self, run: int, role: Role) -> bool:
        """Say whether a run has a tube of this role."""
        return not self.carried or role in self.carried[run]

    @property
    def heating_w(self) -> tuple[float, ...]:
        """Rated heating of every unit [W]: none of a unit that has no mode box before it, since it only cools."""
        return tuple([0.0 if i in self.direct else model.heating_w for i, model in enumerate(self.models)])

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
    tree, pipes = build_tree(system), find_pipes(system, book)
    group = book.group_of(tuple(module.model for module in system.outdoor.modules))
    if group is None:
        raise ValueError(f"system '{system.id}': its modules form no group of book '{book.book.id}'")
    models = tuple([book.models[unit.model] for unit in system.units])
    data = [book.modules[name] for name in group.modules]
    downstream = _downstream(tree, models)
    zones = find_zones(tree) if book.recovery else ()
    roles = roles_by_zone(book.book) if book.recovery else {}
    lengths = [run.length_m for run in tree.runs]
    return Ground(
        system=system,
        book=book,
        tree=tree,
        levels=find_levels(system, tree, [module.elevation_m for module in pipes.modules]),
        group=group,
        group_id=group_name(group),
        pipes=pipes,
        models=models,
        index_sum=sum([model.index for model in models]),
        rated_cooling_w=group.cooling_w if group.cooling_w is not None else sum(m.cooling_w for m in data),
        rated_heating_w=group.heating_w if group.heating_w is not None else sum(m.heating_w for m in data),
        rated_cooling_input_w=_input(group.cooling_input_w, [m.cooling_input_w for m in data]),
        rated_heating_input_w=_input(group.heating_input_w, [m.heating_input_w for m in data]),
        factory_kg=(
            group.factory_charge_kg if group.factory_charge_kg is not None else sum(m.factory_charge_kg for m in data)
        ),
        downstream=downstream,
        length_m=tuple([0.0 if length is None else length for length in lengths]),
        unknown=tuple([length is None for length in lengths]),
        is_main=tree.is_main,
        is_own=tree.is_own,
        under_header=tree.under_header,
        branches=tree.branches,
        zones=zones,
        carried=tuple(roles[zone] for zone in zones),
        boxes=find_boxes(tree, zones, system.fittings, book, downstream=downstream) if zones else (),
        box_before=box_before(tree, zones) if zones else (),
        direct=frozenset(i for i, run in enumerate(tree.unit_runs) if zones[run] is Zone.DIRECT) if zones else NO_UNITS,
        surroundings=surroundings,
    )


def _input(stated: float | None, modules: list[float | None]) -> float | None:
    """Rated input of a group [W]: stated, else the sum of its modules where each states its own."""
    if stated is not None:
        return stated
    known = [item for item in modules if item is not None]
    return sum(known) if len(known) == len(modules) else None


def _downstream(tree: Tree, models: tuple[IndoorModel, ...]) -> tuple[float, ...]:
    sums = [0.0] * len(tree.ids)
    for i in range(len(sums) - 1, -1, -1):
        unit = tree.unit_at[i]
        if unit >= 0:
            sums[i] += models[unit].index
        if tree.parent[i] != NO_PARENT:
            sums[tree.parent[i]] += sums[i]
    return tuple(sums)
