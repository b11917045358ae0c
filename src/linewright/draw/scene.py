"""The sheet of one system as a scene: all parts put together, from top to bottom."""

from __future__ import annotations

from linewright.draw.backdrop import axis_marks, bands, floor_page, limit_marks
from linewright.draw.foot import foot
from linewright.draw.frame import DEFAULT_WIDTH, EDGE, LEAST_WIDTH, make_frame
from linewright.draw.groups import groups_of
from linewright.draw.heading import book_words, heading, summary_words, system_words
from linewright.draw.lane_words import column_heads, column_needs, lane_rows
from linewright.draw.lanes import lanes, table_head
from linewright.draw.legend import legend
from linewright.draw.margins import margins
from linewright.draw.outdoors import outdoor_group
from linewright.draw.pipework import lane_ticks, nodes, pipes
from linewright.draw.plan import SheetLayout
from linewright.draw.primitives import AnyPrimitive, Rect, Scene
from linewright.draw.spots import place
from linewright.draw.tags import tag_tree
from linewright.units import UnitSystem

FOOT_GAP, LEGEND_GAP, LOWER_EDGE = 26.0, 6.0, 8.0


def sheet_scene(sheet: SheetLayout, system: UnitSystem, *, width: float = DEFAULT_WIDTH) -> Scene:
    """Draw a laid-out system.

    width : float — width of the picture [px]; never below `LEAST_WIDTH`, at which the table still fits
    """
    width = max(width, LEAST_WIDTH)
    head, y = heading(sheet, width, system)
    strip, y = margins(sheet, width, y, system=system)
    rows, heads = lane_rows(sheet, system), column_heads(sheet, system)
    frame, spots = place(sheet, make_frame(sheet, width, y, needs=column_needs(rows, heads)))
    marks, tree_bottom = limit_marks(sheet, frame, system, floor=floor_page(frame))
    tree = [
        *pipes(sheet, spots, system),
        *lane_ticks(sheet, spots, frame, system),
        *nodes(sheet, spots, frame),
        *outdoor_group(sheet, frame, system),
    ]
    levels = bands(frame, system)
    tags = tag_tree(sheet, spots, frame, system=system, painted=[*levels, *marks, *tree])
    below, bottom = foot(sheet, width, tree_bottom + FOOT_GAP, system=system, unlabelled=tags.left_out)
    signs, bottom = legend(sheet, spots, EDGE, width - EDGE, top=bottom + LEGEND_GAP, system=system)
    body: list[AnyPrimitive] = [
        *head,
        *strip,
        *levels,
        *axis_marks(sheet, frame, system),
        *marks,
        *tree,
        *tags.primitives,
        *table_head(heads, frame),
        *lanes(rows, frame),
        *below,
        *signs,
    ]
    height = bottom + LOWER_EDGE
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
