"""What the checks of a design note their faults with: a file that is read, or a design that is edited."""

from __future__ import annotations

from collections.abc import Collection
from typing import Protocol


class Notes(Protocol):
    """Takes faults at paths such as `systems[0].runs[2].length`."""

    def derive(self, path: str, message: str, expected: str = "") -> None:
        """Note a fault, unless it follows from another at, under or above `path`."""

    def sound(self, *paths: str) -> bool:
        """Say whether nothing was noted that leaves any of the paths in doubt."""

    def stands(self, path: str) -> bool:
        """Say whether something is written at that path itself: a short form may stand for it."""

    def place(self, path: str) -> str:
        """Say where something stands: on which line, or at which path."""

    def written(self, path: str) -> str:
        """Give the value at a path as it was written."""

    def nearest(self, name: str, known: Collection[str], *, alike: float = 0.6) -> str | None:
        """Give the known name that may be meant, if any."""

    def one_of(self, name: str, known: Collection[str], *, otherwise: str = "") -> str:
        """Say which known name may be meant, or which there are."""
