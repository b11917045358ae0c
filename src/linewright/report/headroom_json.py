"""`linewright/headroom/1`: headroom as JSON, in SI units that stand beside."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from linewright.engine.records import Check
from linewright.explore.headroom_records import Growth, Headroom, LeftOut, Tightening
from linewright.report.edits_json import plain_edits
from linewright.units import UnitSystem

SCHEMA = "linewright/headroom/1"


def headroom_json(found: Sequence[Headroom], *, project: str, units: UnitSystem) -> dict[str, Any]:
    """Give what each system has to spare; `units` are those in which edits are written."""
    return {
        "schema": SCHEMA,
        "project": project,
        "systems": [_system(one, units) for one in found],
    }


def _system(found: Headroom, units: UnitSystem) -> dict[str, Any]:
    return {
        "id": found.system,
        "standing": found.standing.value,
        "claimed": found.claimed,
        "beside": found.beside,
        "broken": [_check(check) for check in found.broken],
        "open": [_check(check) for check in found.open],
        "growths": [_growth(growth) for growth in found.growths],
        "left_out": [_left(left) for left in found.left_out],
        "tightenings": [_tightening(one, units) for one in found.tightenings],
        "not_tightened": [_left(left) for left in found.not_tightened],
        "tried": found.tried,
    }


def _growth(growth: Growth) -> dict[str, Any]:
    return {
        "subject": growth.subject,
        "kind": growth.kind.value,
        "words": growth.words,
        "down": growth.down,
        "unit": growth.dimension.si,
        "stated": growth.stated,
        "holds_to": growth.holds_to,
        "fails_at": growth.fails_at,
        "tried_to": growth.tried_to,
        "step": growth.step,
        "scan": growth.scan,
        "gives": [_check(check) for check in growth.gives],
        "faults": list(growth.faults),
    }


def _check(check: Check) -> dict[str, Any]:
    return {
        "subject": check.subject,
        "measure": check.measure,
        "standing": check.standing.value,
        "value": check.value,
        "bound": check.bound,
        "unit": check.dimension.si,
    }


def _left(left: LeftOut) -> dict[str, str]:
    return {"subject": left.subject, "why": left.why}


def _tightening(one: Tightening, units: UnitSystem) -> dict[str, Any]:
    return {
        "kind": one.kind.value,
        "subject": one.subject,
        "words": one.words,
        "unit": one.dimension.si,
        "before": one.before,
        "after": one.after,
        "charge_before_kg": one.charge_before_kg,
        "charge_after_kg": one.charge_after_kg,
        "edits": plain_edits(one.edit, units),
    }
