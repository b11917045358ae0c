"""What tests ask of a drawing on paper: where its words stand, what meets, what leaves the border."""

from __future__ import annotations

from itertools import combinations

from linewright.draw.paper.dimension import painted
from linewright.draw.paper.extent import area_of
from linewright.draw.paper.lettering import DESCENT, Area, width_of
from linewright.draw.paper.marks import Box, Disc, Drawing, Height, Mark, Stroke, Symbol, Words
from linewright.draw.paper.papers import PAPERS, laid
from linewright.draw.primitives import Anchor

LEAST_MM = 2.0
_TOUCH = 0.05


def words(drawing: Drawing) -> list[Words]:
    parts = [part for mark in drawing.marks if isinstance(mark, Height) for part in painted(mark)]
    return [mark for mark in (*drawing.marks, *parts) if isinstance(mark, Words)]


def symbols(drawing: Drawing, *names: str) -> list[Symbol]:
    return [
        mark for mark in drawing.marks if isinstance(mark, Symbol) and mark.facts and (not names or mark.name in names)
    ]


def ink(item: Words) -> Area:
    """The ground from the top of capitals to the foot of letters, a little less than what is kept free."""
    width = width_of(item.text, item.height, item.weight)
    left = item.x - {Anchor.START: 0.0, Anchor.MIDDLE: width / 2, Anchor.END: width}[item.anchor]
    return Area(left, item.y - item.height, left + width, item.y + DESCENT * item.height)


def overlapping(drawing: Drawing) -> list[tuple[str, str]]:
    """Texts that share ground with one another, or with a symbol."""
    texts = [(item.id + ": " + item.text, ink(item)) for item in words(drawing) if item.text.strip()]
    found = [(a, b) for (a, one), (b, other) in combinations(texts, 2) if one.meets(other, -_TOUCH)]
    things = [(mark.id, area_of(mark)) for mark in symbols(drawing)]
    return found + [(a, b) for a, one in texts for b, other in things if one.meets(other, -_TOUCH)]


def struck(drawing: Drawing) -> list[tuple[str, str]]:
    """Words that a pipe or a level runs through."""
    lines = [
        (mark.id, area_of(mark))
        for mark in drawing.marks
        if (isinstance(mark, Stroke) and mark.layer.value.startswith(("LW-TUBE", "LW-LEVEL", "LW-MATCH")))
        or ((isinstance(mark, Stroke | Box) and mark.id.startswith("shaft")) or mark.id.endswith("/bar"))
    ]
    texts = [(item.text, ink(item)) for item in words(drawing) if item.text.strip()]
    return [(text, name) for text, ground in texts for name, line in lines if ground.meets(line, -_TOUCH)]


def outside(drawing: Drawing) -> list[str]:
    """Marks that leave the border, but for the border itself and its centring marks."""
    paper = PAPERS[drawing.paper]
    border = laid(paper, landscape=drawing.width > drawing.height).inner
    inner = [mark for mark in drawing.marks if not getattr(mark, "id", "").startswith("border")]
    return [mark.id for mark in inner if not border.holds(_ground(mark), 0.01)]


def _ground(mark: Mark) -> Area:
    return ink(mark) if isinstance(mark, Words) else area_of(mark)


def least_text(drawing: Drawing) -> float:
    return min(item.height for item in words(drawing))


def ids(drawing: Drawing) -> list[str]:
    kinds = (Stroke, Box, Disc, Words, Symbol, Height)
    return [mark.id for mark in drawing.marks if isinstance(mark, kinds)]
