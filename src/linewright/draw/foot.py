"""Below the lanes: capacity, charge, actions, conditions, all that is over or unjudged, notes, legend, cautions."""

from __future__ import annotations

from typing import NamedTuple

from linewright.draw.foot_words import paragraphs
from linewright.draw.frame import EDGE
from linewright.draw.plan import Pipe, SheetLayout
from linewright.draw.primitives import AnyPrimitive, Text, Weight
from linewright.draw.style import BODY
from linewright.draw.typeface import text_width, wrap
from linewright.units import UnitSystem

LINE_PX, GAP_PX = 17.0, 6.0


class Paragraph(NamedTuple):
    """A headed text: its id, its head, its words, its class."""

    id: str
    head: str
    words: str
    css: str = "text"


def foot(
    sheet: SheetLayout, width: float, top: float, *, system: UnitSystem, unlabelled: list[Pipe]
) -> tuple[list[AnyPrimitive], float]:
    """Paint the headed texts below the lanes; gives the y below them too."""
    texts = [Paragraph(*item) for item in paragraphs(sheet, system, unlabelled=unlabelled)]
    left = EDGE + max(text_width(item.head, BODY, Weight.SEMIBOLD) for item in texts) + 18
    found: list[AnyPrimitive] = []
    y = top
    for item in texts:
        group = f"foot:{item.id}"
        found.append(_line(f"{group}/head", item.head, EDGE, y, group=group, css=item.css, weight=Weight.SEMIBOLD))
        for i, line in enumerate(wrap(item.words, width - EDGE - left, BODY)):
            found.append(_line(f"{group}/{i}", line, left, y, group=group, css=item.css))
            y += LINE_PX
        y += GAP_PX
    return found, y


def _line(name: str, words: str, x: float, y: float, *, group: str, css: str, weight: Weight = Weight.REGULAR) -> Text:
    return Text(id=name, role="foot", css=css, group=group, x=x, y=y, text=words, size=BODY, weight=weight)
