"""The title block: who, what, which revision, out of which files, and the lines to sign."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from linewright.draw.paper.facts import Facts, Subject
from linewright.draw.paper.lettering import BODY, HEAD, LEAST_MM, Area, fitted, width_of
from linewright.draw.paper.marks import BOLD, FINE, Box, Ink, Layer, Mark, Pen, Stroke, Words
from linewright.draw.primitives import Anchor, Weight

WIDTH, HEIGHT = 180.0, 75.0
#: The same in two halves side by side, for drawings that bring their own signs and notes.
LOW_WIDTH, LOW_HEIGHT = 360.0, 38.0
_ROWS = (10.5, 8.5, 9.0, 9.0, 9.0, 9.0, 9.0, 11.0)
_LEFT, _RIGHT = (11.0, 9.0, 9.0, 9.0), (9.0, 9.0, 9.0, 11.0)
_PAD = 1.4
DEMONSTRATION = "DEMONSTRATION DATA: INVENTED, DO NOT BUILD FROM IT"
STAMP = "NOT FOR CONSTRUCTION UNTIL SIGNED"


def title_block(area: Area, facts: Facts, subject: Subject, *, paper: str) -> list[Mark]:
    """Paint the title block into an area of `WIDTH` or more by `HEIGHT` [mm]."""
    tops = [area.top + sum(_ROWS[:i]) for i in range(len(_ROWS))]
    rows = [Area(area.left, top, area.right, top + height) for top, height in zip(tops, _ROWS, strict=True)]
    return [_frame(area), *_rules(rows[1:]), *_rows(rows, facts, subject, paper)]


def low_title_block(area: Area, facts: Facts, subject: Subject, *, paper: str) -> list[Mark]:
    """Paint the title block in two halves into an area of `LOW_WIDTH` or more by `LOW_HEIGHT` [mm]."""
    middle = (area.left + area.right) / 2
    rows = []
    for left, right, heights in ((area.left, middle, _LEFT), (middle, area.right, _RIGHT)):
        tops = [area.top + sum(heights[:i]) for i in range(len(heights))]
        rows += [Area(left, top, right, top + height) for top, height in zip(tops, heights, strict=True)]
    edge = Stroke("title/middle", Layer.TITLE, middle, area.top, middle, area.bottom, Pen(FINE))
    inner = [row for row in rows if row.top > area.top]
    return [_frame(area), edge, *_rules(inner), *_rows(rows, facts, subject, paper)]


def _frame(area: Area) -> Box:
    return Box("title/frame", Layer.TITLE, area.left, area.top, area.width, area.height, Pen(BOLD))


def _rules(rows: Sequence[Area]) -> Iterator[Mark]:
    for i, row in enumerate(rows):
        yield Stroke(f"title/row/{i}", Layer.TITLE, row.left, row.top, row.right, row.top, Pen(FINE))


def _rows(rows: Sequence[Area], facts: Facts, subject: Subject, paper: str) -> Iterator[Mark]:
    """Paint the eight rows of the block, each into its area."""
    last, bold = facts.revision, Weight.SEMIBOLD
    design, made = f"{facts.design}   sha256 {facts.sha256[:12]}", f"linewright {facts.version}"
    scale = [("scale", subject.scale, 0.44), ("paper", paper, 0.16)]
    yield from _row(rows[0], [("project", facts.project, 1.0)], height=HEAD, weight=bold)
    yield from _row(rows[1], [("system", subject.system, 1.0)])
    sheet = ("sheet", f"{subject.number} of {subject.of}", 0.24)
    yield from _row(rows[2], [("drawing", subject.drawing, 0.76), sheet], weight=bold)
    yield from _row(rows[3], [*scale, ("revision", last.mark, 0.16), ("date", last.date, 0.24)])
    yield from _row(rows[4], [("design file", design, 0.76), ("made with", made, 0.24)])
    yield from _row(rows[5], [("books", "; ".join(facts.books), 1.0)], height=LEAST_MM)
    yield from _row(rows[6], [("drawn", "", 1 / 3), ("checked", "", 1 / 3), ("approved", "", 1 / 3)])
    yield from _caution(rows[7], facts)


def _row(
    area: Area, cells: Sequence[tuple[str, str, float]], *, height: float = BODY, weight: Weight = Weight.REGULAR
) -> Iterator[Mark]:
    x = area.left
    for position, (name, text, share) in enumerate(cells):
        width = area.width * share
        if position:
            yield Stroke(f"title/{name}/edge", Layer.TITLE, x, area.top, x, area.bottom, Pen(FINE))
        yield Words(f"title/{name}/head", Layer.TITLE, x + _PAD, area.top + 3.0, name, LEAST_MM, ink=Ink.QUIET)
        if text:
            shown = fitted(text, width - 2 * _PAD, height, weight)
            y = area.bottom - 1.9
            yield Words(f"title/{name}", Layer.TITLE, x + _PAD, y, shown, height, weight, full=text)
        x += width


def _caution(area: Area, facts: Facts) -> Iterator[Mark]:
    words = DEMONSTRATION if facts.demonstration else STAMP
    middle, bold = (area.left + area.right) / 2, Weight.SEMIBOLD
    yield Words("title/stamp", Layer.TITLE, middle, area.top + 4.2, words, BODY, bold, Anchor.MIDDLE, Ink.WARNING)
    text = fitted(facts.caution, area.width - 2 * _PAD)
    yield Words(
        "title/caution", Layer.TITLE, middle, area.top + 8.6, text, LEAST_MM, anchor=Anchor.MIDDLE, full=facts.caution
    )


def least_width(facts: Facts) -> float:
    """Give the width at which the caution stands in one line [mm]."""
    return width_of(facts.caution) + 2 * _PAD
