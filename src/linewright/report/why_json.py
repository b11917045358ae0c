"""`linewright/working/1`: the working of a subject as JSON."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from linewright.engine.working import Working
from linewright.engine.working.steps import Step

SCHEMA = "linewright/working/1"


def why_json(working: Working, files: Mapping[str, str]) -> dict[str, Any]:
    """Give every step; `files` names the file behind `design` and `book:ID`."""
    return {
        "schema": SCHEMA,
        "subject": working.subject,
        "steps": [_step(step, files) for step in working.steps],
    }


def place(from_: str, files: Mapping[str, str]) -> str:
    """Name the file in a `from`, so that it is a path in an input file; a subject stays as it is."""
    for head, file in files.items():
        if from_.startswith(f"{head}:"):
            return f"{file}:{from_.removeprefix(f'{head}:')}"
    return from_


def _step(step: Step, files: Mapping[str, str]) -> dict[str, Any]:
    return {
        "name": step.name,
        "formula": step.formula,
        "text": step.text,
        "source": step.source,
        "inputs": [
            {
                "name": item.name,
                "value": item.value,
                "unit": item.dimension.si,
                "from": place(item.from_, files),
            }
            for item in step.inputs
        ],
        "table": step.table or None,
        "row": step.row,
        "page": step.page,
        "result": step.result,
        "unit": step.dimension.si,
        "note": step.note or None,
    }
