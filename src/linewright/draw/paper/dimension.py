"""A dimension of a height: what is painted of it, and what of it lies in a part of a divided drawing."""

from __future__ import annotations

from linewright.draw.paper.lettering import LEAST_MM, Area
from linewright.draw.paper.marks import FINE, MEDIUM, Height, Pen, Stroke, Words
from linewright.draw.primitives import Anchor

#: Half of what a tick takes across, and from the line to its text [mm].
TICK, BESIDE = 1.2, 1.6
#: A piece that is shorter has no text [mm].
LEAST_PIECE = 4.0


def painted(mark: Height) -> tuple[Stroke | Words, ...]:
    """Give the line of a dimension, a tick at each end at which it ends, and its text."""
    x, name, layer = mark.x, mark.id, mark.layer
    found: list[Stroke | Words] = [Stroke(f"{name}/line", layer, x, mark.upper, x, mark.lower, Pen(FINE))]
    for end, y, cut in (("upper", mark.upper, mark.cut[0]), ("lower", mark.lower, mark.cut[1])):
        if not cut:
            found.append(Stroke(f"{name}/{end}", layer, x - TICK, y + TICK, x + TICK, y - TICK, Pen(MEDIUM)))
    if mark.text:
        found.append(Words(f"{name}/text", layer, x - BESIDE, mark.base, mark.text, LEAST_MM, anchor=Anchor.END))
    return tuple(found)


def clipped_height(mark: Height, cell: Area) -> Height | None:
    """Give the piece of a dimension in a cell, none where it only meets it; text stands in the middle of a piece."""
    upper, lower = max(mark.upper, cell.top), min(mark.lower, cell.bottom)
    if lower - upper < 1e-6:
        return None
    cut = (mark.cut[0] or upper > mark.upper + 1e-6, mark.cut[1] or lower < mark.lower - 1e-6)
    if cut == mark.cut:
        return mark
    text = mark.text if lower - upper >= LEAST_PIECE else ""
    return mark._replace(upper=upper, lower=lower, text=text, base=(upper + lower) / 2 + LEAST_MM / 2, cut=cut)
