"""A branch hung elsewhere: on a new joint along a run, or on a header that is there."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.book.measures import MeasureName
from linewright.engine.records import CheckKind
from linewright.explore.remedies.at import At
from linewright.explore.remedies.moves.pieces import (
    Point,
    Values,
    Way,
    fitting_word,
    level,
    meeting,
    point_on,
    set_run,
    split_at,
    way_back,
    way_from,
    with_rise,
    without_arm,
)
from linewright.explore.remedies.phrases import Phrase, length, phrase, plain
from linewright.explore.remedies.records import Duty, Move, MoveKind
from linewright.explore.remedies.weights import weight
from linewright.model.edits import Edit, MoveSubtree
from linewright.model.tree import NO_PARENT
from linewright.model.values import NodeKind

_M = MeasureName
#: Branches that are hung elsewhere, and places that each is hung at.
MOST_BRANCHES, MOST_PLACES = 4, 4
#: By what a branch that is only measured again afterwards weighs more.
UNMEASURED = 1.5
_UPSTREAM = (_M.FITTING_INDEX, _M.FITTING_COUNT, _M.ARM_INDEX_SHARE)
_REACH = (
    *(_M.FARTHEST_ACTUAL, _M.FARTHEST_EQUIVALENT, _M.AFTER_FIRST_BRANCH, _M.NEAREST_FARTHEST_DIFFERENCE),
    *(_M.TOTAL_LENGTH, _M.LAST_JOINT_TO_UNIT),
)


def rehangs(at: At) -> Iterator[Move]:
    """Hang what the check is about on pipe before it; where it is too far, also by a way to be measured."""
    if at.book.recovery:
        return
    for branch in _branches(at)[:MOST_BRANCHES]:
        places = [*_places(at, branch)]
        for point in places[:MOST_PLACES]:
            yield from _on_run(at, branch, point)
        for header in _headers(at, branch)[:2]:
            yield from _on_header(at, branch, header)


def _branches(at: At) -> list[int]:
    """Branches that may be hung elsewhere: never the main, which has nothing before it."""
    tree, found = at.tree, [run for run in at.governing if at.near(run) != NO_PARENT and run not in at.tree.main]
    if at.check.kind is CheckKind.LIMIT and at.check.measure in {one.value for one in _UPSTREAM}:
        found = [child for run in at.governing for child in tree.children[run]] + found
    elif at.check.measure in {one.value for one in _REACH}:
        found = [run for one in found for run in reversed(at.path(one)) if run not in tree.main]
    elif at.check.kind in (CheckKind.FITTING, CheckKind.SIZE) and at.check.measure != "header_port":
        found = [child for run in at.governing for child in tree.children[run]]
    elif at.check.measure == _M.JOINT_SPACING.value:
        found = [*found, *(child for run in found for child in tree.children[run])]
    return list(dict.fromkeys(run for run in found if at.near(run) != NO_PARENT))


def _places(at: At, branch: int) -> Iterator[Point]:
    """Places before a branch, the nearest first: close to the end of each run on its way; then along its siblings."""
    for run in reversed(at.path(at.near(branch))):
        yield from _near_end(at, run)
    for sibling in at.tree.children[at.near(branch)]:
        if sibling != branch:
            yield from _near_end(at, sibling)


def _near_end(at: At, run: int) -> Iterator[Point]:
    whole = at.length_m(run)
    if whole is None:
        return
    point = point_on(at, run, round(whole - at.spacing_m, 6) if whole > 2 * at.spacing_m else whole / 2)
    if point is not None:
        yield point


def _headers(at: At, branch: int) -> list[int]:
    beyond = set(at.beyond_node(branch))
    return [
        node
        for node, kind in enumerate(at.tree.kind)
        if kind is NodeKind.HEADER and node not in beyond and node != at.near(branch)
    ]


def _on_run(at: At, branch: int, point: Point) -> Iterator[Move]:
    name, split = split_at(at, point)
    where = f"a new joint {name} on run {at.tree.ids[point.run]}"
    way = way_from(at, point, at.near(branch))
    # The end of a run that a place is on moves with the split, so the way is reckoned from the place itself.
    yield from _hung(at, branch, way, to=name, before=split, where=where, level_m=point.level_m)


def _on_header(at: At, branch: int, header: int) -> Iterator[Move]:
    shared = meeting(at, header, at.near(branch))
    one, other = way_back(at, header, shared), way_back(at, at.near(branch), shared)
    way = None
    if one is not None and other is not None:
        way = Way(length_m=one.length_m + other.length_m, bends=one.bends + other.bends)
    where = fitting_word(at, header)
    yield from _hung(at, branch, way, to=at.tree.ids[header], before=(), where=where, level_m=level(at, header))


def _hung(
    at: At,
    branch: int,
    way: Way | None,
    *,
    to: str,
    before: tuple[Edit, ...],
    where: str,
    level_m: float | None,
) -> Iterator[Move]:
    """Along the pipe that is there, and, where length is the matter, as long as it was, to be measured again."""
    own = at.length_m(branch)
    if own is None:
        return
    name = at.tree.ids[branch]
    if way is not None:
        metres = round(own + way.length_m, 6)
        values: Values = {"length_m": metres, "bends": at.tree.runs[branch].bends + way.bends}
        words = phrase(plain(f"run {name} from {where}, along the pipe that is there") + ", {} long", length(metres))
        yield from _move(at, branch, to=to, before=before, words=words, values=with_rise(at, branch, level_m, values))
    if at.check.measure in {one.value for one in _REACH}:
        words = phrase(plain(f"run {name} from {where}, as long as it was") + " ({}): measure it again", length(own))
        same = with_rise(at, branch, level_m, {"length_m": own})
        yield from _move(at, branch, to=to, before=before, words=words, values=same, measured=False)


def _move(
    at: At,
    branch: int,
    *,
    to: str,
    before: tuple[Edit, ...],
    words: Phrase,
    values: Values | None,
    measured: bool = True,
) -> Iterator[Move]:
    if values is None:
        return
    edits = (
        *before,
        MoveSubtree(system=at.system.id, node=at.tree.ids[branch], to=to),
        set_run(at, branch, values),
        *without_arm(at, at.near(branch)),
    )
    yield Move(
        kind=MoveKind.REHANG,
        subject=f"{at.system.id}/{at.tree.ids[branch]}",
        edits=edits,
        words=words,
        duties=(Duty.BUILD,) if measured else (Duty.BUILD, Duty.MEASURE),
        weight=weight(MoveKind.REHANG) * (1.0 if measured else UNMEASURED),
    )
