"""Sizes of paper, and what of them is left within the border."""

from __future__ import annotations

from typing import NamedTuple

from linewright.draw.paper.lettering import Area

_IN = 25.4


class Paper(NamedTuple):
    """A size of paper: its name, its short and its long side [mm]."""

    name: str
    short: float
    long: float


class Sheet(NamedTuple):
    """A paper as it lies: its width and height [mm], and the area within its border."""

    paper: Paper
    width: float
    height: float
    inner: Area

    @property
    def landscape(self) -> bool:
        """Say whether its long side lies."""
        return self.width > self.height


#: A sizes by ISO 216; letter and tabloid (ANSI A and B) by ASME Y14.1 and ARCH sizes in inches, from memory.
_ALL = (
    Paper("A4", 210.0, 297.0),
    Paper("A3", 297.0, 420.0),
    Paper("A2", 420.0, 594.0),
    Paper("A1", 594.0, 841.0),
    Paper("letter", 8.5 * _IN, 11 * _IN),
    Paper("tabloid", 11 * _IN, 17 * _IN),
    Paper("arch-a", 9 * _IN, 12 * _IN),
    Paper("arch-b", 12 * _IN, 18 * _IN),
    Paper("arch-c", 18 * _IN, 24 * _IN),
    Paper("arch-d", 24 * _IN, 36 * _IN),
)
PAPERS = {paper.name: paper for paper in _ALL}
METRIC, INCH = ("A4", "A3", "A2", "A1"), ("letter", "tabloid", "arch-b", "arch-c", "arch-d")

#: Room for filing on the left, and what a printer cannot reach on the other sides [mm] (ISO 5457, from memory).
FILING, EDGE = 20.0, 10.0


def laid(paper: Paper, *, landscape: bool) -> Sheet:
    """Lay a paper down."""
    width, height = (paper.long, paper.short) if landscape else (paper.short, paper.long)
    return Sheet(paper, width, height, Area(FILING, EDGE, width - EDGE, height - EDGE))


def next_paper(paper: Paper) -> Paper | None:
    """Give the next larger paper of the same family; none beyond the largest."""
    family = METRIC if paper.name in METRIC else INCH
    larger = [PAPERS[name] for name in family if PAPERS[name].long > paper.long and PAPERS[name].short > paper.short]
    return larger[0] if larger else None
