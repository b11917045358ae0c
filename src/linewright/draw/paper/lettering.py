"""Text on paper: sizes go by the height of capitals [mm], as drawing offices state them."""

from __future__ import annotations

from typing import NamedTuple

from linewright.draw import typeface
from linewright.draw.paper.marks import Words
from linewright.draw.primitives import Anchor, Weight

#: No text on paper has lower capitals than this [mm].
LEAST_MM = 2.0
SMALL, BODY, HEAD, TITLE = 2.0, 2.5, 3.5, 5.0
#: Height of capitals of the committed face against its size: 1490 of 2048 units, as the face itself says.
CAPITALS = 1490 / 2048
ASCENT, DESCENT = 1.02, 0.30
LINE = 1.65


def em(height: float) -> float:
    """Give the size of type [mm] for a height of capitals [mm]."""
    return height / CAPITALS


def width_of(text: str, height: float = SMALL, weight: Weight = Weight.REGULAR) -> float:
    """Give the width of a line of text [mm]."""
    return typeface.text_width(text, em(height), weight)


def fitted(text: str, width: float, height: float = SMALL, weight: Weight = Weight.REGULAR) -> str:
    """Give as much of a text as a width [mm] holds, with an ellipsis where something is left out."""
    return typeface.fit(text, width, em(height), weight=weight)


def lines_of(
    text: str, width: float, height: float = SMALL, *, weight: Weight = Weight.REGULAR, most: int = 0
) -> list[str]:
    """Break a text into lines of a width [mm], `most` of them at the most; then the last ends in an ellipsis."""
    found = typeface.wrap(text, width, em(height), weight=weight)
    if not most or len(found) <= most:
        return found
    rest = " ".join([found[most - 1], typeface.ELLIPSIS]) if most > 0 else ""
    last = fitted(found[most - 1] + typeface.ELLIPSIS, width, height, weight) if rest else ""
    return [*found[: most - 1], last]


class Area(NamedTuple):
    """A rectangle on paper [mm]."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """Give its width [mm]."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Give its height [mm]."""
        return self.bottom - self.top

    def meets(self, other: Area, apart: float = 0.0) -> bool:
        """Say whether two share ground, or come closer than `apart` [mm]."""
        return (
            self.left < other.right + apart
            and other.left < self.right + apart
            and self.top < other.bottom + apart
            and other.top < self.bottom + apart
        )

    def holds(self, other: Area, slack: float = 1e-6) -> bool:
        """Say whether another lies within."""
        return (
            self.left <= other.left + slack
            and self.top <= other.top + slack
            and self.right >= other.right - slack
            and self.bottom >= other.bottom - slack
        )

    def moved(self, x: float = 0.0, y: float = 0.0) -> Area:
        """Give it elsewhere."""
        return Area(self.left + x, self.top + y, self.right + x, self.bottom + y)


def words_area(item: Words) -> Area:
    """Give the ground that a text stands on, from the top of capitals to the foot of letters [mm]."""
    width = width_of(item.text, item.height, item.weight)
    left = item.x - {Anchor.START: 0.0, Anchor.MIDDLE: width / 2, Anchor.END: width}[item.anchor]
    return Area(left, item.y - ASCENT * item.height, left + width, item.y + DESCENT * item.height)
