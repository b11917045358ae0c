"""What can be wrong with a database, or with what is asked of it."""

from __future__ import annotations


class StoreError(Exception):
    """A database that cannot be opened or does not hold what it should.

    place : str — which database; expected : str — what would be right
    """

    def __init__(self, place: str, message: str, expected: str) -> None:
        """Keep what is wrong and what would be right."""
        self.place, self.message, self.expected = place, message, expected
        super().__init__(f"{place}: {message}; expected {expected}")


class NotThereError(LookupError):
    """What was asked for is not in the database; carries what it is and its name."""

    def __init__(self, what: str, name: object) -> None:
        """Keep what is missing."""
        self.what, self.name = what, str(name)
        super().__init__(f"there is no {what} {name}")


class HeadMovedError(Exception):
    """A revision was to follow on one that is no longer the last; nothing was written."""
