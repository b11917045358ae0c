"""`linewright/faults/1`: what is wrong with an input, as JSON."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from linewright.errors import Fault

SCHEMA = "linewright/faults/1"


def faults_json(faults: Sequence[Fault], *, more: int = 0) -> dict[str, Any]:
    """Give every fault with its place, what is wrong and what would be right.

    more : int — how many faults beyond these were found and are not listed; a key of that name stands only then
    """
    return {
        "schema": SCHEMA,
        **({"more": more} if more else {}),
        "faults": [
            {
                "file": fault.file,
                "line": fault.line,
                "column": fault.column,
                "path": fault.path,
                "value": fault.value,
                "message": fault.message,
                "expected": fault.expected,
            }
            for fault in faults
        ],
    }
