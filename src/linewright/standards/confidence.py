"""How far a published figure may be trusted, by how it came here."""

from __future__ import annotations

from enum import StrEnum


class Confidence(StrEnum):
    """How a figure came here: read in its source or in a text that repeats it, computed from others, or remembered."""

    READ = "read"
    REPEATED = "repeated"
    COMPUTED = "computed"
    MEMORY_HIGH = "memory-high"
    MEMORY_MEDIUM = "memory-medium"
    MEMORY_LOW = "memory-low"

    @property
    def is_sure(self) -> bool:
        """Whether a verdict may rest on it alone."""
        return self in (Confidence.READ, Confidence.COMPUTED)
