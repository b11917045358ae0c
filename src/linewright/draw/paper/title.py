"""The title block: who, what, which revision, out of which files, and the lines to sign."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.draw.paper.facts import Facts, Subject
from linewright.draw.paper.lettering import BODY, HEAD, LEAST_MM, Area, fitted, width_of
from linewright.draw.paper.marks import BOLD, FINE, Box, Ink, Layer, Mark, Pen, Stroke, Words
from linewright.draw.primitives import Anchor, Weight

WIDTH, HEIGHT = 180.0, 66.0
_ROWS = (10.5, 8.5, 9.0, 9.0, 9.0, 9.0, 11.0)
_PAD = 1.4
DEMONSTRATION = "DEMONSTRATION DATA: INVENTED, DO NOT BUILD FROM IT"
STAMP = "NOT FOR CONSTRUCTION UNTIL SIGNED"


def title_block(area: Area, facts: Facts, subject: Subject, *, paper: str) -> list[Mark]:
    """Paint the title block into an area of `WIDTH` or more by `HEIGHT` [mm]."""
    tops = [area.top + sum(_ROWS[:i]) for i in range(len(_ROWS) + 1)]
    found: list[Mark] = [
        Box("title/frame", Layer.TITLE, area.left, area.top, area.width, area.height, Pen(BOLD)),
        *(
            Stroke(f"title/row/{i}", Layer.TITLE, area.left, y, area.right, y, Pen(FINE))
            for i, y in enumerate(tops[1:-1])
        ),
    ]

    def row(at: int, cells: list[tuple[str, str, float]], height: float = BODY, weight: Weight = Weight.REGULAR) -> None:
        found.extend(_row(Area(area.left, tops[at], area.right, tops[at + 1]), cells, height=height, weight=weight))

    last = facts.revision
    row(0, [("project", facts.project, 1.0)], HEAD, Weight.SEMIBOLD)
    row(1, [("system", subject.system, 1.0)])
    row(2, [("drawing", subject.drawing, 0.66), ("sheet", f"{subject.number} of {subject.of}", 0.34)], BODY, Weight.SEMIBOLD)
    row(
        3,
        [("scale", subject.scale, 0.44), ("paper", paper, 0.16), ("revision", last.mark, 0.16), ("date", last.date, 0.24)],
    )
    row(4, [("design file", f"{facts.design}   sha256 {facts.sha256[:12]}", 0.66), ("made with", f"linewright {facts.version}", 0.34)])
    row(5, [("drawn", "", 1 / 3), ("checked", "", 1 / 3), ("approved", "", 1 / 3)])
    found += _caution(Area(area.left, tops[6], area.right, area.bottom), facts)
    return found


def _row(area: Area, cells: list[tuple[str, str, float]], *, height: float, weight: Weight) -> Iterator[Mark]:
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
    yield Words("title/caution", Layer.TITLE, middle, area.top + 8.6, text, LEAST_MM, anchor=Anchor.MIDDLE, full=facts.caution)


def least_width(facts: Facts) -> float:
    """Give the width at which the caution stands in one line [mm]."""
    return width_of(facts.caution) + 2 * _PAD
