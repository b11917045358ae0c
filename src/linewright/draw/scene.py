"""The sheet of one system as a scene: all parts put together, from top to bottom."""

from __future__ import annotations

from typing import NamedTuple

from linewright.draw.backdrop import axis_marks, bands, floor_page, limit_marks
from linewright.draw.columns import FLOW_WIDTH, LEAK_WIDTH
from linewright.draw.foot import foot
from linewright.draw.frame import DEFAULT_WIDTH, LEAST_WIDTH, Frame, make_frame
from linewright.draw.groups import groups_of
from linewright.draw.heading import book_words, heading, summary_words, system_words
from linewright.draw.lane_words import column_heads, column_needs, lane_rows
from linewright.draw.lanes import lanes, table_head
from linewright.draw.legend import legend
from linewright.draw.margins import margins
from linewright.draw.outdoors import outdoor_group
from linewright.draw.pipework import lane_ticks, nodes, paint_runs, pipes
from linewright.draw.plan import Pipe, SheetLayout
from linewright.draw.primitives import AnyPrimitive, Rect, Scene
from linewright.draw.spots import Spot, place
from linewright.draw.tags import tag_tree
from linewright.units import UnitSystem


class _Tree(NamedTuple):
    """The drawn tree, the runs whose sizes found no room in it, and where it ends [px]."""

    primitives: list[AnyPrimitive]
    unlabelled: list[Pipe]
    bottom: float


FOOT_GAP, LEGEND_GAP, LOWER_EDGE = 26.0, 6.0, 8.0


def sheet_scene(sheet: SheetLayout, system: UnitSystem, *, width: float = DEFAULT_WIDTH, margin_rows: int = 0) -> Scene:
    """Draw a laid-out system.

    width : float — width of the picture [px]; never below that at which the table still fits
    margin_rows : int — rows of margins that are plainly within; 0: all of them
    """
    width = max(
        width,
        LEAST_WIDTH + (FLOW_WIDTH if sheet.with_flow else 0.0) + (0.0 if sheet.result.safety is None else LEAK_WIDTH),
    )
    head, y = heading(sheet, width, system)
    strip, y = margins(sheet, width, y, system=system, rows=margin_rows)
    rows, heads = lane_rows(sheet, system), column_heads(sheet, system)
    frame, spots = place(sheet, make_frame(sheet, width, y, needs=column_needs(rows, heads)))
    tree = _tree(sheet, frame, spots, system)
    below, y = foot(sheet, width, tree.bottom + FOOT_GAP, system=system, unlabelled=tree.unlabelled)
    signs, y = legend(sheet, spots, width=width, top=y + LEGEND_GAP, system=system, drawn=tree.primitives)
    body = [
        *head,
        *strip,
        *tree.primitives,
        *table_head(heads, frame),
        *lanes(sheet.result.id, rows, frame),
        *below,
        *signs,
    ]
    return _scene(sheet, frame, body, height=y + LOWER_EDGE, system=system)


def _tree(sheet: SheetLayout, frame: Frame, spots: list[Spot], system: UnitSystem) -> _Tree:
    """Draw levels, axis, limits and pipe, then label them around what is drawn."""
    levels = bands(frame, system)
    marks, bottom = limit_marks(sheet, frame, system, floor=floor_page(frame))
    runs, ticks = paint_runs(sheet, spots, frame, system), lane_ticks(sheet, spots, frame, system)
    outdoor = outdoor_group(sheet, frame, system)
    around = [*levels, *marks, *ticks, *outdoor]
    tags = tag_tree(sheet, spots, frame, system=system, runs=runs, around=around)
    drawn = [*marks, *pipes(runs, spots), *ticks, *nodes(runs), *outdoor]
    found = [*levels, *axis_marks(sheet, frame, system), *drawn, *tags.primitives]
    return _Tree(found, tags.left_out, bottom)


def _scene(sheet: SheetLayout, frame: Frame, body: list[AnyPrimitive], *, height: float, system: UnitSystem) -> Scene:
    width = frame.width
    paper = Rect(id="paper", role="paper", css="paper", group="paper", x=0, y=0, width=width, height=height)
    return Scene(
        title=f"{sheet.evaluation.design.project}, {system_words(sheet)}",
        description=f"{book_words(sheet)}. {summary_words(sheet)}.",
        width=width,
        height=height,
        units=system.value,
        axis=frame.axis,
        groups=groups_of(sheet, body),
        primitives=(paper, *body),
    )
