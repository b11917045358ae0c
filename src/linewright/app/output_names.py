"""Names of files for ids of a design."""

from __future__ import annotations

import re
from collections.abc import Sequence

_ODD = re.compile(r"[^\w.-]+")


def file_names(ids: Sequence[str]) -> dict[str, str]:
    """Names of files by id: without what file systems mind, each once whatever the case of its letters."""
    found: dict[str, str] = {}
    known: set[str] = set()
    for number, name in enumerate(ids, start=1):
        plain = _ODD.sub("-", name).strip(".-") or f"system-{number}"
        if plain.casefold() in known:
            plain = f"{plain}-{number}"
        known.add(plain.casefold())
        found[name] = plain
    return found
