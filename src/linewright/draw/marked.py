"""A sheet marked up: what is new, changed, gone or follows from that, each with a tag, and tables that say what.

The kinds are told apart by the line around a part (solid, dashed, dotted, dash-dot) and by the letter of its tag.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum
from itertools import product
from typing import NamedTuple

from linewright.draw.labels import Box
from linewright.draw.mark_places import Place, around, edges, place_of
from linewright.draw.mark_tables import MarkTable, tables
from linewright.draw.primitives import AnyPrimitive, Group, Line, Rect, Scene, Text, Weight
from linewright.draw.style import SMALL, TITLE
from linewright.draw.typeface import fit, text_width

EDGE, HEAD_PX, LOWER_EDGE = 20.0, 62.0, 10.0
TAG_HEIGHT, TAG_PAD, TAG_UP = 14.0, 4.0, 3.0
#: Where a tag may stand beside its part, in steps of its own size, nearest first: the first free one is taken.
_FAR = 7
_STEPS = sorted(product(range(-_FAR, _FAR + 1), repeat=2), key=lambda step: (abs(step[0]) + abs(step[1]), step))
#: What a tag does not hide.
_KEPT = ("joint", "header", "box", "unit-end", "module", "outdoor-joint")


class MarkKind(Enum):
    """What a mark says: its letter, the class of its line, its name in the key."""

    NEW = ("N", "mark-new", "new, solid line")
    CHANGED = ("C", "mark-changed", "changed, dashed line")
    GONE = ("X", "mark-gone", "gone, dotted line with a cross")
    FOLLOWS = ("F", "mark-follows", "follows from the rest, dash-dot line")

    @property
    def letter(self) -> str:
        """The letter of its tags."""
        return str(self.value[0])

    @property
    def css(self) -> str:
        """The class of its line."""
        return str(self.value[1])

    @property
    def words(self) -> str:
        """Its name in the key."""
        return str(self.value[2])


class Mark(NamedTuple):
    """One element that differs: its tag, its kind, its id on the sheet such as `run:J2`, what it hung on."""

    tag: str
    kind: MarkKind
    part: str
    title: str
    hung_on: tuple[str, ...] = ()


def marked(scene: Scene, marks: Sequence[Mark], heading: Sequence[str], below: Sequence[MarkTable]) -> Scene:
    """Mark up a sheet.

    heading : one or two lines above the sheet; below : tables under it
    """
    moved = tuple(_down(item, HEAD_PX) for item in scene.primitives if item.id != "paper")
    drawn = _Marks(moved, scene.width)
    for mark in marks:
        drawn.put(mark)
    under, bottom = tables(below, scene.width, scene.height + HEAD_PX + 14)
    head = [*_heading(heading, scene.width), *_key(scene.width)]
    height = bottom + LOWER_EDGE
    paper = Rect(id="paper", role="paper", css="paper", group="paper", x=0, y=0, width=scene.width, height=height)
    found = (paper, *moved, *head, *drawn.lines, *drawn.tags, *under)
    groups = (*scene.groups, *(Group(id=name, label=label) for name, label in _GROUPS.items()))
    return _with(scene, found, groups, height=height)


_GROUPS = {"marks": "what differs", "marks-head": "which designs are compared", "marks-table": "table of what differs"}


def _with(scene: Scene, found: tuple[AnyPrimitive, ...], groups: tuple[Group, ...], *, height: float) -> Scene:
    return Scene(
        title=f"{scene.title}: what differs",
        description=scene.description,
        width=scene.width,
        height=height,
        units=scene.units,
        axis=scene.axis,
        groups=groups,
        primitives=found,
    )


def _down(item: AnyPrimitive, by: float) -> AnyPrimitive:
    if isinstance(item, Line):
        return item._replace(y1=item.y1 + by, y2=item.y2 + by)
    return item._replace(y=item.y + by)


def _heading(lines: Sequence[str], width: float) -> list[AnyPrimitive]:
    band = Rect(
        id="marks/head", role="mark-head", css="band", group="marks-head", x=0, y=0, width=width, height=HEAD_PX - 8
    )
    return [band, *(_head_line(i, line, width) for i, line in enumerate(lines))]


def _head_line(i: int, line: str, width: float) -> Text:
    size, weight = (TITLE - 6, Weight.SEMIBOLD) if i == 0 else (SMALL, Weight.REGULAR)
    words = fit(line, width / 2 if i == 0 else width - 2 * EDGE, size, weight=weight)
    css = "text" if i == 0 else "quiet"
    return Text(
        id=f"marks/head/{i}",
        role="mark-head",
        css=css,
        group="marks-head",
        x=EDGE,
        y=22.0 + i * 18,
        text=words,
        size=size,
        weight=weight,
        title=line,
    )


def _key(width: float) -> list[AnyPrimitive]:
    """The four kinds at the right of the heading, each with a piece of its line."""
    found: list[AnyPrimitive] = []
    x = width - EDGE
    for kind in reversed(MarkKind):
        words = f"{kind.letter}  {kind.words}"
        x -= text_width(words, SMALL)
        name = f"marks/key/{kind.letter}"
        found.append(Text(id=name, role="mark-key", css="text", group="marks-head", x=x, y=22, text=words, size=SMALL))
        line = Line(
            id=f"{name}/line",
            role="mark-key",
            css=kind.css,
            group="marks-head",
            x1=x - 36,
            y1=18,
            x2=x - 6,
            y2=18,
            stroke=1.8,
        )
        found.append(line)
        x -= 54
    return found


class _Marks:
    """Marks that have been put on a sheet."""

    def __init__(self, painted: Sequence[AnyPrimitive], width: float) -> None:
        self._painted, self._width = painted, width
        self._texts = [Box(*edges(item)) for item in painted if isinstance(item, Text)]
        self._taken = self._texts + [Box(*edges(item)) for item in painted if item.role in _KEPT]
        self.lines: list[AnyPrimitive] = []
        self.tags: list[AnyPrimitive] = []
        self._stubs = 0

    def put(self, mark: Mark) -> None:
        """Draw a mark around its part; one that is gone where it hung; one without a place nowhere."""
        gone = mark.kind is MarkKind.GONE
        names = mark.hung_on if gone else (mark.part,)
        place = next((found for name in names if (found := place_of(self._painted, name)) is not None), None)
        if place is None:
            return
        if gone:
            self._stub(mark, place)
            return
        pieces = [piece for line in place.lines for piece in around(line, self._texts)]
        self.lines += [_line(f"mark:{mark.part}/{i}", mark, ends) for i, ends in enumerate(pieces)]
        self._tag(mark, place.x, place.y)

    def _stub(self, mark: Mark, place: Place) -> None:
        """A dotted stub that ends in a cross, below what the part hung on."""
        left, _, right, bottom = place.box
        x, y = (left + right) / 2 + 10 + 12 * self._stubs, bottom + 13
        self._stubs = (self._stubs + 1) % 6
        name = f"mark:{mark.part}"
        self.lines.append(_line(name, mark, ((left + right) / 2, bottom, x, y)))
        for i, dy in enumerate((4.0, -4.0)):
            cross = _line(f"{name}/cross{i}", mark, (x - 4, y - dy, x + 4, y + dy))
            self.lines.append(cross._replace(css="mark-leader", stroke=1.6))
        self._tag(mark, x + 8, y + 9)

    def _tag(self, mark: Mark, x: float, y: float) -> None:
        """A box with the letter and the number, where no text stands; a line leads back where it had to move."""
        width = text_width(mark.tag, SMALL, Weight.SEMIBOLD) + 2 * TAG_PAD
        boxes = [
            Box(left, top, left + width, top + TAG_HEIGHT)
            for across, down in _STEPS
            for left, top in ((x + across * (width + 2), y - TAG_HEIGHT + down * (TAG_HEIGHT + 2)),)
        ]
        room = [one for one in boxes if one.left >= 0.0 and one.right <= self._width] or boxes
        box = next((one for one in room if not any(one.meets(other) for other in self._taken)), room[0])
        self._taken.append(box)
        radius = TAG_HEIGHT / 2 if mark.kind is MarkKind.NEW else 0.0
        name = f"mark:{mark.part}/tag"
        if box is not boxes[0]:
            middle = (box.left + box.right) / 2, (box.top + box.bottom) / 2
            self.lines.append(_line(f"{name}/leader", mark, (x, y, *middle))._replace(css="mark-leader", stroke=0.8))
        self.tags.append(_frame(name, mark, box, radius))
        self.tags.append(_letter(f"{name}/text", mark, box))


def _line(name: str, mark: Mark, ends: tuple[float, float, float, float]) -> Line:
    x1, y1, x2, y2 = ends
    return Line(
        id=name,
        role="mark",
        css=mark.kind.css,
        group="marks",
        title=mark.title,
        x1=x1,
        y1=y1,
        x2=x2,
        y2=y2,
        stroke=1.8,
    )


def _frame(name: str, mark: Mark, box: Box, radius: float) -> Rect:
    return Rect(
        id=name,
        role="mark-tag",
        css="mark-tag",
        group="marks",
        title=mark.title,
        x=box.left,
        y=box.top,
        width=box.right - box.left,
        height=box.bottom - box.top,
        radius=radius,
    )


def _letter(name: str, mark: Mark, box: Box) -> Text:
    return Text(
        id=name,
        role="mark-tag",
        css="text",
        group="marks",
        title=mark.title,
        x=box.left + TAG_PAD,
        y=box.bottom - TAG_UP,
        text=mark.tag,
        size=SMALL,
        weight=Weight.SEMIBOLD,
    )
