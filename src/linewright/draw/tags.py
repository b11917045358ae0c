"""Labels on the tree: tags of fittings and units, sizes and lengths of runs, each where nothing else stands."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from linewright.draw.frame import EDGE, Frame
from linewright.draw.labels import END, MIDDLE, MOST_KNOWN, START, Box, Edges, Label, Occupied, Places, text_box
from linewright.draw.pipework import HEADER_HALF, NODE_RADIUS
from linewright.draw.plan import Pipe, SheetLayout
from linewright.draw.primitives import AnyPrimitive, Circle, Hatch, Line, Rect, Text, Weight
from linewright.draw.run_words import length_words, size_words
from linewright.draw.spots import Spot
from linewright.draw.style import SMALL, TINY
from linewright.draw.typeface import fit, text_width
from linewright.draw.verdicts import part_standings
from linewright.draw.wording import OVER_SIGN, SIGNS, UNKNOWN
from linewright.model.values import NodeKind
from linewright.units import UnitSystem

ASSUMED_SIGN = "~"
# The whole tag stands in the titles of the fitting and of the lane.
MOST_TAG_PX = 72.0
# Behind the labels, which have a rim of the ground's colour.
_BEHIND = (
    "axis-title",
    "band",
    "break",
    "crossing",
    "first-branch",
    "ground-beyond",
    "limit-name",
    "limit-plain",
    "tick",
)
# Crossed by a label only where it finds no other place.
_SOFT = ("limit", "limit-tick")


class Tags(NamedTuple):
    """The labels that found room, and the runs whose sizes, or the tags at whose ends, did not."""

    primitives: list[AnyPrimitive]
    left_out: list[Pipe]


def tag_tree(
    sheet: SheetLayout, spots: list[Spot], frame: Frame, *, system: UnitSystem, painted: list[AnyPrimitive]
) -> Tags:
    """Label the tree around all that is `painted` already."""
    faults = {part: SIGNS[standing] for part, standing in part_standings(sheet).items()}
    taken = _occupied(Box(EDGE, frame.top - 8, frame.tree_right + 8, frame.bottom + 2), painted)
    texts: list[AnyPrimitive] = []
    left_out: list[Pipe] = []
    for spot in spots:
        if spot.pipe.far.kind in (NodeKind.JOINT, NodeKind.HEADER, NodeKind.BOX):
            tag = _node_tag(spot, taken, sign=faults.get(("fitting", spot.pipe.far.id), ""))
            texts += tag
            left_out += [] if tag else [spot.pipe]
    ends: dict[str, float] = {}
    for spot in spots:
        if spot.pipe.far.kind in (NodeKind.UNIT, NodeKind.COUPLING):
            tag = _end_tag(spot, taken)
            ends[spot.pipe.id] = max([spot.x1, *(_right(item) for item in tag)])
            texts += tag
    for spot in sorted(spots, key=lambda spot: (spot.pipe.known, -spot.stroke)):
        sign = faults.get(("run", spot.pipe.id), "")
        found = _run_label(spot, taken, system, sign=sign, end=ends.get(spot.pipe.id, spot.x1))
        texts += found
        if not found and spot.pipe not in left_out:
            left_out.append(spot.pipe)
    return Tags(texts, left_out)


def _occupied(page: Box, painted: list[AnyPrimitive]) -> Occupied:
    seen = [item for item in painted if item.role not in _BEHIND and not isinstance(item, Hatch)]
    hard = [_edges(item) for item in seen if item.role not in _SOFT]
    return Occupied(page, hard=hard, soft=[_edges(item) for item in seen if item.role in _SOFT])


def _edges(item: Line | Rect | Circle | Text) -> Edges:
    match item:
        case Line():
            half = item.stroke / 2 + 0.5
            left, right = (item.x1, item.x2) if item.x1 <= item.x2 else (item.x2, item.x1)
            top, bottom = (item.y1, item.y2) if item.y1 <= item.y2 else (item.y2, item.y1)
            return left - half, top - half, right + half, bottom + half
        case Rect():
            return item.x, item.y, item.x + item.width, item.y + item.height
        case Circle():
            r = item.radius + 1
            return item.x - r, item.y - r, item.x + r, item.y + r
        case Text():
            return text_box(item.text, (item.x, item.y, item.anchor), size=item.size, weight=item.weight)


def _node_tag(spot: Spot, taken: Occupied, *, sign: str) -> list[AnyPrimitive]:
    node = spot.pipe.far
    plain = f"{sign} {fit(node.id, MOST_TAG_PX, SMALL, weight=Weight.SEMIBOLD)}".strip()
    text = f"{plain} {ASSUMED_SIGN}" if node.assumed_level else plain
    half = (HEADER_HALF if node.kind is NodeKind.HEADER else NODE_RADIUS) + 2
    label = taken.put((text, plain), _about(spot.x1, spot.y1, half), size=SMALL, weight=Weight.SEMIBOLD)
    if label is None:
        return []
    css = "on-pipe-over" if sign == OVER_SIGN else "on-pipe"
    return [_text(f"node:{node.id}/tag", "tag", label, css=css, weight=Weight.SEMIBOLD)]


@lru_cache(maxsize=MOST_KNOWN)
def _about(x: float, y: float, half: float) -> Places:
    """Give the places about a fitting that is so wide to each side."""
    return Places(
        (x - half, y + 13, END),
        (x + half, y + 13, START),
        (x - half, y - 6, END),
        (x + half, y - 6, START),
        (x + half + 1, y + 4, START),
        (x - half, y + 24, END),
        (x + half, y + 24, START),
        (x + half, y - 16, START),
        (x - half, y - 16, END),
    )


def _end_tag(spot: Spot, taken: Occupied) -> list[AnyPrimitive]:
    words = fit(spot.pipe.far.id, MOST_TAG_PX, TINY)
    label = taken.put((words,), _behind(spot.x1, spot.y1), size=TINY)
    return (
        [] if label is None else [_text(f"node:{spot.pipe.far.id}/tag", "tag", label, css="on-pipe-quiet", size=TINY)]
    )


@lru_cache(maxsize=MOST_KNOWN)
def _behind(x: float, y: float) -> Places:
    """Give the places behind the end of a pipe, and before it."""
    return Places((x + 8, y + 4, START), (x - 2, y - 7, END), (x - 2, y + 15, END))


def _right(item: AnyPrimitive) -> float:
    return item.x + text_width(item.text, item.size, item.weight) if isinstance(item, Text) else 0.0


def _run_label(spot: Spot, taken: Occupied, system: UnitSystem, *, sign: str, end: float) -> list[AnyPrimitive]:
    pipe = spot.pipe
    if pipe.result is None:
        return []
    sizes, length = f"{sign} {size_words(pipe.result, system)}".strip(), length_words(pipe, system)
    texts: tuple[str, ...] = (f"{sizes}, {length}", sizes)
    if not pipe.known:
        left = f"{sign} {UNKNOWN} {length}".strip()
        texts = (f"{left}, {size_words(pipe.result, system)}", left, f"{sign} {UNKNOWN}".strip())
    labels = _put(spot, taken, texts, sizes=sizes, end=end)
    css = "on-pipe-over" if sign == OVER_SIGN else "on-pipe"
    return [
        _text(f"run:{pipe.id}/size" + (f"/{i}" if i else ""), "run-label", item, css=css, size=TINY)
        for i, item in enumerate(labels)
    ]


def _put(spot: Spot, taken: Occupied, texts: tuple[str, ...], *, sizes: str, end: float) -> tuple[Label, ...]:
    """Put a label at its run, else beside the leg of it, else in rows."""
    run = _Flat(spot.x0, spot.x1, spot.y1, spot.stroke)
    is_unit = spot.pipe.far.kind is NodeKind.UNIT
    label = taken.put(texts, _along(run, end if is_unit else None), size=TINY)
    if label is None and not is_unit and abs(spot.y1 - spot.y0) >= TINY:
        label = taken.put(texts, _aside(spot.x0, spot.y0, spot.y1), size=TINY)
    if label is not None:
        return (label,)
    return taken.put_rows(tuple(sizes.split(" · ")), _stacked(run), size=TINY) if spot.pipe.known else ()


class _Flat(NamedTuple):
    """The horizontal part of a drawn run, and its weight [px]."""

    x0: float
    x1: float
    y: float
    stroke: float


@lru_cache(maxsize=MOST_KNOWN)
def _along(run: _Flat, end: float | None) -> Places:
    """Give the places at the run itself; behind a unit's run there is room after its tag, which ends at `end`."""
    x0, x1, y, stroke = run
    above, below = y - stroke / 2 - 4, y + stroke / 2 + 10
    places = (
        (x0 + 6, above, START),
        (x1 - 8, above, END),
        ((x0 + x1) / 2, above, MIDDLE),
        (x0 + 6, below, START),
        (x1 - 8, below, END),
        ((x0 + x1) / 2, below, MIDDLE),
    )
    if end is not None:
        return Places(*places, (end + 8, y + 3.5, START))
    return Places(*places, (x1 - 8, above - 11, END), (x1 - 8, below + 11, END))


