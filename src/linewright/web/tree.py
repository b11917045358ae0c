"""What of a design is walked over and found: its trees by name, without a figure (`linewright/tree/1`)."""

from __future__ import annotations

from typing import Any

from linewright.engine import Evaluation
from linewright.engine.records import SystemResult


def tree_json(evaluation: Evaluation) -> dict[str, Any]:
    """Give runs, units and fittings of every system, and the names of rooms."""
    return {
        "schema": "linewright/tree/1",
        "systems": [_system(one) for one in evaluation.systems],
        "rooms": [{"id": room.id, "name": room.name} for room in evaluation.design.rooms],
    }


def _system(one: SystemResult) -> dict[str, Any]:
    return {
        "id": one.id,
        "runs": [{"id": run.to, "from": run.from_} for run in one.system.runs],
        "units": [{"id": unit.id, "model": unit.model, "room": unit.room} for unit in one.system.units],
        "fittings": [{"id": found.id, "kind": found.kind.value, "model": found.model} for found in one.fittings],
    }
