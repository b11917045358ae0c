"""What is wrong with an input, said once for people and for programs."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import SequenceMatcher

#: Longer names are cut in messages, and nothing is looked for that resembles them.
LONGEST_NAME = 60
_MOST_LISTED = 12


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

    @property
    def place(self) -> str:
        """File, line and column as terminals and editors understand them."""
        return f"{self.file}:{self.line}:{self.column}" if self.line else self.file

    def __str__(self) -> str:
        """Give the fault as one line: place, path, message, what would be right."""
        where = f" {self.path}:" if self.path else ""
        right = f"; expected {self.expected}" if self.expected else ""
        return f"{self.place}:{where} {self.message}{right}"


class InputFaultsError(Exception):
    """Input that cannot be understood; carries its faults, sorted by place.

    more : int — how many faults beyond these were found and are not listed
    """

    def __init__(self, faults: Iterable[Fault], *, more: int = 0) -> None:
        """Keep the faults in the order of their place in the text."""
        self.faults = tuple(sorted(faults, key=lambda fault: (fault.file, fault.line, fault.column, fault.path)))
        self.more = more
        lines = [str(fault) for fault in self.faults]
        super().__init__("\n".join([*lines, *([f"and {more:,} more"] if more else [])]))

    @classmethod
    def together(cls, errors: Iterable[InputFaultsError]) -> InputFaultsError:
        """Join the faults of several documents."""
        found = tuple(errors)
        return cls((fault for error in found for fault in error.faults), more=sum(error.more for error in found))


class UnknownSubjectError(Exception):
    """A subject was named that the evaluation does not hold."""

    def __init__(self, subject: str, *, nearest: tuple[str, ...] = ()) -> None:
        """Keep the subject and the nearest subjects that exist."""
        self.subject = subject
        self.nearest = nearest
        hint = f"; nearest: {', '.join(nearest)}" if nearest else ""
        super().__init__(f"no subject '{subject}' in this evaluation{hint}")


def quoted(text: str) -> str:
    """Give a text in quotes for a message: cut where it is long, escaped where it would not show."""
    plain = text if text.isprintable() else ascii(text)[1:-1]
    return f"'{plain}'" if len(plain) <= LONGEST_NAME else f"'{plain[:LONGEST_NAME]}…'"


def nearest(name: str, known: Iterable[str], *, alike: float = 0.6) -> str | None:
    """Give the known name that resembles `name` most, whatever the case of its letters, if any does.

    alike : float — least share of letters in common, 0 to 1
    """
    if not name or len(name) > LONGEST_NAME:
        return None
    matcher = SequenceMatcher(autojunk=False)
    matcher.set_seq2(name.casefold())
    best = alike
    found = None
    for candidate in known:
        matcher.set_seq1(candidate.casefold())
        if matcher.real_quick_ratio() >= best and matcher.quick_ratio() >= best:
            ratio = matcher.ratio()
            if ratio > best or (found is None and ratio >= best):
                best, found = ratio, candidate
    return found


def one_of(name: str, known: Iterable[str], *, otherwise: str = "") -> str:
    """Say which of the known names may be meant by `name`: the nearest, else the first few of them.

    otherwise : str — what to say where nothing is known
    """
    names = sorted(known)
    near = nearest(name, names)
    return quoted(near) if near is not None else listed(names, otherwise=otherwise)


def listed(names: Iterable[str], *, otherwise: str = "") -> str:
    """List names in words, the first few of many.

    otherwise : str — what to say where there is none
    """
    shown = [quoted(name)[1:-1] for name in names]
    if not shown:
        return otherwise
    if len(shown) == 1:
        return f"'{shown[0]}'"
    rest = len(shown) - _MOST_LISTED
    return f"one of {', '.join(shown[:_MOST_LISTED])}" + (f" and {rest} more" if rest > 0 else "")
