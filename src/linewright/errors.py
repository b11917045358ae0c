"""What is wrong with an input, said once for people and for programs."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """One fault of one document.

    Lines and columns count from 1; 0 means the fault has no place in the text.
    """

    file: str
    line: int
    column: int
    path: str
    value: str
    message: str
    expected: str

    def __str__(self) -> str:
        """Give the fault as one line: place, path, message, what would be right."""
        place = f"{self.file}:{self.line}:{self.column}" if self.line else self.file
        where = f" {self.path}:" if self.path else ""
        right = f"; expected {self.expected}" if self.expected else ""
        return f"{place}:{where} {self.message}{right}"


class InputFaultsError(Exception):
    """Input that cannot be understood; carries every fault that was found."""

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        """Keep the faults in the order of their place in the text."""
        self.faults = tuple(sorted(faults, key=lambda fault: (fault.file, fault.line, fault.column)))
        super().__init__("\n".join(str(fault) for fault in self.faults))


class UnknownSubjectError(Exception):
    """A subject was named that the evaluation does not hold."""

    def __init__(self, subject: str, *, nearest: tuple[str, ...] = ()) -> None:
        """Keep the subject and the nearest subjects that exist."""
        self.subject = subject
        self.nearest = nearest
        hint = f"; nearest: {', '.join(nearest)}" if nearest else ""
        super().__init__(f"no subject '{subject}' in this evaluation{hint}")