@lru_cache(maxsize=MOST_KNOWN)
def _aside(x: float, y0: float, y1: float) -> Places:
    """Give the places beside the leg of a run, near its far end."""
    toward = 1 if y1 > y0 else -1
    near, middle = y1 - toward * 16 + 3, (y0 + y1) / 2 + 3
    return Places((x - 5, near, END), (x + 5, near, START), (x - 5, middle, END), (x + 5, middle, START))


@lru_cache(maxsize=MOST_KNOWN)
def _stacked(run: _Flat) -> Places:
    """Give the places for a label in two rows, by its first row."""
    x0, x1, y, stroke = run
    above, below = y - stroke / 2 - 5 - TINY, y + stroke / 2 + 10
    return Places(
        (x0 + 4, above, START),
        (x1 - 7, above, END),
        (x0 + 4, below, START),
        (x1 - 7, below, END),
        (x0 - 4, above, END),
        (x1 - 7, below + 12, END),
    )


@lru_cache(maxsize=MOST_KNOWN)
def _text(
    name: str,
    role: str,
    label: Label,
    *,
    css: str = "text",
    size: float = SMALL,
    weight: Weight = Weight.REGULAR,
) -> Text:
    return Text(
        id=name,
        role=role,
        css=css,
        group=name.split("/", maxsplit=1)[0],
        x=label.x,
        y=label.y,
        text=label.text,
        size=size,
        weight=weight,
        anchor=label.anchor,
    )
