"""What moves in a tree are put together from: ways between nodes, levels, edits of lengths, what is left behind."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.explore.remedies.at import At, fresh
from linewright.model.design import Fitting
from linewright.model.edits import Edit, JoinRuns, Kind, Put, Set, SplitRun, Table
from linewright.model.tree import NO_PARENT
from linewright.model.values import NodeKind, value

#: Fields of a run that are set, by name.
Values = dict[str, object]


@value
class Way:
    """A way along pipe that is there: its length [m] and the bends on it."""

    length_m: float
    bends: int


@value
class Point:
    """A place for a new fitting on a run: so far from the run's near end [m], at a level [m] where that is known."""

    run: int
    at_m: float
    level_m: float | None


def point_on(at: At, run: int, at_m: float) -> Point | None:
    """Give a place on a run; none where its length is unknown or the place is not on it."""
    whole = at.length_m(run)
    if whole is None or not 0.0 < at_m < whole:
        return None
    rise, near = at.result.state.ground.levels.rise_m[run], level(at, at.near(run))
    level_m = None if rise is None or near is None else round(near + rise * at_m / whole, 6)
    return Point(run=run, at_m=at_m, level_m=level_m)


def level(at: At, node: int) -> float | None:
    """Level of a node [m]; of the outdoor group where it is before all runs."""
    if node == NO_PARENT:
        return at.system.outdoor.elevation_m
    return at.result.state.ground.levels.node_m[node]


def way_back(at: At, node: int, to: int) -> Way | None:
    """The way from a node back to one before it; none where a length is unknown or it is not before it."""
    length_m, bends = 0.0, 0
    while node != to:
        if node == NO_PARENT:
            return None
        own = at.length_m(node)
        if own is None:
            return None
        length_m, bends, node = length_m + own, bends + at.tree.runs[node].bends, at.near(node)
    return Way(length_m=length_m, bends=bends)


def way_from(at: At, point: Point, node: int) -> Way | None:
    """The way from a place on a run to a node, along pipe that is there."""
    run_m = at.length_m(point.run)
    if run_m is None:
        return None
    if point.run in at.path(node) or node == point.run:
        back = way_back(at, node, point.run)
        return None if back is None else Way(length_m=back.length_m + run_m - point.at_m, bends=back.bends)
    shared = meeting(at, at.near(point.run), node)
    one, other = way_back(at, at.near(point.run), shared), way_back(at, node, shared)
    if one is None or other is None:
        return None
    bends = one.bends + other.bends + at.tree.runs[point.run].bends
    return Way(length_m=one.length_m + other.length_m + point.at_m, bends=bends)


def meeting(at: At, one: int, other: int) -> int:
    """The last node that is on the ways to both."""
    on_way = {*at.path(one)} if one != NO_PARENT else set()
    while other != NO_PARENT and other not in on_way:
        other = at.near(other)
    return other


def split_at(at: At, point: Point) -> tuple[str, tuple[Edit, ...]]:
    """Put a joint at a place: its name and the edits; its level is stated where it does not rest on assumptions."""
    name, system = fresh(at, "J"), at.system.id
    edits: list[Edit] = [SplitRun(system=system, run=at.tree.ids[point.run], node=name, at_m=point.at_m)]
    assumed = at.result.state.ground.levels.assumed
    known = not assumed[point.run] and (at.near(point.run) == NO_PARENT or not assumed[at.near(point.run)])
    if point.level_m is not None and known:
        item = Fitting(id=name, elevation_m=point.level_m)
        edits.append(Put(table=Table.FITTINGS, item=item, by_name=True, system=system))
    return name, tuple(edits)


def set_run(at: At, run: int, values: Values) -> Set:
    """Set fields of a run."""
    return Set(kind=Kind.RUN, id=at.tree.ids[run], system=at.system.id, values=values)


def with_rise(at: At, run: int, near_level_m: float | None, values: Values) -> Values | None:
    """Add the rise of a run that begins at another level, where it is stated; none where that level is unknown."""
    if at.tree.runs[run].rise_m is None:
        return values
    own = level(at, run)
    return None if own is None or near_level_m is None else values | {"rise_m": round(own - near_level_m, 6)}


def without_arm(at: At, node: int) -> Iterator[Edit]:
    """What becomes of a fitting that loses one arm: with a single one left it is taken out."""
    if node != NO_PARENT and len(at.tree.children[node]) == 2:
        yield JoinRuns(system=at.system.id, node=at.tree.ids[node])


def is_fitting(at: At, node: int) -> bool:
    """Whether a node is a joint or a header."""
    return node != NO_PARENT and at.tree.kind[node] in (NodeKind.JOINT, NodeKind.HEADER)


def fitting_word(at: At, node: int) -> str:
    """What a node is called: `header H3`, `joint J2`, `the outdoor unit`."""
    if node == NO_PARENT:
        return "the outdoor unit"
    word = "first branch" if node == at.tree.first_branch else at.tree.kind[node].value
    return f"{word} {at.tree.ids[node]}"
