"""What was read or worked out and may be asked for again: bounded, and only what never changes."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable
from threading import Lock
from typing import Generic, TypeVar

K = TypeVar("K", bound=Hashable)
V = TypeVar("V")


class Memory(Generic[K, V]):
    """The values that were asked for last, at most so many."""

    def __init__(self, most: int) -> None:
        """Start empty."""
        self._most, self._kept, self._lock = most, OrderedDict[K, V](), Lock()

    def get(self, key: K, make: Callable[[], V]) -> V:
        """Give the value of a key; made where it is not at hand."""
        with self._lock:
            if key in self._kept:
                self._kept.move_to_end(key)
                return self._kept[key]
        made = make()
        self.put(key, made)
        return made

    def put(self, key: K, value: V) -> None:
        """Keep a value."""
        with self._lock:
            self._kept[key] = value
            self._kept.move_to_end(key)
            while len(self._kept) > self._most:
                self._kept.popitem(last=False)
