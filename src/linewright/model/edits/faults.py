"""Faults of an edit: what it names that is not there, and what the design would be that no design can be."""

from __future__ import annotations

from collections.abc import Collection

from linewright.errors import Fault, InputFaultsError, nearest, one_of
from linewright.model.edits.places import MissingError


class EditRefusedError(InputFaultsError):
    """An edit that cannot be made; it changes nothing. Carries every fault."""


class Found:
    """Takes the faults that the checks of a design find after an edit; a path stands where a file would have a line."""

    def __init__(self) -> None:
        """Start without a fault."""
        self.faults: list[Fault] = []

    def derive(self, path: str, message: str, expected: str = "") -> None:
        """Note a fault."""
        self.faults.append(fault(path, message, expected))

    def sound(self, *paths: str) -> bool:  # noqa: ARG002 - values of an edit are whole
        """Say that nothing is in doubt: values were read before."""
        return True

    def place(self, path: str) -> str:
        """Say where something stands."""
        return f"at {path}"

    def written(self, path: str) -> str:
        """Name a value by its place."""
        return f"at {path}"

    def nearest(self, name: str, known: Collection[str], *, alike: float = 0.6) -> str | None:
        """Give the known name that may be meant, if any."""
        return nearest(name, known, alike=alike)

    def one_of(self, name: str, known: Collection[str], *, otherwise: str = "") -> str:
        """Say which known name may be meant, or which there are."""
        return one_of(name, known, otherwise=otherwise)


def fault(path: str, message: str, expected: str = "", value: str = "") -> Fault:
    """Make a fault of an edit; it has no place in a file."""
    return Fault(file="edit", line=0, column=0, path=path, value=value, message=message, expected=expected)


def refuse(path: str, message: str, expected: str = "", value: str = "") -> EditRefusedError:
    """Make the error of a single fault."""
    return EditRefusedError((fault(path, message, expected, value),))


def missing(error: MissingError) -> EditRefusedError:
    """Make the error of a name that does not exist."""
    expected = one_of(error.name, error.known, otherwise=f"none: there is no {error.what}")
    return refuse(error.what, str(error), expected, error.name)
