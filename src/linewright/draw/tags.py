"""Labels on the tree: tags of fittings and units, sizes and lengths of runs, each where nothing else stands."""

from __future__ import annotations

from typing import NamedTuple

from linewright.draw.frame import EDGE, Frame
from linewright.draw.labels import END, MIDDLE, START, Box, Label, Occupied, Place, text_box
from linewright.draw.pipework import HEADER_HALF, NODE_RADIUS
from linewright.draw.plan import Pipe, SheetLayout
from linewright.draw.primitives import AnyPrimitive, Circle, Line, Rect, Text, Weight
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
    taken = Occupied(Box(EDGE, frame.top - 8, frame.tree_right + 8, frame.bottom + 2))
    for item in painted:
        if item.role not in _BEHIND:
            _take(taken, item, soft=item.role in _SOFT)
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


def _take(taken: Occupied, item: AnyPrimitive, *, soft: bool) -> None:
    match item:
        case Line():
            half = item.stroke / 2 + 0.5
            left, right = (item.x1, item.x2) if item.x1 <= item.x2 else (item.x2, item.x1)
            top, bottom = (item.y1, item.y2) if item.y1 <= item.y2 else (item.y2, item.y1)
            taken.take((left - half, top - half, right + half, bottom + half), soft=soft)
        case Rect():
            taken.take((item.x, item.y, item.x + item.width, item.y + item.height), soft=soft)
        case Circle():
            r = item.radius + 1
            taken.take((item.x - r, item.y - r, item.x + r, item.y + r), soft=soft)
        case Text():
            place = (item.x, item.y, item.anchor)
            taken.take(text_box(item.text, place, size=item.size, weight=item.weight), soft=soft)
        case _:
            pass


def _node_tag(spot: Spot, taken: Occupied, *, sign: str) -> list[AnyPrimitive]:
    node = spot.pipe.far
    plain = f"{sign} {fit(node.id, MOST_TAG_PX, SMALL, weight=Weight.SEMIBOLD)}".strip()
    text = f"{plain} {ASSUMED_SIGN}" if node.assumed_level else plain
    half = (HEADER_HALF if node.kind is NodeKind.HEADER else NODE_RADIUS) + 2
    x, y = spot.x1, spot.y1
    places = [
        (x - half, y + 13, END),
        (x + half, y + 13, START),
        (x - half, y - 6, END),
        (x + half, y - 6, START),
        (x + half + 1, y + 4, START),
        (x - half, y + 24, END),
        (x + half, y + 24, START),
        (x + half, y - 16, START),
        (x - half, y - 16, END),
    ]
    label = taken.put([text, plain], places, size=SMALL, weight=Weight.SEMIBOLD)
    if label is None:
        return []
    css = "on-pipe-over" if sign == OVER_SIGN else "on-pipe"
    return [_text(f"node:{node.id}/tag", "tag", label, css=css, weight=Weight.SEMIBOLD)]


def _end_tag(spot: Spot, taken: Occupied) -> list[AnyPrimitive]:
    x, y = spot.x1, spot.y1
    places = [(x + 8, y + 4, START), (x - 2, y - 7, END), (x - 2, y + 15, END)]
    words = fit(spot.pipe.far.id, MOST_TAG_PX, TINY)
    label = taken.put([words], places, size=TINY)
    return (
        [] if label is None else [_text(f"node:{spot.pipe.far.id}/tag", "tag", label, css="on-pipe-quiet", size=TINY)]
    )


def _right(item: AnyPrimitive) -> float:
    return item.x + text_width(item.text, item.size, item.weight) if isinstance(item, Text) else 0.0


def _run_label(spot: Spot, taken: Occupied, system: UnitSystem, *, sign: str, end: float) -> list[AnyPrimitive]:
    pipe = spot.pipe
    if pipe.result is None:
        return []
    sizes, length = f"{sign} {size_words(pipe.result, system)}".strip(), length_words(pipe, system)
    texts = [f"{sizes}, {length}", sizes]
    if not pipe.known:
        left = f"{sign} {UNKNOWN} {length}".strip()
        texts = [f"{left}, {size_words(pipe.result, system)}", left, f"{sign} {UNKNOWN}".strip()]
    label = taken.put(texts, _along(spot, end), size=TINY) or taken.put(texts, _aside(spot), size=TINY)
    labels = [label] if label else taken.put_rows(sizes.split(" · "), _stacked(spot), size=TINY) if pipe.known else []
    css = "on-pipe-over" if sign == OVER_SIGN else "on-pipe"
    return [
        _text(f"run:{pipe.id}/size" + (f"/{i}" if i else ""), "run-label", item, css=css, size=TINY)
        for i, item in enumerate(labels)
    ]


def _along(spot: Spot, end: float) -> list[Place]:
    """Give the places at the run itself; behind a unit's run there is room after its tag."""
    half = spot.stroke / 2
    above, below = spot.y1 - half - 4, spot.y1 + half + 10
    places = [
        (spot.x0 + 6, above, START),
        (spot.x1 - 8, above, END),
        ((spot.x0 + spot.x1) / 2, above, MIDDLE),
        (spot.x0 + 6, below, START),
        (spot.x1 - 8, below, END),
        ((spot.x0 + spot.x1) / 2, below, MIDDLE),
    ]
    if spot.pipe.far.kind is NodeKind.UNIT:
        return [*places, (end + 8, spot.y1 + 3.5, START)]
    return [*places, (spot.x1 - 8, above - 11, END), (spot.x1 - 8, below + 11, END)]


def _aside(spot: Spot) -> list[Place]:
    """Give the places beside the leg of the run, near its far end."""
    if spot.pipe.far.kind is NodeKind.UNIT or abs(spot.y1 - spot.y0) < TINY:
        return []
    toward = 1 if spot.y1 > spot.y0 else -1
    ys = [spot.y1 - toward * 16 + 3, (spot.y0 + spot.y1) / 2 + 3]
    return [place for y in ys for place in ((spot.x0 - 5, y, END), (spot.x0 + 5, y, START))]


def _stacked(spot: Spot) -> list[Place]:
    """Give the places for a label in two rows, by its first row."""
    half = spot.stroke / 2
    above, below = spot.y1 - half - 5 - TINY, spot.y1 + half + 10
    return [
        (spot.x0 + 4, above, START),
        (spot.x1 - 7, above, END),
        (spot.x0 + 4, below, START),
        (spot.x1 - 7, below, END),
        (spot.x0 - 4, above, END),
        (spot.x1 - 7, below + 12, END),
    ]


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
