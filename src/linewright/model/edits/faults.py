"""Faults of an edit: what it names that is not there, and what the design would be that no design can be."""

from __future__ import annotations

import re
from collections.abc import Collection, Mapping
from typing import Any, get_args

from linewright.errors import Fault, InputFaultsError, listed, nearest, one_of, quoted
from linewright.model.design import Design
from linewright.model.edits.fits import hints_of
from linewright.model.edits.places import MissingError
from linewright.model.values import Role, key_of
from linewright.units import Quantity, show

#: So often a name is looked for that may be meant, among so many names at most.
_MOST_SOUGHT, _MOST_COMPARED = 400, 1_000


class EditRefusedError(InputFaultsError):
    """An edit that cannot be made; it changes nothing. Carries every fault."""


class Found:
    """Takes the faults that the checks of a design find after an edit; a path stands where a file would have a line."""

    def __init__(self, design: Design) -> None:
        """Start without a fault."""
        self.design = design
        self._sought = 0
        self.faults: list[Fault] = []

    def derive(self, path: str, message: str, expected: str = "") -> None:
        """Note a fault."""
        self.faults.append(fault(path, message, expected))

    def sound(self, *paths: str) -> bool:  # noqa: ARG002 - values of an edit are whole
        """Say that nothing is in doubt: values were read before."""
        return True

    def stands(self, path: str) -> bool:  # noqa: ARG002 - values have no short forms
        """Say that it is there."""
        return True

    def place(self, path: str) -> str:
        """Say where something stands."""
        return f"at {path}"

    def written(self, path: str) -> str:
        """Give the value at a path; a quantity in the design's units."""
        return _shown(self.design, path)

    def nearest(self, name: str, known: Collection[str], *, alike: float = 0.6) -> str | None:
        """Give the known name that may be meant, if any; no longer looked for where names or faults are very many."""
        if self._sought >= _MOST_SOUGHT or len(known) > _MOST_COMPARED:
            return None
        self._sought += 1
        return nearest(name, known, alike=alike)

    def one_of(self, name: str, known: Collection[str], *, otherwise: str = "") -> str:
        """Say which known name may be meant, or which there are."""
        near = self.nearest(name, known)
        return quoted(near) if near is not None else listed(sorted(known), otherwise=otherwise)


def _shown(design: Design, path: str) -> str:
    """What stands at a path such as `systems[0].runs[2].length`."""
    found: Any = design
    hint: Any = Design
    for name, at in re.findall(r"([^.\[\]]+)|\[([0-9]+)\]", path):
        if at:
            found = found[int(at)]
        elif isinstance(found, Mapping):
            found, hint = found[Role(name)], get_args(hint)[1]
        else:
            field = next(field for field in hints_of(type(found)) if key_of(field) == name)
            found, hint = getattr(found, field), hints_of(type(found))[field]
    for option in (hint, *get_args(hint)):
        for mark in getattr(option, "__metadata__", ()):
            if isinstance(mark, Quantity) and isinstance(found, float | int):
                return show(found, mark.dimension, design.units, places=2)
    return str(found)


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
