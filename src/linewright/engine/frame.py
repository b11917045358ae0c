"""What of a system no length changes: its shape on its book, models, indices, the pipes to its outdoor modules."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from linewright.book.compiled import CompiledBook, group_name
from linewright.book.schema import Group, IndoorModel
from linewright.engine.boxes import box_before
from linewright.engine.pipes import Pipes, find_pipes
from linewright.engine.zones import Zone, find_zones, roles_by_zone
from linewright.model.design import Outdoor, System, Unit
from linewright.model.same import Same
from linewright.model.tree import NO_PARENT, Shape, Tree
from linewright.model.values import Role

NO_UNITS: frozenset[int] = frozenset()
#: Frames that are kept at hand: most changes of a design leave that of a system as it is.
MOST_KNOWN = 100


class Frame(NamedTuple):
    """A system on its book, but for its runs. Lists over runs are in walking order.

    In a heat pump every run has the same tubes: `zones`, `carried` and `box_before` are empty.
    """

    book: CompiledBook
    units: tuple[Unit, ...]
    tree: Tree
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
    zones: tuple[Zone, ...]
    carried: tuple[tuple[Role, ...], ...]
    box_before: tuple[int, ...]
    direct: frozenset[int]
    outdoor: Outdoor

    def carries(self, run: int, role: Role) -> bool:
        """Say whether a run has a tube of this role."""
        return not self.carried or role in self.carried[run]

    @property
    def heating_w(self) -> tuple[float, ...]:
        """Rated heating of every unit [W]: none of a unit that has no mode box before it, since it only cools."""
        return tuple([0.0 if i in self.direct else model.heating_w for i, model in enumerate(self.models)])


def frame_of(system: System, book: CompiledBook, shape: Shape) -> Frame:
    """Give the frame of a system whose names the book knows; ValueError where its modules form no group."""
    return _frame(Same(book), Same(system.outdoor), Same(system.units), Same(shape))


@lru_cache(maxsize=MOST_KNOWN)
def _frame(
    of_book: Same[CompiledBook], outdoor: Same[Outdoor], units: Same[tuple[Unit, ...]], shape: Same[Shape]
) -> Frame:
    book, tree = of_book.value, shape.value.tree
    group = book.group_of(tuple(module.model for module in outdoor.value.modules))
    if group is None:
        raise ValueError(f"the outdoor modules form no group of book '{book.book.id}'")
    models = tuple([book.models[unit.model] for unit in units.value])
    data = [book.modules[name] for name in group.modules]
    downstream = _downstream(tree, models)
    zones = find_zones(tree) if book.recovery else ()
    roles = roles_by_zone(book.book) if book.recovery else {}
    return Frame(
        book=book,
        units=units.value,
        tree=tree,
        group=group,
        group_id=group_name(group),
        pipes=find_pipes(outdoor.value, book),
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
        zones=zones,
        carried=tuple(roles[zone] for zone in zones),
        box_before=box_before(tree, zones) if zones else (),
        direct=frozenset(i for i, run in enumerate(tree.unit_runs) if zones[run] is Zone.DIRECT) if zones else NO_UNITS,
        outdoor=outdoor.value,
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
