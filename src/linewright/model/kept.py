"""What was made last of each thing, by its name: made of the same again, it is the very same again.

A design changes in one place at a time, and whoever shows it makes most of it as it was. Where the parts of a result
keep their identity, whoever comes after finds out at a glance that nothing changed, and keeps what it made of them.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from typing import Any, Generic, TypeVar

T = TypeVar("T")

#: Names that are kept at hand of one kind of thing: those of some forty systems of 64 units, 1.6 MB each.
MOST_KEPT = 6_000


class Kept(Generic[T]):
    """The last value of each name, with what it was made of. What is made must depend on nothing else."""

    __slots__ = ("_last", "_make")

    def __init__(self, make: Callable[..., T]) -> None:
        """Keep how a value is made."""
        self._make = make
        self._last: dict[Hashable, tuple[tuple[Any, ...], T]] = {}

    def __call__(self, name: Hashable, *parts: Any) -> T:  # noqa: ANN401 - what `make` takes
        """Give what is made of some parts: what stands under the name, where it was made of equal ones."""
        last = self._last.get(name)
        if last is not None and last[0] == parts:
            return last[1]
        made = self._make(*parts)
        if len(self._last) >= MOST_KEPT:
            self._last.clear()
        self._last[name] = (parts, made)
        return made


def itself(value: T) -> T:
    """Give a value: of equal ones under one name, `Kept(itself)` gives the first."""
    return value
