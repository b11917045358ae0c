"""What labels of the tree say, and where they may stand: tags of fittings and units, sizes and lengths of runs."""

from __future__ import annotations

from linewright.draw.labels import END, MIDDLE, START, Edges, Place, Wish, text_box
from linewright.draw.pipework import HEADER_HALF, NODE_RADIUS
from linewright.draw.primitives import AnyPrimitive, Circle, Hatch, Line, Rect, Text, Weight
from linewright.draw.run_words import length_words, size_words
from linewright.draw.spots import Spot
from linewright.draw.style import SMALL, TINY
from linewright.draw.typeface import fit
from linewright.draw.wording import UNKNOWN
from linewright.model.values import NodeKind
from linewright.units import UnitSystem

ASSUMED_SIGN = "~"
# The whole tag stands in the titles of the fitting and of the lane.
MOST_TAG_PX = 72.0


def node_wish(spot: Spot, sign: str) -> Wish:
    """Wish the tag of a fitting, with its sign where it is at fault, about it."""
    node = spot.pipe.far
    plain = f"{sign} {fit(node.id, MOST_TAG_PX, SMALL, weight=Weight.SEMIBOLD)}".strip()
    text = f"{plain} {ASSUMED_SIGN}" if node.assumed_level else plain
    half = (HEADER_HALF if node.kind is NodeKind.HEADER else NODE_RADIUS) + 2
    return Wish([(text,), (plain,)], _about(spot.x1, spot.y1, half), size=SMALL, weight=Weight.SEMIBOLD)


def _about(x: float, y: float, half: float) -> tuple[Place, ...]:
    """Give the places about a fitting that is so wide to each side."""
    return (
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


def end_wish(spot: Spot) -> Wish:
    """Wish the tag of what stands at the end of a pipe behind it, else before it."""
    x, y = spot.x1, spot.y1
    places = ((x + 8, y + 4, START), (x - 2, y - 7, END), (x - 2, y + 15, END))
    return Wish([(fit(spot.pipe.far.id, MOST_TAG_PX, TINY),)], places, size=TINY)


def run_wishes(spot: Spot, sign: str, end: float, system: UnitSystem) -> tuple[Wish, ...]:
    """Wish the size and length of a run at it, else beside the leg of it, else the size in rows.

    end : where the tag of the unit behind it ends [px]
    """
    pipe = spot.pipe
    if pipe.result is None:
        return ()
    sizes, length = f"{sign} {size_words(pipe.result, system)}".strip(), length_words(pipe, system)
    texts = [(f"{sizes}, {length}",), (sizes,)]
    if not pipe.known:
        left = f"{sign} {UNKNOWN} {length}".strip()
        texts = [(f"{left}, {size_words(pipe.result, system)}",), (left,), (f"{sign} {UNKNOWN}".strip(),)]
    is_unit = pipe.far.kind is NodeKind.UNIT
    found = [Wish(texts, _along(spot, end if is_unit else None), size=TINY)]
    if not is_unit and abs(spot.y1 - spot.y0) >= TINY:
        found.append(Wish(texts, _aside(spot), size=TINY))
    if pipe.known:
        found.append(Wish([tuple(sizes.split(" · "))], _stacked(spot), size=TINY))
    return tuple(found)


def _along(spot: Spot, end: float | None) -> tuple[Place, ...]:
    """Give the places at the run itself; behind a unit's run there is room after its tag, which ends at `end`."""
    x0, x1, y, half = spot.x0, spot.x1, spot.y1, spot.stroke / 2
    above, below = y - half - 4, y + half + 10
    places = (
        (x0 + 6, above, START),
        (x1 - 8, above, END),
        ((x0 + x1) / 2, above, MIDDLE),
        (x0 + 6, below, START),
        (x1 - 8, below, END),
        ((x0 + x1) / 2, below, MIDDLE),
    )
    if end is not None:
        return (*places, (end + 8, y + 3.5, START))
    return (*places, (x1 - 8, above - 11, END), (x1 - 8, below + 11, END))


def _aside(spot: Spot) -> tuple[Place, ...]:
    """Give the places beside the leg of a run, near its far end."""
    x, y0, y1 = spot.x0, spot.y0, spot.y1
    toward = 1 if y1 > y0 else -1
    near, middle = y1 - toward * 16 + 3, (y0 + y1) / 2 + 3
    return (x - 5, near, END), (x + 5, near, START), (x - 5, middle, END), (x + 5, middle, START)


def _stacked(spot: Spot) -> tuple[Place, ...]:
    """Give the places for a label in two rows, by its first row."""
    x0, x1, y, half = spot.x0, spot.x1, spot.y1, spot.stroke / 2
    above, below = y - half - 5 - TINY, y + half + 10
    return (
        (x0 + 4, above, START),
        (x1 - 7, above, END),
        (x0 + 4, below, START),
        (x1 - 7, below, END),
        (x0 - 4, above, END),
        (x1 - 7, below + 12, END),
    )


def edges_of(item: AnyPrimitive) -> Edges:
    """Give the rectangle that something painted bars."""
    match item:
        case Line():
            half = item.stroke / 2 + 0.5
            left, right = (item.x1, item.x2) if item.x1 <= item.x2 else (item.x2, item.x1)
            top, bottom = (item.y1, item.y2) if item.y1 <= item.y2 else (item.y2, item.y1)
            return left - half, top - half, right + half, bottom + half
        case Rect() | Hatch():
            return item.x, item.y, item.x + item.width, item.y + item.height
        case Circle():
            r = item.radius + 1
            return item.x - r, item.y - r, item.x + r, item.y + r
        case Text():
            return text_box(item.text, (item.x, item.y, item.anchor), size=item.size, weight=item.weight)
