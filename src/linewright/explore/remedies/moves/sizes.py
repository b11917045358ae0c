"""Tubes one step up along the ladder: the main, the way to what governs, single runs; overrides taken off."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from linewright.engine.records import CheckKind
from linewright.explore.remedies.at import At
from linewright.explore.remedies.flows import LIQUID
from linewright.explore.remedies.phrases import Phrase, phrase, plain, tube
from linewright.explore.remedies.records import Duty, Move, MoveKind
from linewright.explore.remedies.weights import weight
from linewright.model.edits import OverrideSize
from linewright.model.tree import NO_PARENT
from linewright.model.values import Role
from linewright.units import same_tube

MOST_RUNS = 4


def sizes(at: At) -> Iterator[Move]:
    """Go one step up on the main, on the way beyond it, on all of it; each line alone and both together."""
    yield from overrides_off(at)
    tree = at.tree
    way = list(at.path(at.governing[0])) if at.governing else list(tree.main)
    between = [run for run in way if run not in tree.main and not at.result.state.ground.is_own[run]]
    roles = [role for role in at.book.ladders if any(_size(at, run, role) is not None for run in way)]
    for part, words in ((list(tree.main), "main"), (between, ""), (way, "")):
        if not part or (part == way and not between and way == list(tree.main)):
            continue
        for lines in (*((role,) for role in roles), tuple(roles)):
            yield from _up(at, part, lines, words)
    for run in sorted(way, key=lambda one: (-(at.length_m(one) or 0.0), one))[:MOST_RUNS]:
        for role in roles:
            yield from _up(at, [run], (role,), "")


def overrides_off(at: At) -> Iterator[Move]:
    """Leave to the book what was overridden: at what the check is about, and wherever anything is overridden."""
    if at.check.kind is CheckKind.OVERRIDE:
        run = at.governing[0] if at.governing else at.tree.at[_run_of(at)]
        role = Role(at.check.subject.rpartition(".")[2])
        yield _off(at, [(run, role)])
    overridden = [(run, role) for run, one in enumerate(at.tree.runs) for role in sorted(one.override)]
    touched = set(at.governing)
    of_check = [(run, role) for run, role in overridden if run in touched]
    if at.check.kind is CheckKind.ACTION and of_check:
        yield _off(at, of_check)
    if len(overridden) > 1 or (overridden and at.check.kind is not CheckKind.OVERRIDE):
        yield _off(at, overridden)


def _run_of(at: At) -> str:
    return at.check.subject.partition("/run:")[2].rpartition(".")[0]


def _off(at: At, found: Sequence[tuple[int, Role]]) -> Move:
    edits = tuple(
        OverrideSize(system=at.system.id, run=at.tree.ids[run], role=role, size_m=None) for run, role in found
    )
    named = ", ".join(f"{role.word} line of run {at.tree.ids[run]}" for run, role in found[:3])
    more = f" and {len(found) - 3} more" if len(found) > 3 else ""
    return Move(
        kind=MoveKind.OVERRIDE_OFF,
        subject=at.system.id,
        edits=edits,
        words=phrase(f"{plain(named)}{more} left to the book"),
        weight=weight(MoveKind.OVERRIDE_OFF, len(found)),
    )


def for_flow(at: At) -> Iterator[Move]:
    """Give a larger liquid line to liquid that boils, a smaller gas line to oil that stays behind."""
    way = list(at.path(at.governing[0])) if at.governing else []
    if at.check.measure == LIQUID:
        for part in (list(at.tree.main), way, *([run] for run in way)):
            yield from _up(at, part, (Role.LIQUID,), "")
        return
    gas = [role for role in at.book.ladders if role is not Role.LIQUID]
    for role in gas:
        yield from _up(at, way[-1:], (role,), "", up=False)
        yield from _up(at, way, (role,), "", up=False)


def _up(at: At, runs: Sequence[int], lines: Iterable[Role], words: str, *, up: bool = True) -> Iterator[Move]:
    """One step up, or down, from what each run has; nothing where a run is at the end of its ladder."""
    edits, to = [], []
    lines = tuple(lines)
    for run in runs:
        for role in lines:
            now = _size(at, run, role)
            if now is None:
                continue
            step = _step(at.book.ladders[role], now, up=up)
            if step is None:
                return
            edits.append(OverrideSize(system=at.system.id, run=at.tree.ids[run], role=role, size_m=step))
            to.append(step)
    if edits:
        yield Move(
            kind=MoveKind.SIZE,
            subject=at.system.id,
            edits=tuple(edits),
            words=_words(at, runs, lines, to, words=words, way="up" if up else "down"),
            duties=(Duty.BUILD,),
            weight=weight(MoveKind.SIZE, len(edits)),
        )


def _step(ladder: Sequence[float], now: float, *, up: bool) -> float | None:
    """The next size above, or below, what a tube has [m]; none at the end of its ladder."""
    others = [size for size in ladder if not same_tube(size, now) and (size > now) is up]
    return (min(others) if up else max(others)) if others else None


def _size(at: At, run: int, role: Role) -> float | None:
    found = at.result.state.sized.by_role.get(role)
    return found[run] if found is not None and at.result.state.ground.carries(run, role) else None


def _words(at: At, runs: Sequence[int], lines: Sequence[Role], to: Sequence[float], *, words: str, way: str) -> Phrase:
    line = f"{lines[0].word} line" if len(lines) == 1 else "lines"
    first, last = at.near(runs[0]), at.tree.ids[runs[-1]]
    begins = "the outdoor unit" if first == NO_PARENT else at.tree.ids[first]
    name = f"main {line}" if words else line
    where = plain(f"from {begins} to {last}")
    if len(lines) == 1 and all(same_tube(size, to[0]) for size in to):
        return phrase(f"{name} {way} to {{}} {where}", tube(to[0]))
    return phrase(f"{name} one size {way} {where}")
