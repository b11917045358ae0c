"""Frozen values as keys of what was made of them."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Generic, TypeVar

T = TypeVar("T")
R = TypeVar("R")


class Same(Generic[T]):
    """A frozen value as a key that no other one equals, however alike: two of one content may differ in type or order.

    It keeps the value, so that its place in memory is not given to another one while the key is held.
    """

    __slots__ = ("value",)

    def __init__(self, value: T) -> None:
        """Take the value."""
        self.value = value

    def __hash__(self) -> int:
        """Give the same for the same value."""
        return id(self.value)

    def __eq__(self, other: object) -> bool:
        """Say whether both are of the very same value."""
        return isinstance(other, Same) and self.value is other.value


class OfSame(Generic[T, R]):
    """What was made of frozen values, at hand for the very same ones.

    Each is kept with what it was made of, so that its place in memory is not given to another value.
    """

    __slots__ = ("_keeps", "_known", "_make", "_most")

    def __init__(self, make: Callable[[T], R], most: int, keeps: Callable[[R], bool] | None = None) -> None:
        """Keep how it is made, how many are kept at most, and which of them are (none given: all)."""
        self._make, self._most, self._keeps = make, most, keeps
        self._known: dict[int, tuple[T, R]] = {}

    def __call__(self, value: T) -> R:
        """Give what is made of a value."""
        known = self._known.get(id(value))
        return known[1] if known is not None and known[0] is value else self._made(value)

    def all(self, values: Iterable[T]) -> list[R]:
        """Give what is made of each of many values."""
        find = self._known.get
        return [
            known[1] if (known := find(id(value))) is not None and known[0] is value else self._made(value)
            for value in values
        ]

    def _made(self, value: T) -> R:
        made = self._make(value)
        if self._keeps is None or self._keeps(made):
            if len(self._known) >= self._most:
                self._known.clear()
            self._known[id(value)] = value, made
        return made
