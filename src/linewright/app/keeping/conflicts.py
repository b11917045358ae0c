"""A conflict as plain data: one field as it was, as the edit would have it, and as it is now."""

from __future__ import annotations

import json
from typing import Any

from linewright.document.edit_words import CLASSES, ITEMS
from linewright.document.encode import Style, encode, encode_value
from linewright.document.plans import is_value, plan
from linewright.document.render import Form
from linewright.model.edits.rebase import Conflict
from linewright.model.edits.values import Kind, Table
from linewright.model.values import key_of


def conflict_json(conflict: Conflict) -> dict[str, Any]:
    """Give a conflict; values as they would stand in a file, none where there is none."""
    field, _, part = conflict.field.partition(".")
    values = {name: _shown(conflict.element, field, getattr(conflict, name)) for name in ("base", "mine", "theirs")}
    return {"element": conflict.element, "field": key_of(field) + (f".{part}" if part else ""), **values}


def _shown(element: str, field: str, value: object) -> Any:  # noqa: ANN401 - plain data
    if value is None:
        return None
    if is_value(type(value)):
        return json.loads(Form(as_json=True).flow(encode_value(value, Style())))
    word = element.rpartition("/")[2].partition(":")[0]
    cls: type | None = (
        CLASSES[Kind(word)] if word in set(Kind) else ITEMS.get(Table(word)) if word in set(Table) else None
    )
    hint = (
        next((one.hint for one in plan(cls) if one.name == field), None) if cls is not None and is_value(cls) else None
    )
    if hint is None or "." in field:
        return str(value)
    return json.loads(Form(as_json=True).flow(encode(value, hint, Style())))
