"""A drawing that is larger than its sheet is divided, with match lines; it is never made smaller."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from linewright.draw.paper.around import AIR, Around, content, drawing, furnish
from linewright.draw.paper.division import MATCH, Division, Frame, division, taken
from linewright.draw.paper.extent import clipped, moved
from linewright.draw.paper.lettering import Area
from linewright.draw.paper.marks import Drawing, Mark
from linewright.draw.paper.matches import Part, match_marks
from linewright.draw.paper.papers import Paper, Sheet

MORE = "more notes on the last sheets"
#: What the ids of marks end in from the second part of a sheet on, so that every id is there once.
PART = "/part-"


class TooSmallError(Exception):
    """A paper on which a drawing finds no room at letters of the least height; `paper` says which."""

    def __init__(self, paper: Paper) -> None:
        super().__init__(f"no room on {paper.name}")
        self.paper = paper


class _Picture(NamedTuple):
    """A picture that is divided: its marks, its frame, where it is cut, on which sheet each part stands."""

    marks: Sequence[Mark]
    frame: Frame
    cuts: Division
    numbers: Mapping[tuple[int, int], int]


def divided(
    name: str,
    sheet: Sheet,
    around: Around,
    marks: Sequence[Mark],
    *,
    frame: Frame,
    said: str,
    after: int = 0,
) -> list[Drawing]:
    """Put a picture on as many sheets as it needs; all of them have the same size."""
    cuts = division(marks, frame, content(sheet, bare=around.bare))
    if cuts is None:
        raise TooSmallError(sheet.paper)
    numbers = {(i, j): number for number, parts in enumerate(cuts.sheets, start=1) for j, i in parts}
    picture = _Picture(marks, frame, cuts, numbers)
    of = len(cuts.sheets) + after
    found = []
    for number, parts in enumerate(cuts.sheets, start=1):
        edge = furnish(sheet, around, number=number, of=of, more=MORE).marks
        every = [*edge, *_parts(picture, parts, sheet, around)]
        found.append(drawing(name if of == 1 else f"{name}-{number}", sheet, around, every, said=said))
    return found


def _parts(picture: _Picture, parts: Sequence[tuple[int, int]], sheet: Sheet, around: Around) -> Iterator[Mark]:
    """Give the marks of the parts that stand on one sheet, one below another with the same room between them."""
    frame, room = picture.frame, content(sheet, bare=around.bare)
    grounds = [picture.cuts.part(*one) for one in parts]
    if picture.cuts.whole:
        x, y = _middle(room, frame)
        yield from _on_sheet(picture, grounds[0], (x, y))
        return
    spare = room.height - 2 * AIR - sum(taken(ground, frame) for ground in grounds)
    between = 0.0 if around.bare else max(spare, 0.0) / (len(parts) + 1)
    top = room.top + AIR + between
    for n, ((j, i), ground) in enumerate(zip(parts, grounds, strict=True)):
        head = frame.head_of(ground)
        x, y = room.left + AIR + frame.side - ground.left, top + MATCH + head - ground.top
        part = Part(ground.moved(x, y), frame.side, head, i, j, picture.numbers)
        own = [*_on_sheet(picture, ground, (x, y)), *match_marks(part)]
        yield from (mark if n == 0 else mark._replace(id=f"{mark.id}{PART}{n + 1}") for mark in own)
        top += taken(ground, frame) + between


def _middle(room: Area, frame: Frame) -> tuple[float, float]:
    """Give by how much a picture is moved to the middle of its sheet [mm]."""
    left, top = room.left + AIR + frame.side, room.top + AIR
    left += max((room.width - 2 * AIR - frame.side - frame.area.width) / 2, 0.0)
    top += max((room.height - 2 * AIR - frame.area.height) / 2, 0.0)
    return left - frame.area.left, top - frame.area.top


def _on_sheet(picture: _Picture, part: Area, move: tuple[float, float]) -> Iterator[Mark]:
    """Give what of a picture lies in one part, moved to its place on the sheet."""
    frame, (x, y) = picture.frame, move
    if frame.head_of(part):
        yield from (moved(mark, x, y + part.top - frame.head) for mark in frame.heads)
    for mark in frame.repeated:
        kept = clipped(mark, Area(-1e9, part.top, 1e9, part.bottom))
        if kept is not None:
            yield moved(kept, x + part.left - frame.area.left, y)
    for mark in picture.marks:
        kept = clipped(mark, part)
        if kept is not None:
            yield moved(kept, x, y)
