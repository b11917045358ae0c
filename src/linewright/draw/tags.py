"""Labels on the tree: tags of fittings and units, sizes and lengths of runs, each where nothing else stands."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import lru_cache
from itertools import chain
from typing import NamedTuple

from linewright.draw.frame import EDGE, Frame
from linewright.draw.labels import (
    END,
    MIDDLE,
    MOST_KNOWN,
    START,
    Box,
    Edges,
    InRow,
    Label,
    Occupied,
    Place,
    Wish,
    in_rows,
    text_box,
)
from linewright.draw.pipework import HEADER_HALF, NODE_RADIUS, PaintedRun
from linewright.draw.plan import Node, Pipe, SheetLayout
from linewright.draw.primitives import AnyPrimitive, Circle, Hatch, Line, Rect, Text, Weight
from linewright.draw.run_words import length_words, size_words
from linewright.draw.spots import Spot
from linewright.draw.style import SMALL, TINY
from linewright.draw.typeface import fit, text_width
from linewright.draw.verdicts import part_standings
from linewright.draw.wording import OVER_SIGN, SIGNS, UNKNOWN
from linewright.model.kept import KeptEach
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
_FITTINGS = (NodeKind.JOINT, NodeKind.HEADER, NodeKind.BOX)
_ENDS = (NodeKind.UNIT, NodeKind.COUPLING)
# Crossed by a label only where it finds no other place.
_SOFT = ("limit", "limit-tick")


class Tags(NamedTuple):
    """The labels that found room, and the runs whose sizes, or the tags at whose ends, did not."""

    primitives: list[AnyPrimitive]
    left_out: list[Pipe]


class _Marked(NamedTuple):
    """A run and its far end to who labels them: what of them bars the way; the end, its sign, and the tag it wishes."""

    bars: tuple[InRow, ...]
    end: Node
    sign: str
    tag: Wish


class _EndTag(NamedTuple):
    """The tag of a unit or coupling, and where it ends; without one the left edge of the page [px]."""

    texts: list[AnyPrimitive]
    right: float


def tag_tree(
    sheet: SheetLayout,
    spots: list[Spot],
    frame: Frame,
    *,
    system: UnitSystem,
    runs: list[PaintedRun],
    around: list[AnyPrimitive],
) -> Tags:
    """Label the tree around its runs and all that is painted `around` them."""
    faults = {part: SIGNS[standing] for part, standing in part_standings(sheet).items()}
    own = sheet.result.id
    signs = [faults.get(("fitting", spot.pipe.far.id), "") for spot in spots]
    marked = _MARKED(own, list(zip(runs, spots, signs, strict=True)))
    taken = _occupied(Box(EDGE, frame.top - 8, frame.tree_right + 8, frame.bottom + 2), marked, around)
    fittings = [mark for mark in marked if mark.end.kind in _FITTINGS]
    of_fittings = _TAGS(own, [(taken.put(mark.tag), mark.end.id, mark.sign) for mark in fittings])
    ends = [mark.end for mark in marked if mark.end.kind in _ENDS]
    of_ends = _END_TAGS(own, [(taken.put(mark.tag), mark.end.id) for mark in marked if mark.end.kind in _ENDS])
    rights = {end.id: tag.right for end, tag in zip(ends, of_ends, strict=True)}
    ordered = sorted(spots, key=_by_weight)
    of_runs = _tags_of_runs(own, ordered, faults, rights, taken=taken, system=system)
    pipes = {spot.pipe.id: spot.pipe for spot in spots}
    left_out = {mark.end.id: None for mark, tag in zip(fittings, of_fittings, strict=True) if not tag}
    left_out |= {spot.pipe.id: None for spot, tag in zip(ordered, of_runs, strict=True) if not tag}
    texts = [*of_fittings, *[tag.texts for tag in of_ends], *of_runs]
    return Tags(list(chain.from_iterable(texts)), [pipes[name] for name in left_out])


def _tags_of_runs(
    own: str,
    spots: list[Spot],
    faults: Mapping[tuple[str, str], str],
    rights: Mapping[str, float],
    *,
    taken: Occupied,
    system: UnitSystem,
) -> list[list[AnyPrimitive]]:
    """Put size and length of each run in turn; `rights`: where the tags of units end [px]."""
    signs = [faults.get(("run", spot.pipe.id), "") for spot in spots]
    wishes = _RUN_WISHES(
        own,
        [
            (spot, sign, max(spot.x1, rights.get(spot.pipe.id, spot.x1)), system)
            for spot, sign in zip(spots, signs, strict=True)
        ],
    )
    return _RUN_TAGS(
        own,
        [(_first_put(taken, wish), spot.pipe.id, sign) for spot, sign, wish in zip(spots, signs, wishes, strict=True)],
    )


def _by_weight(spot: Spot) -> tuple[bool, float]:
    return spot.pipe.known, -spot.stroke


def _first_put(taken: Occupied, wishes: Iterable[Wish]) -> tuple[Label, ...]:
    for wish in wishes:
        labels = taken.put(wish)
        if labels:
            return labels
    return ()


def _occupied(page: Box, marked: list[_Marked], around: list[AnyPrimitive]) -> Occupied:
    hard = [_bars(item) for item in around if item.role not in _BEHIND and item.role not in _SOFT]
    soft = [_bars(item) for item in around if item.role in _SOFT]
    runs = [run.bars for run in marked]
    return Occupied(page, hard=chain.from_iterable([*hard, *runs]), soft=chain.from_iterable(soft))


def _mark(run: PaintedRun, spot: Spot, sign: str) -> _Marked:
    """Note where a run, its leg and its far end stand; `sign`: that of the fitting at its end."""
    painted = [item for item in (*run.along, *run.leg, *run.node) if item.role not in _BEHIND]
    end = spot.pipe.far
    wish = _end_wish(spot) if end.kind in _ENDS else _node_wish(spot, sign)
    return _Marked(tuple(in_rows(_edges(item) for item in painted)), end, sign, wish)


@lru_cache(maxsize=MOST_KNOWN)
def _bars(item: AnyPrimitive) -> tuple[InRow, ...]:
    return tuple(in_rows([_edges(item)]))


def _edges(item: AnyPrimitive) -> Edges:
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


def _node_wish(spot: Spot, sign: str) -> Wish:
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


def _end_wish(spot: Spot) -> Wish:
    """Wish the tag of what stands at the end of a pipe behind it, else before it."""
    x, y = spot.x1, spot.y1
    places = ((x + 8, y + 4, START), (x - 2, y - 7, END), (x - 2, y + 15, END))
    return Wish([(fit(spot.pipe.far.id, MOST_TAG_PX, TINY),)], places, size=TINY)


def _run_wishes(spot: Spot, sign: str, end: float, system: UnitSystem) -> tuple[Wish, ...]:
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


def _node_tag(labels: tuple[Label, ...], node: str, sign: str) -> list[AnyPrimitive]:
    css = "on-pipe-over" if sign == OVER_SIGN else "on-pipe"
    return [_text(f"node:{node}/tag", "tag", one, css=css, weight=Weight.SEMIBOLD) for one in labels]


def _end_tag(labels: tuple[Label, ...], node: str) -> _EndTag:
    texts = [_text(f"node:{node}/tag", "tag", one, css="on-pipe-quiet", size=TINY) for one in labels]
    return _EndTag([*texts], max([0.0, *[text.x + text_width(text.text, text.size, text.weight) for text in texts]]))


def _run_tag(labels: tuple[Label, ...], run: str, sign: str) -> list[AnyPrimitive]:
    css = "on-pipe-over" if sign == OVER_SIGN else "on-pipe"
    return [
        _text(f"run:{run}/size" + (f"/{i}" if i else ""), "run-label", one, css=css, size=TINY)
        for i, one in enumerate(labels)
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


#: What bars the way, was wished and put of the runs and their ends before, by system.
_MARKED: KeptEach[_Marked] = KeptEach(_mark)
_RUN_WISHES: KeptEach[tuple[Wish, ...]] = KeptEach(_run_wishes)
_TAGS: KeptEach[list[AnyPrimitive]] = KeptEach(_node_tag)
_END_TAGS: KeptEach[_EndTag] = KeptEach(_end_tag)
_RUN_TAGS: KeptEach[list[AnyPrimitive]] = KeptEach(_run_tag)
