"""A joint or header moved along its pipe: the routes stay where they are, other arms go back along the same way."""

from __future__ import annotations

import math
from collections.abc import Iterator

from linewright.book.measures import MeasureName
from linewright.explore.remedies.at import At
from linewright.explore.remedies.moves.pieces import Values, fitting_word, is_fitting, set_run
from linewright.explore.remedies.phrases import length, phrase, plain
from linewright.explore.remedies.records import Duty, Move, MoveKind
from linewright.explore.remedies.weights import weight
from linewright.model.edits import Edit, Kind, Set
from linewright.model.tree import NO_PARENT

_M = MeasureName
#: Distances are whole multiples of this [m].
STEP_M = 0.1


def shifts(at: At) -> Iterator[Move]:
    """Move the fitting that the check hangs on toward what governs, or back toward the outdoor group."""
    if at.book.recovery:
        return
    measures = at.measures
    if measures & {_M.AFTER_FIRST_BRANCH.value, _M.NEAREST_FARTHEST_DIFFERENCE.value}:
        yield from _first_branch(at)
    if at.check.measure == _M.LAST_JOINT_TO_UNIT.value:
        yield from _last_fitting(at)
    if at.check.measure == _M.MAIN_LENGTH.value:
        yield from _main(at)
    if at.check.measure == _M.JOINT_SPACING.value:
        yield from _spacing(at)


def _first_branch(at: At) -> Iterator[Move]:
    first = at.tree.first_branch
    if first is None or not at.governing:
        return
    way = at.path(at.governing[0])
    if first in way and way[-1] != first:
        yield from _along(at, first, way[way.index(first) + 1])


def _last_fitting(at: At) -> Iterator[Move]:
    for unit in at.governing[:2]:
        last = at.tree.last_fitting[unit]
        if last != NO_PARENT:
            way = at.path(unit)
            yield from _along(at, last, way[way.index(last) + 1])


def _along(at: At, node: int, arm: int) -> Iterator[Move]:
    """By what is needed, by half of the arm, by as much as there is."""
    whole = at.length_m(arm)
    if whole is None:
        return
    most = _down(whole - (at.spacing_m if is_fitting(at, arm) else STEP_M))
    for metres in dict.fromkeys((*(_up(one) for one in at.beyonds), _down(whole / 2), most)):
        if 0.0 < metres <= most:
            move = outward(at, node, arm, metres)
            if move is not None:
                yield move


def _main(at: At) -> Iterator[Move]:
    first = at.tree.first_branch
    if first is None:
        return
    metres = _up(at.beyond)
    if at.is_largest:
        yield from (move for move in (back(at, first, metres),) if move is not None)
        return
    for arm in at.tree.children[first]:
        move = outward(at, first, arm, metres)
        if move is not None:
            yield move


def _spacing(at: At) -> Iterator[Move]:
    for run in at.governing:
        metres, near = _up(at.beyond), at.near(run)
        for arm in sorted(at.tree.children[run], key=lambda one: -len(list(at.beyond_node(one)))):
            move = outward(at, run, arm, metres)
            if move is not None:
                yield move
        if near != NO_PARENT:
            yield from (move for move in (back(at, near, metres),) if move is not None)


def outward(at: At, node: int, arm: int, metres: float) -> Move | None:
    """Move a fitting outward along one arm; none where the arm is too short or a length is not known."""
    whole, into = at.length_m(arm), at.length_m(node)
    others = [child for child in at.tree.children[node] if child != arm]
    least = at.spacing_m if is_fitting(at, arm) else 0.0
    if whole is None or into is None or whole - metres < least or any(at.length_m(one) is None for one in others):
        return None
    rise = at.result.state.ground.levels.rise_m[arm]
    slope = None if rise is None else rise / whole if whole else 0.0
    changed = {node: metres, arm: -metres, **dict.fromkeys(others, metres)}
    against = None if slope is None else -slope
    rises = {node: slope, arm: against, **dict.fromkeys(others, against)}
    words = f"{fitting_word(at, node)} {{}} further along run {at.tree.ids[arm]}"
    back_along = f"; the pipe to {', '.join(at.tree.ids[one] for one in others)} goes back along it" if others else ""
    return _made(at, node, changed, rises, slope, metres, plain(words).replace("{{}}", "{}") + plain(back_along))


def back(at: At, node: int, metres: float) -> Move | None:
    """Move a fitting back toward the outdoor group; all arms then begin there and go along the same way."""
    into, arms = at.length_m(node), at.tree.children[node]
    least = at.spacing_m if is_fitting(at, at.near(node)) else STEP_M
    if into is None or into - metres < least or any(at.length_m(arm) is None for arm in arms):
        return None
    rise = at.result.state.ground.levels.rise_m[node]
    slope = None if rise is None else rise / into if into else 0.0
    changed = {node: -metres, **dict.fromkeys(arms, metres)}
    rises = {node: None if slope is None else -slope, **dict.fromkeys(arms, slope)}
    down = None if slope is None else -slope
    words = f"{fitting_word(at, node)} {{}} back toward {at.name_of(at.near(node))}; its arms go along that way"
    return _made(at, node, changed, rises, down, metres, plain(words).replace("{{}}", "{}"))


def _made(  # noqa: PLR0917 - what came of one shift
    at: At,
    node: int,
    changed: dict[int, float],
    slopes: dict[int, float | None],
    slope: float | None,
    metres: float,
    words: str,
) -> Move | None:
    edits: list[Edit] = []
    for run, by in changed.items():
        values: Values = {"length_m": round((at.length_m(run) or 0.0) + by, 6)}
        stated, per_m = at.tree.runs[run].rise_m, slopes[run]
        if stated is not None:
            if per_m is None:
                return None
            values["rise_m"] = round(stated + per_m * metres, 6)
        edits.append(set_run(at, run, values))
    fitting = next((one for one in at.system.fittings if one.id == at.tree.ids[node]), None)
    if fitting is not None and fitting.elevation_m is not None:
        if slope is None:
            return None
        elevation = {"elevation_m": round(fitting.elevation_m + slope * metres, 6)}
        edits.append(Set(kind=Kind.FITTING, id=fitting.id, system=at.system.id, values=elevation))
    return Move(
        kind=MoveKind.SHIFT,
        subject=f"{at.system.id}/{at.tree.ids[node]}",
        edits=tuple(edits),
        words=phrase(words, length(metres)),
        duties=(Duty.BUILD,),
        weight=weight(MoveKind.SHIFT),
    )


def _down(metres: float) -> float:
    return round(math.floor(metres / STEP_M + 1e-9) * STEP_M, 6)


def _up(metres: float) -> float:
    return round(math.ceil(metres / STEP_M - 1e-9) * STEP_M, 6)
