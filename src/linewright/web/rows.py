"""Results as JSON text: what is the same as before is not written again."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from typing import Any, TypeVar

import orjson

from linewright.model.kept import Kept, KeptEach

T = TypeVar("T")


class Rows:
    """The parts of results that were written last."""

    def __init__(self) -> None:
        """Start with none."""
        self._rows: dict[Callable[..., Any], KeptEach[orjson.Fragment]] = {}
        self._parts: dict[Callable[..., Any], Kept[orjson.Fragment]] = {}

    def rows(self, name: Hashable, rows: Sequence[T], make: Callable[[T], dict[str, Any]]) -> list[orjson.Fragment]:
        """Give the rows of a name as text; one that is as it was before is not written again."""
        known = self._rows.get(make)
        if known is None:
            known = self._rows[make] = KeptEach(_written_by(make))
        return known(name, list(zip(rows, strict=True)))

    def part(self, name: Hashable, make: Callable[..., Any], *of: Any) -> orjson.Fragment:  # noqa: ANN401 - of anything
        """Give a part as text; one that is made of the same as before under its name is not written again."""
        known = self._parts.get(make)
        if known is None:
            known = self._parts[make] = Kept(_written_by(make))
        return known(name, *of)


def _written_by(make: Callable[..., Any]) -> Callable[..., orjson.Fragment]:
    return lambda *of: orjson.Fragment(orjson.dumps(make(*of)))
