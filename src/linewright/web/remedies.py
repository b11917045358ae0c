"""A search for remedies as lines of JSON, each sent as soon as it is known."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import orjson

from linewright.app.keeping.kinds import DESIGN
from linewright.engine.records import Check
from linewright.explore.remedies import Effect, Outcome, Progress, Reached, Remedy
from linewright.model.design import Design
from linewright.model.edits import Batch
from linewright.units import UnitSystem
from linewright.web.bodies import EffectOut, RemediesOut, RemedyLine, RemedyOut
from linewright.web.overview import margin_line

#: How far a search is is told after so many evaluations.
EVERY = 10
_NONE = "none"


def progress_line(progress: Progress, units: UnitSystem, design: Design) -> RemedyLine | None:
    """Tell how far a search is; none where there is nothing new to tell."""
    if progress.newest is None and progress.evaluations % EVERY:
        return None
    newest = None if progress.newest is None else remedy_out(progress.newest, units, design)
    return RemedyLine(evaluations=progress.evaluations, budget=progress.budget, newest=newest, found=None)


def last_line(outcome: Outcome, units: UnitSystem, design: Design) -> RemedyLine:
    """Tell everything that a search came to."""
    found = RemediesOut(
        targets=[target.subject for target in outcome.targets],
        remedies=[remedy_out(one, units, design) for one in outcome.remedies],
        trades=[remedy_out(one, units, design) for one in outcome.trades],
        tried={kind.value: count for kind, count in outcome.tried.items()},
        locks=list(outcome.locks),
        least=None if outcome.reached is None else _reached(outcome.reached, units, design),
        stopped=outcome.stopped,
    )
    return RemedyLine(evaluations=outcome.evaluations, budget=outcome.budget, newest=None, found=found)


def remedy_out(one: Remedy, units: UnitSystem, design: Design) -> RemedyOut:
    """Give a remedy in the words and units that people read, with its edits as they are written."""
    return RemedyOut(
        words=[move.words.say(units) for move in one.moves],
        duties=[duty.value for duty in one.duties],
        cost=f"change {one.cost:g}",
        cured=list(_effects(one.cured, units)),
        traded=list(_effects(one.traded, units)),
        worse=list(_effects(one.worse, units)),
        edits=_written(one.edits, design),
    )


def _written(edits: Batch, design: Design) -> list[dict[str, Any]]:
    """Give edits as they are written in a file."""
    found: list[dict[str, Any]] = orjson.loads(DESIGN.write_edits(edits, design))
    return found


def _reached(one: Reached, units: UnitSystem, design: Design) -> RemedyOut:
    return RemedyOut(
        words=[move.words.say(units) for move in one.moves],
        duties=[],
        cost="",
        cured=[],
        traded=[],
        worse=list(_effects(one.left, units)),
        edits=_written(one.edits, design),
    )


def _effects(effects: tuple[Effect, ...], units: UnitSystem) -> Iterator[EffectOut]:
    for one in effects:
        before, after = (_told(check, units) for check in (one.before, one.after))
        yield EffectOut(
            subject=one.key.subject,
            label=before[0] or after[0],
            before=before[1],
            after=after[1],
            standing_before=before[2],
            standing_after=after[2],
        )


def _told(check: Check | None, units: UnitSystem) -> tuple[str, str, str]:
    """Label, figure and standing of a check; of one that is not there that it is not."""
    if check is None:
        return "", _NONE, _NONE
    line = margin_line(check, units)
    return line.label, line.text, line.standing
