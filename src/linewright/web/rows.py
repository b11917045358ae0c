"""Rows of results as JSON text: one that is the very same row as before is not written again."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

import orjson

T = TypeVar("T")

#: Rows that are kept at hand: those of some twenty systems of 64 units.
_MOST = 6_000


class Rows:
    """The rows that were written last, by their place in memory; each is kept with its text, so that it stays there."""

    def __init__(self) -> None:
        """Start with none."""
        self._written: dict[int, tuple[object, orjson.Fragment]] = {}

    def __call__(self, row: T, make: Callable[[T], dict[str, Any]]) -> orjson.Fragment:
        """Give a row as text."""
        known = self._written.get(id(row))
        if known is not None and known[0] is row:
            return known[1]
        text = orjson.Fragment(orjson.dumps(make(row)))
        if len(self._written) >= _MOST:
            self._written.clear()
        self._written[id(row)] = row, text
        return text
