"""A run that has to be built shorter, or longer: advice to be carried out on site, never a change on paper alone."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from linewright.book.measures import MeasureName
from linewright.explore.remedies.at import At
from linewright.explore.remedies.phrases import Phrase, Safe, length, phrase, plain
from linewright.explore.remedies.records import Duty, Length, Move, MoveKind
from linewright.explore.remedies.weights import weight
from linewright.model.edits import Kind, Set
from linewright.units import over

#: Lengths that are proposed are whole multiples of this [m].
STEP_M = 0.1
#: On the way to a remedy of several moves a run is not made shorter than this share of what it is.
LEAST_SHARE = 0.3
#: Runs of a way that are tried, the longest first.
MOST_RUNS = 6
_ALL_RUNS = (MeasureName.TOTAL_LENGTH.value, MeasureName.ADDITIONAL_CHARGE.value, MeasureName.TOTAL_CHARGE.value)
_OF_MODULES = (MeasureName.MODULE_PIPE, MeasureName.MODULE_PIPE_TOTAL, MeasureName.MODULE_PIPE_DIFFERENCE)


def lengths(at: At) -> Iterator[Move]:
    """Shorten runs on the way that governs (a largest bound), or lengthen what governs (a least one)."""
    if any(at.check.measure == measure.value for measure in _OF_MODULES):
        yield from _module_pipes(at)
        return
    yield from _all_own(at)
    runs = _runs(at)
    if not at.is_largest:
        for run in runs:
            if (now := at.length_m(run)) is not None:
                yield set_length(at, run, _up(now + at.beyond), shorter=False)
        return
    for run in runs:
        for metres in _shorter(at, run):
            yield set_length(at, run, metres)


def _shorter(at: At, run: int) -> Iterator[float]:
    """Lengths by which each bound is met, however little; half of what it is where one would take too much of it."""
    now = at.length_m(run)
    if now is None:
        return
    rise = abs(at.result.state.ground.levels.rise_m[run] or 0.0)
    wanted = [metres for beyond in at.beyonds if (metres := _down(now - beyond)) >= max(rise, STEP_M)]
    yield from wanted
    least = max(LEAST_SHARE * now, rise)
    half = _down(max(least, now / 2))
    if sum(metres >= least for metres in wanted) < len(at.beyonds) and least <= half < now:
        yield half


def _all_own(at: At) -> Iterator[Move]:
    """Where the own runs of several units are too long: all of them at once."""
    if at.check.measure != MeasureName.LAST_JOINT_TO_UNIT.value or at.check.bound is None:
        return
    measured = at.result.measured(at.check)
    if measured is None:
        return
    edits, own = [], at.result.state.ground.is_own
    for name, value in sorted(measured.series.values.items()):
        run = at.tree.at.get(name)
        now = None if run is None else at.length_m(run)
        if run is None or now is None or not own[run] or not over(value, at.check.bound):
            continue
        metres = _down(now - (value - at.check.bound))
        if metres < LEAST_SHARE * now:
            return
        edits.append(Set(kind=Kind.RUN, id=name, system=at.system.id, values={"length_m": metres}))
    if len(edits) > 1:
        names = ", ".join(edit.id for edit in edits)
        text = f"runs {plain(names)} built so that each is at most {{}} from its last fitting"
        yield Move(
            kind=MoveKind.LENGTH,
            subject=at.system.id,
            edits=tuple(edits),
            words=phrase(text, length(at.check.bound, Safe.AT_MOST)),
            duties=(Duty.BUILD,),
            weight=weight(MoveKind.LENGTH, len(edits)),
        )


def shorter_main(at: At) -> Iterator[Move]:
    """Halve the main or the longest runs on the way, for what only follows from length: capacity and charge."""
    for run in _runs(at)[:MOST_RUNS]:
        now = at.length_m(run)
        if now is None:
            continue
        least = max(now / 2, abs(at.result.state.ground.levels.rise_m[run] or 0.0))
        if _down(least) < now:
            yield set_length(at, run, max(_down(least), STEP_M))


def _runs(at: At) -> list[int]:
    """Runs by which the check could be met, the longest first."""
    tree, measure = at.tree, at.check.measure
    if measure == MeasureName.MAIN_LENGTH.value:
        found = list(tree.main)
    elif measure in _ALL_RUNS or not at.governing:
        found = list(range(len(tree.ids)))
    elif not at.is_largest:
        found = list(at.governing)
    else:
        found = sorted({run for governing in at.governing[:1] for run in at.path(governing)})
        if measure == MeasureName.LAST_JOINT_TO_UNIT.value:
            found = [run for run in found if at.result.state.ground.is_own[run]]
        elif measure in (MeasureName.AFTER_FIRST_BRANCH.value, MeasureName.NEAREST_FARTHEST_DIFFERENCE.value):
            found = [run for run in found if run not in tree.main]
    known = [run for run in found if at.length_m(run)]
    return sorted(known, key=lambda run: (-(at.length_m(run) or 0.0), run))[:MOST_RUNS]


def set_length(at: At, run: int, metres: float, *, shorter: bool = True) -> Move:
    """Set the length of a run to what it has to be built to."""
    return _move(at, Kind.RUN, at.tree.ids[run], Length(metres=metres, was_m=at.length_m(run) or 0.0, shorter=shorter))


def _module_pipes(at: At) -> Iterator[Move]:
    for pipe in at.system.outdoor.pipes:
        if pipe.length_m is None:
            continue
        metres = _down(pipe.length_m - at.beyond)
        if metres > 0:
            yield _move(at, Kind.PIPE, pipe.to, Length(metres=metres, was_m=pipe.length_m, shorter=True))


def _move(at: At, kind: Kind, name: str, to: Length) -> Move:
    return Move(
        kind=MoveKind.LENGTH,
        edits=(Set(kind=kind, id=name, system=at.system.id, values={"length_m": to.metres}),),
        words=_words(kind, name, to),
        subject=f"{at.system.id}/{kind}:{name}",
        duties=(Duty.BUILD,),
        stands_for=to,
        weight=weight(MoveKind.LENGTH),
    )


def with_length(move: Move, metres: float) -> Move:
    """Give a move of one length with another one [m]."""
    if move.stands_for is None:
        return move
    return _written(move, replace(move.stands_for, metres=round(metres, 6)))


def _written(move: Move, to: Length) -> Move:
    made = [edit for edit in move.edits if isinstance(edit, Set)]
    edits = tuple(replace(edit, values={"length_m": to.metres}) for edit in made)
    return replace(move, edits=edits, words=_words(made[0].kind, made[0].id, to), stands_for=to)


def _words(kind: Kind, name: str, to: Length) -> Phrase:
    what = "module pipe" if kind is Kind.PIPE else "run"
    word, safe = ("at most", Safe.AT_MOST) if to.shorter else ("at least", Safe.AT_LEAST)
    text = f"{what} {plain(name)} built {word} {{}} long instead of {{}}"
    return phrase(text, length(to.metres, safe), length(to.was_m))


def _down(metres: float) -> float:
    return round(math.floor(metres / STEP_M + 1e-9) * STEP_M, 6)


def _up(metres: float) -> float:
    return round(math.ceil(metres / STEP_M - 1e-9) * STEP_M, 6)
