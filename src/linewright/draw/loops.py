"""Offsets and loops that a run has to take up its movement."""

from __future__ import annotations

from linewright.draw.primitives import AnyPrimitive, Line
from linewright.draw.spots import Spot
from linewright.model.design import Run

HALF, HEIGHT = 5.0, 8.0


def loop(spot: Spot, run: Run, name: str) -> list[AnyPrimitive]:
    """An arch on a run that takes up its movement by a loop; for where movement is judged."""
    if spot.pipe.result is None:
        return []
    count = sum(item.count for item in run.items if item.kind == "loop")
    if not count:
        return []
    x, foot, top = (spot.x0 + spot.x1) / 2, spot.y1 + spot.stroke / 2, spot.y1 + spot.stroke / 2 + HEIGHT
    left, right = x - HALF, x + HALF
    title = f"{count} offset{'s' if count > 1 else ''} or loop{'s' if count > 1 else ''} on {spot.pipe.id}"
    ends = ((left, foot, left, top), (left, top, right, top), (right, foot, right, top))
    return [
        Line(
            id=f"{name}/loop{i}",
            role="loop",
            css="coupling",
            group=name,
            title=title,
            x1=x1,
            y1=y1,
            x2=x2,
            y2=y2,
            stroke=1.4,
        )
        for i, (x1, y1, x2, y2) in enumerate(ends)
    ]
