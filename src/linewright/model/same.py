"""Frozen values as keys of what was made of them."""

from __future__ import annotations

from typing import Generic, TypeVar

T = TypeVar("T")


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
