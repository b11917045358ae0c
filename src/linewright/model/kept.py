"""What was made last of each thing, by its name: made of the same again, it is the very same again.

A design changes in one place at a time, and whoever shows it makes most of it as it was. Where the parts of a result
keep their identity, whoever comes after finds out at a glance that nothing changed, and keeps what it made of them.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Sequence
from itertools import compress, count
from operator import ne
from typing import Any, Generic, TypeVar

T = TypeVar("T")

#: Names that are kept at hand of one kind of thing: those of some forty systems of 64 units, 1.6 MB each.
MOST_KEPT = 6_000
#: Sheets of which what is made from the one before is kept at hand.
MOST_SHEETS = 40


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


class KeptEach(Generic[T]):
    """As `Kept`, of many things at once: those that are made of the same parts as before are not made again.

    Cheaper by far where most of many things are as they were and stand in the order in which they stood.
    """

    __slots__ = ("_count", "_last", "_make")

    def __init__(self, make: Callable[..., T]) -> None:
        """Keep how a value is made."""
        self._make, self._count = make, 0
        self._last: dict[Hashable, tuple[Sequence[tuple[Any, ...]], list[T]]] = {}

    def __call__(self, name: Hashable, rows: Sequence[tuple[Any, ...]]) -> list[T]:
        """Give what is made of each row of parts: what was made of it under the name, where it stood there before."""
        before, made = self._last.get(name, ((), []))
        if len(before) != len(rows):
            before, made = self._moved(before, made, rows)
        found = made.copy()
        for at in compress(count(), map(ne, rows, before)):
            found[at] = self._make(*rows[at])
        self._keep(name, rows, found)
        return found

    @staticmethod
    def _moved(
        before: Sequence[tuple[Any, ...]], made: list[T], rows: Sequence[tuple[Any, ...]]
    ) -> tuple[list[tuple[Any, ...]], list[Any]]:
        """Bring what was there before into the order of new rows, by the very first part of each."""
        known = {id(was[0]): (was, old) for was, old in zip(before, made, strict=True)}
        found = [known.get(id(row[0]), ((), None)) for row in rows]
        return [was for was, _ in found], [old for _, old in found]

    def _keep(self, name: Hashable, rows: Sequence[tuple[Any, ...]], found: list[T]) -> None:
        self._count += len(rows) - len(self._last.pop(name, ((), ()))[0])
        if self._count > MOST_KEPT:
            self._last.clear()
            self._count = len(rows)
        self._last[name] = rows, found


class Last(Generic[T]):
    """The last value of each name, from which the next one is made with less work than anew."""

    __slots__ = ("_last", "_most")

    def __init__(self, most: int) -> None:
        """Keep values of so many names."""
        self._most, self._last = most, dict[Hashable, T]()

    def get(self, name: Hashable) -> T | None:
        """Give the last value of a name; none where it is not at hand."""
        return self._last.get(name)

    def put(self, name: Hashable, value: T) -> None:
        """Keep the next value of a name."""
        if len(self._last) >= self._most and name not in self._last:
            self._last.clear()
        self._last[name] = value


def itself(value: T) -> T:
    """Give a value: of equal ones under one name, `Kept(itself)` gives the first."""
    return value
