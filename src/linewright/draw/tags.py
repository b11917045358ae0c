"""Labels on the tree: tags of fittings and units, sizes and lengths of runs, each where nothing else stands."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import chain, repeat
from typing import NamedTuple

from linewright.draw.frame import EDGE, Frame
from linewright.draw.labels import Box, InRow, Label, in_rows, page_of
from linewright.draw.pipework import PaintedRun
from linewright.draw.plan import Node, Pipe, SheetLayout
from linewright.draw.primitives import AnyPrimitive, Text, Weight
from linewright.draw.relabel import UNFILLED, UNLABELLED, Ask, Filled, Labelled, page_rows
from linewright.draw.spots import Spot
from linewright.draw.style import SMALL, TINY
from linewright.draw.tag_wishes import edges_of, end_wish, node_wish, run_wishes
from linewright.draw.typeface import text_width
from linewright.draw.verdicts import part_standings
from linewright.draw.wording import OVER_SIGN, SIGNS
from linewright.engine.records import Standing
from linewright.model.kept import MOST_SHEETS, KeptEach, Last
from linewright.model.values import NodeKind
from linewright.units import UnitSystem

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
    ask: Ask


class _Told(NamedTuple):
    """A run, the sign of what is at fault with it, and what is to be said of its size and length."""

    pipe: Pipe
    sign: str
    ask: Ask


class _Bars(NamedTuple):
    """What of something painted bars the way, and what may be crossed, by rows of the page."""

    hard: tuple[InRow, ...]
    soft: tuple[InRow, ...]


class _Labelling(NamedTuple):
    """How a sheet was labelled: what fills it, then the tags of nodes, then the labels of runs around all that."""

    hard: Filled
    soft: Filled
    nodes: Labelled
    runs: Labelled


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
    faults = part_standings(sheet)
    own = sheet.result.id
    page = page_of(Box(EDGE, frame.top - 8, frame.tree_right + 8, frame.bottom + 2))
    before = _LABELLED.get(own) or _Labelling(UNFILLED, UNFILLED, UNLABELLED, UNLABELLED)
    marked = _MARKED(own, list(zip(runs, spots, _signs(faults, "fitting", spots), strict=True)))
    fittings = [mark for mark in marked if mark.end.kind in _FITTINGS]
    ends = [mark for mark in marked if mark.end.kind in _ENDS]
    hard, soft = _filled(before, _BARS(own, list(zip(around, strict=True))), marked)
    nodes = before.nodes.again(page, page_rows(own, page, hard, soft), [mark.ask for mark in (*fittings, *ends)])
    of_fittings = _NODE_TAGS(own, list(zip(nodes.labels[: len(fittings)], fittings, strict=True)))
    of_ends = _END_TAGS(own, list(zip(nodes.labels[len(fittings) :], ends, strict=True)))
    rights = {mark.end.id: tag.right for mark, tag in zip(ends, of_ends, strict=True)}
    ordered = sorted(spots, key=_by_weight)
    ends_px = [max(spot.x1, rights.get(spot.pipe.id, spot.x1)) for spot in ordered]
    signs = _signs(faults, "run", ordered)
    told = _TOLD(own, list(zip(ordered, signs, ends_px, repeat(system, len(ordered)), strict=True)))
    labelled = before.runs.again(page, nodes.rows(), [run.ask for run in told])
    _LABELLED.put(own, _Labelling(hard, soft, nodes, labelled))
    of_runs = _RUN_TAGS(own, list(zip(labelled.labels, told, strict=True)))
    bare = [mark.end.id for mark, tag in zip(fittings, of_fittings, strict=True) if not tag]
    bare += [run.pipe.id for run, tag in zip(told, of_runs, strict=True) if not tag]
    pipes = {run.pipe.id: run.pipe for run in told}
    texts = chain(of_fittings, [tag.texts for tag in of_ends], of_runs)
    return Tags(list(chain.from_iterable(texts)), [pipes[name] for name in dict.fromkeys(bare)])


def _signs(faults: Mapping[tuple[str, str], Standing], kind: str, spots: list[Spot]) -> list[str]:
    """Give the sign of each run, or of the fitting at its end, where that is at fault."""
    signs = {name: SIGNS[standing] for (of, name), standing in faults.items() if of == kind}
    return [signs.get(spot.pipe.id, "") for spot in spots] if signs else [""] * len(spots)


def _tell(spot: Spot, sign: str, end: float, system: UnitSystem) -> _Told:
    return _Told(spot.pipe, sign, run_wishes(spot, sign, end, system))


def _by_weight(spot: Spot) -> tuple[bool, float]:
    return spot.pipe.length_m is not None, -spot.stroke


def _filled(before: _Labelling, around: list[_Bars], marked: list[_Marked]) -> tuple[Filled, Filled]:
    """Fill the page with what bars the way, and with what may be crossed."""
    hard = before.hard.by([*[bars.hard for bars in around], *[mark.bars for mark in marked]])
    return hard, before.soft.by([bars.soft for bars in around])


def _bars(item: AnyPrimitive) -> _Bars:
    if item.role in _BEHIND:
        return _Bars((), ())
    rows = tuple(in_rows([edges_of(item)]))
    return _Bars((), rows) if item.role in _SOFT else _Bars(rows, ())


def _mark(run: PaintedRun, spot: Spot, sign: str) -> _Marked:
    """Note where a run, its leg and its far end stand; `sign`: that of the fitting at its end."""
    painted = [item for item in (*run.along, *run.leg, *run.node) if item.role not in _BEHIND]
    end = spot.pipe.far
    wish = end_wish(spot) if end.kind in _ENDS else node_wish(spot, sign)
    return _Marked(tuple(in_rows(edges_of(item) for item in painted)), end, sign, (wish,))


def _node_tag(labels: tuple[Label, ...], mark: _Marked) -> list[AnyPrimitive]:
    css = "on-pipe-over" if mark.sign == OVER_SIGN else "on-pipe"
    return [_text(f"node:{mark.end.id}/tag", "tag", one, css=css, weight=Weight.SEMIBOLD) for one in labels]


def _end_tag(labels: tuple[Label, ...], mark: _Marked) -> _EndTag:
    texts = [_text(f"node:{mark.end.id}/tag", "tag", one, css="on-pipe-quiet", size=TINY) for one in labels]
    return _EndTag([*texts], max([0.0, *[text.x + text_width(text.text, text.size, text.weight) for text in texts]]))


def _run_tag(labels: tuple[Label, ...], told: _Told) -> list[AnyPrimitive]:
    css = "on-pipe-over" if told.sign == OVER_SIGN else "on-pipe"
    return [
        _text(f"run:{told.pipe.id}/size" + (f"/{i}" if i else ""), "run-label", one, css=css, size=TINY)
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


#: What bars the way, is told and was put of the runs and their ends before, by system.
_MARKED: KeptEach[_Marked] = KeptEach(_mark)
_BARS: KeptEach[_Bars] = KeptEach(_bars)
_TOLD: KeptEach[_Told] = KeptEach(_tell)
_NODE_TAGS: KeptEach[list[AnyPrimitive]] = KeptEach(_node_tag)
_END_TAGS: KeptEach[_EndTag] = KeptEach(_end_tag)
_RUN_TAGS: KeptEach[list[AnyPrimitive]] = KeptEach(_run_tag)
#: How the sheets before were labelled, by system.
_LABELLED: Last[_Labelling] = Last(MOST_SHEETS)
