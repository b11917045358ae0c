"""The ground that marks take, marks moved elsewhere, and what of a mark lies in a part of a drawing."""

from __future__ import annotations

from linewright.draw.paper.dimension import clipped_height, painted
from linewright.draw.paper.lettering import Area, words_area
from linewright.draw.paper.marks import Box, Disc, Hatching, Height, Mark, Stroke, Symbol, Words

_SLACK = 0.6


def area_of(mark: Mark) -> Area:
    """Give the ground that a mark takes [mm]."""
    match mark:
        case Words():
            return words_area(mark)
        case Stroke():
            return Area(min(mark.x1, mark.x2), min(mark.y1, mark.y2), max(mark.x1, mark.x2), max(mark.y1, mark.y2))
        case Disc():
            r = mark.radius
            return Area(mark.x - r, mark.y - r, mark.x + r, mark.y + r)
        case Box() | Hatching():
            return Area(mark.x, mark.y, mark.x + mark.width, mark.y + mark.height)
        case Symbol():
            inner = [area_of(part).moved(mark.x, mark.y) for part in mark.marks]
            return _around(inner or [Area(mark.x, mark.y, mark.x, mark.y)])
        case Height():
            return _around([area_of(part) for part in painted(mark)])


def _around(inner: list[Area]) -> Area:
    return Area(
        min(one.left for one in inner),
        min(one.top for one in inner),
        max(one.right for one in inner),
        max(one.bottom for one in inner),
    )


def moved(mark: Mark, x: float, y: float) -> Mark:
    """Give a mark elsewhere."""
    if isinstance(mark, Stroke):
        return mark._replace(x1=mark.x1 + x, y1=mark.y1 + y, x2=mark.x2 + x, y2=mark.y2 + y)
    if isinstance(mark, Height):
        return mark._replace(x=mark.x + x, upper=mark.upper + y, lower=mark.lower + y, base=mark.base + y)
    return mark._replace(x=mark.x + x, y=mark.y + y)


def span(mark: Mark, *, upright: bool) -> tuple[float, float] | None:
    """Give from where to where a mark has to stay whole [mm], across or downward; none for what can be cut."""
    if isinstance(mark, Box | Hatching | Height) or (isinstance(mark, Stroke) and _is_straight(mark)):
        return None
    area = area_of(mark)
    return (area.left, area.right) if upright else (area.top, area.bottom)


def _is_straight(mark: Stroke) -> bool:
    return abs(mark.x1 - mark.x2) < 1e-9 or abs(mark.y1 - mark.y2) < 1e-9


def clipped(mark: Mark, cell: Area) -> Mark | None:
    """Give what of a mark lies in a cell."""
    if isinstance(mark, Height):
        return clipped_height(mark, cell)
    area = area_of(mark)
    if cell.holds(area, _SLACK if not isinstance(mark, Stroke | Box | Hatching) else 1e-6):
        return mark
    if span(mark, upright=True) is not None:
        middle = (area.left + area.right) / 2, (area.top + area.bottom) / 2
        return mark if cell.left <= middle[0] < cell.right and cell.top <= middle[1] < cell.bottom else None
    left, right = max(area.left, cell.left), min(area.right, cell.right)
    top, bottom = max(area.top, cell.top), min(area.bottom, cell.bottom)
    if left > right or top > bottom:
        return None
    if isinstance(mark, Stroke):
        flip_x, flip_y = mark.x1 > mark.x2, mark.y1 > mark.y2
        x1, x2 = (right, left) if flip_x else (left, right)
        y1, y2 = (bottom, top) if flip_y else (top, bottom)
        return None if abs(x1 - x2) + abs(y1 - y2) < 1e-9 else mark._replace(x1=x1, y1=y1, x2=x2, y2=y2)
    if isinstance(mark, Box | Hatching):
        return mark._replace(x=left, y=top, width=right - left, height=bottom - top)
    return None
