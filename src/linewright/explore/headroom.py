"""Headroom of a system that holds: how far each thing may grow before something gives, and what could be less."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterator

from linewright.engine import Library
from linewright.explore.first_failure import first_failure
from linewright.explore.growing import Growing, growings, plus
from linewright.explore.headroom_records import Growth, GrowthKind, Headroom, LeftOut, Tightening
from linewright.explore.tightening import tighten
from linewright.explore.verdicts import Judge
from linewright.model.design import Design
from linewright.units import Dimension

#: Told before each thing is looked at: how many are done, how many there are, and its name.
Progress = Callable[[int, int, str], None]
ALL = frozenset(GrowthKind)


def headroom(
    design: Design,
    library: Library,
    system: str,
    *,
    kinds: Collection[GrowthKind] = ALL,
    beside: bool = False,
    progress: Progress = lambda _done, _of, _name: None,
) -> Headroom:
    """Find what a system has to spare; the same every time.

    kinds : what is let grow
    beside : claim headroom although something is unjudged or to confirm; that stays out of every verdict

    No headroom is claimed for a system that does not hold, nor, without `beside`, for one that is not wholly judged.
    Raises KeyError for a system that the design does not have.
    """
    judge = Judge(design, library, system)
    claimed = not judge.broken and (beside or not judge.open)
    grown = list(_each(judge, kinds, progress)) if claimed else []
    tightened = list(tighten(judge, design, progress)) if claimed else []
    return Headroom(
        system=system,
        standing=judge.standing,
        broken=judge.broken,
        open=judge.open,
        claimed=claimed,
        beside=claimed and bool(judge.open),
        growths=tuple(sorted([one for one in grown if isinstance(one, Growth)], key=_order)),
        left_out=tuple(one for one in grown if isinstance(one, LeftOut)),
        tightenings=tuple(one for one in tightened if isinstance(one, Tightening)),
        not_tightened=tuple(one for one in tightened if isinstance(one, LeftOut)),
        tried=judge.tried,
    )


def room_of(design: Design, library: Library, system: str, subject: str) -> Headroom:
    """Find how far one thing may grow, such as `main/run:J1.length`; what could be less is not looked for.

    There are no growths where a design has no such thing, or its value is unknown. Raises as `headroom` does.
    """
    judge = Judge(design, library, system)
    claimed = not judge.broken and not judge.open
    of = next(item for item in judge.design.systems if item.id == system)
    found = [item for item in growings(judge.design, of) if item.subject == subject]
    return Headroom(
        system=system,
        standing=judge.standing,
        broken=judge.broken,
        open=judge.open,
        claimed=claimed,
        beside=False,
        growths=tuple(_grow(judge, item) for item in found if claimed and isinstance(item, Growing)),
        left_out=tuple(item for item in found if isinstance(item, LeftOut)),
        tightenings=(),
        not_tightened=(),
        tried=judge.tried,
    )


def _order(growth: Growth) -> tuple[int, bool, float, str, bool]:
    """By kind, and within it what gives first; all rooms at once, whose room is a share, before the others."""
    room = 0.0 if growth.dimension is Dimension.RATIO else growth.room
    return (list(GrowthKind).index(growth.kind), growth.fails_at is None, room, growth.subject, growth.down)


def _each(judge: Judge, kinds: Collection[GrowthKind], progress: Progress) -> Iterator[Growth | LeftOut]:
    of = next(item for item in judge.design.systems if item.id == judge.system)
    found = list(growings(judge.design, of))
    wanted = [item for item in found if isinstance(item, LeftOut) or item.kind in kinds]
    for done, item in enumerate(wanted):
        if isinstance(item, LeftOut):
            yield item
            continue
        progress(done, len(wanted), item.words)
        yield _grow(judge, item)


def _grow(judge: Judge, item: Growing) -> Growth:
    found = first_failure(lambda steps: judge.after(item.edit(steps))[0], scan=item.scan, most=item.most)
    return Growth(
        subject=item.subject,
        kind=item.kind,
        words=item.words,
        dimension=item.dimension,
        down=item.down,
        stated=item.stated,
        step=item.step,
        scan=plus(0.0, item.scan, item.step),
        holds_to=item.at(found.holds),
        fails_at=None if found.verdict is None else item.at(found.holds + 1),
        tried_to=item.at(found.tried),
        gives=() if found.verdict is None else found.verdict.gives,
        faults=() if found.verdict is None else found.verdict.faults,
    )
