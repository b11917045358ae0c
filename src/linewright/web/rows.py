"""Results as JSON text: what is the same as before is not written again."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from typing import Any, TypeVar

import orjson

from linewright.model.kept import Kept
from linewright.model.same import OfSame

T = TypeVar("T")

#: Rows of one kind that are kept at hand: the runs of some twenty systems of 64 units.
_MOST = 3_000


class Rows:
    """The parts of results that were written last."""

    def __init__(self) -> None:
        """Start with none."""
        self._rows: dict[Callable[..., Any], OfSame[Any, orjson.Fragment]] = {}
        self._parts: dict[Callable[..., Any], Kept[orjson.Fragment]] = {}

    def rows(self, rows: Iterable[T], make: Callable[[T], dict[str, Any]]) -> list[orjson.Fragment]:
        """Give rows as text; one that is the very same as before is not written again."""
        known = self._rows.get(make)
        if known is None:
            known = self._rows[make] = OfSame(_written_by(make), _MOST)
        return known.all(rows)

    def part(self, name: Hashable, make: Callable[..., Any], *of: Any) -> orjson.Fragment:  # noqa: ANN401 - of anything
        """Give a part as text; one that is made of the same as before under its name is not written again."""
        known = self._parts.get(make)
        if known is None:
            known = self._parts[make] = Kept(_written_by(make))
        return known(name, *of)


def _written_by(make: Callable[..., Any]) -> Callable[..., orjson.Fragment]:
    return lambda *of: orjson.Fragment(orjson.dumps(make(*of)))
