"""`linewright/edits/1`: edits that were applied and the edits that undo them."""

from __future__ import annotations

import json
from typing import Any

from linewright.document.edits_out import encode_edits
from linewright.document.encode import Style
from linewright.document.render import Form
from linewright.engine import Evaluation
from linewright.model.edits import Applied, Edit
from linewright.units import UnitSystem

SCHEMA = "linewright/edits/1"


def edits_json(
    edit: Edit, applied: Applied, before: Evaluation, after: Evaluation, *, units: UnitSystem, dry_run: bool
) -> dict[str, Any]:
    """Give what was applied, what undoes it, and the standing before and after."""
    return {
        "schema": SCHEMA,
        "dry_run": dry_run,
        "applied": plain_edits(edit, units),
        "inverse": plain_edits(applied.inverse, units),
        "standing": {"before": before.standing.value, "after": after.standing.value},
    }


def plain_edits(edit: Edit, units: UnitSystem) -> list[dict[str, Any]]:
    """Edits as plain values, as a file of edits holds them."""
    made: list[dict[str, Any]] = json.loads(Form(as_json=True).flow(encode_edits(edit, Style(units))))
    return made
