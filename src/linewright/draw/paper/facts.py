"""What the title block of a drawing says: given, never found out here, so that the same input draws the same sheet."""

from __future__ import annotations

from typing import NamedTuple

NOT_TO_SCALE = "not to scale"
NONE_STATED = "–"


class Revision(NamedTuple):
    """An issue of a drawing: its mark, its day, what it is for. All of it is input."""

    mark: str
    date: str
    text: str


class Facts(NamedTuple):
    """Of which project and out of which files a drawing was made, and what must be read with it.

    books : a line for each book with edition; `demonstration` says whether one of them is invented
    """

    project: str
    design: str
    sha256: str
    books: tuple[str, ...]
    demonstration: bool
    caution: str
    version: str
    revisions: tuple[Revision, ...] = ()

    @property
    def revision(self) -> Revision:
        """Give the last revision; dashes where none is stated."""
        return self.revisions[-1] if self.revisions else Revision(NONE_STATED, NONE_STATED, "")


class Subject(NamedTuple):
    """What one sheet shows: of which system, which drawing, to which scale."""

    system: str
    drawing: str
    scale: str
    number: int = 1
    of: int = 1
