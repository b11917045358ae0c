"""Refrigerant in rooms as JSON; stands in a system only where the design chose a standard."""

from __future__ import annotations

from typing import Any

from linewright.engine.safety_records import SafetyResult, SpaceResult
from linewright.engine.valves import Valve
from linewright.standards.environment import Ban, Footprint
from linewright.standards.refrigerants.data import Datum
from linewright.standards.safety.cures import Cure, Part
from linewright.units import Dimension

Json = dict[str, Any]


def safety_json(found: SafetyResult, *, cures: bool = True) -> Json:
    """One system's refrigerant: by which standard, in which rooms, what would help if wanted, what it weighs."""
    return {
        "profile": found.profile.value,
        "edition": found.edition,
        "standard": found.title,
        "refrigerant": found.refrigerant,
        "charge_kg": found.charge_kg,
        "values": [_value(datum) for datum in found.values],
        "spaces": [_space(space) | (_help(space) if cures else {}) for space in found.spaces],
        "climate": _climate(found.footprint),
    }


def _value(datum: Datum) -> Json:
    return {
        "quantity": datum.quantity,
        "value": datum.value,
        "unit": datum.unit,
        "edition": datum.edition,
        "source": datum.source,
        "confidence": datum.confidence.value,
        "disputed": datum.disputed,
    }


def _space(space: SpaceResult) -> Json:
    check, verdict = space.check, space.verdict
    return {
        "room": space.room.id,
        "rooms": sorted(room.id for room in space.rooms),
        "joined": None if space.joined is None else space.joined.id,
        "parts": sorted(space.parts),
        "subject": check.subject,
        "standing": check.standing.value,
        "charge_kg": verdict.charge_kg,
        "bound_kg": verdict.bound_kg,
        "clause": verdict.clause,
        "rests_on": list(verdict.rests_on),
        "needs": sorted(check.missing),
        "assumed": sorted(space.assumed),
    }


def _help(space: SpaceResult) -> Json:
    return {
        "cures": [_cure(cure) for cure in space.cures],
        "valve": None if space.valve is None else _valve(space.valve),
    }


def _valve(valve: Valve) -> Json:
    return {"run": valve.run, "pipe_kg": valve.pipe_kg, "units": list(valve.units)}


def _cure(cure: Cure) -> Json:
    return {"parts": [_part(part) for part in cure.parts]}


def _part(part: Part) -> Json:
    unit = None if part.value is None or part.dimension is Dimension.NUMBER else part.dimension.si
    return {"what": part.what, "value": part.value, "unit": unit}


def _climate(weight: Footprint) -> Json:
    band = weight.leak_check
    return {
        "gwp": dict(weight.gwp),
        "tonnes_co2e": dict(weight.tonnes),
        "leak_check_months": None if band is None else band.months,
        "leak_check_months_with_detection": None if band is None else band.months_with_detection,
        "rules": [_ban(ban) for ban in weight.bans],
    }


def _ban(ban: Ban) -> Json:
    rule = ban.rule
    return {
        "id": rule.id,
        "gwp_at_least": rule.gwp_at_least,
        "from": rule.from_.isoformat(),
        "until": None if rule.until is None else rule.until.isoformat(),
        "unless": rule.unless,
        "source": rule.source,
        "falls_under": ban.falls_under,
        "in_force": ban.in_force,
    }
