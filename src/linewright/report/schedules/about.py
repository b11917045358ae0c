"""What every file of a hand-over set says of itself: of which project it is, and out of which files it was made."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

#: Said of the whole set.
ADVICE = "Not for construction before a licensed engineer has signed it; the maker's printed data and the codes decide."


class BookOf(NamedTuple):
    """A book as it was read: its id, its edition and date, how far it may be trusted, the hash of its text."""

    id: str
    edition: str
    date: str
    status: str
    sha256: str


def only_words(systems: Sequence[str]) -> str:
    """`SYSTEM ground ONLY`, `SYSTEMS ground, upper ONLY`: loud, with ids as they are."""
    return f"{'SYSTEM' if len(systems) == 1 else 'SYSTEMS'} {', '.join(systems)} ONLY"


class About(NamedTuple):
    """The project, the file of the design with the hash of its text, and the books; what is said before all else.

    systems, others : ids of the systems that it is of, and of those of the design that it is not of
    only_lines : what has to be said of it for that reason
    """

    project: str
    design: str
    sha256: str
    version: str
    books: tuple[BookOf, ...]
    cautions: tuple[str, ...] = ()
    not_judged: tuple[str, ...] = ()
    systems: tuple[str, ...] = ()
    others: tuple[str, ...] = ()
    only_lines: tuple[str, ...] = ()

    @property
    def only(self) -> str:
        """`SYSTEM ground ONLY`; "" where it is of all systems of the design."""
        return only_words(self.systems) if self.others else ""

    def rows(self) -> list[tuple[str, str]]:
        """Say it line by line: a name and a text."""
        found = [("project", self.project), ("design", f"{self.design}, sha256 {self.sha256}")]
        if self.others:
            found.append(("made for", f"{self.only}; NOT for {', '.join(self.others)}"))
        for book in self.books:
            said = f"edition {book.edition}, {book.date}, {book.status}, sha256 {book.sha256}"
            found.append((f"book {book.id}", said))
        return [*found, ("made with", f"linewright {self.version}"), ("advice", ADVICE)]

    def warned(self) -> list[tuple[str, str]]:
        """Say what has to be read first, and what was not judged, line by line."""
        return [
            *(("read first", line) for line in self.cautions),
            *(("not judged", line) for line in self.not_judged),
        ]

    def text(self) -> str:
        """Say it in lines."""
        return "\n".join(f"{name}: {said}" for name, said in self.rows()) + "\n"

    def json(self) -> dict[str, Any]:
        """Say it as plain values."""
        return {
            "project": self.project,
            "design": {"file": self.design, "sha256": self.sha256},
            **({"systems": list(self.systems), "other_systems": list(self.others)} if self.systems else {}),
            "books": [book._asdict() for book in self.books],
            "version": self.version,
            "advice": ADVICE,
        }

    def warned_json(self) -> dict[str, Any]:
        """Say what has to be read first, and what was not judged, as plain values."""
        return {"cautions": list(self.cautions), "not_judged": list(self.not_judged)}
