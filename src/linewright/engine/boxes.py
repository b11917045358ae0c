"""Mode boxes: what hangs on each port, what is carried on through them, and which model of the book serves."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from linewright.book.compiled import CompiledBook
from linewright.book.schema import BoxModel, Joined
from linewright.engine.zones import Zone
from linewright.model.design import Fitting
from linewright.model.tree import NO_PARENT, Tree
from linewright.model.values import NodeKind
from linewright.units import over


class BoxPort(NamedTuple):
    """A run that leaves a box by a port, or by several joined: its position, the ports, and what hangs on them."""

    run: int
    ports: tuple[int, ...]
    index: float  # type: ignore[assignment] # hides tuple.index, which nothing calls
    units: int


class Box(NamedTuple):
    """One mode box on the tree.

    `through` are the runs that lead on to other boxes; `depth` counts the boxes on the way with itself; `position` is
    that of its model in the book.
    """

    run: int
    id: str
    outlets: tuple[BoxPort, ...]
    through: tuple[int, ...]
    own_index: float
    through_index: float
    depth: int
    position: int | None
    model: BoxModel | None

    @property
    def used(self) -> tuple[int, ...]:
        """Ports in use, each as often as it is."""
        return tuple(port for outlet in self.outlets for port in outlet.ports)

    @property
    def reused(self) -> tuple[int, ...]:
        """Ports that more than one run uses."""
        return tuple(sorted({port for port in self.used if self.used.count(port) > 1}))


def find_boxes(
    tree: Tree,
    zones: Sequence[Zone],
    fittings: Sequence[Fitting],
    book: CompiledBook,
    *,
    downstream: Sequence[float],
) -> tuple[Box, ...]:
    """Find every box with what hangs on it, in walking order.

    downstream : sum of the indoor indices beyond every run
    """
    stated = {fitting.id: fitting.model for fitting in fittings if fitting.model}
    units = _units_beyond(tree)
    depth = _depths(tree)
    found = []
    for i, kind in enumerate(tree.kind):
        if kind is NodeKind.BOX:
            bare = _bare(tree, zones, i, downstream=downstream, units=units)
            found.append(_with_model(bare._replace(depth=depth[i]), book, stated.get(tree.ids[i], "")))
    return tuple(found)


def box_before(tree: Tree, zones: Sequence[Zone]) -> tuple[int, ...]:
    """Give, for every run behind a box, the run that enters that box; NO_PARENT for every other."""
    found: list[int] = []
    for zone, before in zip(zones, tree.parent, strict=True):
        if zone is not Zone.INNER:
            found.append(NO_PARENT)
        else:
            found.append(before if tree.kind[before] is NodeKind.BOX else found[before])
    return tuple(found)


def joined_of(model: BoxModel, count: int) -> Joined | None:
    """What the box lets so many joined ports carry; none where it lets none be joined so."""
    return next((joined for joined in model.joined if joined.ports == count), None)


def index_bound(model: BoxModel, outlet: BoxPort) -> float | None:
    """Largest index on a port, or on ports that are joined; none where the book states none."""
    if len(outlet.ports) == 1:
        return model.port_index
    joined = joined_of(model, len(outlet.ports))
    return None if joined is None else joined.index


def units_bound(model: BoxModel, outlet: BoxPort) -> int | None:
    """Most units on a port, or on ports that are joined; none where the book states none."""
    if len(outlet.ports) == 1:
        return model.units_per_port
    joined = joined_of(model, len(outlet.ports))
    return None if joined is None else joined.units


def _bare(tree: Tree, zones: Sequence[Zone], i: int, *, downstream: Sequence[float], units: Sequence[int]) -> Box:
    through = tuple(child for child in tree.children[i] if zones[child] is Zone.OUTER)
    own = [child for child in tree.children[i] if zones[child] is not Zone.OUTER]
    ports = _ports(tree, own)
    outlets = tuple(BoxPort(child, ports[child], downstream[child], units[child]) for child in own)
    return Box(
        run=i,
        id=tree.ids[i],
        outlets=outlets,
        through=through,
        own_index=sum(outlet.index for outlet in outlets),
        through_index=sum(downstream[child] for child in through),
        depth=0,
        position=None,
        model=None,
    )


def _ports(tree: Tree, runs: Sequence[int]) -> Mapping[int, tuple[int, ...]]:
    """Ports of the runs that leave a box: as stated, else the next free one in the order of the file."""
    taken = {port for run in runs for port in tree.runs[run].ports}
    free = (port for port in range(1, len(runs) + len(taken) + 1) if port not in taken)
    return {run: tree.runs[run].ports or (next(free),) for run in runs}


def _units_beyond(tree: Tree) -> list[int]:
    count = [int(unit >= 0) for unit in tree.unit_at]
    for i in range(len(count) - 1, -1, -1):
        if tree.parent[i] != NO_PARENT:
            count[tree.parent[i]] += count[i]
    return count


def _depths(tree: Tree) -> list[int]:
    """Boxes on the way to every node, with itself."""
    found: list[int] = []
    for kind, before in zip(tree.kind, tree.parent, strict=True):
        found.append((0 if before == NO_PARENT else found[before]) + int(kind is NodeKind.BOX))
    return found


def _with_model(box: Box, book: CompiledBook, stated: str) -> Box:
    models = () if book.book.boxes is None else book.book.boxes.models
    if stated:
        position = next((i for i, model in enumerate(models) if model.model == stated), None)
    else:
        position = _chosen(box, models)
    return box if position is None else box._replace(position=position, model=models[position])


def _chosen(box: Box, models: Sequence[BoxModel]) -> int | None:
    """The box with the fewest ports that serves in everything, else the one with ports and index enough."""
    by_ports = sorted(range(len(models)), key=lambda i: (models[i].ports, i))
    enough = [i for i in by_ports if _is_enough(box, models[i])]
    return next((i for i in enough if not any(_lacks(box, models[i]))), enough[0] if enough else None)


def _is_enough(box: Box, model: BoxModel) -> bool:
    most = max(box.used, default=0)
    return max(most, len(box.used)) <= model.ports and not over(box.own_index, model.index)


def _lacks(box: Box, model: BoxModel) -> Iterator[bool]:
    """Whether a model falls short in what it may carry on, on a port, or in joining ports."""
    if box.through:
        yield model.series_index is not None and over(box.through_index, model.series_index)
    for outlet in box.outlets:
        index, units = index_bound(model, outlet), units_bound(model, outlet)
        yield len(outlet.ports) > 1 and joined_of(model, len(outlet.ports)) is None
        yield index is not None and over(outlet.index, index)
        yield units is not None and outlet.units > units
