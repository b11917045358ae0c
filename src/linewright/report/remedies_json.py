"""`linewright/remedies/1`: remedies for other programs, all values in SI."""

from __future__ import annotations

import json
from typing import Any

from linewright.document.edits_out import encode_edits
from linewright.document.encode import Style
from linewright.document.render import Form
from linewright.engine.records import Check
from linewright.explore.remedies.records import Effect, Move, Outcome, Reached, Remedy
from linewright.model.edits import Batch
from linewright.report.remedies_text import CAUTION
from linewright.units import UnitSystem

SCHEMA = "linewright/remedies/1"


def remedies_json(outcome: Outcome, *, project: str, units: UnitSystem) -> dict[str, Any]:
    """Give an outcome; edits are written in the units of the design, words in both systems."""
    return {
        "schema": SCHEMA,
        "project": project,
        "targets": [{"subject": check.subject, **_check(check)} for check in outcome.targets],
        "remedies": [_remedy(i + 1, remedy, units) for i, remedy in enumerate(outcome.remedies)],
        "trades": [_remedy(i + 1 + len(outcome.remedies), one, units) for i, one in enumerate(outcome.trades)],
        "reached": None if outcome.reached is None else _reached(outcome.reached, units),
        "evaluations": outcome.evaluations,
        "budget": outcome.budget,
        "tried": [{"kind": kind.value, "count": count} for kind, count in outcome.tried.items()],
        "refused": outcome.refused,
        "locks": list(outcome.locks),
        "stopped": outcome.stopped,
        "cautions": [CAUTION.removeprefix("Caution: ")],
    }


def _remedy(number: int, remedy: Remedy, units: UnitSystem) -> dict[str, Any]:
    return {
        "number": number,
        "cost": remedy.cost,
        "price": remedy.price,
        "unpriced": list(remedy.unpriced),
        "duties": [duty.value for duty in remedy.duties],
        "moves": [_move(move) for move in remedy.moves],
        "edits": _edits(remedy.edits, units),
        "cured": [_effect(effect) for effect in remedy.cured],
        "traded": [_effect(effect) for effect in remedy.traded],
        "worse": [_effect(effect) for effect in remedy.worse],
        "effects": [_effect(effect) for effect in remedy.effects],
    }


def _move(move: Move) -> dict[str, Any]:
    return {
        "kind": move.kind.value,
        "words_si": move.words.say(UnitSystem.SI),
        "words_ip": move.words.say(UnitSystem.IP),
        "duties": [duty.value for duty in move.duties],
        "weight": move.weight,
    }


def _reached(reached: Reached, units: UnitSystem) -> dict[str, Any]:
    return {
        "violation": reached.violation,
        "moves": [_move(move) for move in reached.moves],
        "edits": _edits(reached.edits, units),
        "left": [_effect(effect) for effect in reached.left],
    }


def _edits(batch: Batch, units: UnitSystem) -> list[dict[str, Any]]:
    made: list[dict[str, Any]] = json.loads(Form(as_json=True).flow(encode_edits(batch, Style(units))))
    return made


def _effect(effect: Effect) -> dict[str, Any]:
    return {
        "subject": effect.key.subject,
        "kind": effect.key.kind,
        "at": effect.key.at,
        "before": None if effect.before is None else _check(effect.before),
        "after": None if effect.after is None else _check(effect.after),
    }


def _check(check: Check) -> dict[str, Any]:
    return {
        "measure": check.measure,
        "sense": check.sense.value,
        "standing": check.standing.value,
        "value": check.value,
        "bound": check.bound,
        "margin": check.margin,
        "unit": check.dimension.si,
        "governs": list(check.governs),
    }
