"""The ground that a drawing takes, and how far to the right something must go to be clear of it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from linewright.draw.paper.lettering import Area

#: What stands beside something else keeps so far from it [mm].
APART = 1.4
_MOST_TRIES = 400


class Ground:
    """Areas that are taken: by words and symbols, or by pipe, which may be crossed where it has to be.

    Gutters are where one sheet ends and the next begins: pipe crosses them, nothing else stands on them.
    """

    def __init__(self) -> None:
        """Start with nothing taken."""
        self.gutters: list[Area] = []
        self.solid: list[Area] = []
        self.pipe: list[Area] = []

    def take(self, solid: Iterable[Area], pipe: Iterable[Area] = ()) -> None:
        """Take areas."""
        self.solid.extend(solid)
        self.pipe.extend(pipe)

    def shift(self, areas: Sequence[Area]) -> float:
        """Give how far areas must go to the right to be clear of all that is taken [mm]; not far enough, perhaps."""
        most = 0.0
        for area in areas:
            for other in (*self.gutters, *self.solid, *self.pipe):
                if area.meets(other, APART):
                    most = max(most, other.right + APART - area.left + 0.01)
        return most

    def clear(self, areas: Sequence[Area]) -> float:
        """Give the least way to the right at which areas are clear of all that is taken [mm], as far as tried."""
        way = 0.0
        for _ in range(_MOST_TRIES):
            more = self.shift([area.moved(way) for area in areas])
            if more <= 0:
                break
            way += more
        return way

    def barred(self, area: Area) -> bool:
        """Say whether words or a symbol stand on an area."""
        return any(area.meets(other, 0.2) for other in self.solid)
