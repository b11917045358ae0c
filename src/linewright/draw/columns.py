"""The columns of the table on the lanes: as wide as what stands in them, as far as there is room."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

ORDER = ("room", "unit", "reach", "cooling", "sensible", "heating", "leak", "loss", "left", "oil", "spare", "verdict")
FLOW = ("loss", "left", "oil")
FIGURES = ("reach", "cooling", "sensible", "heating", "leak", *FLOW)
#: What the columns of flow take at least [px].
FLOW_WIDTH = 178.0
#: What the column of refrigerant in rooms takes at least [px].
LEAK_WIDTH = 104.0
GAP, SPARE, LEAST_FIGURE, LEAST_VERDICT = 13.0, 62.0, 46.0, 122.0
# Names share what the figures leave, at most so much each.
LEAST_NAME, MOST_NAME = 84.0, 190.0


class Column(NamedTuple):
    """Left and right edge of a column [px]."""

    left: float
    right: float

    @property
    def width(self) -> float:
        """Give its width [px]."""
        return self.right - self.left


def make_columns(needs: Mapping[str, float], left: float, right: float) -> dict[str, Column]:
    """Place the columns between `left` and `right` [px].

    needs : how wide each column would have to be to show all of it [px]; one that is not named is left out. Figures
    always get that; what does not fit elsewhere is cut with an ellipsis.
    """
    order = [name for name in ORDER if name in needs]
    free = right - left - GAP * (len(order) - 1)
    widths = {name: max(needs[name], LEAST_FIGURE) for name in FIGURES if name in needs} | {"spare": SPARE}
    free -= sum(widths.values())
    wanted = {name: min(max(needs[name] + 1, LEAST_NAME), MOST_NAME) for name in ("room", "unit")}
    names = max(min(sum(wanted.values()), free - LEAST_VERDICT), 2 * LEAST_NAME)
    scale = names / sum(wanted.values())
    widths |= {name: width * scale for name, width in wanted.items()}
    widths["verdict"] = max(free - names, 40.0)
    found, at = {}, left
    for name in order:
        found[name] = Column(at, at + widths[name])
        at += widths[name] + GAP
    return found
